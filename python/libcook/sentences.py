"""A cook in four plain sentences, each computed from the outcome."""

from __future__ import annotations

import numpy as np

from libcook._facts import Facts, loss_words, read_facts
from libcook._readable import Readable, faces
from libcook.units import (
    celsius_to_fahrenheit,
    format_clock,
    format_duration,
    format_mass,
    format_temperature,
    temperature_unit,
)

__all__ = ["sentences"]


def sentences(outcome: Readable, units: str = "C", hold: float = 60.0) -> list[str]:
    """Say in four sentences when the cook ends, why it stalls, what the rest does, and what is lost.

    Parameters
    ----------
    outcome : Outcome
        A simulated cook.
    units : str
        ``"C"`` or ``"F"``; with °F, masses are in lb.
    hold : float
        Holding temperature [°C]; 60 °C is common practice, no source.

    Returns
    -------
    list of str
        End, stall and its cause from the heat budget of the faces, carryover and rest, loss and safety.
    """
    unit = temperature_unit(units)
    facts = read_facts(outcome, hold)
    return [
        _when_it_ends(outcome, facts, unit),
        _why_it_stalls(outcome, facts, unit),
        _after_the_pull(outcome, facts, unit),
        _what_is_lost(outcome, facts, unit),
    ]


def _when_it_ends(outcome: Readable, facts: Facts, unit: str) -> str:
    clock = _clock(facts, facts.pulled_at)
    text = (
        f"The meat comes off the heat after {format_duration(facts.pulled_at)}{clock}, at the end of the "
        f"stage '{facts.pulled_stage}', with the core at {format_temperature(facts.pulled_core, unit)}"
    )
    if facts.end > facts.pulled_at + 30.0:
        core = format_temperature(float(outcome.core[-1]), unit)
        later = format_duration(facts.end - facts.pulled_at)
        return f"{text}; the plan ends {later} later{_clock(facts, facts.end)} at {core}."
    return f"{text}, and the plan ends there."


def _why_it_stalls(outcome: Readable, facts: Facts, unit: str) -> str:
    stall = facts.stall
    if stall is None:
        return (
            "There is no stall: at no time does the core slow to under half its usual rate "
            "and then speed up again."
        )
    rate = float(stall.slowest) * 3600.0
    text = (
        f"The core stalls for {format_duration(float(stall.end) - float(stall.start))}, from "
        f"{format_duration(float(stall.start))} on, near {format_temperature(float(stall.plateau), unit, 0)}"
    )
    arrives, taken = _budget_over(outcome, float(stall.start), float(stall.end))
    left = arrives - taken  # water that leaves takes its own heat along; that cools nothing that stays
    slowest = f"at its slowest it rises {_difference(rate, unit)} per hour"
    if arrives <= 0.0 or taken <= 0.5 * arrives:
        return (
            f"{text}; evaporation takes {taken:.0f} of the {arrives:.0f} W/m² that reach the meat meanwhile, "
            f"so it is not the only brake; {slowest}."
        )
    rest = f"leaves {left:.0f} for" if left > 0.02 * arrives else "leaves next to nothing for"
    return (
        f"{text}: of the {arrives:.0f} W/m² that reach the meat meanwhile, evaporation takes {taken:.0f} "
        f"({100.0 * taken / arrives:.0f} %), which {rest} warming the meat; {slowest}."
    )


def _after_the_pull(outcome: Readable, facts: Facts, unit: str) -> str:
    if facts.rise is None or facts.peak is None or facts.peak_after is None or facts.held is None:
        return "The plan ends on the heat, so it says nothing about carryover and rest."
    if facts.rise < 0.05:
        climb = "After the pull the core climbs no further"
    else:
        climb = (
            f"After the pull the core climbs another {_difference(facts.rise, unit)} to "
            f"{format_temperature(facts.peak, unit)} within {format_duration(facts.peak_after)}"
        )
    hold = format_temperature(facts.hold, unit, 0)
    if facts.held <= 0.0:
        return f"{climb}, and it is below {hold} all through the rest."
    if facts.still_held:
        return (
            f"{climb}, and it is still above {hold} when the plan ends {format_duration(facts.held)} later."
        )
    return f"{climb}, and it stays at or above {hold} for {format_duration(facts.held)}."


def _what_is_lost(outcome: Readable, facts: Facts, unit: str) -> str:
    mass = "lb" if unit == "F" else "kg"
    safety = outcome.safety()
    text = (
        f"Of {format_mass(facts.raw, mass)} raw, {100.0 * facts.lost:.0f} % is lost: "
        f"{loss_words(facts, mass)}"
    )
    passed = safety.lethality_at
    kill = (
        f"passes a calculated 6.5-log reduction of Salmonella after {format_duration(float(passed))}"
        if passed is not None
        else f"reaches only {float(safety.log_reduction):.1f} of 6.5 calculated log reductions of Salmonella"
    )
    count = len(safety.warnings)
    more = f", with {count} safety warning{'s' if count > 1 else ''} to read" if count else ""
    return f"{text}; the slowest place in the meat {kill}{more}; follow your local food-safety rules."


def _budget_over(outcome: Readable, start: float, end: float) -> tuple[float, float]:
    """Mean heat over a spell [W/m²]: what reaches the faces, and what evaporation takes.

    The faces of a slab have one area, so their plain mean is the mean over the surface.
    """
    edges = np.asarray(outcome.time)
    # the part of each interval that lies in the spell
    weight = np.clip(np.minimum(edges[1:], end) - np.maximum(edges[:-1], start), 0.0, None)
    means = []
    for face in faces(outcome):
        budget = outcome.heat_budget(face)
        arrives = np.asarray(budget.convection) + np.asarray(budget.radiation)
        parts = (arrives, np.asarray(budget.evaporation))
        means.append([float(np.average(part, weights=weight)) for part in parts])
    arrive, take = np.mean(means, axis=0)
    return float(arrive), float(take)


def _difference(kelvin: float, unit: str) -> str:
    size = celsius_to_fahrenheit(kelvin) - celsius_to_fahrenheit(0.0) if unit == "F" else kelvin
    return f"{size:.1f} °{unit}"


def _clock(facts: Facts, seconds: float) -> str:
    return "" if facts.clock_start is None else f" ({format_clock(facts.clock_start + seconds, days=True)})"
