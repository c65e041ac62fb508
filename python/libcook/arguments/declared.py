"""What a declared type accepts: a reader for each type that a public signature names.

The signature of a public function is its contract, and `libcook.arguments.door.door` holds callers to it:
from ``"Plan | None"`` it knows that a list is none. Types that can be written in many ways, such as
`Quantity`, have no reader here: the function reads them itself.
"""

from __future__ import annotations

import datetime as dt
import functools
import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from libcook.arguments.plain import array, flag, is_real, items, number, path, text, whole
from libcook.arguments.quote import came_as, quoted
from libcook.errors import invalid

Read = Callable[[Any, str], Any]


@dataclass(frozen=True)
class Reader:
    """One type: which values are meant to be of it, what they become, and how messages call it."""

    fits: Callable[[Any], bool]
    read: Read
    words: str


def _as_it_is(value: Any, field: str) -> Any:
    return value


def _is_several(value: Any) -> bool:
    return hasattr(value, "__iter__") and not isinstance(value, (str, bytes, bytearray, Mapping, type))


def _is_sequence(value: Any) -> bool:
    return _is_several(value) and hasattr(value, "__len__") and not isinstance(value, (set, frozenset))


def _is_outcome(value: Any) -> bool:  # tables, figures and sentences take whatever can be read like one
    return hasattr(value, "stage_ends") and hasattr(value, "carryover") and not isinstance(value, type)


def _is_axes(value: Any) -> bool:
    return hasattr(value, "set_xlim") and hasattr(value, "figure") and not isinstance(value, type)


def _of(*classes: type) -> Callable[[Any], bool]:
    return lambda value: isinstance(value, classes)


_OUTCOME = Reader(_is_outcome, _as_it_is, "an outcome, as libcook.simulate(plan) gives it,")
_PLAIN = {
    "bool": Reader(_of(bool, np.bool_), flag, "True or False"),
    "int": Reader(is_real, whole, "a whole number"),
    "float": Reader(is_real, number, "a plain number in SI units"),
    "str": Reader(_of(str), text, "text"),
    "PathName": Reader(_of(str, os.PathLike), path, "a path"),
    "os.PathLike": Reader(_of(os.PathLike), path, "a path"),
    "dt.date": Reader(_of(dt.date), _as_it_is, "a date"),
    "dt.time": Reader(_of(dt.time), _as_it_is, "a datetime.time"),
    "dt.datetime": Reader(_of(dt.datetime), _as_it_is, "a datetime.datetime"),
    "dt.tzinfo": Reader(_of(dt.tzinfo), _as_it_is, "a time zone"),
    "npt.ArrayLike": Reader(lambda value: True, array, "numbers"),
    "Axes": Reader(_is_axes, _as_it_is, "axes of matplotlib"),
    "Readable": _OUTCOME,
    "Outcome": _OUTCOME,
    "Callable": Reader(callable, _as_it_is, "something to call"),
}
_CLASSES: dict[str, type] = {}  # those of the package
_SEVERAL = {"Sequence": _is_sequence, "Iterable": _is_several}


def _split(declared: str) -> list[str]:
    """Split "A | B[C | D]" into "A" and "B[C | D]"."""
    parts, depth = [""], 0
    for character in declared.replace('"', "").replace("'", ""):
        depth += (character == "[") - (character == "]")
        if character == "|" and depth == 0:
            parts.append("")
        else:
            parts[-1] += character
    return [part.strip() for part in parts]


def know_classes(public: Mapping[str, Any]) -> None:
    """Take the package's own classes by name: it tells them once it is whole, so nothing here imports it."""
    _CLASSES.update({name: thing for name, thing in public.items() if isinstance(thing, type)})


def _class_named(name: str) -> type | None:
    return _CLASSES.get(name)


def _reader(declared: str) -> Reader | None:
    name, _, inside = declared.partition("[")
    if name in _SEVERAL:
        each = reading(inside.removesuffix("]"))
        if each is None:
            return None
        return Reader(_SEVERAL[name], functools.partial(_read_each, each), f"a list of {each.words}")
    if name in _PLAIN:
        return _PLAIN[name]
    known = _class_named(name) if not inside else None
    return None if known is None else Reader(_of(known), _as_it_is, f"libcook.{name}")


def _read_each(each: Reading, value: Any, field: str) -> list[Any]:
    listed = items(value, field, f"a list of {each.words} is accepted")
    return [each(item, f"{field}[{i}]") for i, item in enumerate(listed)]


@dataclass(frozen=True)
class Reading:
    """Reads one argument by its declared type."""

    readers: tuple[Reader, ...]
    optional: bool

    @property
    def words(self) -> str:
        """Say what is accepted."""
        return ", or ".join(dict.fromkeys(reader.words for reader in self.readers))

    def __call__(self, value: Any, field: str) -> Any:
        """Return the value as its type has it.

        Raises
        ------
        InvalidInput
            When it is of none of the types.
        """
        if value is None and self.optional:
            return None
        for reader in self.readers:
            if reader.fits(value):
                return reader.read(value, field)
        raise invalid(
            field, value, _came(value, self.words), f"{self.words} is accepted", _meant(value, self.words)
        )


def _came(value: Any, words: str) -> str:
    if words == _OUTCOME.words and hasattr(value, "stages"):
        return f"a {type(value).__name__} came, which is not cooked yet"
    return came_as(value)


def _meant(value: Any, words: str) -> str:
    if "libcook.Log" in words and isinstance(value, (str, os.PathLike)):
        return f"libcook.read_log({quoted(str(value))})"
    return ""


@functools.cache
def reading(declared: str) -> Reading | None:
    """Return what reads an argument of a declared type; None where the function reads it itself."""
    parts = _split(declared)
    readers = [_reader(part) for part in parts if part != "None"]
    known = tuple(reader for reader in readers if reader is not None)
    return Reading(known, "None" in parts) if known and len(known) == len(readers) else None
