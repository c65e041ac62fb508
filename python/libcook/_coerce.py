"""What people write, turned into what the C++ core stores.

The extension module calls these from every constructor and attribute, so units, clock times, schedules and
logs are understood wherever a field is.
"""

from __future__ import annotations

import difflib
import math
import numbers
import operator
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NoReturn

import numpy as np

from libcook import _core
from libcook._fit_forms import alternative_form, estimate_form, free_form
from libcook._forms import (
    end_form,
    parameter_form,
    plan_form,
    section_form,
    short_form_of,
    signal_form,
)
from libcook._reading_forms import (
    bark_form,
    carryover_form,
    hold_form,
    loss_form,
    safety_form,
    stall_form,
)
from libcook.errors import InvalidInput, invalid
from libcook.units import parse_clock, to_si

__all__ = [
    "alternative_form",
    "bark_form",
    "carryover_form",
    "choice",
    "count",
    "end_form",
    "ends",
    "estimate_form",
    "fat_cap",
    "fields",
    "film",
    "first_of",
    "flag",
    "free_form",
    "lid",
    "hold_form",
    "loss_form",
    "number",
    "numbers_of",
    "parameter_form",
    "plan_form",
    "quantity",
    "refuse_type",
    "safety_form",
    "section_form",
    "short_form_of",
    "signal",
    "signal_form",
    "stages",
    "stall_form",
    "state",
    "text",
    "wrap",
]


def quantity(value: Any, kind: str, field: str) -> float:
    """Read a number or text with a unit; the kind ``"clock"`` is a time of day [s after midnight]."""
    if kind == "clock":
        if not isinstance(value, numbers.Real):
            return parse_clock(value, field)
        if 0.0 < float(value) <= 24.0:  # an hour, most likely
            came = f"a plain number is in s after midnight, and {value} came"
            accepted = "a time of day such as '18:00' or '6 pm' is accepted"
            raise invalid(field, value, came, accepted, f"'{int(float(value)):02d}:00'")
        return to_si(value, "duration", field)
    return to_si(value, kind, field)


def number(value: Any, field: str) -> float:
    """Read a plain finite number."""
    if isinstance(value, (bool, np.bool_)) or not isinstance(value, numbers.Real):
        raise invalid(field, value, f"{value!r} is not a number", "a plain number in SI units is accepted")
    result = float(value)
    if not math.isfinite(result):
        raise invalid(field, value, f"{value} is not a finite number")
    return result


def count(value: Any, field: str) -> int:
    """Read a whole number."""
    if not isinstance(value, (bool, np.bool_)):
        try:
            whole = operator.index(value)
        except TypeError:
            whole = -1
        if 0 <= whole < 2**31:
            return whole
    raise invalid(field, value, f"{value!r} is not a count", "a whole number, 0 and above, is accepted")


def flag(value: Any, field: str) -> bool:
    """Read a truth value."""
    if isinstance(value, (bool, np.bool_)):
        return bool(value)
    raise invalid(field, value, f"{value!r} is not a truth value", "True or False is accepted")


def text(value: Any, field: str) -> str:
    """Read text."""
    if isinstance(value, str):
        return value
    raise invalid(field, value, f"{value!r} is not text", "text is accepted")


def choice(value: Any, words: Sequence[str], field: str) -> str:
    """Read one of the words."""
    if isinstance(value, str) and value in words:
        return value
    raise invalid(
        field, value, f"{value!r} is not known", f"accepted: {', '.join(words)}", close(value, words)
    )


def close(value: Any, words: Iterable[str]) -> str:
    """Return the nearest of the words, quoted, or nothing.

    Of several words one is enough: "paper" is near "butcher paper", and "aluminium foil" near "foil".
    """
    given, listed = str(value).lower(), list(words)
    parts = {part: word for word in reversed(listed) for part in (*word.split(), word)}
    for text in (given, *reversed(given.split())):
        found = difflib.get_close_matches(text, list(parts), n=1, cutoff=0.6 if text == given else 0.8)
        if found:
            return f"'{parts[found[0]]}'"
    return ""


def list_names(name: str, names: Sequence[str]) -> str:
    """List the names there are, with the one that was probably meant."""
    meant = close(name, names)
    return ", ".join(names) + (f"; did you mean {meant}?" if meant else "")


def refuse_type(value: Any, wanted: str, field: str) -> NoReturn:
    """Say that something else was wanted."""
    shown = "nothing (None) came" if value is None else f"{value!r} of type {type(value).__name__} came"
    raise invalid(field, value, shown, f"libcook.{wanted} is accepted")


def numbers_of(value: Any, field: str) -> list[float]:
    """Read a list of finite numbers, or one number."""
    try:
        array = np.atleast_1d(np.asarray(value, dtype=np.float64))
    except (TypeError, ValueError):
        raise invalid(field, value, "not a list of numbers came", "one number each is accepted") from None
    if array.ndim != 1:
        raise invalid(field, value, f"{array.ndim} dimensions came", "one dimension is accepted")
    listed: list[float] = array.tolist()
    return listed


