"""What the search for events asks of traces: one column, the lowest soon after, the middle of a span."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import numpy.typing as npt

from libcook.logs.events import Event

FloatArray = npt.NDArray[np.float64]
Trace = tuple[FloatArray, FloatArray]  # times [s] and temperatures [°C] of one column

MINUTE, HOUR = 60.0, 3600.0
FINEST = 10.0  # s; faster readings are thinned out


def series(time: FloatArray, columns: Mapping[str, FloatArray], name: str) -> Trace:
    """Return the readings of one column, without missing ones and no finer than `FINEST`."""
    values = columns.get(name, np.empty(0))
    if values.size == 0:
        return np.empty(0), np.empty(0)
    seen = np.flatnonzero(np.isfinite(values))
    if seen.size > 1:
        seen = seen[:: max(1, int(FINEST / float(np.median(np.diff(time[seen])))))]
    return time[seen], values[seen]


def event_of(kind: str, time: float, note: str) -> Event:
    """Make a proposed event."""
    return Event(kind, time, "proposed", note)


def lowest_within(time: FloatArray, values: FloatArray, span: float) -> npt.NDArray[np.intp]:
    """For each reading the place of the lowest one of the next `span` [s], at least of the next one."""
    last = np.maximum(np.searchsorted(time, time + span + 1e-6, side="right"), np.arange(time.size) + 2)
    return np.array([i + int(np.argmin(values[i : last[i]])) for i in range(time.size)], dtype=np.intp)


def middle_of(time: FloatArray, values: FloatArray, low: float, high: float) -> float:
    """Return the median of the readings between two times; NaN where there is none."""
    inside = values[(time >= low) & (time <= high)]
    return float(np.median(inside)) if inside.size else float("nan")
