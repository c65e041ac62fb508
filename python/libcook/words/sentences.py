"""A cook in four plain sentences, each computed from the outcome, and how sure they are."""

from __future__ import annotations

from operator import attrgetter

from libcook import _core
from libcook.arguments.door import door
from libcook.arguments.quantity import Quantity, Word
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.readings.facts import Facts, SlowSpell, last_rate, read_facts, read_slow_spell
from libcook.readings.readable import Readable
from libcook.readings.safety import limits, read_safety
from libcook.units import format_duration, format_percent, temperature_unit, to_si
from libcook.words.phrases import by_the_clock, changes, climb, parts_of_loss, slowest, stall_span
from libcook.words.spread import Spread, spread_of
from libcook.words.two_scales import Scale, in_scale, join

__all__ = ["sentences"]


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
    scale = Scale(temperature_unit(units))
    if variants and not 8 <= variants <= 200:
        raise invalid("variants", variants, f"{quoted(variants)} came", "0, or 8 to 200 re-runs, is accepted")
    level = to_si(hold, "temperature", "hold", low=0.0, high=100.0)
    facts = read_facts(outcome, level)
    spread = spread_of(outcome, facts, variants) if variants else None
    return [
        _when_it_ends(outcome, facts, scale, spread),
        _why_it_stalls(outcome, facts, scale, spread),
        _after_the_pull(outcome, facts, scale, spread),
        _what_is_lost(outcome, facts, scale, spread),
    ]


def _when_it_ends(outcome: Readable, facts: Facts, scale: Scale, spread: Spread | None) -> str:
    # what was skipped comes first: it is most likely not what was meant
    noted = [in_scale(f"{note[0].upper()}{note[1:]}", scale.units) for note in facts.skipped]
    warned = "".join(note + (" " if note.endswith("?") else ". ") for note in noted)
    return f"{warned}{_how_it_ends(outcome, facts, scale)}{_how_sure(facts, spread)}."


def _how_it_ends(outcome: Readable, facts: Facts, scale: Scale) -> str:
    first, _, core = (scale.degrees(celsius) for celsius in facts.core)
    ended = f"{format_duration(facts.end)}{by_the_clock(facts, facts.end)}"
    if facts.unfinished is not None:
        return (
            f"The plan is not finished: the stage '{facts.unfinished}' was given up after {ended} with the "
            f"core at {core}, when it {changes(last_rate(outcome), scale)}"
        )
    if facts.only_cools:
        return (
            f"The meat is never on the heat: it cools from {first} to {core} in the core, and the plan ends "
            f"after {ended}"
        )
    text = (
        f"The meat comes off the heat after {format_duration(facts.pulled_at)}"
        f"{by_the_clock(facts, facts.pulled_at)}, at the end of the stage '{facts.pulled_stage}', with the "
        f"core at {scale.degrees(facts.pulled_core)}"
    )
    if facts.end <= facts.pulled_at + 30.0:
        return f"{text}, and the plan ends there"
    later = format_duration(facts.end - facts.pulled_at)
    return f"{text}; the plan ends {later} later{by_the_clock(facts, facts.end)} at {core}"


def _how_sure(facts: Facts, spread: Spread | None) -> str:
    if spread is None:
        return ""
    if spread.other_cook:
        return "; how sure that is stays open, for the plan gives another cook when it is run again"
    again = f"; re-run {spread.count} times with meat, pit and model as they may be"
    if facts.unfinished is not None:
        return f"{again}, it gets further in {len(spread.facts)} of them"
    what, when = ("it ends", _end) if facts.only_cools else ("it comes off", _pull)
    said = spread.duration(when)
    text = "" if said is None else f", {what} after {said} in 8 of 10"
    if spread.lost:
        text += f", and {spread.lost} of them never get there"
    return again + text if text else ""


_pull = attrgetter("pulled_at")
_end = attrgetter("end")
_stall_length = attrgetter("stall_length")
_held = attrgetter("held")
_lost = attrgetter("lost")


def _stall_level(facts: Facts) -> float | None:
    return None if facts.stall is None else float(facts.stall.plateau)


