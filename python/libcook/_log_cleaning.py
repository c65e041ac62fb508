"""Dropouts, spikes, double times and gaps: what a series needs before it can be a boundary condition."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from libcook._log_findings import Finding, at_times, count_of
from libcook._log_table import Table, is_blank, to_number
from libcook.units import fahrenheit_to_celsius, format_duration

FloatArray = npt.NDArray[np.float64]
Mask = npt.NDArray[np.bool_]

# The limits are judgements about loggers and pits (common practice, no source).
READABLE = (-40.0, 600.0)  # °C; outside it no thermocouple or thermistor in a cook is at work
_SENTINELS = (-999.0, 999.0, -999.9, 999.9, -9999.0, 9999.0)
_ZERO_STEP = 10.0  # units of the file; a zero this far from its neighbours is no reading
_MEAT_SPIKE = 8.0  # K; meat around a probe cannot jump so far and come back
_AIR_SPIKE = 60.0  # K, upwards only: an opened lid makes true dips
_WINDOW = 600.0  # s; excursions up to about this long are isolated
_MOST_SIDE = 300  # readings each side of the running median, to bound its cost on fast loggers
_GAP_TIMES, _GAP_LEAST = 5.0, 300.0  # a gap is longer than 5 usual intervals and than 5 min
_AIR_WORDS = frozenset(("pit", "air", "ambient", "outside", "chamber", "oven", "smoker", "grate"))


def read_column(
    table: Table, index: int, rows: npt.NDArray[np.intp], times: FloatArray
) -> tuple[FloatArray, list[Finding]]:
    """Read one column in order of time, in the unit of the file; no reading becomes NaN."""
    cells = [table.rows[row][index] for row in rows]
    name = table.names[index]
    values = np.array([to_number(cell, table.decimal) for cell in cells])
    blank = np.array([is_blank(cell) for cell in cells])
    findings: list[Finding] = []

    def report(mask: Mask, what: str) -> None:
        if mask.any():
            number = int(mask.sum())
            when = tuple(float(time) for time in times[mask])
            text = f"'{name}': {count_of(number, 'reading')} {what}, {at_times(when)}; marked missing"
            findings.append(Finding("mended", text, number, when))

    report(blank, "blank")
    odd = ~np.isfinite(values) & ~blank
    report(odd, f"not a number ('{cells[int(np.argmax(odd))]}')" if odd.any() else "")
    sentinel = np.isin(values, _SENTINELS)
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


def to_celsius(
    values: FloatArray, scale: str, name: str, times: FloatArray
) -> tuple[FloatArray, list[Finding]]:
    """Convert to °C and mark what no probe can read."""
    celsius = fahrenheit_to_celsius(values) if scale == "F" else values.copy()
    outside = np.isfinite(celsius) & ((celsius < READABLE[0]) | (celsius > READABLE[1]))
    if not outside.any():
        return celsius, []
    when = tuple(float(time) for time in times[outside])
    worst = float(celsius[outside][0])
    celsius[outside] = np.nan
    text = (
        f"'{name}': {count_of(len(when), 'reading')} such as {worst:.0f} °C, outside {READABLE[0]:.0f} to "
        f"{READABLE[1]:.0f} °C, {at_times(when)}; marked missing"
    )
    return celsius, [Finding("mended", text, len(when), when)]


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


def mark_spikes(name: str, times: FloatArray, values: FloatArray) -> tuple[FloatArray, list[Finding]]:
    """Mark isolated excursions as missing: a probe pulled out of the meat, a flash of a bad contact.

    A running median follows any slope and any lasting step, so what stands far from it is short-lived. Far
    means more than 8 K in meat, or six robust standard deviations of the series about its median where that
    is more.
    """
    finite = np.flatnonzero(np.isfinite(values))
    if finite.size < 5:
        return values, []
    known, when = values[finite], times[finite]
    spacing = float(np.median(np.diff(when)))
    side = int(np.clip(_WINDOW / max(spacing, 1e-9), 2, _MOST_SIDE))
    away = known - _running_median(known, side)
    noise = (
        6.0 * 1.4826 * float(np.median(np.abs(away)))
    )  # 1.4826: median deviation to standard deviation, normal law
    air = bool(set(name.split("_")) & _AIR_WORDS)
    findings: list[Finding] = []
    if air:
        dips = away < -max(_AIR_SPIKE / 3.0, noise)
        if dips.any():
            at = tuple(float(time) for time in when[dips])
            text = (
                f"'{name}': {count_of(len(at), 'reading')} in short dips (lid opened?), {at_times(at)}; kept"
            )
            findings.append(Finding("found", text, len(at), at))
        spikes = away > max(_AIR_SPIKE, noise)
    else:
        spikes = np.abs(away) > max(_MEAT_SPIKE, noise)
    if not spikes.any():
        return values, findings
    at = tuple(float(time) for time in when[spikes])
    result = values.copy()
    result[finite[spikes]] = np.nan
    cause = "bad contact?" if air else "probe pulled out?"
    text = f"'{name}': {count_of(len(at), 'reading')} in spikes ({cause}), {at_times(at)}; marked missing"
    findings.append(Finding("mended", text, len(at), at))
    return result, findings


def merge_doubles(
    times: FloatArray, columns: dict[str, FloatArray]
) -> tuple[FloatArray, dict[str, FloatArray], list[Finding]]:
    """Average rows of the same time, column by column over the readings there are."""
    unique, where = np.unique(times, return_inverse=True)
    if unique.size == times.size:
        return times, columns, []
    merged: dict[str, FloatArray] = {}
    widest = 0.0
    for name, values in columns.items():
        finite = np.isfinite(values)
        count = np.bincount(where[finite], minlength=unique.size)
        total = np.bincount(where[finite], weights=values[finite], minlength=unique.size)
        merged[name] = np.divide(total, count, out=np.full(unique.size, np.nan), where=count > 0)
        if finite.any():
            widest = max(widest, float(np.abs(values - merged[name][where])[finite].max()))
    rows = int(times.size - unique.size)
    at = tuple(float(time) for time in unique[np.bincount(where) > 1])
    same = "equal" if widest == 0.0 else f"up to {widest:.1f} K from their mean"
    text = f"{count_of(rows, 'row')} with the time of another ({same}), {at_times(at)}; averaged"
    return unique, merged, [Finding("mended", text, rows, at)]


def find_gaps(times: FloatArray, columns: dict[str, FloatArray]) -> list[Finding]:
    """Report gaps in the rows, and in single columns where they are longer than those."""
    findings: list[Finding] = []
    steps = np.diff(times)
    limit = max(_GAP_TIMES * float(np.median(steps)), _GAP_LEAST)
    wide = steps > limit
    if wide.any():
        at = tuple(float(time) for time in times[:-1][wide])
        longest = format_duration(float(steps.max()))
        text = f"{count_of(len(at), 'gap')} in the log, the longest {longest}, {at_times(at)}"
        findings.append(Finding("found", f"{text}; left to interpolation", len(at), at))
    for name, values in columns.items():
        seen = times[np.isfinite(values)]
        if seen.size < 2:
            continue
        own = np.diff(seen)
        holes = [
            i
            for i in np.flatnonzero(own > limit)
            if not np.any(wide & (times[:-1] == seen[i]) & (steps == own[i]))
        ]
        if holes:
            at = tuple(float(seen[i]) for i in holes)
            longest = format_duration(float(own[holes].max()))
            text = f"'{name}': {count_of(len(at), 'gap')}, the longest {longest}, {at_times(at)}"
            findings.append(Finding("found", f"{text}; left to interpolation", len(at), at))
    return findings
