"""What people write, turned into what the C++ core stores.

The extension module calls these from every constructor and attribute, so units, clock times, schedules and
logs are understood wherever a field is.
"""

from __future__ import annotations

import numbers
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import numpy as np

from libcook import _core
from libcook.arguments.plain import (
    array,
    choice,
    count,
    flag,
    is_real,
    items,
    list_names,
    number,
    real,
    refuse_type,
    row,
    text,
    whole,
)
from libcook.arguments.quote import came_as, quoted
from libcook.errors import InvalidInput, invalid
from libcook.units import parse_clock, to_si

# which the core asks for as well
__all__ = ["array", "choice", "count", "flag", "number", "refuse_type", "text", "whole"]


def quantity(value: Any, kind: str, field: str) -> float:
    """Read a number or text with a unit; the kind ``"clock"`` is a time of day [s after midnight]."""
    if kind == "clock":
        if not is_real(value):
            return parse_clock(value, field)
        if 0.0 < real(value, field) <= 24.0:  # an hour, most likely
            came = f"a plain number is in s after midnight, and {quoted(value)} came"
            accepted = "a time of day such as '18:00' or '6 pm' is accepted"
            raise invalid(field, value, came, accepted, f"'{int(float(value)):02d}:00'")
        return to_si(value, "duration", field)
    return to_si(value, kind, field)


def numbers_of(value: Any, field: str) -> list[float]:
    """Read a list of numbers, or one number."""
    found: list[float] = row(value, field).tolist()
    return found


def durations(value: Any, field: str) -> list[float]:
    """Read a list of times, each with a unit or in s, or one."""
    return _several(value, "duration", field)


def _several(value: Any, kind: str, field: str) -> list[float]:
    """Read a list of quantities, or one: text and pint quantities among plain numbers."""
    if isinstance(value, str) or hasattr(value, "magnitude"):
        return [to_si(value, kind, field)]
    if isinstance(value, (list, tuple)) and any(isinstance(v, str) or hasattr(v, "units") for v in value):
        return [to_si(item, kind, f"{field}[{i}]") for i, item in enumerate(value)]
    return numbers_of(value, field)


def cooker_kind(value: Any, known: Sequence[str], field: str) -> str:
    """Read a kind of cooker; words of the trade for one, such as "electric smoker", name it in the error."""
    words = value if isinstance(value, str) and value not in known else ""
    called = _core.cooker_called(words.encode("ascii", "ignore").decode())
    if called:
        came = f"{quoted(value)} is not known"
        raise invalid(field, value, came, f"accepted: {', '.join(known)}", f"'{called}'")
    return choice(value, known, field)


def fields(
    what: str, names: Sequence[str], positional: Sequence[Any], named: Mapping[str, Any]
) -> dict[str, Any]:
    """Match the arguments of a constructor with the fields of its class."""
    if len(positional) > len(names):
        raise TypeError(f"{what} takes {len(names)} values, but {len(positional)} came")
    given = dict(zip(names, positional, strict=False))
    for name, value in named.items():
        if name not in names:
            raise TypeError(f"{what} has no field {quoted(name)}; it has: {list_names(name, names)}")
        if name in given:
            raise TypeError(f"{what}: {quoted(name)} came twice")
        given[name] = value
    return given


def state(pickled: tuple[int, dict[str, Any]], version: int) -> dict[str, Any]:
    """Open what a pickle holds: (version, fields)."""
    came, content = pickled
    if came != version:
        raise InvalidInput(
            f"pickle: version {came} came; this libcook reads version {version}", "pickle", came
        )
    return content


def signal(value: Any, kind: str, field: str) -> _core.Signal:
    """Read anything that can be a course in time.

    Parameters
    ----------
    value : float, str, Signal, Log or pair of array_like
        A constant; a `Signal`, such as `schedule` and `ripple` make; a log, whose pit temperatures are taken;
        or times and values, one for each, as logged: plain numbers, or text with units.
    kind : str
        A key of `libcook.units.KINDS`.
    field : str
        Name used in messages.
    """
    if isinstance(value, _core.Signal):
        return value
    if hasattr(type(value), "series"):
        if kind != "temperature":
            raise invalid(
                field, value, "a log came, and logs hold temperatures", "times and values are accepted"
            )
        value = value.series("pit")
    if isinstance(value, tuple) and len(value) == 2 and all(_is_several(part) for part in value):
        time, values = durations(value[0], f"{field}: times"), _several(value[1], kind, f"{field}: values")
        if len(time) != len(values):
            came = f"{len(time)} times and {len(values)} values came"
            raise invalid(field, value, came, "one value for each time is accepted")
        return _core.Signal(time, values, measured=True)
    if isinstance(value, (list, tuple, np.ndarray)):
        raise invalid(
            field,
            value,
            f"a {type(value).__name__} came",
            "one value, a schedule, a log, or a pair (times, values) is accepted",
            'libcook.schedule([("0 h", ...), ...])',
        )
    if isinstance(value, str) and value.lower().endswith((".csv", ".tsv", ".txt", ".parquet")):
        came, meant = f"{quoted(value)} is the name of a file", f"libcook.read_log({quoted(value)})"
        raise invalid(field, value, came, "a log is accepted", meant)
    return _core.Signal([0.0], [to_si(value, kind, field)])


