"""What reading a log found, mended and ignored: nothing changes silently."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, Literal, get_args

import numpy as np
import numpy.typing as npt

from libcook.arguments.plain import choice, count, row, text
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.units import format_duration

FloatArray = npt.NDArray[np.float64]
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
    lines : tuple of int
        Where in the file: line numbers from 1 (rows of a Parquet file); empty where it concerns the whole.
    kind : str
        A word for programs, such as ``"spike"``, ``"gap"`` or ``"clock back"``; may be empty.
    column : str
        The column that it concerns; empty where it is none in particular.
    """

    action: Action
    text: str
    count: int = 1
    times: tuple[float, ...] = field(default=(), repr=False)
    lines: tuple[int, ...] = field(default=(), repr=False)
    kind: str = field(default="", repr=False)
    column: str = field(default="", repr=False)

    def __post_init__(self) -> None:
        """Check what came."""
        choice(self.action, get_args(Action), "finding.action")
        for name in ("text", "kind", "column"):
            object.__setattr__(self, name, text(getattr(self, name), f"finding.{name}"))
        object.__setattr__(self, "count", count(self.count, "finding.count"))
        for name, kind in (("times", float), ("lines", int)):
            found = row(getattr(self, name), f"finding.{name}")
            if not np.isfinite(found).all():
                came = f"{quoted(getattr(self, name))} came"
                raise invalid(f"finding.{name}", getattr(self, name), came, "finite numbers are accepted")
            object.__setattr__(self, name, tuple(map(kind, found.tolist())))

    def __str__(self) -> str:
        """Return the line as the summary shows it."""
        where = f" ({line_list(self.lines)})" if self.lines else ""
        return f"{self.action}: {self.text}{where}"


@dataclass(frozen=True)
class Rows:
    """The rows of a log in order of time: when each was, and in which line of the file it stands."""

    times: FloatArray
    lines: npt.NDArray[np.int64]

    def at(self, which: Any) -> dict[str, Any]:
        """Return ``times`` and ``lines`` of a `Finding` for a mask or list of rows."""
        times = tuple(float(time) for time in self.times[which])
        return {"times": times, "lines": tuple(int(line) for line in self.lines[which])}


def at_times(times: Sequence[float], most: int = 3) -> str:
    """Say when, for the end of a finding's text: "at 1 h 10 min, 2 h 30 min and 4 more"."""
    shown = ", ".join(format_duration(float(time)) for time in times[:most])
    more = len(times) - most
    return f"at {shown}" + (f" and {more} more" if more > 0 else "")


def line_list(lines: Sequence[int], most: int = 3) -> str:
    """Write "line 7", "lines 3 to 9, 12" or "lines 3, 5, 8 and 4 more"."""
    numbers = sorted(set(lines))
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    shown = ", ".join(str(low) if low == high else f"{low} to {high}" for low, high in runs[:most])
    more = sum(high - low + 1 for low, high in runs[most:])
    word = "line" if len(numbers) == 1 else "lines"
    return f"{word} {shown}" + (f" and {more} more" if more else "")


def count_of(number: int, one: str, many: str = "") -> str:
    """Write "1 row", "3 rows"."""
    return f"{number} {one if number == 1 else many or one + 's'}"


__all__ = ["Action", "Finding", "Rows", "at_times", "count_of", "line_list"]
