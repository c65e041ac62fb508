"""The time column of a log: time stamps, clock times, elapsed times and plain numbers, made into seconds."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from libcook._clock import DAY, parse_clock
from libcook._log_findings import Finding, count_of
from libcook._log_table import Table, is_blank, to_number
from libcook.errors import InvalidInput, invalid
from libcook.units import format_clock, format_duration

FloatArray = npt.NDArray[np.float64]
Start = dt.datetime | dt.time | None

_HOUR = 3600.0
_SECONDS = {"s": 1.0, "min": 60.0, "h": _HOUR}
_CLOCKLIKE = re.compile(r"\d{1,3}:\d{2}(:\d{2}([.,]\d+)?)?(\s*[ap]\.?m\.?)?", re.IGNORECASE)
_DATE = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})|(\d{1,2})\.(\d{1,2})\.(\d{4})")
_ACCEPTED = "ISO 8601 time stamps, clock times, elapsed hh:mm(:ss), or seconds, minutes or hours are accepted"
_NIGHT = (
    0.0,
    4.0 * _HOUR,
)  # clocks change between midnight and four in the morning (common practice, no source)


@dataclass
class Times:
    """Seconds for each row (NaN where unreadable) and when the first one was."""

    seconds: FloatArray
    start: Start
    findings: list[Finding]


def looks_like_time(cells: Sequence[str]) -> bool:
    """Tell whether the cells of a column are time stamps or clock times."""
    filled = [cell for cell in cells if not is_blank(cell)]
    hits = sum(bool(_CLOCKLIKE.fullmatch(cell) or _DATE.match(cell)) for cell in filled)
    return bool(filled) and hits > 0.8 * len(filled)


def looks_like_date(cells: Sequence[str]) -> bool:
    """Tell whether the cells of a column are dates without a time."""
    filled = [cell for cell in cells if not is_blank(cell)]
    return bool(filled) and all(_DATE.fullmatch(cell) for cell in filled)


def read_date(value: dt.date | str, field: str = "date") -> dt.date:
    """Read a calendar date: ISO 8601, or day.month.year; slashes only with the year first."""
    if isinstance(value, dt.date):
        return value.date() if isinstance(value, dt.datetime) else value
    match = _DATE.fullmatch(str(value).strip())
    try:
        if match is not None:
            return dt.date(int(match[1] or match[6]), int(match[2] or match[5]), int(match[3] or match[4]))
    except ValueError:
        pass
    raise invalid(field, value, f"{value!r} is not a date", "such as '2024-05-11' or '11.5.2024' is accepted")


def _stamp(cell: str) -> dt.datetime | None:
    match = _DATE.match(cell.strip())
    if match is None:
        return None
    rest = cell.strip()[match.end() :].lstrip("T ,").replace(",", ".")
    zone = re.search(r"(Z|[+-]\d{2}:?\d{2})$", rest)
    clock = rest[: zone.start()].strip() if zone else rest
    try:
        day = read_date(match[0])
        seconds = parse_clock(clock) if clock else 0.0
    except InvalidInput:
        return None
    moment = dt.datetime.combine(day, dt.time()) + dt.timedelta(seconds=seconds)
    if zone is None:
        return moment
    if zone[0] == "Z":
        return moment.replace(tzinfo=dt.timezone.utc)
    digits = zone[0].replace(":", "")
    offset = dt.timedelta(hours=int(digits[1:3]), minutes=int(digits[3:5])) * (-1 if digits[0] == "-" else 1)
    return moment.replace(tzinfo=dt.timezone(offset))


def read_times(table: Table, cells: list[str], name: str, unit: str | None, date: dt.date | None) -> Times:
    """Read the time column.

    Parameters
    ----------
    table : Table
        For the decimal mark and the line numbers.
    cells : list of str
        The column, joined with the date column where there is one.
    name : str
        Its name in the header.
    unit : {"s", "min", "h"} or None
        What the header says about plain numbers.
    date : datetime.date or None
        Calendar day of the first row, for clock times without one.
    """
    filled = [cell for cell in cells if not is_blank(cell)]
    if not filled:
        raise invalid("time", name, f"column '{name}' holds no times", _ACCEPTED)
    numbers = np.array([to_number(cell, table.decimal) for cell in cells])
    if np.count_nonzero(np.isfinite(numbers)) > 0.8 * len(filled):
        times = _from_numbers(numbers, name, unit)
    elif sum(bool(_DATE.match(cell)) for cell in filled) > 0.5 * len(filled):
        times = _from_stamps(cells, name)
    else:
        times = _from_clock(cells, name, date)
    bad = [i for i in range(len(cells)) if not np.isfinite(times.seconds[i])]
    if bad:
        first = f"line {table.lines[bad[0]]}: '{cells[bad[0]]}'"
        if len(bad) > 0.2 * len(cells):
            came = f"{len(bad)} of {count_of(len(cells), 'row')} in column '{name}' are no times ({first})"
            raise invalid(
                "time", cells[bad[0]], came, _ACCEPTED, "an ISO date, year first" if "/" in first else ""
            )
        times.findings.append(
            Finding("ignored", f"{count_of(len(bad), 'row')} without a readable time ({first})", len(bad))
        )
    return times


def _from_numbers(numbers: FloatArray, name: str, unit: str | None) -> Times:
    # Damaged cells: nothing counts that far, 1e13 ms after 1970 is the year 2286.
    numbers = np.where(np.abs(numbers) < 1e13, numbers, np.nan)
    finite = numbers[np.isfinite(numbers)]
    if finite.size == 0:
        return Times(numbers, None, [])
    typical = float(np.median(finite))
    if typical > 1e8:  # counted from 1970, as POSIX does; in milliseconds from 1e11 on
        seconds = numbers / (1000.0 if typical > 1e11 else 1.0)
        seconds[~((seconds > 0.0) & (seconds < 1e11))] = np.nan
        first = float(np.nanmin(seconds))
        start = dt.datetime.fromtimestamp(first, tz=dt.timezone.utc)
        text = f"column '{name}' counts seconds from 1970 (POSIX time); read as UTC"
        return Times(seconds - first, start, [Finding("found", text)])
    if unit is not None:
        return Times(numbers * _SECONDS[unit], None, [])
    span = float(finite.max() - finite.min())
    step = float(np.median(np.diff(np.unique(finite)))) if np.unique(finite).size > 1 else 0.0
    # A cook lasts hours and a logger reads every few seconds to minutes: only one unit usually makes both
    # true.
    guess = "h" if span <= 48.0 and step < 0.5 else "s" if span > 5000.0 or step > 30.0 else "min"
    word = {"s": "seconds", "min": "minutes", "h": "hours"}[guess]
    text = f"column '{name}' has no unit; taken as {word} from its spacing of {step:g} and span of {span:g}"
    return Times(numbers * _SECONDS[guess], None, [Finding("found", text)])


def _from_stamps(cells: list[str], name: str) -> Times:
    stamps = [_stamp(cell) for cell in cells]
    known = [stamp for stamp in stamps if stamp is not None]
    if not known:
        raise invalid("time", cells[0], f"'{cells[0]}' in column '{name}' is not a time stamp", _ACCEPTED)
    aware = [stamp.tzinfo is not None for stamp in known]
    if any(aware) and not all(aware):
        came = f"column '{name}' mixes time stamps with and without a time zone"
        raise invalid("time", name, came, "one of the two is accepted")
    origin = known[0]
    seconds = np.array([np.nan if stamp is None else (stamp - origin).total_seconds() for stamp in stamps])
    findings: list[Finding] = []
    if not aware[0]:
        midnight = dt.datetime.combine(origin.date(), dt.time())
        seconds = _mend_clock_change(seconds, (origin - midnight).total_seconds(), findings)
    first = float(np.nanmin(seconds))
    return Times(seconds - first, origin + dt.timedelta(seconds=first), findings)


def _from_clock(cells: list[str], name: str, date: dt.date | None) -> Times:
    seconds = np.array([_clock_seconds(cell) for cell in cells])
    known = seconds[np.isfinite(seconds)]
    if known.size == 0:
        meant = "an ISO date, year first" if "/" in cells[0] else ""
        raise invalid("time", cells[0], f"'{cells[0]}' in column '{name}' is not a time", _ACCEPTED, meant)
    findings: list[Finding] = []
    step = float(np.median(np.abs(np.diff(known)))) if known.size > 1 else 0.0
    words = name.lower()
    elapsed = any(word in words for word in ("elapsed", "duration", "since")) or float(known.max()) >= DAY
    if not elapsed and date is None and known[0] <= min(step, 600.0) and bool(np.all(np.diff(known) >= 0)):
        elapsed = True
        text = f"column '{name}' starts at {cells[0]}; taken as elapsed time, not as clock time"
        findings.append(Finding("found", text))
    if elapsed:
        return Times(seconds, None, findings)
    seconds = _unwrap_days(seconds, findings)
    seconds = _mend_clock_change(seconds, 0.0, findings)
    first = float(np.nanmin(seconds))
    clock = (dt.datetime.min + dt.timedelta(seconds=first % DAY)).time()
    start: Start = clock if date is None else dt.datetime.combine(date, clock)
    if date is None:
        findings.append(
            Finding(
                "found", f"clock times without a date, from {format_clock(first)}; say date=... to set it"
            )
        )
    return Times(seconds - first, start, findings)


def _clock_seconds(cell: str) -> float:
    text = cell.strip().replace(",", ".")
    if not _CLOCKLIKE.fullmatch(text):
        return float("nan")
    if text[-1] in "mM.":
        try:
            return parse_clock(text)
        except InvalidInput:
            return float("nan")
    parts = [float(part) for part in text.split(":")]
    if any(part >= 60.0 for part in parts[1:]):
        return float("nan")
    return sum(part * size for part, size in zip(parts, (_HOUR, 60.0, 1.0), strict=False))


def _unwrap_days(seconds: FloatArray, findings: list[Finding]) -> FloatArray:
    """Add a day at each midnight: a step of more than half a day, in either direction, is one."""
    known = np.flatnonzero(np.isfinite(seconds))
    steps = np.diff(seconds[known])
    turns = -np.round(steps / DAY)
    result: FloatArray = seconds.copy()
    result[known[1:]] += DAY * np.cumsum(turns)
    midnights = int(np.abs(turns).sum())
    if midnights:
        result -= DAY * np.floor(np.nanmin(result) / DAY)  # newest first: midnights were counted backwards
        times = tuple(float(result[known[i + 1]] - np.nanmin(result)) for i in np.flatnonzero(turns))
        findings.append(
            Finding("found", f"the clock passes midnight {count_of(midnights, 'time')}", midnights, times)
        )
    return result


def _mend_clock_change(seconds: FloatArray, clock_at_zero: float, findings: list[Finding]) -> FloatArray:
    """Find the hour that daylight saving adds or takes between two regular readings, and take it out again.

    Backwards an hour cannot happen otherwise in ordered readings. Forwards an hour could also be a gap, so
    that is only believed at night and where the readings are regular on both sides.
    """
    known = np.flatnonzero(np.isfinite(seconds))
    values = seconds[known]
    if known.size > 2 and float(np.median(np.diff(values))) < 0.0:  # newest first
        turned: FloatArray = _mend_clock_change(seconds[::-1], clock_at_zero, findings)[::-1]
        return turned
    steps = np.diff(values)
    if steps.size < 4:
        return seconds
    usual = float(np.median(steps))
    if usual <= 0.0 or usual > 1200.0:  # an hour has to stand out against the spacing
        return seconds
    slack = max(0.25 * usual, 2.0)
    regular = float(np.mean(np.abs(steps - usual) <= slack)) > 0.9
    if not regular:
        return seconds
    result: FloatArray = seconds.copy()
    for i in np.flatnonzero(np.abs(np.abs(steps - usual) - _HOUR) <= slack):
        back = bool(steps[i] < usual)
        if back and i + 2 < values.size and values[i + 2 :].min() < values[i + 1] - slack:
            continue  # single rows out of order, not a clock set back
        if not back and not _NIGHT[0] <= (clock_at_zero + values[i]) % DAY <= _NIGHT[1]:
            continue
        result[known[i + 1 :]] += _HOUR if back else -_HOUR
        clock = format_clock(clock_at_zero + float(values[i]))
        way = "back" if back else "forward"
        text = f"clock put {way} one hour after {clock} (daylight saving?); later times moved to stay even"
        findings.append(Finding("mended", text, 1, (float(result[known[i]] - np.nanmin(result)),)))
        return result  # one change a log: two are half a year apart
    return result


def in_order(seconds: FloatArray) -> tuple[npt.NDArray[np.intp], list[Finding]]:
    """Return the rows with a time in order of time, and what had to be done for it."""
    rows = np.flatnonzero(np.isfinite(seconds))
    steps = np.diff(seconds[rows])
    findings: list[Finding] = []
    backwards = int(np.count_nonzero(steps < 0.0))
    if backwards and backwards == int(np.count_nonzero(steps != 0.0)):
        findings.append(Finding("mended", "rows are newest first; turned round", rows.size))
        rows = rows[::-1]
    elif backwards:
        times = tuple(float(seconds[rows[i + 1]]) for i in np.flatnonzero(steps < 0.0))
        places = count_of(backwards, "place")
        text = f"rows out of order in {places}, first at {format_duration(times[0])}; sorted"
        findings.append(Finding("mended", text, backwards, times))
    return rows[np.argsort(seconds[rows], kind="stable")], findings
