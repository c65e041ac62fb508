"""A cook in four plain sentences, each computed from the outcome, and how sure they are."""

from __future__ import annotations

from typing import Any

import numpy as np

from libcook.arguments.door import door
from libcook.arguments.quantity import Quantity, Word
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.readings.facts import Facts, loss_words, read_facts
from libcook.readings.readable import Readable, faces
from libcook.units import (
    format_clock,
    format_difference,
    format_duration,
    format_mass,
    format_percent,
    format_temperature,
    temperature_unit,
    to_si,
)
from libcook.words.ranges import join
from libcook.words.spread import Spread, spread_of

__all__ = ["sentences"]

HOUR = 3600.0  # s
STALLS_FROM, STALLS_TO = 50.0, 80.0  # °C, where `Outcome.stall` looks for one


@door
def sentences(outcome: Readable, units: Word = "C", hold: Quantity = 60.0, variants: int = 0) -> list[str]:
    """Say in four sentences when the cook ends, why it stalls, what the rest does, and what is lost.

    Parameters
    ----------
    outcome : Outcome
        A simulated cook, finished or given up.
    units : str
        ``"C"`` or ``"F"``; with °F, masses are in lb.
    hold : float, str or pint.Quantity
        Holding temperature; a plain number is in °C. 60 °C is common practice, no source.
    variants : int
        How many possible cooks of the plan are simulated, to say how sure the numbers are: 0 for none, else 8
        to 200. One of a whole piece takes some milliseconds; a cross-section is varied as one.

    Returns
    -------
    list of str
        End, stall and its cause from the heat budget of the faces, carryover and rest, loss and safety.

    Notes
    -----
    Possible cooks are drawn as `libcook.belief` says: meat, pit, wrap and probe about the plan's values, and
    what the model itself gets wrong on top of the times that the meat decides. Ranges hold eight of ten of
    them; that of the finish is the one that `libcook.forecast` gives before any reading.
    """
    unit = temperature_unit(units)
    count: Any = variants  # what came may be anything
    if isinstance(count, bool) or not isinstance(count, int) or (count and not 8 <= count <= 200):
        raise invalid("variants", count, f"{quoted(count)} came", "0, or 8 to 200 re-runs, is accepted")
    if not hasattr(outcome, "carryover"):
        came = f"a {type(outcome).__name__} came, which is not cooked yet"
        raise invalid("outcome", outcome, came, "an outcome is accepted, as libcook.simulate(plan) gives it")
    level = to_si(hold, "temperature", "hold", low=0.0, high=100.0)
    facts = read_facts(outcome, level)
    spread = spread_of(outcome, facts, variants) if variants else None
    return [
        _when_it_ends(outcome, facts, unit, spread),
        _why_it_stalls(outcome, facts, unit, spread),
        _after_the_pull(outcome, facts, unit, spread),
        _what_is_lost(outcome, facts, unit, spread),
    ]


def _when_it_ends(outcome: Readable, facts: Facts, unit: str, spread: Spread | None) -> str:
    warned = "".join(f"{text[0].upper()}{text[1:]}. ".replace("?. ", "? ") for text in facts.skipped)
    return warned + _how_it_ends(outcome, facts, unit, spread)


def _how_it_ends(outcome: Readable, facts: Facts, unit: str, spread: Spread | None) -> str:
    core = format_temperature(float(outcome.core[-1]), unit)
    if facts.unfinished is not None:
        return (
            f"The plan is not finished: the stage '{facts.unfinished}' was given up after "
            f"{format_duration(facts.end)}{_clock(facts, facts.end)} with the core at {core}, when it "
            f"{_changes(_last_rate(outcome), unit)}{_how_sure(facts, spread)}."
        )
    if facts.only_cools:
        first = format_temperature(float(outcome.core[0]), unit)
        text = (
            f"The meat is never on the heat: it cools from {first} to {core} in the core, and the plan ends "
            f"after {format_duration(facts.end)}{_clock(facts, facts.end)}"
        )
    else:
        text = (
            f"The meat comes off the heat after {format_duration(facts.pulled_at)}"
            f"{_clock(facts, facts.pulled_at)}, at the end of the stage '{facts.pulled_stage}', with the "
            f"core at {format_temperature(facts.pulled_core, unit)}"
        )
        if facts.end > facts.pulled_at + 30.0:
            later = format_duration(facts.end - facts.pulled_at)
            text += f"; the plan ends {later} later{_clock(facts, facts.end)} at {core}"
        else:
            text += ", and the plan ends there"
    return text + _how_sure(facts, spread) + "."


