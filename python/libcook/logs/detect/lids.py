"""Lids that were opened, and those opened to spritz.

Lid opened
    The pit falls by at least `LID_FALL` within `LID_FALL_TIME` (or from one reading to the next where those
    are further apart), by more than `LID_OVER_USUAL` times what it usually falls in that time, and gets half
    of it back within `LID_RECOVERY`. Not looked for where readings are more than `COARSEST` apart. Wind, fuel
    put on and a closed damper can look the same.

Spritzed
    A lid opened for a short time (half of the dip is back within `SPRITZ_LONGEST`), as one of at least
    `SPRITZ_LEAST` that follow one another evenly: `SPRITZ_EVERY` apart, each interval within `SPRITZ_EVEN` of
    their median. A look at the clock every hour looks the same: the trace shows the lid, not the bottle.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from libcook.logs.detect.traces import MINUTE, FloatArray, event_of, lowest_within
from libcook.logs.events import Event
from libcook.units import format_difference, format_duration

LID_FALL = 12.0  # K
LID_FALL_TIME = 3.0 * MINUTE
LID_OVER_USUAL = 2.3  # times the upper quartile of the falls of the whole log in LID_FALL_TIME
LID_RECOVERY = 45.0 * MINUTE
LID_LEVEL = 20.0 * MINUTE  # the level before a dip is the median over this time
COARSEST = 10.0 * MINUTE  # usual spacing of the readings
SPRITZ_LONGEST = 10.0 * MINUTE
SPRITZ_LEAST = 3
SPRITZ_EVERY = (20.0 * MINUTE, 120.0 * MINUTE)
SPRITZ_EVEN = 0.25


@dataclass(frozen=True)
class Dip:
    """A fall of the pit that comes back: last reading before it, how deep, and when half of it was back."""

    time: float
    depth: float
    back: float


def lid_dips(time: FloatArray, pit: FloatArray) -> list[Dip]:
    """Find the dips of an opened lid in the readings of a pit."""
    if time.size < 10 or float(np.median(np.diff(time))) > COARSEST:
        return []
    lowest = lowest_within(time, pit, LID_FALL_TIME)
    falls = pit - pit[lowest]
    gap = time[lowest] - time > max(COARSEST, LID_FALL_TIME)  # what happened in a gap is not known
    falls[gap] = 0.0
    limit = max(LID_FALL, LID_OVER_USUAL * float(np.quantile(falls, 0.75)))
    dips: list[Dip] = []
    i = 0
    while i < time.size - 1:
        if falls[i] < limit:
            i += 1
            continue
        while i + 1 < lowest[i] and falls[i + 1] >= falls[i]:  # from the last high reading
            i += 1
        before = pit[(time >= time[i] - LID_LEVEL) & (time <= time[i])]
        level = max(float(np.median(before)), float(pit[i]) - LID_FALL)
        bottom, end = int(lowest[i]), time[i] + LID_RECOVERY
        k = bottom
        while k < time.size and time[k] <= end:
            if pit[k] < pit[bottom]:
                bottom = k
            elif pit[k] >= 0.5 * (level + pit[bottom]):
                dips.append(Dip(float(time[i]), level - float(pit[bottom]), float(time[k])))
                break
            k += 1
        i = max(k if k < time.size and time[k] <= end else int(lowest[i]), i + 1)
    return [dip for dip in dips if dip.depth >= LID_FALL]


def lids_of(dips: Sequence[Dip], others: Sequence[Dip], units: str) -> list[Event]:
    """Tell a rhythm of short dips from single ones; `others` keep the rhythm but are no spritz."""
    short = sorted(
        [dip for dip in dips if dip.back - dip.time <= SPRITZ_LONGEST] + list(others),
        key=lambda dip: dip.time,
    )
    times = np.array([dip.time for dip in short])
    rhythm: set[float] = set()
    for i in range(times.size):
        for k in range(i + SPRITZ_LEAST, times.size + 1):
            steps = np.diff(times[i:k])
            middle = float(np.median(steps))
            if not SPRITZ_EVERY[0] <= middle <= SPRITZ_EVERY[1]:
                break
            if np.abs(steps - middle).max() > SPRITZ_EVEN * middle:
                break
            rhythm.update(times[i:k].tolist())
    events = []
    for dip in dips:
        half = format_duration(dip.back - dip.time)
        shown = f"the pit fell {format_difference(dip.depth, units, 0)}, half of it was back after {half}"
        if dip.time in rhythm:
            events.append(event_of("spritzed", dip.time, f"{shown}; one of an even series; check"))
        else:
            events.append(event_of("lid opened", dip.time, f"{shown}; check"))
    return events
