"""The facts of the safety panel: what was computed, the limit, and the regulator whose limit it is.

The numbers come from `Outcome.safety`, the limits from the rows ``safety.*`` of the table of parameters; none
of them is a permission to serve.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import Any, NamedTuple

from libcook import _core
from libcook.readings.readable import Readable

HOUR = 3600.0  # s
FSIS = "USDA FSIS cooking guideline, Appendix A"
FDA_HOLD, FDA_COOL = "FDA Food Code 3-501.16", "FDA Food Code 3-501.14"


class Limits(NamedTuple):
    """Limits of the rules: °C, h and decimal reductions."""

    hot_holding: float
    cold_holding: float
    cooling_middle: float
    first_cooling: float
    whole_cooling: float
    come_up_from: float
    come_up_to: float
    come_up_limit: float
    reductions: float


@functools.cache
def limits() -> Limits:
    """Read the limits from the table of parameters."""
    names = [*(f"safety.{name}" for name in Limits._fields[:-1]), "lethality.log_low"]
    return Limits(*(_core.parameter(name).value for name in names))


class CoolingStep(NamedTuple):
    """A step of cooling, from hot holding on."""

    to: float  # [°C]
    limit: float  # [h]
    spent: float  # until it is there, or until the plan ends [s]
    reached: bool


@dataclass(frozen=True)
class SafetyFacts:
    """What was computed for the rules; times in s."""

    killed_at: float | None  # when the slowest place has the reductions asked for
    reductions: float  # decimal, of Salmonella, at the end
    come_up: float | None  # of the coldest part
    core_danger: float
    surface_danger: float
    cooling_from: float | None  # when the core falls through the limit of hot holding
    gets_hot: bool  # the core was ever at that limit
    cooling: tuple[CoolingStep, ...]
    warnings: tuple[str, ...]
    caution: str


def read_safety(safety: Any, outcome: Readable | None = None) -> SafetyFacts:
    """Read the facts off a `Safety`, and the steps of cooling off its outcome."""
    rule, start = limits(), safety.cooling_start
    steps: list[CoolingStep] = []
    if outcome is not None and start is not None:
        levels = (rule.cooling_middle, rule.first_cooling), (rule.cold_holding, rule.whole_cooling)
        for level, limit in levels:
            at = outcome.falls_to(level)
            spent = float(outcome.time[-1] if at is None else at) - float(start)
            steps.append(CoolingStep(level, limit, spent, at is not None))
    return SafetyFacts(
        killed_at=safety.lethality_at,
        reductions=float(safety.log_reduction),
        come_up=safety.come_up,
        core_danger=float(safety.core_danger_time),
        surface_danger=float(safety.surface_danger_time),
        cooling_from=None if start is None else float(start),
        gets_hot=outcome is None or float(max(outcome.core)) >= rule.hot_holding,
        cooling=tuple(steps),
        warnings=tuple(map(str, safety.warnings)),
        caution=str(safety.caution),
    )
