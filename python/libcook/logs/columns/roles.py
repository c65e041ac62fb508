"""Which column of a log is which: from the call, from the header, or guessed and said so."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import numpy.typing as npt

from libcook.arguments.quote import listed, quoted
from libcook.errors import invalid
from libcook.logs.columns.names import (
    TIME_UNITS,
    Key,
    find_column,
    is_counted,
    is_unit,
    own_name,
    plain,
    rank_of,
    scale_of,
    split_name,
    time_unit_of,
    words_of,
)
from libcook.logs.columns.vocabulary import NOT_TEMPERATURE, ORDINALS, OUTDOORS, ROLES, SETTINGS, WARMTH
from libcook.logs.findings import Finding
from libcook.logs.reading.dates import has_date, looks_like_date
from libcook.logs.reading.numbers import is_blank, is_number, scale_in
from libcook.logs.reading.table import Table
from libcook.logs.reading.times import looks_like_time
from libcook.units import temperature_unit

FloatArray = npt.NDArray[np.float64]
Units = str | Mapping[str, str] | None

_COOLEST_PIT = {"C": 45.0, "K": 318.0, "F": 113.0}  # air that is never hotter is the air outside: a judgement


@dataclass
class Columns:
    """Where to find what; `told` are the units that the call gives, by the position of the column."""

    time: int
    date: int | None = None
    time_unit: str | None = None
    events: int | None = None
    temperatures: dict[str, int] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    told: dict[int, str] = field(default_factory=dict)


def _guess(role: str, names: list[str], free: list[int]) -> int | None:
    """Find the one column whose header says its role; the first rank of words with a hit decides."""
    ranks = {i: _rank(names[i], role) for i in free}
    for rank in ROLES[role]:
        hits = [i for i, found in ranks.items() if found is not None and words_of(names[i]) & rank]
        if len(hits) == 1:
            return hits[0]
        exact = [i for i in hits if plain(split_name(names[i])[0]) in rank]
        if len(exact) == 1 and all(words_of(names[exact[0]]) <= words_of(names[i]) for i in hits):
            return exact[0]
        if len(hits) > 1 and role in ("core", "pit"):
            came = f"{len(hits)} columns could be the {role}: " + ", ".join(
                f"{quoted(names[i])}" for i in hits
            )
            which = quoted(names[hits[0]]) if names.count(names[hits[0]]) == 1 else hits[0]
            raise invalid(role, None, came, f"say {role}={which}; the others keep their own names")
    return None


def _is_other(header: str) -> bool:
    """Tell whether a header speaks of something else than a temperature; its unit decides, if it has one."""
    unit = split_name(header)[1]
    return not scale_of(unit) and (is_unit(unit) or bool(words_of(header) & NOT_TEMPERATURE))


def _rank(header: str, role: str) -> int | None:
    """Rank a header for a role; one that speaks more plainly for the other is not of it."""
    rank = rank_of(header, role)
    if rank is None or words_of(header) & SETTINGS:
        return None
    if role not in ("core", "pit"):
        return rank
    if _is_other(header):
        return None
    other = rank_of(header, "pit" if role == "core" else "core")
    if role == "pit" and words_of(header) & OUTDOORS:
        return None
    if other is not None and (other < rank or (other == rank and role == "pit")):
        return None
    return rank


def _is_numbered(name: str) -> bool:
    """Tell whether a name was made for a column without a header."""
    return re.fullmatch(r"column \d+", name) is not None


def _speaks(header: str) -> bool:
    """Tell whether a header speaks of the core or the pit."""
    return _rank(header, "core") is not None or _rank(header, "pit") is not None


def _told_units(units: Units, names: list[str], found: Mapping[str, int | None]) -> dict[int, str]:
    """Find the columns whose units the call gives, and check that they are there."""
    if not isinstance(units, Mapping):
        return {}
    own = [own_name(name, i) for i, name in enumerate(names)]
    told: dict[int, str] = {}
    for key, unit in units.items():
        role = found.get(key)
        at = role if role is not None else own.index(key) if own.count(key) == 1 else None
        index = at if at is not None else find_column(key, "units", names)
        if index is None:
            raise invalid("units", key, f"{quoted(key)} is no column", "headers and their units are accepted")
        told[index] = unit
    return told


def assign(table: Table, time: Key, core: Key, pit: Key, events: Key, units: Units = None) -> Columns:
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
    headed = not all(map(_is_numbered, names))
    readings = [i for i in free if numeric[i] > 0]
    for role in ("core", "pit"):
        if found[role] is None:
            found[role] = at = _guess(role, names, readings)
            if at is not None and role == "pit" and _is_outside(table, at):
                text = f"column {quoted(names[at])} is too cool to be the pit and keeps its own name; "
                text += f"say pit={quoted(names[at])} if it is"
                columns.findings.append(Finding("found", text, kind="guess", column=names[at]))
                found[role] = at = None
            if at is not None and role not in split_name(names[at])[0].split():
                text = f"column {quoted(names[at])} taken as the {role}"
                columns.findings.append(Finding("found", text, kind="guess", column=names[at]))
            readings = [i for i in readings if i != found[role]]
    columns.events = found["events"]
    if columns.events is None:
        wordy = [i for i in free if i not in found.values() and _is_wordy(table, i, numeric[i])]
        columns.events = _guess("events", names, wordy)
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
            say = "say core='...' and pit='...', or one of them"
            raise invalid("core", None, came, f"the log has: {listing}; {say}")
    columns.told = _told_units(units, names, {**found, "time": columns.time, "events": columns.events})
    if columns.time in columns.told:
        columns.time_unit = _time_unit(columns.told.pop(columns.time))
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
    rest = [i for i in free if i not in found.values() and i != columns.events]
    _add_others(table, columns, rest, numeric)
    if units is not None and not isinstance(units, Mapping):
        scale = temperature_unit(units)
        columns.told.update(dict.fromkeys(columns.temperatures.values(), scale))
    return columns


def _is_wordy(table: Table, index: int, numbers: int) -> bool:
    """Tell whether most cells of a column that say something are no numbers."""
    filled = len(table.rows) if numbers == 0 else sum(not is_blank(cell) for cell in table.column(index))
    return numbers == 0 or 2 * numbers < filled


def _is_outside(table: Table, index: int) -> bool:
    """Tell whether a column called air or ambient is of the air outside: it never gets hot."""
    header = table.names[index]
    if rank_of(header, "pit") != len(ROLES["pit"]) - 1:
        return False
    scale = scale_of(split_name(header)[1]) or next(filter(None, map(scale_in, table.column(index))), "C")
    values = table.numbers(index)
    return bool(np.nanmax(np.where(np.isfinite(values), values, np.nan)) < _COOLEST_PIT[scale])


def _time_unit(unit: str) -> str:
    given: Any = unit  # what came may be anything
    known = time_unit_of(given) if isinstance(given, str) else None
    if known is None:
        came = f"{quoted(unit)} is no unit of time"
        raise invalid(
            "units", unit, came, f"for the time one of {listed(map(quoted, TIME_UNITS))} is accepted"
        )
    return known


def _time_columns(
    table: Table, index: int | None, taken: set[int | None], numeric: Mapping[int, int]
) -> Columns:
    names, given = table.names, index
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
        if index is None and counted and counted[0] == 0 and not _speaks(names[0]):
            values = table.numbers(0)
            values = values[np.isfinite(values)]
            index = 0 if values.size > 1 and bool(np.all(np.diff(values) > 0)) else None
        if index is None:
            index = next((i for i in counted if _since_1970(table.numbers(i))), None)
    if index is None:
        # by name alone: reading it then says what is wrong with its cells
        index = _guess("time", names, free)
    if index is None:
        listing = listed(map(quoted, names))
        raise invalid(
            "time", None, "cannot tell which column is the time", f"the log has: {listing}; say time='...'"
        )
    words, unit = split_name(names[index])
    by_word = next((known for word in words.split() if (known := time_unit_of(word))), None)
    named = by_word or rank_of(names[index], "time") is not None or _is_numbered(names[index])
    columns = Columns(index, time_unit=time_unit_of(unit) or by_word)
    if given is None and not named:
        text = f"column {quoted(names[index])} taken as the time"
        columns.findings.append(Finding("found", text, kind="guess", column=names[index]))
    if dates and not any(has_date(cell) for cell in table.column(index)):
        columns.date = dates[0]
    return columns


def _since_1970(values: FloatArray) -> bool:
    """Tell whether numbers count from 1970, in seconds or milliseconds, and go on."""
    values = values[np.isfinite(values)]
    seconds = values / (1000.0 if values.size and values[0] > 1e11 else 1.0)
    inside = (seconds > 9e8) & (seconds < 4e9)  # the years 1998 to 2096
    return bool(
        values.size > 1 and inside.all() and (np.diff(seconds) >= 0.0).all() and np.ptp(seconds) > 0.0
    )


def _add_others(table: Table, columns: Columns, rest: list[int], numeric: Mapping[int, int]) -> None:
    for i in rest:
        header = table.names[i]
        if i in table.unit_columns:
            continue
        told = i in columns.told
        reason = _why_not(table, i, numeric[i]) if numeric[i] == 0 or not told else ""
        if reason:
            columns.findings.append(_left_out(header, reason))
            continue
        words = words_of(header)
        known = scale_of(split_name(header)[1]) or words & WARMTH or rank_of(header, "core") is not None
        if not (known or told or rank_of(header, "pit") is not None or words <= {"column", str(i)}):
            if not any(scale_in(cell) for cell in table.column(i)[:50]):
                text = f"column {quoted(header)}: no word that is known here; taken as a temperature"
                columns.findings.append(Finding("found", text, kind="unknown", column=header))
        name = own_name(header, i)
        while name in columns.temperatures or name == "time":
            name += "_2"
        columns.temperatures[name] = i


def _why_not(table: Table, i: int, numbers: int) -> str:
    """Say why a column is not read as a temperature, and what would make it one; empty where it is."""
    words, unit = words_of(table.names[i]), split_name(table.names[i])[1]
    read_it = f"; say units={{{quoted(table.names[i])}: 'C'}} or 'F' if it is a temperature"
    known = scale_of(unit) or words & WARMTH or _speaks(table.names[i])
    if looks_like_time(table.column(i)) or (is_counted(table.names[i]) and not scale_of(unit)):
        return f"another column of times; say time={quoted(table.names[i])} to go by it"
    if numbers == 0 or (not known and _is_wordy(table, i, numbers)):
        filled = [cell for cell in table.column(i) if not is_blank(cell) and not is_number(cell)]
        if not filled:
            return "empty"
        say = f"say events={quoted(table.names[i])} if they are notes"
        if scale_of(unit) or _speaks(table.names[i]):
            say = "say decimal=... or delimiter=... if they are numbers"
        few = "no" if numbers == 0 else "hardly any"
        return f"holds {few} numbers but text such as {quoted(filled[0])}; {say}"
    if _is_other(table.names[i]) or (words & ORDINALS and not known):
        return f"not a temperature{read_it}"
    if words & SETTINGS:
        return f"a setting, not a reading{read_it}"
    values = table.numbers(i)
    if not known and values.size > 2 and bool((np.diff(values) == 1.0).all()):
        return f"counts the rows{read_it}"
    if set(values[np.isfinite(values)].tolist()) <= {0.0, 1.0}:
        return f"only 0 and 1, on and off or a probe that was not there{read_it}"
    return ""


def _left_out(name: str, reason: str) -> Finding:
    return Finding("ignored", f"column {quoted(name)}: {reason}", kind="column", column=name)
