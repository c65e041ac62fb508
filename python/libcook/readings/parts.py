"""What an outcome lists: where stages ended, and what probes read."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
import numpy.typing as npt

from libcook._core import format_degrees, format_duration
from libcook.arguments.door import door

FloatArray = npt.NDArray[np.float64]


class _NameTimeCore(NamedTuple):
    name: str
    time: float
    core: float


class StageEnd(_NameTimeCore):
    """Where a stage ended: unpacks to (name, time, core).

    Attributes
    ----------
    name : str
        Of the stage.
    time : float
        When it ended [s].
    core : float
        Core temperature then [°C].
    start : float
        When it began [s].
    reason : str
        Which end condition was met, in words.
    """

    start: float
    reason: str

    @door
    def __new__(cls, name: str, time: float, core: float, start: float, reason: str) -> StageEnd:
        """Make the tuple and its two further attributes."""
        made = super().__new__(cls, name, time, core)
        made.start = start
        made.reason = reason
        return made

    def __repr__(self) -> str:
        """Say when it ended, at what core, and why."""
        core, end = format_degrees(self.core), format_duration(self.time)
        return f"StageEnd({self.name}: until {end}, core {core}: {self.reason})"

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle all five."""
        return StageEnd, (*self, self.start, self.reason)


class _ProbeTrace(NamedTuple):
    name: str
    x: float
    z: float
    temperature: FloatArray
    tenderness: FloatArray


class ProbeTrace(_ProbeTrace):
    """What a probe read.

    Attributes
    ----------
    name : str
        Of the probe.
    x, z : float
        Its tip's distance from the flat end and height above the bottom face [m].
    temperature : numpy.ndarray
        What it reads [°C], shape (times,).
    tenderness : numpy.ndarray
        Share of the collagen converted there [-], shape (times,).
    """

    @door
    def __new__(
        cls, name: str, x: float, z: float, temperature: npt.ArrayLike, tenderness: npt.ArrayLike
    ) -> ProbeTrace:
        """Make the tuple."""
        return super().__new__(cls, name, x, z, np.asarray(temperature), np.asarray(tenderness))