def _how_sure(facts: Facts, spread: Spread | None) -> str:
    if spread is None:
        return ""
    if spread.other_cook:
        return "; how sure that is stays open, for the plan gives another cook when it is run again"
    again = f"; re-run {spread.count} times with meat, pit and model as they may be"
    if facts.unfinished is not None:
        return f"{again}, it gets further in {len(spread.facts)} of them"
    read = _end if facts.only_cools else _pull
    said = spread.duration(read)
    text = (
        ""
        if said is None
        else f", {'it ends' if facts.only_cools else 'it comes off'} after {said} in 8 of 10"
    )
    if spread.lost:
        text += f", and {spread.lost} of them never get there"
    return again + text if text else ""


def _pull(facts: Facts) -> float:
    return facts.pulled_at


def _end(facts: Facts) -> float:
    return facts.end


def _why_it_stalls(outcome: Readable, facts: Facts, unit: str, spread: Spread | None) -> str:
    stall = facts.stall
    if stall is None:
        return _why_it_does_not(outcome, facts, unit) + _other_stalls(spread, unit, any_here=False) + "."
    rate = float(stall.slowest) * HOUR
    text = (
        f"The core stalls for {format_duration(float(stall.end) - float(stall.start))}, from "
        f"{format_duration(float(stall.start))} on{'' if stall.over else ' and to the end'}, near "
        f"{format_temperature(float(stall.plateau), unit, 0)}"
    )
    arrives, taken = _budget_over(outcome, float(stall.start), float(stall.end))
    left = arrives - taken  # water that leaves takes its own heat along; that cools nothing that stays
    slowest = f"at its slowest it rises {format_difference(rate, unit)} per hour"
    if arrives <= 0.0 or taken <= 0.5 * arrives:
        text += (
            f"; evaporation takes {taken:.0f} of the {arrives:.0f} W/m² that reach the meat meanwhile, "
            f"so it is not the only brake; {slowest}"
        )
    else:
        rest = f"leaves {left:.0f} for" if left > 0.02 * arrives else "leaves next to nothing for"
        text += (
            f": of the {arrives:.0f} W/m² that reach the meat meanwhile, evaporation takes {taken:.0f} "
            f"({100.0 * taken / arrives:.0f} %), which {rest} warming the meat; {slowest}"
        )
    return text + _other_stalls(spread, unit, any_here=True) + "."


def _why_it_does_not(outcome: Readable, facts: Facts, unit: str) -> str:
    where = join(*(format_temperature(t, unit, 0) for t in (STALLS_FROM, STALLS_TO)))
    time, core = np.asarray(outcome.time), np.asarray(outcome.core)
    top = int(core.argmax())
    rising = (np.arange(core.size) <= top) & (core >= STALLS_FROM) & (core <= STALLS_TO)
    if facts.only_cools:
        return "There is no stall: the core only cools"
    if np.count_nonzero(rising) < 3:
        peak = format_temperature(float(core[top]), unit)
        return f"There is no stall: the core gets to {peak}, and stalls are looked for from {where}"
    # straight lines over a tenth of the way up: a rate from minute to minute would jitter
    grid = np.linspace(time[rising][0], time[rising][-1], 11)
    values = np.interp(grid, time, core)
    k = int(np.diff(values).argmin())
    rate = float(values[k + 1] - values[k]) / float(grid[1] - grid[0])
    near = format_temperature(float(values[k]), unit, 0)
    text = (
        f"There is no stall: at no time from {where} does the core slow to under a quarter of its fastest "
        f"rate; at its slowest it {_changes(rate * HOUR, unit)}, near {near}"
    )
    arrives, taken = _budget_over(outcome, float(grid[0]), float(grid[-1]))
    if arrives <= 0.0:
        return text
    share = 100.0 * max(0.0, taken) / arrives
    return (
        f"{text}, and evaporation takes {share:.0f} % of the {arrives:.0f} W/m² that reach the meat meanwhile"
    )