def fields(
    what: str, names: Sequence[str], positional: Sequence[Any], named: Mapping[str, Any]
) -> dict[str, Any]:
    """Match the arguments of a constructor with the fields of its class."""
    if len(positional) > len(names):
        raise TypeError(f"{what} takes {len(names)} values, but {len(positional)} came")
    given = dict(zip(names, positional, strict=False))
    for name, value in named.items():
        if name not in names:
            raise TypeError(f"{what} has no field '{name}'; it has: {list_names(name, names)}")
        if name in given:
            raise TypeError(f"{what}: '{name}' came twice")
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
        or times [s] and values, one for each, as logged.
    kind : str
        A key of `libcook.units.KINDS`.
    field : str
        Name used in messages.
    """
    if isinstance(value, _core.Signal):
        return value
    if hasattr(value, "series"):
        if kind != "temperature":
            raise invalid(
                field, value, "a log came, and logs hold temperatures", "times and values are accepted"
            )
        value = value.series("pit")
    if isinstance(value, tuple) and len(value) == 2 and all(np.ndim(part) == 1 for part in value):
        time = numbers_of(value[0], f"{field}: times")
        measured = _core.Signal(time, numbers_of(value[1], f"{field}: values"), measured=True)
        return measured
    if isinstance(value, (list, tuple, np.ndarray)):
        raise invalid(
            field,
            value,
            f"a {type(value).__name__} came",
            "one value, a schedule, a log, or a pair (times, values) is accepted",
            'libcook.schedule([("0 h", ...), ...])',
        )
    if isinstance(value, str) and value.lower().endswith((".csv", ".tsv", ".txt", ".parquet")):
        came, meant = f"'{value}' is the name of a file", f"libcook.read_log({value!r})"
        raise invalid(field, value, came, "a log is accepted", meant)
    return _core.Signal([0.0], [to_si(value, kind, field)])


def ends(value: Any, field: str) -> list[_core.End]:
    """Read one end condition or several."""
    listed = [value] if isinstance(value, _core.End) else value
    if isinstance(listed, (list, tuple)) and all(isinstance(end, _core.End) for end in listed):
        return list(listed)
    raise invalid(
        field,
        value,
        f"{value!r} came",
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
        return f"libcook.{end}({value!r})"
    return ""


def first_of(first: Any, second: Any) -> Any:
    """Join ends: the first one reached counts."""
    from libcook.ends import FirstOf

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
        raise invalid(field, value, f"{value!r} came", "a list of libcook.Stage is accepted")
    for i, stage in enumerate(listed):
        if not isinstance(stage, _core.Stage):
            refuse_type(stage, "Stage", f"stages[{i}]")
    return list(listed)


def lid(value: Any, field: str) -> list[_core.LidOpening]:
    """Read lid openings: pairs of time after the start of the stage and duration."""
    openings: list[_core.LidOpening] = []
    try:
        listed = list(value)
    except TypeError:
        raise invalid(
            field, value, f"{value!r} came", "a list such as [('3 h', '1 min')] is accepted"
        ) from None
    for i, item in enumerate(listed):
        if isinstance(item, _core.LidOpening):
            openings.append(item)
            continue
        if isinstance(item, str) or not isinstance(item, (tuple, list)) or len(item) != 2:
            raise invalid(
                f"{field}[{i}]", item, f"{item!r} came", "a pair such as ('3 h', '1 min') is accepted"
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
    return value


def lengths(value: Any, field: str) -> list[float]:
    """Read a list of lengths, each with a unit or in m."""
    if isinstance(value, str) or not hasattr(value, "__iter__"):
        raise invalid(field, value, f"{value!r} came", "a list such as ['0 cm', '20 cm'] is accepted")
    return [to_si(item, "length", f"{field}[{i}]") for i, item in enumerate(value)]


def probe(value: Any, field: str) -> Any:
    """Read a probe: the name of a place, or itself."""
    if isinstance(value, str):
        return _core.Probe(choice(value, ("flat", "point"), field))
    return value


def probes(value: Any, field: str) -> list[_core.Probe]:
    """Read several probes, or one."""
    listed = [value] if isinstance(value, (_core.Probe, str)) else value
    if not isinstance(listed, (list, tuple)):
        raise invalid(field, value, f"{value!r} came", "a list of libcook.Probe is accepted")
    for i, item in enumerate(listed):
        if not isinstance(item, _core.Probe):
            refuse_type(item, "Probe", f"{field}[{i}]")
    return list(listed)


def film(value: Any, field: str) -> Any:
    """Read a film: its coefficient [W/(m²·K)], or itself."""
    if isinstance(value, (str, numbers.Real)) or hasattr(value, "magnitude"):
        return _core.Film("given", to_si(value, "film_coefficient", field))
    return value


def fat_cap(value: Any, field: str) -> Any:
    """Read a fat cap: its side, or itself."""
    return _core.FatCap(choice(value, ("none", "down", "up"), field)) if isinstance(value, str) else value
