"""Wall clocks that are put forward and back: placed with a named time zone, or recognised without one."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

import numpy as np
import numpy.typing as npt

from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.logs.findings import Action, Finding, Rows, count_of
from libcook.units import format_clock
from libcook.units.clock import DAY

FloatArray = npt.NDArray[np.float64]

HOUR = 3600.0
# Clocks change between midnight and four in the morning (common practice, no source).
_NIGHT = (0.0, 4.0 * HOUR)
_COARSEST = 1200.0  # s; an hour has to stand out against the usual spacing
_PLAUSIBLE = 3.0  # a step of up to so many usual ones can lie beside a clock change


def read_zone(zone: str | dt.tzinfo | None) -> dt.tzinfo | None:
    """Return the time zone of a name such as ``"Europe/Paris"``; one that is a zone already stays."""
    if zone is None or isinstance(zone, dt.tzinfo):
        return zone
    accepted = "a name of the tz database such as 'Europe/Paris', 'America/Chicago' or 'UTC' is accepted"
    if not isinstance(zone, str):
        raise invalid("timezone", zone, f"a {type(zone).__name__} came", accepted)
    try:
        return ZoneInfo(zone)
    except (KeyError, ValueError, OSError) as error:
        raise invalid(
            "timezone", zone, f"there is no time zone {quoted(zone)} here ({quoted(str(error))})", accepted
        ) from None


def _offset(moment: dt.datetime, zone: dt.tzinfo, fold: int) -> float:
    offset = moment.replace(tzinfo=zone, fold=fold).utcoffset()
    return 0.0 if offset is None else offset.total_seconds()


def place(
    wall: FloatArray, day: dt.date, zone: dt.tzinfo, lines: npt.NDArray[np.int64]
) -> tuple[FloatArray, dt.datetime, list[Finding]]:
    """Place readings of a wall clock in a time zone.

    Parameters
    ----------
    wall : numpy.ndarray
        What the clock showed, in the order of the file [s since midnight of `day`]; NaN where unreadable.
    day : datetime.date
        Day from which `wall` counts.
    zone : datetime.tzinfo
        Where the clock hung.
    lines : numpy.ndarray
        Line numbers of the rows.

    Returns
    -------
    seconds : numpy.ndarray
        True times [s since the first one].
    start : datetime.datetime
        The first one, in the zone.
    findings : list of Finding

    Notes
    -----
    An hour that comes twice is divided where that leaves the spacing most even. A clock that shows an hour
    that does not exist, or that passes through a doubled hour once without a hole, does not follow daylight
    saving: the offset of its first reading then holds for the whole log.
    """
    known = np.flatnonzero(np.isfinite(wall))
    if known.size > 2 and float(np.median(np.diff(wall[known]))) < 0.0:  # newest first
        seconds, start, findings = place(wall[::-1], day, zone, lines[::-1])
        return seconds[::-1], start, findings
    midnight = dt.datetime.combine(day, dt.time())
    if not 1 < day.year < 9999:
        raise invalid(
            "date", day, f"the year {day.year} is not one of a cook", "years 2 to 9998 are accepted"
        )
    first, second = np.zeros(known.size), np.zeros(known.size)
    cache: dict[int, tuple[float, float]] = {}
    for k, row in enumerate(known):
        quarter = int(wall[row] // 900.0)  # offsets change at full quarters of an hour
        if quarter not in cache:
            moment = midnight + dt.timedelta(seconds=900.0 * quarter)
            cache[quarter] = (_offset(moment, zone, 0), _offset(moment, zone, 1))
        first[k], second[k] = cache[quarter]
    steps = np.diff(wall[known])
    usual = float(np.median(steps[steps > 0.0])) if (steps > 0.0).any() else 60.0
    missing, doubled = first < second, first > second
    offsets, findings = first.copy(), []
    name = str(zone)

    def found(action: Action, text: str, which: npt.NDArray[np.intp], kind: str) -> None:
        times = wall[known] - offsets
        shown = Rows(times - times.min(), lines[known])
        findings.append(Finding(action, text, int(which.size), kind=kind, **shown.at(which)))

    if missing.any():
        offsets[:] = offsets[0]
        which = np.flatnonzero(missing)
        text = (
            f"{count_of(which.size, 'row')} in an hour that does not exist in {name}, from "
            f"{format_clock(float(wall[known[which[0]]]))}: the clock was not put forward; one offset for "
            "all rows"
        )
        found("found", text, which, "clock not changed")
    elif doubled.any():
        runs = np.split(np.flatnonzero(doubled), np.flatnonzero(np.diff(np.flatnonzero(doubled)) > 1) + 1)
        for run in runs:
            twice = float(first[run[0]] - second[run[0]])  # s; an hour almost everywhere
            cut, gain = _divide(wall[known], int(run[0]), int(run[-1]) + 1, usual, twice)
            later = np.arange(cut, int(run[-1]) + 1)
            shown = format_clock(twice * np.floor(float(wall[known[run]].min()) / twice))
            whole = 0 < run[0] and run[-1] + 1 < known.size
            if whole and gain > 0.5 * twice and not np.all(offsets == offsets[0]):
                offsets[:] = offsets[0]
                text = (
                    f"{count_of(run.size, 'row')} pass once through the hour from {shown}, which comes twice "
                    f"in {name}: the clock was not put back; one offset for all rows"
                )
                found("found", text, run, "clock not changed")
                break
            offsets[later] = second[later]
            if later.size and cut > run[0]:
                text = (
                    f"the hour from {shown} comes twice in {name}; {count_of(later.size, 'row')} read as the "
                    "second time"
                )
                found("mended", text, later, "clock back")
            elif later.size or whole or run[-1] + 1 < known.size or run[0] > 0:
                which_time = "second" if later.size else "first"
                text = (
                    f"{count_of(run.size, 'row')} in the hour from {shown}, which comes twice in {name}, "
                    f"read as the {which_time} time"
                )
                found("found", text, run, "clock back")
            else:
                text = (
                    f"all rows lie in the hour from {shown}, which comes twice in {name}; read as the first"
                )
                found("found", text, run, "clock back")
    forward = np.flatnonzero(np.diff(offsets) > 0.0)
    for k in forward:
        text = f"clock put forward after {format_clock(float(wall[known[k]]))} in {name}; times stay even"
        found("found", text, np.array([k + 1]), "clock forward")
    true = wall[known] - offsets
    start = midnight.replace(tzinfo=dt.timezone.utc) + dt.timedelta(seconds=float(true.min()))
    seconds = np.full(wall.size, np.nan)
    seconds[known] = true - true.min()
    return seconds, start.astimezone(zone), findings


def _divide(wall: FloatArray, start: int, stop: int, usual: float, twice: float) -> tuple[int, float]:
    """Find the row of a doubled hour from which it is the second one.

    One link between neighbours gains what comes `twice` [s]: the one into the run, out of it, or one inside.
    The best is where the spacing gets most even; a link that does not exist gains nothing and costs nothing.
    """

    def uneven(step: float) -> float:
        return abs(step - usual) + (1e9 if step < 0.0 else 0.0)

    best, least = stop, np.inf
    for cut in range(stop, start - 1, -1):  # of equals the last link: all rows are the first hour
        if cut == 0 or cut == wall.size:
            cost = 0.0
        else:
            step = float(wall[cut] - wall[cut - 1])
            cost = uneven(step + twice) - uneven(step)
        if cost < least:
            best, least = cut, cost
    return best, least


def mend_clock_change(
    seconds: FloatArray, clock_at_zero: float, lines: npt.NDArray[np.int64], findings: list[Finding]
) -> FloatArray:
    """Find the hour that daylight saving adds or takes, where no zone is known, and take it out again.

    Backwards an hour cannot happen otherwise in ordered readings. Forwards an hour could also be a gap: that
    is only believed at night and where the readings are regular on both sides, and otherwise reported.
    """
    known = np.flatnonzero(np.isfinite(seconds))
    values = seconds[known]
    if known.size > 2 and float(np.median(np.diff(values))) < 0.0:  # newest first
        turned: FloatArray = mend_clock_change(seconds[::-1], clock_at_zero, lines[::-1], findings)[::-1]
        return turned
    steps = np.diff(values)
    if steps.size < 4:
        return seconds
    usual = float(np.median(steps))
    if usual <= 0.0 or usual > _COARSEST:
        return seconds
    even = max(0.25 * usual, 2.0)
    regular = float(np.mean(np.abs(steps - usual) <= even)) > 0.9
    slack = even if regular else _PLAUSIBLE * usual
    result: FloatArray = seconds.copy()
    for i in np.flatnonzero(np.abs(np.abs(steps - usual) - HOUR) <= slack):
        back = bool(steps[i] < usual)
        if back and values[i + 1 :].min() < values[i + 1] - slack:
            continue  # single rows out of order, not a clock set back
        if back and int(np.count_nonzero(steps < 0.0)) > 1 and not regular:
            continue  # rows in disorder: sorting them is the better guess
        night = _NIGHT[0] <= (clock_at_zero + values[i]) % DAY <= _NIGHT[1]
        if not back and not night:
            continue
        at = float(values[i] - values.min())
        clock = format_clock(clock_at_zero + float(values[i]))
        where = (int(lines[known[i + 1]]),)
        if not back and not regular:
            text = f"about an hour without rows after {clock}: a gap, or clocks put forward; say timezone=..."
            findings.append(Finding("found", text, 1, (at,), where, "clock forward?"))
            continue
        result[known[i + 1 :]] += HOUR if back else -HOUR
        way = "back" if back else "forward"
        why = "daylight saving?" if night else "by hand? it is no hour for daylight saving"
        text = f"clock put {way} one hour after {clock} ({why}); later times moved to stay even"
        findings.append(Finding("mended", text, 1, (at,), where, f"clock {way}"))
        return result  # one change a log: two are half a year apart
    return result
