"""The safety panel: what was computed, the limit, and the regulator whose limit it is.

The numbers come from `Outcome.safety`, which names its sources; none of them is a permission to serve.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from libcook._core import format_degrees
from libcook.units import format_duration, format_temperature
from libcook.words.ranges import join

LOCAL = "Local rules may be stricter than these limits."
HOT, MIDDLE, COLD = 57.0, 21.0, 5.0  # °C, as FDA Food Code 3-501.14 and 3-501.16 print them
WARM_FROM, WARM_TO = 10.0, 54.4  # °C: 50 and 130 °F
WARM_LIMIT, FIRST_LIMIT, WHOLE_LIMIT = 6, 2, 6  # h
FSIS = "USDA FSIS cooking guideline, Appendix A"
FDA_HOLD, FDA_COOL = "FDA Food Code 3-501.16", "FDA Food Code 3-501.14"


class SafetyRow(NamedTuple):
    """One line of the panel."""

    what: str
    computed: str
    limit: str
    source: str

    def __str__(self) -> str:
        """Write it in a line."""
        return f"{self.what}: {self.computed}; limit {self.limit} ({self.source})"


def safety_rows(outcome: Any, units: str = "C") -> list[SafetyRow]:
    """Read the panel off an outcome.

    Parameters
    ----------
    outcome : Outcome
        A simulated cook.
    units : str
        ``"C"``, ``"F"`` or ``"both"``.

    Returns
    -------
    list of SafetyRow
        Lethality, warming, danger zone, hot holding and the two steps of cooling.
    """
    safety = outcome.safety()
    return warming_rows(safety, units) + _cooling(outcome, safety, _limits(units))


def _limits(units: str) -> dict[float, str]:
    """Write every limit in one scale or in both."""
    if units == "both":
        return {t: format_degrees(t) for t in (HOT, MIDDLE, COLD, WARM_FROM, WARM_TO)}
    rounded = {t: format_temperature(t, units, 0) for t in (HOT, MIDDLE, COLD, WARM_FROM)}
    return {**rounded, WARM_TO: format_temperature(WARM_TO, units, 1 if units == "C" else 0)}


def warming_rows(safety: Any, units: str) -> list[SafetyRow]:
    """Read lethality and the times of warming off a `Safety`."""
    degrees = _limits(units)
    passed, come_up = safety.lethality_at, safety.come_up
    return [
        SafetyRow(
            "kill at the slowest place",
            f"only {float(safety.log_reduction):.1f} log by the end"
            if passed is None
            else f"6.5 log after {format_duration(float(passed))}",
            "6.5 log of Salmonella",
            f"{FSIS}; its humidity is not checked",
        ),
        SafetyRow(
            f"warming, coldest part {join(degrees[WARM_FROM], degrees[WARM_TO])}",
            "not within the plan" if come_up is None else format_duration(float(come_up)),
            f"{WARM_LIMIT} h",
            f"{FSIS}, from memory",
        ),
        SafetyRow(
            f"danger zone, {join(degrees[COLD], degrees[HOT])}, warming",
            f"core {format_duration(float(safety.core_danger_time))}, "
            f"surface {format_duration(float(safety.surface_danger_time))}",
            "keep it short",
            FDA_HOLD,
        ),
    ]


def _cooling(outcome: Any, safety: Any, degrees: dict[float, str]) -> list[SafetyRow]:
    start, end = safety.cooling_start, float(outcome.time[-1])
    hot = degrees[HOT]
    if start is None:
        reached = float(max(outcome.core)) >= HOT
        held = "to the end of the plan" if reached else f"the core never reaches {hot}"
        limit = f"{FIRST_LIMIT} h to {degrees[MIDDLE]}, {WHOLE_LIMIT} h in all to {degrees[COLD]}"
        steps = [SafetyRow(f"cooling from {hot}", "not begun within the plan", limit, FDA_COOL)]
    else:
        held = f"until {format_duration(float(start))}"
        steps = []
        for level, limit in ((MIDDLE, f"{FIRST_LIMIT} h"), (COLD, f"{WHOLE_LIMIT} h in all")):
            at = outcome.falls_to(level)
            spent = format_duration((end if at is None else float(at)) - float(start))
            took = f"not within {spent}; there the plan ends" if at is None else spent
            steps.append(SafetyRow(f"cooling {join(hot, degrees[level])}", took, limit, FDA_COOL))
    return [SafetyRow("hot holding, core", held, f"{hot} or above", FDA_HOLD), *steps]
