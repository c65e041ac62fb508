"""When the meat was taken off.

Pulled
    The pit falls by at least `PULL_FALL` and stays there to the end, with the core above `PULL_CORE`: the
    meat was taken off, or the fire went out. Or the pit stays hot and the core, above `PULL_CORE`, turns and
    falls by `PULL_TURN`: it was taken off shortly before.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from libcook.logs.detect.lids import Dip
from libcook.logs.detect.probes import PROBE_TOGETHER
from libcook.logs.detect.traces import HOUR, MINUTE, FloatArray, Trace, event_of
from libcook.logs.events import Event
from libcook.units import format_difference, format_temperature

PULL_FALL = 40.0  # K
PULL_LEAST = 10.0 * MINUTE  # of readings after it
PULL_CORE = 65.0  # °C
PULL_TURN = 2.0  # K
PULL_HOT = 5.0  # K; a pit this much hotter than the core is hot
PULL_LOOK_BACK = 2.0 * HOUR  # before the peak of the core, for the lid


def find_pulled(
    pit: Trace,
    core: Trace,
    dips: Sequence[Dip],
    probes: Sequence[Event],
    units: str,
) -> list[Event]:
    """Find when the meat was taken off, from a pit or a core that falls for good."""
    when, values = core
    if when.size < 10:
        return []
    time, air = pit
    if time.size >= 10:
        later = np.maximum.accumulate(air[::-1])[::-1]  # the hottest that is still to come
        start_of = np.searchsorted(time, time - HOUR)
        level = np.array([float(np.median(air[start_of[i] : i + 1])) for i in range(time.size)])
        gone = np.flatnonzero((later < level - PULL_FALL) & (time[-1] - time >= PULL_LEAST))
        for i in gone:
            if np.interp(time[i], when, values) < PULL_CORE:
                continue
            start = int(i)
            while start > 0 and air[start - 1] > air[start] and time[i] - time[start - 1] < HOUR:
                start -= 1
            fell = format_difference(level[i] - later[i], units, 0)
            said = f"the pit fell {fell} and stayed there, or the fire went out; check"
            return [event_of("pulled", float(time[start]), said)]
    smooth = _smooth(when, values)
    peak = int(np.argmax(smooth))
    turned = smooth[peak] - smooth[-1] >= PULL_TURN
    if smooth[peak] < PULL_CORE or not turned or when[-1] - when[peak] < PULL_LEAST:
        return []
    if any(event.time >= when[peak] - PROBE_TOGETHER for event in probes):
        return []
    after = air[time >= when[peak]]
    if after.size == 0 or float(np.median(after)) < smooth[peak] + PULL_HOT:
        return []
    near = [dip.time for dip in dips if when[peak] - PULL_LOOK_BACK <= dip.time <= when[peak]]
    text = f"the core turned at {format_temperature(smooth[peak], units, 0)} while the pit stayed hot"
    said = "the lid opened before it" if near else "pulled at this time at the latest"
    return [event_of("pulled", near[-1] if near else float(when[peak]), f"{text}; {said}; check")]


def _smooth(time: FloatArray, values: FloatArray) -> FloatArray:
    """Mean over ten minutes around each reading."""
    total = np.concatenate([[0.0], np.cumsum(values)])
    low = np.searchsorted(time, time - 5.0 * MINUTE)
    high = np.searchsorted(time, time + 5.0 * MINUTE, side="right")
    result: FloatArray = (total[high] - total[low]) / (high - low)
    return result
