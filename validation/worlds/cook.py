"""What a world hands out: what the user would know of a cook, and when it was truly done."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

Array = np.ndarray[Any, np.dtype[np.float64]]


@dataclass(frozen=True)
class Wrap:
    """One wrapping: at which displayed core (None: the user only knows the time), when [s], in what."""

    core_C: float | None
    at: float
    kind: str  # "butcher paper" or "foil"


@dataclass(frozen=True, eq=False)
class Cook:
    """One cook; times in s since the meat was put on, temperatures in °C."""

    cut: str  # "brisket" (whole) or "pork" (shoulder)
    mass_kg: float
    start_C: float  # what the user says
    cooker: str  # drum, offset, kettle, ceramic, cabinet or oven
    pit_time: Array
    pit_C: Array  # what the user's pit thermometer shows
    wraps: tuple[Wrap, ...]
    core_time: Array
    core_C: Array  # what the core thermometer shows
    target_C: float
    done: float  # s: when the display, but for its noise, reaches the target and stays there
