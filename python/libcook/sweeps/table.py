"""Which cooks a sweep runs: a full grid of values, or a table with a row for each cook."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from libcook._core import Plan
from libcook.arguments.plain import mapping
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.sweeps.columns import Column, Slot, choices, numbers, range_of, slot_of
from libcook.sweeps.paths import refuse_overlaps, resolve
from libcook.sweeps.sample import Sample
from libcook.sweeps.size import Size, length_of, list_values


@dataclass(frozen=True)
class Slice:
    """The part of one column that a chunk needs: small, so that it crosses to another process quickly."""

    slot: Slot
    values: tuple[Any, ...]
    codes: tuple[int, ...] | None  # which value each cook takes; None: a value for each cook


@dataclass(frozen=True)
class Table:
    """All cooks of a sweep.

    Attributes
    ----------
    columns : tuple of Column
        The parameters.
    shape : tuple of int
        Lengths of the axes of a grid, the last one running fastest; (cooks,) for rows.
    is_grid : bool
        Whether it is a grid.
    """

    columns: tuple[Column, ...]
    shape: tuple[int, ...]
    is_grid: bool

    @property
    def cooks(self) -> int:
        """How many cooks."""
        return math.prod(self.shape)

    def slices(self, first: int, stop: int) -> tuple[Slice, ...]:
        """Cut out the cooks from `first` up to, but without, `stop`."""
        axes = np.unravel_index(np.arange(first, stop), self.shape) if self.is_grid else ()
        return tuple(self._slice(i, first, stop, axes) for i in range(len(self.columns)))

    def _slice(self, i: int, first: int, stop: int, axes: Any) -> Slice:
        column = self.columns[i]
        if column.numbers is not None:
            return Slice(column.slot, tuple(column.numbers[first:stop].tolist()), None)
        assert column.values is not None
        codes = axes[i] if column.codes is None else column.codes[first:stop]
        used, places = np.unique(codes, return_inverse=True)
        return Slice(column.slot, tuple(column.values[k] for k in used), tuple(places.tolist()))

    def shown(self, i: int, first: int, stop: int) -> list[float | str]:
        """Write the values of one column for some cooks: numbers, or labels."""
        column = self.columns[i]
        if column.numbers is not None:
            return list(map(float, column.numbers[first:stop]))
        assert column.labels is not None
        if column.codes is None:
            codes = np.unravel_index(np.arange(first, stop), self.shape)[i]
        else:
            codes = column.codes[first:stop]
        return [column.labels[k] for k in codes]


def read_table(plan: Plan, given: Any, size: Size) -> Table:
    """Read what the user varies: a mapping makes a grid, a `Sample` or a pandas DataFrame rows.

    Raises
    ------
    InvalidInput
        For a path that does not exist (with the nearest), and a value that cannot be stored there.
    """
    if isinstance(given, Sample):
        size.check((len(given.unit),))
        found = _slots(plan, list(given.ranges))
        columns = [_sampled(plan, path, found[path], given, j) for j, path in enumerate(given.ranges)]
        return Table(tuple(columns), (len(given.unit),), False)
    if hasattr(given, "columns") and hasattr(given, "iloc"):
        return _rows(plan, given, size)
    accepted = 'a mapping such as {"pit.air": ["225 °F", "250 °F"]}, a sample or a DataFrame is accepted'
    mapping(given, "parameters", accepted)
    found = _slots(plan, list(given))
    size.check([length for values in given.values() if (length := length_of(values)) is not None])
    made = []
    for path, values in given.items():
        field = f"parameters[{quoted(path)}]"
        if isinstance(values, (str, bytes)) or not hasattr(values, "__iter__"):
            raise invalid(
                field, values, f"{quoted(values)} came", f"a list such as [{quoted(values)}] is accepted"
            )
        if isinstance(values, tuple) and len(values) in (2, 3) and values[2:] in ((), ("log",)):
            raise invalid(
                field,
                values,
                "a tuple came, which is a range",
                "a list is accepted",
                "libcook.sample({...}, n=...)",
            )
        listed = values if isinstance(values, Mapping) else list_values(values, field)
        if not listed:
            raise invalid(field, values, "no values came", "one and more are accepted")
        made.append(choices(plan, path, found[path], listed, field))
    shape = tuple(len(column.values or ()) for column in made)
    size.check(shape)
    return Table(tuple(made), shape, True)


def _distinct(values: list[Any]) -> tuple[list[Any], list[int]]:
    """Return the different values, and for each value which of them it is."""
    distinct: list[Any] = []
    place: dict[Any, int] = {}
    others: list[int] = []  # places of values that cannot be looked up: few, and compared one by one
    codes = []
    for value in values:
        try:
            known = place.get(value)
        except TypeError:
            known = next((k for k in others if distinct[k] is value or distinct[k] == value), None)
            others += [len(distinct)] * (known is None)
        else:
            if known is None:
                place[value] = len(distinct)
        if known is None:
            known = len(distinct)
            distinct.append(value)
        codes.append(known)
    return distinct, codes


def _slots(plan: Plan, paths: list[str]) -> dict[str, Slot]:
    targets = {path: resolve(plan, path) for path in paths}
    refuse_overlaps(targets)
    return {path: slot_of(plan, path, targets[path]) for path in paths}


def _sampled(plan: Plan, path: str, slot: Slot, sample: Sample, j: int) -> Column:
    field = f"parameters[{quoted(path)}]"
    given, unit = sample.ranges[path], sample.unit[:, j]
    if isinstance(given, (list, Mapping)):
        codes = np.minimum((unit * len(given)).astype(np.intp), len(given) - 1)
        return choices(plan, path, slot, given, field, codes)
    if not isinstance(given, tuple):  # a distribution of scipy.stats
        return numbers(plan, path, slot, np.asarray(given.ppf(unit), dtype=np.float64), field)
    low, high = range_of(plan, slot, given, field)
    if len(given) == 3:
        if low <= 0.0:
            raise invalid(field, given, f"{quoted(given)} reaches down to 0", "above 0 is accepted for 'log'")
        return numbers(plan, path, slot, low * (high / low) ** unit, field)
    return numbers(plan, path, slot, low + (high - low) * unit, field)


def _rows(plan: Plan, frame: Any, size: Size) -> Table:
    paths = list(frame.columns)
    if not paths or not len(frame):
        raise invalid("parameters", frame, "an empty table came", "a column for each parameter is accepted")
    size.check((len(frame),))
    found = _slots(plan, paths)
    made = []
    for path in paths:
        field = f"parameters[{quoted(path)}]"
        values = frame[path].tolist()
        if all(isinstance(value, (int, float)) and not isinstance(value, bool) for value in values):
            array = np.asarray(values, dtype=np.float64)
            if not np.isfinite(array).all():
                i = int(np.flatnonzero(~np.isfinite(array))[0])
                raise invalid(f"{field}[{i}]", values[i], f"{values[i]} is not a finite number")
            made.append(numbers(plan, path, found[path], array, field))
            continue
        distinct, codes = _distinct(values)
        column = choices(plan, path, found[path], distinct, field, np.asarray(codes, dtype=np.intp))
        if column.labels is not None and all(isinstance(label, float) for label in column.labels):
            array = np.asarray([column.labels[k] for k in codes], dtype=np.float64)
            column = numbers(plan, path, found[path], array, field)
        made.append(column)
    return Table(tuple(made), (len(frame),), False)
