"""Which column of a log is which, in which unit: from the call, from the header, or guessed and said so."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from libcook.arguments.quote import listed, quoted
from libcook.errors import invalid
from libcook.logs.findings import Finding
from libcook.logs.reading.dates import looks_like_date
from libcook.logs.reading.numbers import is_blank
from libcook.logs.reading.table import NOTE_WORDS, Table
from libcook.logs.reading.times import looks_like_time
from libcook.units import temperature_unit

FloatArray = npt.NDArray[np.float64]
Key = str | int | None

# Words of the trade (common practice, no source), the most telling first.
_WORDS: dict[str, tuple[tuple[str, ...], ...]] = {
    "time": (
        ("time", "timestamp", "datetime", "elapsed", "clock"),
        ("seconds", "minutes", "hours", "min", "t", "date"),
    ),
    "core": (("core",), ("meat", "internal", "centre", "center"), ("probe", "food")),
    "pit": (("pit",), ("chamber", "cooker", "smoker", "oven", "grate"), ("air",)),
    "events": (("event", "events"), tuple(sorted(NOTE_WORDS - {"event", "events"}))),
}
_NOT_TEMPERATURE = frozenset(
    (
        "fan",
        "damper",
        "battery",
        "humidity",
        "rh",
        "signal",
        "volt",
        "voltage",
        "power",
        "duty",
        "row",
        "index",
        "id",
        "number",
        "no",
        "wind",
    )
)
_SETTINGS = frozenset(("set", "setpoint", "target", "alarm", "limit"))
_UNIT = re.compile(r"[\[(]\s*([^\])]*?)\s*[\])]|[\s_,/-]((?:°|deg ?)?[CF]|s|sec|min|h|%|°K|K)$")
_TIME_UNITS = {
    **dict.fromkeys(("s", "sec", "secs", "second", "seconds"), "s"),
    **dict.fromkeys(("min", "mins", "minute", "minutes"), "min"),
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), "h"),
}


@dataclass
class Columns:
    """Where to find what."""

    time: int
    date: int | None = None
    time_unit: str | None = None
    events: int | None = None
    temperatures: dict[str, int] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)


def split_name(header: str) -> tuple[str, str]:
    """Split "Core temp (°F)" into the words "core temp" and the unit "°F"."""
    match = _UNIT.search(header)
    unit = (match[1] or match[2] or "") if match else ""
    words = header[: match.start()] + header[match.end() :] if match else header
    return " ".join(re.split(r"[\W_]+", words.lower())).strip(), unit


def is_time(header: str) -> bool:
    """Tell whether a header is one of a time."""
    words = set(split_name(header)[0].split())
    return any(words & set(rank) for rank in _WORDS["time"])


def find_column(key: Key, argument: str, names: list[str]) -> int | None:
    """Find the column that the call names, by header or by position from 0."""
    if key is None:
        return None
    listing = listed(map(quoted, names))
    if isinstance(key, int) and not isinstance(key, bool):
        if 0 <= key < len(names):
            return key
        came = f"there is no column {quoted(key)}"
        raise invalid(argument, key, came, f"positions 0 to {len(names) - 1} are accepted: {listing}")
    hits = [i for i, name in enumerate(names) if name == key]
    hits = hits or [i for i, name in enumerate(names) if split_name(name)[0] == split_name(str(key))[0]]
    if len(hits) == 1:
        return hits[0]
    came = f"{len(hits) or 'no'} column{'s are' if len(hits) > 1 else ' is'} called {quoted(key)}"
    raise invalid(argument, key, came, f"the log has: {listing}")


def _guess(role: str, names: list[str], free: list[int]) -> int | None:
    """Find the one column whose header says its role; the first rank of words with a hit decides."""
    for rank in _WORDS[role]:
        hits = [i for i in free if set(split_name(names[i])[0].split()) & set(rank)]
        hits = [i for i in hits if not set(split_name(names[i])[0].split()) & _SETTINGS]
        if len(hits) == 1:
            return hits[0]
        exact = [i for i in hits if split_name(names[i])[0] in rank]
        if len(exact) == 1:
            return exact[0]
        if len(hits) > 1 and role in ("core", "pit"):
            came = f"{len(hits)} columns could be the {role}: " + ", ".join(
                f"{quoted(names[i])}" for i in hits
            )
            raise invalid(role, None, came, f"say {role}={quoted(names[hits[0]])}")
    return None


def assign(table: Table, time: Key, core: Key, pit: Key, events: Key) -> Columns:
    """Decide what each column is; what is left and holds temperatures keeps its own name."""
    names = table.names
    listing = listed(map(quoted, names))
    given = {"time": time, "core": core, "pit": pit, "events": events}
    found = {role: find_column(key, role, names) for role, key in given.items()}
    for role, index in found.items():
        twin = next((other for other, at in found.items() if at == index and other != role), None)
        if index is not None and twin:
            raise invalid(
                role,
                given[role],
                f"{quoted(names[index])} is also given as {twin}",
                "one column for each is accepted",
            )
    numeric = {i: int(np.count_nonzero(np.isfinite(table.numbers(i)))) for i in range(len(names))}
    columns = _time_columns(table, found["time"], set(found.values()), numeric)
    taken = {columns.time, columns.date, *found.values()}
    free = [i for i in range(len(names)) if i not in taken]
    headed = not all(re.fullmatch(r"column \d+", name) for name in names)
    readings = [i for i in free if numeric[i] > 0]
    for role in ("core", "pit"):
        if found[role] is None:
            found[role] = at = _guess(role, names, readings)
            if at is not None and role not in split_name(names[at])[0].split():
                text = f"column {quoted(names[at])} taken as the {role}"
                columns.findings.append(Finding("found", text, kind="guess", column=names[at]))
            readings = [i for i in readings if i != found[role]]
    columns.events = found["events"]
    if columns.events is None:
        columns.events = _guess(
            "events", names, [i for i in free if i not in found.values() and numeric[i] == 0]
        )
    if found["core"] is None and found["pit"] is None:
        if len(readings) == 2 and not headed:
            cool, hot = sorted(readings, key=lambda i: float(np.nanmedian(table.numbers(i))))
            found["core"], found["pit"] = cool, hot
            text = f"no header; {quoted(names[hot])}, the hotter one, taken as the pit"
            text += f" and {quoted(names[cool])} as the core"
            columns.findings.append(Finding("found", text, 2, kind="guess"))
        elif not readings:
            came = f"no column of numbers beside the time {quoted(names[columns.time])}"
            meant = "another delimiter or decimal mark (delimiter=..., decimal=...)" if len(names) > 1 else ""
            raise invalid("log", None, came, f"the log has: {listing}", meant)
        else:
            came = "cannot tell which column is the core or the pit"
            raise invalid("core", None, came, f"the log has: {listing}; say core='...' and pit='...'")
    for role in ("core", "pit"):
        index = found[role]
        if index is not None:
            if numeric[index] == 0:
                raise invalid(
                    role,
                    given[role],
                    f"column {quoted(names[index])} holds no numbers",
                    f"the log has: {listing}",
                )
            columns.temperatures[role] = index
    _add_others(table, columns, [i for i in free if i not in found.values() and i != columns.events], numeric)
    return columns


def _time_columns(
    table: Table, index: int | None, taken: set[int | None], numeric: Mapping[int, int]
) -> Columns:
    names = table.names
    free = [i for i in range(len(names)) if i not in taken]
    dates = [i for i in free if looks_like_date([c for c in table.column(i) if not is_blank(c)])]
    if index is None:
        stamped = [i for i in free if looks_like_time(table.column(i)) and i not in dates]
        counted = [i for i in free if numeric[i] > 0]
        index = _guess("time", names, stamped)
        if index is None and len(stamped) > 0:
            index = stamped[0]
        if index is None:
            index = _guess("time", names, counted)
        if index is None and counted and not set(split_name(names[counted[0]])[0].split()) & {"core", "pit"}:
            values = table.numbers(counted[0])
            values = values[np.isfinite(values)]
            if values.size > 1 and bool(np.all(np.diff(values) > 0)) and counted[0] == 0:
                index = 0
    if index is None:
        index = _guess(
            "time", names, free
        )  # by name alone: reading it then says what is wrong with its cells
    if index is None:
        listing = listed(map(quoted, names))
        raise invalid(
            "time", None, "cannot tell which column is the time", f"the log has: {listing}; say time='...'"
        )
    words, unit = split_name(names[index])
    by_word = next((_TIME_UNITS[word] for word in words.split() if word in _TIME_UNITS), None)
    columns = Columns(index, time_unit=_TIME_UNITS.get(unit.lower(), by_word))
    if dates and not any(re.match(r"\d+[-/.]\d", cell) for cell in table.column(index)):
        columns.date = dates[0]
    return columns


def _add_others(table: Table, columns: Columns, rest: list[int], numeric: Mapping[int, int]) -> None:
    for i in rest:
        words, unit = split_name(table.names[i])
        reason = ""
        if numeric[i] == 0:
            reason = "empty" if all(is_blank(cell) for cell in table.column(i)) else "holds no numbers"
        elif (_as_scale(unit) is None and unit) or set(words.split()) & _NOT_TEMPERATURE:
            reason = "not a temperature"
        elif set(words.split()) & _SETTINGS:
            reason = "a setting, not a reading"
        if reason:
            columns.findings.append(_left_out(table.names[i], reason))
            continue
        name = (
            "_".join(word for word in words.split() if word not in ("temp", "temperature")) or f"column_{i}"
        )
        while name in columns.temperatures or name == "time":
            name += "_2"
        columns.temperatures[name] = i


def _left_out(name: str, reason: str) -> Finding:
    return Finding("ignored", f"column {quoted(name)}: {reason}", kind="column", column=name)


def _as_scale(unit: str) -> str | None:
    bare = unit.strip().lower().lstrip("°").removeprefix("deg").strip()
    return bare[:1].upper() if bare in ("c", "f", "celsius", "fahrenheit") else None


def scales(
    table: Table, columns: Columns, values: Mapping[str, FloatArray], units: str | Mapping[str, str] | None
) -> dict[str, str]:
    """Decide "C" or "F" for each temperature: the call, then the header, then one guess for all the rest."""
    result: dict[str, str] = {}
    for name, index in columns.temperatures.items():
        header = _as_scale(split_name(table.names[index])[1])
        told = units.get(name, units.get(table.names[index])) if isinstance(units, Mapping) else units
        if told is not None:
            result[name] = temperature_unit(told)
            if header and header != result[name]:
                text = f"column {quoted(table.names[index])} says °{header}, read as °{result[name]} as told"
                columns.findings.append(Finding("found", text, kind="unit", column=name))
        elif header:
            result[name] = header
    open_names = [name for name in columns.temperatures if name not in result]
    if not open_names:
        return result
    known = set(result.values())
    if len(known) == 1:
        guess, why = known.pop(), "like the other columns"
    else:
        guess, why = _guess_scale(values)
    listing = listed(quoted(table.names[columns.temperatures[name]]) for name in open_names)
    text = f"no unit for {listing}; taken as °{guess}: {why}"
    columns.findings.append(Finding("found", text, len(open_names), kind="unit"))
    return {**result, **dict.fromkeys(open_names, guess)}


def _guess_scale(values: Mapping[str, FloatArray]) -> tuple[str, str]:
    """Guess the scale from what meat and pits can be; refuses where both would do."""
    core = values["core"][np.isfinite(values["core"])] if "core" in values else np.empty(0)
    pit = values["pit"][np.isfinite(values["pit"])] if "pit" in values else np.empty(0)
    if core.size and np.percentile(core, 95) > 105.0:  # robust against a few spikes
        return (
            "F",
            f"the core reaches {np.percentile(core, 95):.0f}: in the other scale wet meat would boil",
        )
    if pit.size:
        middle = float(np.median(pit))
        if middle > 180.0:
            return (
                "F",
                f"the pit is at {middle:.0f} in the middle, which in the other scale is no low and slow",
            )
        if 60.0 <= middle <= 150.0:
            return (
                "C",
                f"the pit is at {middle:.0f} in the middle, which in the other scale is too cool for a pit",
            )
    elif core.size and core.min() < 30.0 and core.max() > 32.0:
        return "C", f"the core starts at {core.min():.0f}: in the other scale it would be frozen"
    raise invalid(
        "units",
        None,
        "the columns do not say °C or °F and their range fits both",
        "say units='C' or units='F'",
    )
