"""Which rows of a log too long to read one by one are kept: a month of one reading a second is millions.

The rows are taken `every` so many together. Of each such run are kept the first and the last row, and for
each column of numbers the rows with its lowest and its highest reading. So the shape stays to within a run,
and the extremes stay exactly. Every row with a note is kept besides. A log of up to `MOST_ROWS` rows stays
whole.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np
import numpy.typing as npt

from libcook.logs.reading.numbers import SENTINELS

FloatArray = npt.NDArray[np.float64]
Places = npt.NDArray[np.intp]

MOST_ROWS = 100_000  # more than a day of a reading a second
KEPT_ROWS = 50_000  # about so many are kept of more than that, besides those with notes
_READABLE = (-40.0, 1112.0)  # °C or °F, whichever: beyond it, it is no reading of a probe, but a stand-in


def run_length(rows: int, columns: int) -> int:
    """Return how many rows are taken together, where so many rows with so many columns of numbers come."""
    return max(2, math.ceil(rows * (2 + 2 * max(columns, 1)) / KEPT_ROWS))


def kept_places(columns: Sequence[FloatArray], size: int, every: int) -> Places:
    """Return the places of the rows that are kept, in order.

    Parameters
    ----------
    columns : sequence of numpy.ndarray
        Columns of numbers, shape (size,), NaN where there is none.
    size : int
        Number of rows.
    every : int
        How many rows are taken together; the last run may be shorter.
    """
    starts = np.arange(0, size, every, dtype=np.intp)
    found = [starts, np.minimum(starts + every, size) - 1]
    for values in columns:
        found += [_extremes(values, every, sign) for sign in (1.0, -1.0)]
    places: Places = np.unique(np.concatenate(found))
    return places


def thinned(
    time: FloatArray, columns: Mapping[str, FloatArray]
) -> tuple[FloatArray, Mapping[str, FloatArray]]:
    """Return times and columns of a log, thinned where there are more than `MOST_ROWS`."""
    if time.size <= MOST_ROWS:
        return time, columns
    kept = kept_places(list(columns.values()), time.size, run_length(time.size, len(columns)))
    return time[kept], {name: values[kept] for name, values in columns.items()}


def _extremes(values: FloatArray, every: int, sign: float) -> Places:
    """Return where each run is lowest, or with the other sign highest; nothing for runs without a reading."""
    low, high = _READABLE
    with np.errstate(invalid="ignore"):
        read = (values >= low) & (values <= high) & ~np.isin(values, SENTINELS)
    padded = np.full(-(-values.size // every) * every, np.inf)
    padded[: values.size] = np.where(read, sign * values, np.inf)
    runs = padded.reshape(-1, every)
    at = runs.argmin(axis=1)
    places = np.arange(runs.shape[0]) * every + at
    found: Places = places[np.isfinite(padded[places])]
    return found
