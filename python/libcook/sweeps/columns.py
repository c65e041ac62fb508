"""One varied parameter: its values as the plan stores them, and how tables and axes call it."""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from libcook import _core
from libcook._coerce import quantity
from libcook._core import End, Film, Plan, PlanNumber, Signal, plan_number
from libcook.arguments.quote import quoted
from libcook.errors import InvalidInput, invalid
from libcook.sweeps.column_units import described
from libcook.sweeps.paths import AnyTarget, Put, Target
from libcook.units import format_temperature
from libcook.words.forms import end_words

FloatArray = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Slot:
    """Where a parameter goes, and how a plain number becomes what is stored there."""

    targets: tuple[AnyTarget, ...]
    end: End | None = None  # the one end condition of a stage, whose value the parameter is

    def bound(self, plan: Plan) -> Put:
        """Return what sets it in this plan, again and again."""
        puts = [target.bound(plan) for target in self.targets]
        end = self.end
        if end is None and len(puts) == 1:
            return puts[0]

        def put(value: Any) -> None:
            if end is not None and isinstance(value, float):
                value = end.replace(value=value)
            for one in puts:
                one(value)

        return put

    def in_core(self, plan: Plan) -> list[PlanNumber] | None:
        """Return the numbers that C++ can set for it, or None: it knows none."""
        found = [plan_number(plan, target.steps) for target in self.targets]
        return None if None in found else [one for one in found if one is not None]


@dataclass(frozen=True)
class Column:
    """A parameter and all values it takes.

    Either a few `values` that rows or an axis of a grid choose from, or `numbers`, one for each cook.
    """

    path: str
    slot: Slot
    values: tuple[Any, ...] | None
    numbers: FloatArray | None
    labels: tuple[float | str, ...] | None  # of the values
    codes: npt.NDArray[np.intp] | None  # which value each cook takes; None on an axis of a grid
    units: str
    long_name: str


def slot_of(plan: Plan, path: str, targets: Sequence[AnyTarget]) -> Slot:
    """Make the place of a parameter; plain numbers vary the value of a single end condition."""
    first = targets[0]
    if isinstance(first, Target) and first.steps[-1] == "until":
        stored = first.get(plan)
        if len(stored) == 1:
            return Slot(tuple(targets), stored[0])
    return Slot(tuple(targets))


def coerced(plan: Plan, slot: Slot, value: Any, field: str) -> Any:
    """Return a value as the plan stores it, by setting it in a copy and reading it back.

    Raises
    ------
    InvalidInput
        When it cannot be stored there.
    """
    if slot.end is not None and (isinstance(value, (str, int, float, np.number)) or hasattr(value, "units")):
        value = slot.end.replace(value=quantity(value, _core.END_KINDS[slot.end.kind][0], field))
    trial = copy.copy(plan)
    try:
        slot.bound(trial)(value)
    except InvalidInput as error:
        came = str(error).removeprefix(f"{error.field}: ")
        raise InvalidInput(f"{field}: {came}", field, value) from None
    stored = slot.targets[0].get(trial)
    return stored if isinstance(stored, (tuple, str, int, float)) else copy.copy(stored)


def number_of(stored: Any) -> float | None:
    """Return the one number that says all about a stored value, if there is one."""
    if isinstance(stored, (bool, str)):
        return None
    if isinstance(stored, (int, float)):
        return float(stored)
    if isinstance(stored, Signal) and len(stored.value) == 1 and not stored.ripple_amplitude:
        return float(stored.value[0])
    if isinstance(stored, Film) and stored.kind == "given":
        return float(stored.value)
    if isinstance(stored, tuple) and len(stored) == 1 and isinstance(stored[0], End) and not stored[0].every:
        return float(stored[0].value)
    return None


