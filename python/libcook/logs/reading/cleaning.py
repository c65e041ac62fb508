"""Dropouts, spikes, double times and gaps: what a series needs before it can be a boundary condition."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from libcook.arguments.quote import listed, quoted
from libcook.logs.columns.names import words_of
from libcook.logs.columns.vocabulary import OUTDOORS, ROLES
from libcook.logs.findings import Finding, Rows, at_times, count_of
from libcook.logs.reading.numbers import SENTINELS, is_blank
from libcook.logs.reading.table import Table
from libcook.units import (
    fahrenheit_to_celsius,
    format_difference,
    format_duration,
    format_temperature,
    kelvin_to_celsius,
)

FloatArray = npt.NDArray[np.float64]
Mask = npt.NDArray[np.bool_]

# The limits are judgements about loggers and pits (common practice, no source).
READABLE = (-40.0, 600.0)  # °C; outside it no thermocouple or thermistor in a cook is at work
_ZERO_STEP = 10.0  # units of the file; a zero this far from its neighbours is no reading
_MEAT_SPIKE = 8.0  # K; meat around a probe cannot jump so far and come back
_AIR_SPIKE = 60.0  # K, upwards only: an opened lid makes true dips
_WINDOW = 600.0  # s; excursions up to about this long are isolated
_MOST_SIDE = 300  # readings each side of the running median, to bound its cost on fast loggers
_GAP_TIMES, _GAP_LEAST = 5.0, 300.0  # a gap is longer than 5 usual intervals and than 5 min
_THINNED_TIMES = 2.0  # in a thinned log, than twice what most intervals keep below
_UNEVEN = 0.75  # of the usual interval, between the 5th and the 95th percentile
_AIR_WORDS = OUTDOORS.union(*ROLES["pit"])


def read_column(
    table: Table, index: int, order: npt.NDArray[np.intp], rows: Rows
) -> tuple[FloatArray, list[Finding]]:
    """Read one column in order of time, in the unit of the file; no reading becomes NaN."""
    cells = [table.rows[row][index] for row in order]
    name = table.names[index]
    values = table.numbers(index)[order]
    blanks = {cell for cell in set(cells) if is_blank(cell)}
    blank = np.array([cell in blanks for cell in cells])
    findings: list[Finding] = []

    def report(mask: Mask, what: str) -> None:
        if mask.any():
            number, where = int(mask.sum()), rows.at(mask)
            at = at_times(where["times"])
            text = f"{quoted(name)}: {count_of(number, 'reading')} {what}, {at}; marked missing"
            findings.append(Finding("mended", text, number, kind="dropout", column=name, **where))

    report(blank, "blank")
    odd = ~np.isfinite(values) & ~blank
    words = dict.fromkeys(cells[i] for i in np.flatnonzero(odd))
    report(odd, f"not a number ({listed(map(quoted, words), 3)})")
    values[odd] = np.nan
    sentinel = np.isin(values, SENTINELS)
    report(sentinel, f"of {values[sentinel][0]:g}, a stand-in for no reading" if sentinel.any() else "")
    values[sentinel] = np.nan
    zero = _stray_zeros(values)
    report(zero, "of exactly 0, far from neighbours")
    values[zero] = np.nan
    return values, findings


def _stray_zeros(values: FloatArray) -> Mask:
    """Find zeros that stand far from the nearest true reading; a core warming up from 0 °C stays."""
    zero = values == 0.0
    others = np.flatnonzero(np.isfinite(values) & ~zero)
    stray = np.zeros(values.size, dtype=bool)
    for i in np.flatnonzero(zero):
        at = int(np.searchsorted(others, i))
        near = [abs(values[others[j]]) for j in (at - 1, at) if 0 <= j < others.size]
        stray[i] = bool(near) and min(near) > _ZERO_STEP
    return stray


def in_celsius(values: FloatArray, scale: str) -> FloatArray:
    """Return temperatures of a scale, "C", "F" or "K", in °C."""
    if scale == "F":
        return fahrenheit_to_celsius(values)
    return kelvin_to_celsius(values) if scale == "K" else values.copy()


def to_celsius(values: FloatArray, scale: str, name: str, rows: Rows) -> tuple[FloatArray, list[Finding]]:
    """Convert to °C and mark what no probe can read."""
    celsius = in_celsius(values, scale)
    outside = np.isfinite(celsius) & ((celsius < READABLE[0]) | (celsius > READABLE[1]))
    if not outside.any():
        return celsius, []
    where = rows.at(outside)
    number, worst = int(outside.sum()), float(celsius[outside][0])
    celsius[outside] = np.nan
    shown = "F" if scale == "F" else "C"
    low, high = (format_temperature(limit, shown, 0) for limit in READABLE)
    text = (
        f"{quoted(name)}: {count_of(number, 'reading')} such as {format_temperature(worst, shown, 0)}, "
        f"outside {low} to {high}, {at_times(where['times'])}; marked missing"
    )
    return celsius, [Finding("mended", text, number, kind="dropout", column=name, **where)]


def _running_median(values: FloatArray, side: int) -> FloatArray:
    """Centred running median; near the ends the window shrinks and stays centred, so slopes stay."""
    size = values.size
    result: FloatArray = values.copy()
    side = min(side, (size - 1) // 2)
    for i in range(1, side):
        result[i] = np.median(values[: 2 * i + 1])
        result[size - 1 - i] = np.median(values[size - 1 - 2 * i :])
    windows = np.lib.stride_tricks.sliding_window_view(values, 2 * side + 1)
    for start in range(0, windows.shape[0], 4096):  # in pieces: the median copies what it is given
        piece = windows[start : start + 4096]
        result[side + start : side + start + piece.shape[0]] = np.median(piece, axis=1)
    return result


def is_air(name: str) -> bool:
    """Tell whether a column is one of air, which may dip when a lid is opened, and not of meat."""
    return bool(words_of(name) & _AIR_WORDS)


def mark_spikes(name: str, rows: Rows, values: FloatArray) -> tuple[FloatArray, list[Finding]]:
    """Mark isolated excursions as missing: a probe pulled out of the meat, a flash of a bad contact.

    A running median follows any slope and any lasting step, so what stands far from it is short-lived. Far
    means more than 8 K in meat, or six robust standard deviations of the series about its median where that
    is more.
    """
    finite = np.flatnonzero(np.isfinite(values))
    if finite.size < 5:
        return values, []
    known, when = values[finite], rows.times[finite]
    spacing = float(np.median(np.diff(when)))
    side = int(np.clip(_WINDOW / max(spacing, 1e-9), 2, _MOST_SIDE))
    away = known - _running_median(known, side)
    # 1.4826: median deviation to standard deviation, normal law
    noise = 6.0 * 1.4826 * float(np.median(np.abs(away)))
    air = is_air(name)
    findings: list[Finding] = []
    if air:
        dips = away < -max(_AIR_SPIKE / 3.0, noise)
        if dips.any():
            where = rows.at(finite[dips])
            number, at = int(dips.sum()), at_times(where["times"])
            text = f"{quoted(name)}: {count_of(number, 'reading')} in short dips (lid opened?), {at}; kept"
            findings.append(Finding("found", text, number, kind="dip", column=name, **where))
        spikes = away > max(_AIR_SPIKE, noise)
    else:
        spikes = np.abs(away) > max(_MEAT_SPIKE, noise)
    if not spikes.any():
        return values, findings
    where = rows.at(finite[spikes])
    result = values.copy()
    result[finite[spikes]] = np.nan
    cause = "bad contact?" if air else "probe pulled out?"
    number, at = int(spikes.sum()), at_times(where["times"])
    text = f"{quoted(name)}: {count_of(number, 'reading')} in spikes ({cause}), {at}; marked missing"
    findings.append(Finding("mended", text, number, kind="spike", column=name, **where))
    return result, findings


def merge_doubles(
    rows: Rows, columns: dict[str, FloatArray], units: str
) -> tuple[Rows, dict[str, FloatArray], list[Finding]]:
    """Average rows of the same time, column by column over the readings there are."""
    unique, first, where = np.unique(rows.times, return_index=True, return_inverse=True)
    if unique.size == rows.times.size:
        return rows, columns, []
    merged: dict[str, FloatArray] = {}
    widest = 0.0
    for name, values in columns.items():
        finite = np.isfinite(values)
        count = np.bincount(where[finite], minlength=unique.size)
        total = np.bincount(where[finite], weights=values[finite], minlength=unique.size)
        merged[name] = np.divide(total, count, out=np.full(unique.size, np.nan), where=count > 0)
        if finite.any():
            widest = max(widest, float(np.abs(values - merged[name][where])[finite].max()))
    again = np.ones(rows.times.size, dtype=bool)
    again[first] = False
    number = int(again.sum())
    at = [float(time) for time in unique[np.bincount(where) > 1]]
    same = "equal" if widest == 0.0 else f"up to {format_difference(widest, units)} from their mean"
    text = f"{count_of(number, 'row')} with the time of another ({same}), {at_times(at)}; averaged"
    finding = Finding("mended", text, number, kind="double", **{**rows.at(again), "times": tuple(at)})
    return Rows(unique, rows.lines[first]), merged, [finding]


def describe_spacing(rows: Rows) -> list[Finding]:
    """Report readings that do not come at even intervals; gaps do not count."""
    steps = np.diff(rows.times)
    usual = float(np.median(steps))
    steps = steps[steps <= max(_GAP_TIMES * usual, _GAP_LEAST)]
    if steps.size < 10:
        return []
    low, high = (float(value) for value in np.quantile(steps, (0.05, 0.95)))
    if high - low <= _UNEVEN * usual:
        return []
    text = (
        f"readings come unevenly, mostly {format_duration(low)} to {format_duration(high)} apart; "
        "kept at their own times"
    )
    return [Finding("found", text, int(rows.times.size), kind="uneven")]


def find_gaps(rows: Rows, columns: dict[str, FloatArray], thinned: bool = False) -> list[Finding]:
    """Report gaps in the rows, and in single columns where they are longer than those.

    Times and lines are those of the last reading before each gap.
    """
    findings: list[Finding] = []
    times = rows.times
    steps = np.diff(times)
    limit = gap_limit(times, thinned)
    wide = steps > limit
    if wide.any():
        where = rows.at(np.flatnonzero(wide))
        number, longest = int(wide.sum()), format_duration(float(steps.max()))
        text = f"{count_of(number, 'gap')} in the log, the longest {longest}, {at_times(where['times'])}"
        findings.append(Finding("found", f"{text}; left to interpolation", number, kind="gap", **where))
    for name, values in columns.items():
        seen = np.flatnonzero(np.isfinite(values))
        if seen.size < 2:
            continue
        own = np.diff(times[seen])
        holes = [i for i in np.flatnonzero(own > limit) if not (seen[i + 1] == seen[i] + 1 and wide[seen[i]])]
        if holes:
            where = rows.at(seen[holes])
            longest, at = format_duration(float(own[holes].max())), at_times(where["times"])
            text = f"{quoted(name)}: {count_of(len(holes), 'gap')}, the longest {longest}, {at}"
            text += "; left to interpolation"
            findings.append(Finding("found", text, len(holes), kind="gap", column=name, **where))
    return findings


def gap_limit(times: FloatArray, thinned: bool = False) -> float:
    """Return how far apart two readings have to be to make a gap [s]; thinned ones come unevenly."""
    steps = np.diff(times)
    limit = max(_GAP_TIMES * float(np.median(steps)), _GAP_LEAST)
    return max(limit, _THINNED_TIMES * float(np.quantile(steps, 0.95))) if thinned else limit