def _why_it_stalls(outcome: Readable, facts: Facts, scale: Scale, spread: Spread | None) -> str:
    spell = read_slow_spell(outcome, facts.stall)
    if facts.stall is None or spell is None:
        return _why_it_does_not(facts, spell, scale) + _other_stalls(spread, scale, any_here=False) + "."
    text = f"The core stalls for {stall_span(facts.stall, scale)}"
    arrives, taken = spell.arrives, spell.taken
    left = arrives - taken  # water that leaves takes its own heat along; that cools nothing that stays
    if arrives <= 0.0 or taken <= 0.5 * arrives:
        text += (
            f"; evaporation takes {taken:.0f} of the {arrives:.0f} W/m² that reach the meat meanwhile, "
            "so it is not the only brake"
        )
    else:
        rest = f"leaves {left:.0f} for" if left > 0.02 * arrives else "leaves next to nothing for"
        text += (
            f": of the {arrives:.0f} W/m² that reach the meat meanwhile, evaporation takes {taken:.0f} "
            f"({format_percent(taken / arrives)}), which {rest} warming the meat"
        )
    return f"{text}; {slowest(facts.stall, scale)}{_other_stalls(spread, scale, any_here=True)}."


def _why_it_does_not(facts: Facts, spell: SlowSpell | None, scale: Scale) -> str:
    levels = (_core.parameter(f"stall.{name}").value for name in ("coldest", "hottest_begin"))
    where = join(*(scale.degrees(level, 0) for level in levels))
    if facts.only_cools:
        return "There is no stall: the core only cools"
    if spell is None:
        peak = scale.degrees(facts.core[1])
        return f"There is no stall: the core gets to {peak}, and stalls are looked for from {where}"
    text = (
        f"There is no stall: at no time from {where} does the core slow to under a quarter of its fastest "
        f"rate; at its slowest it {changes(spell.rate, scale)}, near {scale.degrees(spell.core, 0)}"
    )
    if spell.arrives <= 0.0:
        return text
    if spell.taken < 0.005 * spell.arrives:
        return f"{text}, and nothing evaporates meanwhile"
    share = format_percent(spell.taken / spell.arrives)
    return (
        f"{text}, and evaporation takes {share} of the {spell.arrives:.0f} W/m² that reach the meat meanwhile"
    )


def _other_stalls(spread: Spread | None, scale: Scale, any_here: bool) -> str:
    if spread is None or spread.other_cook or not spread.facts or spread.own.only_cools:
        return ""
    stalls = [f for f in spread.facts if f.stall is not None]
    text = f"; {len(stalls)} of {len(spread.facts)} re-runs stall"
    if not any_here:
        return text
    length = spread.duration(_stall_length, stalls)
    level = spread.temperature(_stall_level, scale.units, stalls)
    return text if length is None or level is None else f"{text}, for {length} and near {level}"


def _after_the_pull(outcome: Readable, facts: Facts, scale: Scale, spread: Spread | None) -> str:
    hold = scale.degrees(facts.hold, 0)
    if facts.unfinished is not None and facts.rise is None:
        return "It was given up on the heat, so it says nothing about carryover and rest."
    if facts.only_cools:
        held = float(outcome.time_above(facts.hold))
        if held <= 0.0:
            return f"Nothing is carried over, and the core is never at {hold} or above."
        return f"Nothing is carried over, and the core is at or above {hold} for {format_duration(held)}."
    if facts.rise is None or facts.peak is None or facts.peak_after is None or facts.held is None:
        return "The plan ends on the heat, so it says nothing about carryover and rest."
    climbs = "climbs no further"
    if facts.rise >= 0.05:
        climbs = f"climbs another {climb(facts.rise, facts.peak, facts.peak_after, scale)}"
    text = f"After the pull the core {climbs}, and it"
    if facts.held <= 0.0:
        return f"{text} is below {hold} all through the rest."
    if facts.still_held:
        return f"{text} is still above {hold} when the plan ends {format_duration(facts.held)} later."
    said = None if spread is None or spread.other_cook else spread.duration(_held)
    more = "" if said is None else f" ({said} in the re-runs)"
    return f"{text} stays at or above {hold} for {format_duration(facts.held)}{more}."


def _what_is_lost(outcome: Readable, facts: Facts, scale: Scale, spread: Spread | None) -> str:
    safety = read_safety(outcome.safety())
    said = None if spread is None or spread.other_cook else spread.percent(_lost)
    more = "" if said is None else f" ({said} in the re-runs)"
    wanted = f"{limits().reductions:g}"
    kill = (
        f"reaches only {safety.reductions:.1f} of {wanted} calculated log reductions of Salmonella"
        if safety.killed_at is None
        else f"passes a calculated {wanted}-log reduction of Salmonella after "
        + format_duration(safety.killed_at)
    )
    count = len(safety.warnings)
    warned = f", with {count} safety warning{'s' if count > 1 else ''} to read" if count else ""
    return (
        f"Of {scale.mass(facts.loss.raw)} raw, {format_percent(facts.lost)} is lost{more}: "
        f"{parts_of_loss(facts.loss, scale)}; the slowest place in the meat {kill}{warned}; "
        "follow your local food-safety rules."
    )
