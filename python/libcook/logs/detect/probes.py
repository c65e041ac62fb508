"""Probes that were pulled out of the meat.

Probe pulled
    A reading of meat jumps by at least `PROBE_JUMP` within `PROBE_TIME`, or from one reading to the next;
    meat cannot. Readings that were marked as spikes count as well.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from libcook.arguments.quote import quoted
from libcook.logs.detect.traces import HOUR, MINUTE, FloatArray, event_of, lowest_within, series
from libcook.logs.events import Event
from libcook.logs.findings import Finding, Rows
from libcook.logs.reading.cleaning import is_air, mark_spikes
from libcook.units import format_difference, format_duration

PROBE_JUMP = 8.0  # K
FEWEST = 4  # readings, of which one could stand out
PROBE_TIME = 3.0 * MINUTE
PROBE_TOGETHER = HOUR  # jumps closer than this, out and back in, are one event
PROBE_AROUND = (10.0 * MINUTE, 40.0 * MINUTE)  # before and after; not the meat's temperature


def meat_only(time: FloatArray, values: FloatArray, probes: Sequence[Event]) -> tuple[FloatArray, FloatArray]:
    """Leave out what a probe shows around its way out and in: it is not the meat."""
    kept = np.ones(time.size, dtype=bool)
    for event in probes:
        kept &= (time < event.time - PROBE_AROUND[0]) | (time > event.time + PROBE_AROUND[1])
    return time[kept], values[kept]


def find_probes_pulled(
    time: FloatArray, columns: Mapping[str, FloatArray], summary: Sequence[Finding], units: str
) -> list[Event]:
    """Find jumps that meat cannot make, in each column that is not of air."""
    events: list[Event] = []
    rows = Rows(time, np.zeros(time.size, dtype=np.int64))
    for name, values in columns.items():
        if is_air(name) or "surface" in name.split("_"):
            continue
        clean, found = mark_spikes(name, rows, values)
        spikes = [f for f in [*found, *summary] if f.kind == "spike" and f.column == name]
        marks = {when: "a spike" for finding in spikes for when in finding.times}
        when, kept = series(time, {name: clean}, name)
        steps = np.diff(when)
        for sign in (-1.0, 1.0):
            if kept.size < FEWEST:
                break
            to = lowest_within(when, -sign * kept, PROBE_TIME)
            jumps = sign * (kept[to] - kept)
            limit = max(PROBE_TIME, 2.0 * float(np.median(steps)))
            for i in np.flatnonzero((jumps >= PROBE_JUMP) & (when[to] - when <= limit)):
                # a slope of a thin cut over coarse readings is no jump: it goes on before and after
                if when[to[i]] - when[i] > PROBE_TIME and not _stands_out(kept, int(i), int(to[i]), sign):
                    continue
                size, word = format_difference(jumps[i], units, 0), "fell" if sign < 0.0 else "rose"
                text = f"{word} {size} in {format_duration(when[to[i]] - when[i])}"
                marks.setdefault(float(when[i]), text)
        last = -np.inf
        for moment in sorted(marks):
            if moment - last > PROBE_TOGETHER:
                events.append(event_of("probe pulled", moment, f"{quoted(name)}: {marks[moment]}; check"))
            last = moment
    return events


def _stands_out(values: FloatArray, i: int, j: int, sign: float) -> bool:
    near = [abs(values[k + 1] - values[k]) for k in (i - 1, j) if 0 <= k < values.size - 1]
    return all(sign * (values[j] - values[i]) > 2.0 * step + PROBE_JUMP / 2.0 for step in near)