def _is_several(value: Any) -> bool:
    return hasattr(value, "__len__") and not isinstance(value, (str, bytes, bytearray, Mapping))


def ends(value: Any, field: str) -> list[_core.End]:
    """Read one end condition or several."""
    listed = [value] if isinstance(value, _core.End) else value
    if isinstance(listed, (list, tuple)) and all(isinstance(end, _core.End) for end in listed):
        return list(listed)
    raise invalid(
        field,
        value,
        f"{quoted(value)} came",
        "an end such as libcook.core('160 °F'), or a list of them, is accepted",
        _end_for(value),
    )


def _end_for(value: Any) -> str:
    """Name the end that a bare text probably stands for."""
    if not isinstance(value, str):
        return ""
    for kind, end in (("temperature", "core"), ("duration", "elapsed")):
        try:
            to_si(value, kind, "until")
        except InvalidInput:
            continue
        return f"libcook.{end}({quoted(value)})"
    return ""


_read_ends = ends  # an argument below has this name


class FirstOf(tuple[_core.End, ...]):
    """Several ends, of which the first one reached counts; made by ``|``."""

    __slots__ = ()
    __module__ = "libcook.ends"  # where it is looked for

    def __new__(cls, ends: Iterable[_core.End] = ()) -> FirstOf:
        """Make one of ends in any order."""
        return super().__new__(cls, _read_ends(ends, "ends"))

    def __or__(self, other: _core.End | tuple[_core.End, ...]) -> FirstOf:
        """Add one end or several."""
        if isinstance(other, _core.End):
            return FirstOf((*self, other))
        if isinstance(other, tuple):
            return FirstOf((*self, *other))
        return NotImplemented

    def __repr__(self) -> str:
        """Write the ends joined by ``|``."""
        return " | ".join(repr(end) for end in self)


def first_of(first: Any, second: Any) -> Any:
    """Join ends: the first one reached counts."""
    parts: list[_core.End] = []
    for side in (first, second):
        if isinstance(side, _core.End):
            parts.append(side)
        elif isinstance(side, tuple) and all(isinstance(end, _core.End) for end in side):
            parts.extend(side)
        else:
            return NotImplemented
    return FirstOf(parts)


def stages(value: Any, field: str) -> list[_core.Stage]:
    """Read the list of stages."""
    listed = [value] if isinstance(value, _core.Stage) else value
    if not isinstance(listed, (list, tuple)):
        raise invalid(field, value, came_as(value), "a list of libcook.Stage is accepted")
    for i, stage in enumerate(listed):
        if not isinstance(stage, _core.Stage):
            refuse_type(stage, "Stage", f"stages[{i}]")
    return list(listed)


def lid(value: Any, field: str) -> list[_core.LidOpening]:
    """Read lid openings: pairs of time after the start of the stage and duration."""
    openings: list[_core.LidOpening] = []
    for i, item in enumerate(items(value, field, "a list such as [('3 h', '1 min')] is accepted")):
        if isinstance(item, _core.LidOpening):
            openings.append(item)
            continue
        if isinstance(item, str) or not isinstance(item, (tuple, list)) or len(item) != 2:
            raise invalid(
                f"{field}[{i}]", item, f"{quoted(item)} came", "a pair such as ('3 h', '1 min') is accepted"
            )
        at = to_si(item[0], "duration", f"{field}[{i}].at")
        openings.append(_core.LidOpening(at, to_si(item[1], "duration", f"{field}[{i}].duration")))
    return openings


def wrap(value: Any, field: str) -> Any:
    """Read a wrap: its name, None for bare, or itself."""
    if value is None:
        return _core.wrap("none")
    if isinstance(value, str):
        return _core.wrap(choice(value, _core.wrap_names(), field))
    if not isinstance(value, _core.Wrap):
        refuse_type(value, "Wrap", field)
    return value


def lengths(value: Any, field: str) -> list[float]:
    """Read a list of lengths, each with a unit or in m."""
    listed = items(value, field, "a list such as ['0 cm', '20 cm'] is accepted")
    return [to_si(item, "length", f"{field}[{i}]") for i, item in enumerate(listed)]


def probe(value: Any, field: str) -> Any:
    """Read a probe: the name of a place, or itself."""
    if isinstance(value, str):
        return _core.Probe(choice(value, ("flat", "point"), field))
    return value


def probes(value: Any, field: str) -> list[_core.Probe]:
    """Read several probes, or one."""
    listed = [value] if isinstance(value, (_core.Probe, str)) else value
    if not isinstance(listed, (list, tuple)):
        raise invalid(field, value, came_as(value), "a list of libcook.Probe is accepted")
    for i, item in enumerate(listed):
        if not isinstance(item, _core.Probe):
            refuse_type(item, "Probe", f"{field}[{i}]")
    return list(listed)


def film(value: Any, field: str) -> Any:
    """Read a film: its coefficient [W/(m²·K)], or itself."""
    if isinstance(value, (str, numbers.Real)) or hasattr(value, "magnitude"):
        return _core.Film("given", to_si(value, "film_coefficient", field))
    if not isinstance(value, _core.Film):
        refuse_type(value, "Film", field)
    return value


def fat_cap(value: Any, field: str) -> Any:
    """Read a fat cap: its side, or itself."""
    return _core.FatCap(choice(value, _core.FAT_SIDES, field)) if isinstance(value, str) else value
