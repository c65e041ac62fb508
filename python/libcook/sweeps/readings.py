"""What a sweep keeps of each cook: numbers read off its outcome.

The library's own are rows of libcook/src/readings/reading_table.cpp; a new one is a row there.
"""

from __future__ import annotations

import math
import numbers
import types
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from libcook import _core
from libcook.arguments.plain import close, items
from libcook.arguments.quote import quoted
from libcook.errors import InvalidInput, SolverFailure, invalid
from libcook.outcome import Outcome

NAN = math.nan


@dataclass(frozen=True)
class Reading:
    """A number (or one for each stage) read off an outcome."""

    name: str
    units: str
    long_name: str
    taken: str | Callable[[Outcome], Any]  # its name in the core's table, or the user's own callable
    by_stage: bool = False


READINGS = {
    name: Reading(name, units, long_name, name, by_stage)
    for name, units, long_name, by_stage in _core.reading_table()
}


def chosen(given: Any) -> tuple[Reading, ...]:
    """Read which readings are wanted.

    Parameters
    ----------
    given : None, str, mapping, or sequence of str and mappings
        None for all of ours; names of ours; and mappings of a name to a callable that takes the outcome, or
        to (callable, units).

    Raises
    ------
    InvalidInput
        For an unknown name, with the nearest.
    """
    if given is None:
        return tuple(READINGS.values())
    accepted = "names of readings and {name: callable} are accepted"
    listed = [given] if isinstance(given, (str, Mapping)) else items(given, "readings", accepted)
    made: dict[str, Reading] = {}
    for item in listed:
        found = _own(item) if isinstance(item, Mapping) else [_ours(item)]
        for reading in found:
            if reading.name in made:
                raise invalid(
                    "readings", given, f"{quoted(reading.name)} came twice", "each once is accepted"
                )
            made[reading.name] = reading
    return tuple(made.values())


def _ours(name: Any) -> Reading:
    if isinstance(name, str) and name in READINGS:
        return READINGS[name]
    raise invalid(
        "readings",
        name,
        f"{quoted(name)} is not known",
        f"{{name: callable}} or one of these is accepted: {', '.join(READINGS)}",
        close(name, READINGS),
    )


def _own(given: Mapping[Any, Any]) -> list[Reading]:
    made = []
    for name, value in given.items():
        read, units = value if isinstance(value, tuple) and len(value) == 2 else (value, "")
        if isinstance(read, str):
            ours = _ours(read)
            made.append(Reading(str(name), ours.units, ours.long_name, ours.taken, ours.by_stage))
        elif callable(read):
            made.append(Reading(str(name), str(units), str(name), read))
        else:
            raise invalid(
                f"readings[{quoted(name)}]",
                value,
                f"{quoted(value)} came",
                "a callable that takes the outcome is accepted",
            )
    return made


def read_own(name: str, read: Callable[[Outcome], Any], outcome: Outcome) -> tuple[float, str]:
    """Take a reading of the user's own: (value, "") or (NaN, why there is none).

    It can fail, for instance where it asks for the core after the cook has ended. What is not an error of
    this package is a mistake in the callable and goes through.
    """
    try:
        value = read(outcome)
    except (InvalidInput, SolverFailure) as error:
        return NAN, f"readings[{quoted(name)}]: {error}"
    if value is None:
        return NAN, ""
    if isinstance(value, (numbers.Real, np.bool_)) or (isinstance(value, np.ndarray) and value.ndim == 0):
        return float(value), ""
    raise invalid(
        f"readings[{quoted(name)}]", value, f"it returned {type(value).__name__}", "a number is accepted"
    )


def fingerprint(reading: Reading) -> Any:
    """Describe a reading so that another one under the same name is told apart."""
    if isinstance(reading.taken, str):
        return [reading.name, reading.long_name]
    code = getattr(reading.taken, "__code__", None)
    what = (
        _code(code) if code is not None else getattr(reading.taken, "__qualname__", repr(type(reading.taken)))
    )
    return [reading.name, what]


def _code(code: types.CodeType) -> list[Any]:
    constants = [_code(one) if isinstance(one, types.CodeType) else repr(one) for one in code.co_consts]
    return [code.co_code.hex(), list(code.co_names), constants]
