"""The time column of a log: time stamps, clock times, elapsed times and plain numbers, made into seconds."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from libcook.arguments.quote import listed, quoted
from libcook.errors import invalid
from libcook.logs.columns.names import words_of
from libcook.logs.findings import Finding, Rows, count_of
from libcook.logs.reading.dates import has_date, is_bare_date, read_stamps, refuse_without_year
from libcook.logs.reading.elapsed import clock_seconds, in_words, looks_like_clock
from libcook.logs.reading.numbers import Numbers, is_blank
from libcook.logs.reading.table import Table
from libcook.logs.reading.zone import HOUR, mend_clock_change, place
from libcook.units import format_clock, format_duration
from libcook.units.clock import DAY

FloatArray = npt.NDArray[np.float64]
Lines = npt.NDArray[np.int64]
Start = dt.datetime | dt.time | None

_SECONDS = {"ms": 1e-3, "s": 1.0, "min": 60.0, "h": HOUR}
_ACCEPTED = "ISO 8601 time stamps, clock times, elapsed hh:mm(:ss), or seconds, minutes or hours are accepted"
_FAR = dt.timedelta(days=30)  # no cook is that long
_SAMPLE = 2000  # cells that tell what a column is
_LAST = 1e11  # s; no clock and no counter of a cook goes that far
_ELAPSED = frozenset(
    ("elapsed", "duration", "since", "dauer", "laufzeit", "duree", "duracion", "transcurrido", "ecoule")
)
_DIGITS = re.compile(r"(?:19|20)\d{2}[01]\d[0-3]\d(?:[0-5]\d){2,3}")  # a time stamp without marks
_POINT_CLOCK = re.compile(r"\d{1,2}\.\d{2}")
# Spreadsheets count days from 1899-12-30; these are the years 2000 to 2099.
_SHEET_DAYS = (36526.0, 73051.0)
_SHEET_ORIGIN = dt.datetime(1899, 12, 30)


@dataclass
class Times:
    """Seconds for each row (NaN where unreadable) and when the first one was."""

    seconds: FloatArray
    start: Start
    findings: list[Finding]


def looks_like_time(cells: Sequence[str]) -> bool:
    """Tell whether the cells of a column are time stamps or clock times."""
    filled = [cell for cell in cells if not is_blank(cell)]
    filled = filled[:: 1 + len(filled) // _SAMPLE]
    hits = sum(looks_like_clock(cell) or has_date(cell) or in_words(cell) >= 0.0 for cell in filled)
    return bool(filled) and hits > 0.8 * len(filled)


@dataclass(frozen=True)
class Clock:
    """What the call says about the clock: the day of the first row, the zone, the order of dates."""

    date: dt.date | None = None
    zone: dt.tzinfo | None = None
    day_first: bool | None = None


def read_times(table: Table, cells: list[str], name: str, unit: str | None, clock: Clock) -> Times:
    """Read the time column.

    Parameters
    ----------
    table : Table
        For the decimal mark and the line numbers.
    cells : list of str
        The column, joined with the date column where there is one.
    name : str
        Its name in the header.
    unit : {"ms", "s", "min", "h", "mm:ss", "hh:mm"} or None
        What the call or the header says about plain numbers and elapsed times.
    clock : Clock
        What the call says.
    """
    filled = [cell for cell in cells if not is_blank(cell)]
    if not filled:
        raise invalid("time", name, f"column {quoted(name)} holds no times", _ACCEPTED)
    lines = np.array(table.lines)
    pointed: list[Finding] = []
    if unit is None and (clocks := _point_clocks(cells)):
        text = (
            f"column {quoted(name)}, such as {quoted(filled[0])}, read as times of day: so rows come evenly"
        )
        pointed.append(Finding("found", text, kind="unit"))
        cells = clocks
    numbers = Numbers(table.decimal).column(cells)
    some = filled[:: 1 + len(filled) // _SAMPLE]
    if sum(_DIGITS.fullmatch(cell) is not None for cell in some) > 0.8 * len(some):
        times = _from_stamps([f"{cell[:8]}T{cell[8:]}" for cell in cells], name, lines, clock)
    elif np.count_nonzero(np.isfinite(numbers)) > 0.8 * (len(filled) - _after_last(np.isfinite(numbers))):
        times = _from_numbers(numbers, name, unit, clock, lines)
    elif sum(map(has_date, filled)) > 0.5 * len(filled):
        times = _from_stamps(cells, name, lines, clock)
    else:
        refuse_without_year(filled, name)
        times = _from_clock(cells, name, lines, clock, unit)
    times.findings[:0] = pointed
    if clock.zone is not None and getattr(times.start, "tzinfo", None) is None:
        why = (
            "the times are no clock times"
            if times.start is None
            else "clock times without a day; say date=..."
        )
        times.findings.append(Finding("ignored", f"timezone {clock.zone}: {why}", kind="timezone"))
    said = {line for finding in times.findings if finding.kind == "far" for line in finding.lines}
    bad = np.flatnonzero(~np.isfinite(times.seconds) & ~np.isin(lines, list(said)))
    if bad.size:
        cell = cells[bad[0]]
        end = _after_last(np.isfinite(times.seconds))  # rows of a summary below the log
        if bad.size - end > 0.2 * (len(cells) - end) or end >= len(cells) - end:
            rows = count_of(len(cells), "row")
            first = f"line {lines[bad[0]]}: {quoted(cell)}"
            came = f"{bad.size} of {rows} in column {quoted(name)} are no times ({first})"
            raise invalid("time", cell, came, _ACCEPTED, "an ISO date, year first" if "/" in cell else "")
        shown = listed([quoted(one) for one in dict.fromkeys(cells[i] for i in bad)], 3)
        text = f"{count_of(bad.size, 'row')} without a readable time ({shown})"
        where = tuple(int(line) for line in lines[bad])
        times.findings.append(Finding("ignored", text, int(bad.size), lines=where, kind="no time"))
    return times


def _point_clocks(cells: list[str]) -> list[str]:
    """Write times of day such as "19.10" with a colon; nothing where they are rather decimals of hours."""
    if len(cells) < 4 or not all(_POINT_CLOCK.fullmatch(cell) for cell in cells):
        return []
    clocks = [cell.replace(".", ":") for cell in cells]
    as_clock = np.array([clock_seconds(cell) for cell in clocks])
    as_hours = HOUR * np.array([float(cell) for cell in cells])
    uneven = [float(np.ptp(np.diff(seconds) % (0.5 * DAY))) for seconds in (as_clock, as_hours)]
    readable = np.isfinite(as_clock).all() and bool((as_clock < DAY).all())
    return clocks if readable and uneven[0] + 1.0 < uneven[1] else []


def _after_last(known: npt.NDArray[np.bool_]) -> int:
    """Return how many places follow the last that is known."""
    at = np.flatnonzero(known)
    return known.size - 1 - int(at[-1]) if at.size else 0


def _from_numbers(numbers: FloatArray, name: str, unit: str | None, clock: Clock, lines: Lines) -> Times:
    # Damaged cells: nothing counts that far, 1e10 s after 1970 is the year 2286.
    known = numbers[np.isfinite(numbers)]
    size = _size_since_1970(float(np.median(known)) if known.size else 0.0)
    numbers = np.where(np.abs(numbers) * size < 1e10, numbers, np.nan)
    finite = numbers[np.isfinite(numbers)]
    if finite.size == 0:
        return Times(numbers, None, [])
    typical = float(np.median(finite))
    if typical > 1e8 and not (unit == "ms" and typical < 1e11):  # counted from 1970, as POSIX does
        return _since_1970(numbers, name, size, clock.zone)
    if unit in _SECONDS:
        return Times(numbers * _SECONDS[unit], None, [])
    span = float(finite.max() - finite.min())
    step = float(np.median(np.diff(np.unique(finite)))) if np.unique(finite).size > 1 else 0.0
    if _SHEET_DAYS[0] <= typical < _SHEET_DAYS[1] and step < 0.25:
        near = np.where(
            np.abs(numbers - typical) < _FAR.days, numbers, np.nan
        )  # the others are damaged cells
        if np.count_nonzero(np.isfinite(near)) >= 0.8 * finite.size:
            return _from_sheet_days(near, name, clock, lines)
    # A cook lasts hours and a logger reads every few seconds to minutes: only one unit usually makes both
    # true.
    guess = "h" if span <= 48.0 and step < 0.5 else "s" if span > 5000.0 or step > 30.0 else "min"
    word = {"s": "seconds", "min": "minutes", "h": "hours"}[guess]
    text = f"column {quoted(name)} has no unit; taken as {word}"
    text += f" from its spacing of {step:g} and span of {span:g}; say units={{{quoted(name)}: 'min'}} or such"
    return Times(numbers * _SECONDS[guess], None, [Finding("found", text, kind="unit")])


_POSIX = {1e-9: "nanoseconds", 1e-6: "microseconds", 1e-3: "milliseconds", 1.0: "seconds"}


def _size_since_1970(typical: float) -> float:
    """Return the unit [s] in which a number of today's counts from 1970."""
    return 1e-9 if typical > 1e17 else 1e-6 if typical > 1e14 else 1e-3 if typical > 1e11 else 1.0


