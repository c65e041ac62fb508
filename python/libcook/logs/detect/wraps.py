"""When the meat was wrapped.

Wrapped
    At an opened lid with the core within `WRAP_CORE`, the core's course bends upwards: two straight lines
    that meet within `WRAP_BEND` of the lid fit the time around it (`WRAP_WINDOW`) at least `WRAP_SHARP` times
    better than a parabola, and the second is steeper by `WRAP_RISE` and `WRAP_TIMES` as steep, beyond what
    the pit's own change explains. The sharpest bend of the log, at the lid nearest to it. The natural end of
    a stall bends gently, but a fire that was stirred up at an opened lid can look the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from libcook.logs.detect.lids import Dip
from libcook.logs.detect.traces import HOUR, MINUTE, FloatArray, Trace, event_of, middle_of
from libcook.logs.events import Event
from libcook.units import format_difference

WRAP_CORE = (45.0, 92.0)  # °C
WRAP_WINDOW = (75.0 * MINUTE, 90.0 * MINUTE)  # before and after the lid
WRAP_BEND = (-20.0 * MINUTE, 30.0 * MINUTE)  # from the lid to the bend
WRAP_LAG = 5.0 * MINUTE  # usual time from the lid to the bend
WRAP_SIDE = 25.0 * MINUTE  # of readings each side of the bend, at least
WRAP_SHARP = 1.5  # ratio of the sums of squares
WRAP_RISE = 2.0 / HOUR  # K/s
WRAP_TIMES = 1.5


def _left_over(columns: Sequence[FloatArray], values: FloatArray) -> tuple[float, FloatArray]:
    """Sum of squares that a least-squares fit leaves, and its coefficients."""
    matrix = np.column_stack(columns)
    fit: FloatArray = np.asarray(np.linalg.lstsq(matrix, values, rcond=None)[0])
    return float(np.sum((values - matrix @ fit) ** 2)), fit


@dataclass(frozen=True)
class Bend:
    """Two straight lines that meet: when, their slopes [K/s], how much better than a parabola."""

    time: float
    before: float
    after: float
    sharp: float


def find_bend(time: FloatArray, values: FloatArray, lid: float) -> Bend | None:
    """Fit two straight lines that meet near an opened lid to a core; None where readings are too few."""
    inside = (time >= lid - WRAP_WINDOW[0]) & (time <= lid + WRAP_WINDOW[1])
    when, kept = time[inside], values[inside]
    low = max(WRAP_BEND[0], when[0] - lid + WRAP_SIDE) if when.size else np.inf
    high = min(WRAP_BEND[1], when[-1] - lid - WRAP_SIDE) if when.size else -np.inf
    if when.size < 12 or high <= low:
        return None
    x = (when - lid) / HOUR
    one = np.ones_like(x)
    curved = _left_over((one, x, x * x), kept)[0]
    best: tuple[float, float, FloatArray] | None = None
    for at in np.arange(low, high + 1.0, 3.0 * MINUTE):
        left, fit = _left_over((one, x, np.maximum(x - at / HOUR, 0.0)), kept)
        if best is None or left < best[0]:
            best = (left, float(at), fit)
    if best is None:
        return None
    left, at, fit = best
    before, gain = float(fit[1]) / HOUR, float(fit[2]) / HOUR
    return Bend(lid + at, before, before + gain, curved / max(left, 1e-9))


def find_wrapped(
    pit: Trace,
    core: Trace,
    dips: Sequence[Dip],
    pulled: Sequence[Event],
    units: str,
) -> list[Event]:
    """Find the sharpest bend of the core at an opened lid."""
    when, values = core
    kept = when <= min((event.time for event in pulled), default=np.inf)
    when, values = when[kept], values[kept]
    best: Bend | None = None
    for dip in dips:
        here = middle_of(when, values, dip.time - 10.0 * MINUTE, dip.time + 10.0 * MINUTE)
        if not WRAP_CORE[0] <= here <= WRAP_CORE[1]:
            continue
        bend = find_bend(when, values, dip.time)
        if bend is None or bend.sharp < max(WRAP_SHARP, best.sharp if best else 0.0):
            continue
        pit_before = middle_of(*pit, bend.time - HOUR, bend.time - 10.0 * MINUTE) - here
        pit_after = middle_of(*pit, bend.time + 20.0 * MINUTE, bend.time + 1.5 * HOUR) - here
        share = max(1.0, pit_after / pit_before) if pit_before > 5.0 and pit_after > 5.0 else 1.0
        explained = max(bend.before, 0.0) * share
        if bend.after >= max(explained + WRAP_RISE, WRAP_TIMES * explained):
            best = bend
    if best is None:
        return []
    lid = min(dips, key=lambda dip: abs(dip.time + WRAP_LAG - best.time))
    slow, fast = (
        format_difference(rate * HOUR, units).replace("-", "−") for rate in (best.before, best.after)
    )
    note = f"lid opened, then the core rose faster, from {slow} to {fast} an hour; check"
    return [event_of("wrapped", lid.time, note)]
