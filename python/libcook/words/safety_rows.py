"""The safety panel: what was computed, the limit, and the regulator whose limit it is, in words."""

from __future__ import annotations

from typing import Any, NamedTuple

from libcook.readings.safety import FDA_COOL, FDA_HOLD, FSIS, SafetyFacts, limits, read_safety
from libcook.units import format_duration
from libcook.words.two_scales import Scale, join, moment

LOCAL = "Local rules may be stricter than these limits."


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
    facts, scale = read_safety(outcome.safety(), outcome), Scale(units)
    return warming_rows(facts, scale) + _cooling(facts, scale)


def warming_rows(facts: SafetyFacts, scale: Scale) -> list[SafetyRow]:
    """Write lethality and the times of warming."""
    rule = limits()
    warm = join(scale.limit(rule.come_up_from), scale.limit(rule.come_up_to))
    danger = join(scale.limit(rule.cold_holding), scale.limit(rule.hot_holding))
    wanted = f"{rule.reductions:g} log"
    return [
        SafetyRow(
            "kill at the slowest place",
            f"only {facts.reductions:.1f} log by the end"
            if facts.killed_at is None
            else f"{wanted} after {format_duration(facts.killed_at)}",
            f"{wanted} of Salmonella",
            f"{FSIS}; its humidity is not checked",
        ),
        SafetyRow(
            f"warming, coldest part {warm}",
            moment(facts.come_up, never="not within the plan"),
            f"{rule.come_up_limit:g} h",
            f"{FSIS}, from memory",
        ),
        SafetyRow(
            f"danger zone, {danger}, warming",
            f"core {format_duration(facts.core_danger)}, surface {format_duration(facts.surface_danger)}",
            "keep it short",
            FDA_HOLD,
        ),
    ]


def _cooling(facts: SafetyFacts, scale: Scale) -> list[SafetyRow]:
    rule = limits()
    hot, middle, cold = (scale.limit(t) for t in (rule.hot_holding, rule.cooling_middle, rule.cold_holding))
    first, whole = f"{rule.first_cooling:g} h", f"{rule.whole_cooling:g} h in all"
    if facts.cooling_from is None:
        held = "to the end of the plan" if facts.gets_hot else f"the core never reaches {hot}"
        limit = f"{first} to {middle}, {whole} to {cold}"
        steps = [SafetyRow(f"cooling from {hot}", "not begun within the plan", limit, FDA_COOL)]
    else:
        held = f"until {format_duration(facts.cooling_from)}"
        steps = [
            SafetyRow(
                f"cooling {join(hot, scale.limit(step.to))}",
                format_duration(step.spent)
                if step.reached
                else f"not within {format_duration(step.spent)}; there the plan ends",
                limit,
                FDA_COOL,
            )
            for step, limit in zip(facts.cooling, (first, whole), strict=True)
        ]
    return [SafetyRow("hot holding, core", held, f"{hot} or above", FDA_HOLD), *steps]