def _other_stalls(spread: Spread | None, unit: str, any_here: bool) -> str:
    if spread is None or spread.other_cook or not spread.facts or spread.own.only_cools:
        return ""
    stalls = [f for f in spread.facts if f.stall is not None]
    text = f"; {len(stalls)} of {len(spread.facts)} re-runs stall"
    if not any_here:
        return text
    length = spread.duration(_stall_length, stalls)
    level = spread.temperature(_stall_level, unit, stalls)
    return text if length is None or level is None else f"{text}, for {length} and near {level}"


def _stall_length(facts: Facts) -> float | None:
    return facts.stall_length


def _stall_level(facts: Facts) -> float | None:
    return None if facts.stall is None else float(facts.stall.plateau)


def _after_the_pull(outcome: Readable, facts: Facts, unit: str, spread: Spread | None) -> str:
    hold = format_temperature(facts.hold, unit, 0)
    if facts.unfinished is not None and facts.rise is None:
        return "It was given up on the heat, so it says nothing about carryover and rest."
    if facts.only_cools:
        held = float(outcome.time_above(facts.hold))
        if held <= 0.0:
            return f"Nothing is carried over, and the core is never at {hold} or above."
        return f"Nothing is carried over, and the core is at or above {hold} for {format_duration(held)}."
    if facts.rise is None or facts.peak is None or facts.peak_after is None or facts.held is None:
        return "The plan ends on the heat, so it says nothing about carryover and rest."
    if facts.rise < 0.05:
        climb = "After the pull the core climbs no further"
    else:
        climb = (
            f"After the pull the core climbs another {format_difference(facts.rise, unit)} to "
            f"{format_temperature(facts.peak, unit)} within {format_duration(facts.peak_after)}"
        )
    if facts.held <= 0.0:
        return f"{climb}, and it is below {hold} all through the rest."
    if facts.still_held:
        return (
            f"{climb}, and it is still above {hold} when the plan ends {format_duration(facts.held)} later."
        )
    said = None if spread is None or spread.other_cook else spread.duration(_held)
    more = "" if said is None else f" ({said} in the re-runs)"
    return f"{climb}, and it stays at or above {hold} for {format_duration(facts.held)}{more}."


def _held(facts: Facts) -> float | None:
    return facts.held


def _lost(facts: Facts) -> float:
    return facts.lost


def _what_is_lost(outcome: Readable, facts: Facts, unit: str, spread: Spread | None) -> str:
    mass = "lb" if unit == "F" else "kg"
    safety = outcome.safety()
    said = None if spread is None or spread.other_cook else spread.percent(_lost)
    more = "" if said is None else f" ({said} in the re-runs)"
    text = (
        f"Of {format_mass(facts.raw, mass)} raw, {format_percent(facts.lost)} is lost{more}: "
        f"{loss_words(facts, mass)}"
    )
    passed = safety.lethality_at
    kill = (
        f"passes a calculated 6.5-log reduction of Salmonella after {format_duration(float(passed))}"
        if passed is not None
        else f"reaches only {float(safety.log_reduction):.1f} of 6.5 calculated log reductions of Salmonella"
    )
    count = len(safety.warnings)
    warned = f", with {count} safety warning{'s' if count > 1 else ''} to read" if count else ""
    return f"{text}; the slowest place in the meat {kill}{warned}; follow your local food-safety rules."


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


def _last_rate(outcome: Any) -> float:
    """How fast the core changes over the last tenth of the time [K/h]."""
    time, core = np.asarray(outcome.time), np.asarray(outcome.core)
    from_, to = 0.9 * time[-1], time[-1]
    return float(core[-1] - np.interp(from_, time, core)) / float(to - from_) * HOUR


def _changes(rate: float, unit: str) -> str:
    way = "rises" if rate >= 0.0 else "falls"
    return f"{way} {format_difference(abs(rate), unit)} per hour"


def _clock(facts: Facts, seconds: float) -> str:
    return "" if facts.clock_start is None else f" ({format_clock(facts.clock_start + seconds, days=True)})"