def _since_1970(numbers: FloatArray, name: str, size: float, zone: dt.tzinfo | None) -> Times:
    seconds = np.round(numbers * size, 6)
    known = np.sort(seconds[np.isfinite(seconds)])
    near = np.abs(seconds - known[known.size // 2]) <= _FAR.total_seconds()  # the others are damaged cells
    seconds[~((seconds > 0.0) & (seconds < _LAST) & near)] = np.nan
    first = float(np.nanmin(seconds))
    start = dt.datetime.fromtimestamp(first, tz=dt.timezone.utc)
    shown = "UTC" if zone is None else f"UTC and shown in {zone}"
    text = f"column {quoted(name)} counts {_POSIX[size]} from 1970 (POSIX time); read as {shown}"
    return Times(
        seconds - first,
        start if zone is None else start.astimezone(zone),
        [Finding("found", text, kind="unit")],
    )


def _from_sheet_days(days: FloatArray, name: str, clock: Clock, lines: Lines) -> Times:
    seconds = np.round((days - np.floor(np.nanmin(days))) * DAY, 1)  # a ten-thousandth of a day is 8.64 s
    start = _SHEET_ORIGIN + dt.timedelta(days=float(np.floor(np.nanmin(days))))
    text = f"column {quoted(name)} counts days from 1899-12-30, as spreadsheets do; read as clock times"
    findings = [Finding("found", text, kind="unit")]
    if clock.zone is not None:
        seconds, moment, found = place(seconds, start.date(), clock.zone, lines)
        return Times(seconds, moment, findings + found)
    first = float(np.nanmin(seconds))
    return Times(seconds - first, start + dt.timedelta(seconds=first), findings)


def _from_stamps(cells: list[str], name: str, lines: Lines, clock: Clock) -> Times:
    stamps, findings = read_stamps(cells, name, clock.day_first, clock.zone is not None)
    _drop_lost_times(cells, stamps)
    known = [stamp for stamp in stamps if stamp is not None]
    if not known:
        raise invalid(
            "time", cells[0], f"{quoted(cells[0])} in column {quoted(name)} is not a time stamp", _ACCEPTED
        )
    aware = [stamp.tzinfo is not None for stamp in known]
    if any(aware) and not all(aware):
        came = f"column {quoted(name)} mixes time stamps with and without a time zone"
        raise invalid("time", name, came, "one of the two is accepted")
    middle = sorted(known)[len(known) // 2]
    far = [i for i, stamp in enumerate(stamps) if stamp is not None and abs(stamp - middle) > _FAR]
    if far:  # a clock that was not set yet, or a damaged date
        text = f"{count_of(len(far), 'row')} more than {_FAR.days} days from most others "
        text += f"({quoted(cells[far[0]])})"
        if len(far) > 0.2 * len(known):
            raise invalid("time", cells[far[0]], text, "the rows of one cook are accepted")
        where = tuple(int(lines[i]) for i in far)
        findings.append(Finding("ignored", text, len(far), lines=where, kind="far"))
        gone = set(far)
        stamps = [None if i in gone else stamp for i, stamp in enumerate(stamps)]
    origin = middle if aware[0] else dt.datetime.combine(middle.date(), dt.time())
    seconds = np.array([np.nan if stamp is None else (stamp - origin).total_seconds() for stamp in stamps])
    if not aware[0] and clock.zone is not None:
        seconds, start, found = place(seconds, origin.date(), clock.zone, lines)
        return Times(seconds, start, findings + found)
    if not aware[0]:
        seconds = mend_clock_change(seconds, 0.0, lines, findings)
    first = float(np.nanmin(seconds))
    start = origin + dt.timedelta(seconds=first)
    if aware[0] and clock.zone is not None and origin.year > 1:
        start = start.astimezone(clock.zone)
    return Times(seconds - first, start, findings)


def _drop_lost_times(cells: list[str], stamps: list[dt.datetime | None]) -> None:
    """Take dates out that lost their time of day; one that stands in order is midnight."""
    bare = [i for i, stamp in enumerate(stamps) if stamp is not None and is_bare_date(cells[i])]
    if len(bare) > 0.2 * len(stamps):
        return
    for i in bare:
        around = [one for one in (*stamps[max(i - 1, 0) : i], *stamps[i + 1 : i + 2]) if one is not None]
        here = stamps[i]
        aware = [one.tzinfo is not None for one in (*around, here) if one is not None]
        if len(around) != 2 or here is None or len(set(aware)) > 1 or not min(around) <= here <= max(around):
            stamps[i] = None


def _from_clock(cells: list[str], name: str, lines: Lines, clock: Clock, unit: str | None) -> Times:
    words = np.array([in_words(cell) for cell in cells])
    digits = np.array([clock_seconds(cell, unit == "mm:ss") for cell in cells])
    seconds = np.where(np.isfinite(digits), digits, words)
    known = seconds[np.isfinite(seconds)]
    if known.size == 0:
        meant = "an ISO date, year first" if "/" in cells[0] else ""
        raise invalid(
            "time", cells[0], f"{quoted(cells[0])} in column {quoted(name)} is not a time", _ACCEPTED, meant
        )
    findings: list[Finding] = []
    step = float(np.median(np.abs(np.diff(known)))) if known.size > 1 else 0.0
    told = unit == "mm:ss" or bool(np.isfinite(words).any()) or bool(words_of(name) & _ELAPSED)
    elapsed = told or float(known.max()) >= DAY
    if (
        not elapsed
        and "clock" not in name.lower()
        and clock.date is None
        and known[0] <= min(step, 600.0)
        and bool(np.all(np.diff(known) >= 0))
    ):
        elapsed = True
        text = f"column {quoted(name)} starts at {cells[0]}; taken as elapsed time, not as clock time"
        findings.append(Finding("found", text, kind="unit"))
    if (
        elapsed
        and unit is None
        and not any(cell.count(":") > 1 for cell in cells if cell)
        and ":" in cells[0]
    ):
        text = f"column {quoted(name)}, such as {quoted(cells[0])}, read as hours and minutes"
        text += f"; say units={{{quoted(name)}: 'mm:ss'}} for minutes and seconds"
        findings.append(Finding("found", text, kind="unit"))
    if elapsed:
        return Times(seconds, None, findings)
    seconds = _unwrap_days(seconds, lines, findings)
    if clock.date is not None and clock.zone is not None:
        seconds, start, found = place(seconds, clock.date, clock.zone, lines)
        return Times(seconds, start, findings + found)
    seconds = mend_clock_change(seconds, 0.0, lines, findings)
    first = float(np.nanmin(seconds))
    moment = (dt.datetime.min + dt.timedelta(seconds=first % DAY)).time()
    if clock.date is not None:
        return Times(seconds - first, dt.datetime.combine(clock.date, moment), findings)
    text = f"clock times without a date, from {format_clock(first)}; say date=... to set it"
    findings.append(Finding("found", text, kind="no date"))
    return Times(seconds - first, moment, findings)


def _unwrap_days(seconds: FloatArray, lines: Lines, findings: list[Finding]) -> FloatArray:
    """Add a day at each midnight: a step of more than half a day, in either direction, is one."""
    known = np.flatnonzero(np.isfinite(seconds))
    steps = np.diff(seconds[known])
    turns = -np.round(steps / DAY)
    result: FloatArray = seconds.copy()
    result[known[1:]] += DAY * np.cumsum(turns)
    midnights = int(np.abs(turns).sum())
    if midnights:
        result -= DAY * np.floor(np.nanmin(result) / DAY)  # newest first: midnights were counted backwards
        where = Rows(result - np.nanmin(result), lines).at(known[1:][turns != 0.0])
        text = f"the clock passes midnight {count_of(midnights, 'time')}"
        findings.append(Finding("found", text, midnights, kind="midnight", **where))
    return result


def in_order(seconds: FloatArray, lines: Lines) -> tuple[npt.NDArray[np.intp], list[Finding]]:
    """Return the rows with a time in order of time, and what had to be done for it."""
    rows = np.flatnonzero(np.isfinite(seconds))
    steps = np.diff(seconds[rows])
    findings: list[Finding] = []
    backwards = int(np.count_nonzero(steps < 0.0))
    if backwards and backwards == int(np.count_nonzero(steps != 0.0)):
        findings.append(
            Finding("mended", "rows are newest first; turned round", rows.size, kind="newest first")
        )
        rows = rows[::-1]
    elif backwards:
        where = Rows(seconds, lines).at(rows[1:][steps < 0.0])
        places = count_of(backwards, "place")
        text = f"rows out of order in {places}, first at {format_duration(where['times'][0])}; sorted"
        findings.append(Finding("mended", text, backwards, kind="unsorted", **where))
    return rows[np.argsort(seconds[rows], kind="stable")], findings
