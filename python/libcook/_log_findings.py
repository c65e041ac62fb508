"""What reading a log found, mended and ignored: nothing changes silently."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from libcook.units import format_duration

Action = Literal["found", "mended", "ignored"]


@dataclass(frozen=True)
class Finding:
    """One line of a log's summary.

    Attributes
    ----------
    action : {"found", "mended", "ignored"}
        Found: left as it is. Mended: changed, as the text says. Ignored: left out.
    text : str
        What and how often.
    count : int
        How many readings, rows, lines or columns it concerns.
    times : tuple of float
        When [s on the log's own time axis]; empty where time has no meaning.
    """

    action: Action
    text: str
    count: int = 1
    times: tuple[float, ...] = field(default=(), repr=False)

    def __str__(self) -> str:
        """Return the line as the summary shows it."""
        return f"{self.action}: {self.text}"


def at_times(times: Sequence[float], most: int = 3) -> str:
    """Say when, for the end of a finding's text: "at 1 h 10 min, 2 h 30 min and 4 more"."""
    shown = ", ".join(format_duration(float(time)) for time in times[:most])
    more = len(times) - most
    return f"at {shown}" + (f" and {more} more" if more > 0 else "")


def count_of(number: int, one: str, many: str = "") -> str:
    """Write "1 row", "3 rows"."""
    return f"{number} {one if number == 1 else many or one + 's'}"


__all__ = ["Action", "Finding", "at_times", "count_of"]
