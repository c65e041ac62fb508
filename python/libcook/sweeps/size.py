"""How large a sweep is, before any work: too large a one is refused with the size that it would have."""

from __future__ import annotations

import math
import os
from collections.abc import Iterable, Sequence
from typing import Any

from libcook.arguments.plain import items
from libcook.errors import InvalidInput, invalid
from libcook.units import format_duration

LARGEST = 100_000_000  # cooks
_MOST_VALUES = 1_000_000  # of what does not say how many there are
# Cooks a second on one core with all readings, rounded down: README.md, Speed, on the machine named there;
# the whole piece takes 2.6 times as long as the slab.
_A_SECOND = {"piece": 1500.0, "slab": 4000.0, "cross-section": 12.0}
_BESIDE = 72.0  # bytes of a cook beside its readings: why it failed, and its place


class Size:
    """What a cook of a sweep costs.

    Parameters
    ----------
    numbers : int
        How many numbers are kept of each cook.
    grid : str
        What its equations are solved on.
    load : bool
        Whether the result has to fit into memory.
    """

    def __init__(self, numbers: int, grid: str, load: bool) -> None:
        self._bytes = 8.0 * numbers + _BESIDE
        self._rate = _A_SECOND[grid] * (os.cpu_count() or 1)
        self._load = load

    def check(self, shape: Sequence[int], field: str = "parameters") -> None:
        """Refuse a sweep of too many cooks, or one whose result would not fit into this machine's memory."""
        cooks = math.prod(shape)
        room = _memory()
        if cooks <= LARGEST and not (self._load and room and cooks * self._bytes > room):
            return
        raise self._refused(shape, field, cooks, room)

    def _refused(self, shape: Sequence[int], field: str, cooks: int, room: float) -> InvalidInput:
        axes = f" ({' x '.join(f'{length:,}' for length in shape)})" if len(shape) > 1 else ""
        needed = cooks * self._bytes / 1e9
        came = f"{_shown(cooks)} cooks{axes} came, some {_shown(needed)} GB of results and "
        came += f"{_duration(cooks / self._rate)} of work for the {os.cpu_count() or 1} cores of this machine"
        if cooks > LARGEST:
            return invalid(
                field, shape, came, f"up to {LARGEST:,} cooks are accepted", "libcook.sample({...}, n=...)"
            )
        accepted = f"what fits into {room / 1e9:,.0f} GB of memory is accepted"
        return invalid(field, shape, came, accepted, "to='folder' with load=False")


def _shown(number: float) -> str:
    return f"{number:,.0f}" if number < 1e15 else f"{number:.0e}"


def _duration(seconds: float) -> str:
    years = seconds / (365.25 * 86400.0)
    return f"{_shown(years)} years" if years > 2.0 else format_duration(seconds)


def _memory() -> float:
    """Return the memory of this machine [bytes]; 0 where it does not say."""
    try:
        return float(os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES"))
    except (AttributeError, ValueError, OSError):
        return 0.0


def length_of(values: Any) -> int | None:
    """Return how many values there are, where they say so without being counted."""
    try:
        return len(values)
    except TypeError:
        return None


def list_values(values: Iterable[Any], field: str) -> list[Any]:
    """List values; refuses those that go on for ever."""
    if length_of(values) is None:
        taken = _first(values, _MOST_VALUES + 1)
        if len(taken) > _MOST_VALUES:
            came = f"more than {_MOST_VALUES:,} values came"
            raise invalid(field, values, came, "a list of fewer is accepted")
        return taken
    return items(values, field, "a list is accepted")


def _first(values: Iterable[Any], count: int) -> list[Any]:
    return [value for value, _ in zip(values, range(count), strict=False)]