def choices(
    plan: Plan, path: str, slot: Slot, given: Any, field: str, codes: npt.NDArray[np.intp] | None = None
) -> Column:
    """Make a column of listed values, or of named ones from a mapping.

    Raises
    ------
    InvalidInput
        When a value cannot be stored there, or comes twice.
    """
    names = [str(name) for name in given] if isinstance(given, Mapping) else None
    listed = list(given.values()) if isinstance(given, Mapping) else list(given)
    keys = names if names is not None else [str(i) for i in range(len(listed))]
    stored = [
        coerced(plan, slot, value, f"{field}[{quoted(key)}]" if names else f"{field}[{key}]")
        for key, value in zip(keys, listed, strict=True)
    ]
    numbers = [number_of(value) for value in stored]
    ends = {
        value[0].kind for value in stored if isinstance(value, tuple) and value and isinstance(value[0], End)
    }
    units, long_name = described(slot.targets[0].steps, path, ends)
    labels: tuple[float | str, ...]
    if names is not None:
        labels = tuple(names)
    elif all(number is not None for number in numbers) and len(ends) <= 1:
        labels = tuple(number for number in numbers if number is not None)
    else:
        labels = tuple(_apart([_words(value) for value in stored], stored))
    if names is not None or isinstance(labels[0], str):
        units = ""
    seen: set[float | str] = set()
    for i, label in enumerate(labels):
        if label in seen:
            came = f"{quoted(label) if isinstance(label, str) else label} came twice"
            raise invalid(f"{field}[{i}]", listed[i], came, "each value once is accepted")
        seen.add(label)
    values = tuple(_settable(plan, slot, value) for value in stored)
    return Column(path, slot, values, None, labels, codes, units, long_name)


def numbers(plan: Plan, path: str, slot: Slot, given: FloatArray, field: str) -> Column:
    """Make a column of plain numbers in SI, or °C, one for each cook.

    Raises
    ------
    InvalidInput
        When the lowest or the highest of them cannot be stored there.
    """
    ends: set[str] = set()
    for i in {int(np.argmin(given)), int(np.argmax(given))}:
        stored = coerced(plan, slot, float(given[i]), f"{field}[{i}]")
        if number_of(stored) is None:
            raise invalid(field, given[i], "a number came", "a list of values to choose from is accepted")
        if isinstance(stored, tuple):
            ends.add(stored[0].kind)
    units, long_name = described(slot.targets[0].steps, path, ends)
    return Column(path, slot, None, np.asarray(given, dtype=np.float64), None, None, units, long_name)


def range_of(plan: Plan, slot: Slot, given: Any, field: str) -> tuple[float, float]:
    """Read the two ends of a range into SI, or °C.

    Raises
    ------
    InvalidInput
        When they are not two numbers in rising order.
    """
    low, high = (number_of(coerced(plan, slot, value, f"{field}[{i}]")) for i, value in enumerate(given[:2]))
    if low is None or high is None:
        raise invalid(
            field,
            given,
            f"{quoted(given)} is no range of numbers",
            "a list of values to choose from is accepted",
        )
    if not low < high:
        raise invalid(field, given, f"{quoted(given)} does not rise", "(low, high) is accepted")
    return low, high


def _settable(plan: Plan, slot: Slot, stored: Any) -> Any:
    """Return what can be set again: the one number that makes it, where there is one; ends as a list."""
    number = number_of(stored)
    if number is not None and not isinstance(stored, float):
        try:
            if slot.targets[0].get(with_number(plan, slot, number)) == stored:
                return number
        except InvalidInput:  # a count, which is no float
            pass
    return list(stored) if isinstance(stored, tuple) else stored


def with_number(plan: Plan, slot: Slot, number: float) -> Plan:
    """Return a copy of a plan with a number in a slot."""
    trial = copy.copy(plan)
    slot.bound(trial)(number)
    return trial


def _words(value: Any) -> str:
    if isinstance(value, str):
        return value
    if isinstance(value, tuple) and value and isinstance(value[0], End):
        return " | ".join(end_words(end, format_temperature) for end in value)
    name = getattr(value, "name", None)
    return name if isinstance(name, str) and name else repr(value)


def _apart(words: list[str], stored: list[Any]) -> list[str]:
    """Tell values apart that differ but are called the same: the second is "foil (2)"."""
    made: list[str] = []
    called: dict[str, list[int]] = {}
    for i, word in enumerate(words):
        before = called.setdefault(word, [])
        same = any(stored[k] == stored[i] for k in before)  # comes twice: the caller says so
        made.append(word if same or not before else f"{word} ({len(before) + 1})")
        before.append(i)
    return made
