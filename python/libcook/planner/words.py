"""A best plan in words, for the console and for a notebook."""

from __future__ import annotations

from html import escape
from typing import Any

from libcook.planner.measure import Measured, quantile
from libcook.planner.policies import Policy, Rule
from libcook.planner.recipe import BOOST_AT, Recipe
from libcook.units import format_clock, format_duration
from libcook.words.fit_forms import day_clock
from libcook.words.page import box, listed, page, table
from libcook.words.two_scales import BOTH, in_scale

WHERE = {
    "oven": "held warm in an oven",
    "cooler": "in an insulated box",
    "counter": "on the counter, then held warm",
}
SAME = 0.005  # share that nobody notices
NOTICED = 300.0  # s


def degrees(celsius: float) -> str:
    """Write a temperature in both scales, without tenths."""
    return BOTH.degrees(celsius, 0)


def percent(share: float) -> str:
    """Write a share."""
    return f"{100.0 * share:.0f} %"


def cover(wrap: str) -> str:
    """Write a wrap as one says it."""
    return {"none": "bare", "butcher paper": "paper"}.get(wrap, wrap)


def wrapped_at(recipe: Recipe) -> str:
    """Write when and in what it is wrapped."""
    if recipe.wrap == "none":
        return "never wrapped"
    kind, value = recipe.wrap_at
    when = {"core": f"at {degrees(value)}", "bark": "when the bark has set", "now": "now"}[kind]
    return f"{cover(recipe.wrap)} {when}"


def pulled_at(recipe: Recipe) -> str:
    """Write what it is pulled by."""
    kind, value = recipe.pull
    return (
        f"pulled at {degrees(value)}"
        if kind == "core"
        else f"pulled when {percent(value)} tender, probed each half hour"
    )


def pits(recipe: Recipe) -> str:
    """Write the pit from stage to stage."""
    parts = [degrees(recipe.pit)]
    if recipe.wrap != "none" and abs(recipe.wrapped_pit - recipe.pit) > 1.0:
        parts.append(f"{degrees(recipe.wrapped_pit)} once wrapped")
    if recipe.boost > 0.0:
        parts.append(f"{degrees(recipe.boost)} from a core of {degrees(BOOST_AT)} on")
    return "pit " + ", ".join(parts)


def rested(recipe: Recipe) -> str:
    """Write the rest."""
    return f"{format_duration(recipe.rest)} of rest, {WHERE[recipe.hold]}"


def recipe_form(recipe: Recipe, under_way: bool = False) -> str:
    """Write a recipe in a line."""
    now = recipe.wrapped_pit if recipe.wrap_at[0] == "now" and recipe.wrap != "none" else recipe.pit
    head = f"pit {degrees(now)}" if under_way and recipe.wrap_at[0] == "now" else pits(recipe)
    return f"{head}; {wrapped_at(recipe)}; {pulled_at(recipe)}; {rested(recipe)}"


def _stage_rows(best: Any) -> list[tuple[str, str]]:
    """When each stage is likely to end."""
    seen, room = best.chosen.cooks, best.measured.room
    stages = best.cooks.stages(best.chosen.recipe)
    begin = best.serve - room
    rows = []
    for k, stage in enumerate(stages[:-1]):
        ends = seen.actions[:, k] if k < seen.actions.shape[1] else seen.ready
        middle, late = (day_clock(begin + quantile(ends, seen.weight, q)) for q in (0.5, 0.9))
        if stage.name == "rest":
            what = rested(best.chosen.recipe)
        else:
            air = float(stage.surroundings.air.at(begin))
            end = stage.until[0]
            until = {
                "core": f"the core is at {degrees(end.value)}",
                "bark": "the bark has set",
                "tender": f"it is {percent(end.value)} tender",
            }[end.kind]
            what = f"pit {degrees(air)}, {cover(stage.wrap.name)}, until {until}"
        rows.append((stage.name, f"{what}: {middle} as likely as not, by {late} in 90 %"))
    return rows


def prices(m: Measured, other: Measured, mass: float) -> str:
    """Write what a plan costs and brings against another one."""
    parts = []
    hours = other.pulled50 - m.pulled50
    if abs(hours) >= NOTICED:
        parts.append(f"off the heat {format_duration(abs(hours))} {'sooner' if hours > 0 else 'later'}")
    day = other.room - m.room
    if abs(day) >= NOTICED:
        parts.append(f"starts {format_duration(abs(day))} {'later' if day > 0 else 'earlier'}")
    kept = m.kept - other.kept
    if abs(kept) >= SAME:
        parts.append(f"{BOTH.mass(abs(kept) * mass)} {'more' if kept > 0 else 'less'} to eat")
    bark = m.bark - other.bark
    if abs(bark) >= 0.1:
        parts.append(
            f"{'more' if bark > 0 else 'less'} bark ({m.bark:.1f} instead of {other.bark:.1f}; set at 1)"
        )
    return ", ".join(parts) or "nothing that one would notice"


def reason_form(reason: Any) -> str:
    """Write what one change does: "... buys 1 h 50 min and costs bark"."""
    alone = f"{reason.what} {_bought(reason)}"
    return alone if reason.within is None else f"{alone} alone; in this plan it {_bought(reason.within)}"


def _bought(reason: Any) -> str:
    gains: list[str] = []
    costs: list[str] = []
    time = format_duration(abs(reason.sooner))
    if abs(reason.sooner) >= NOTICED:
        (gains if reason.sooner > 0 else costs).append(time)
    if abs(reason.kept) >= SAME:
        (gains if reason.kept > 0 else costs).append(f"{BOTH.mass(abs(reason.kept) * reason.mass)} of meat")
    if abs(reason.bark) >= 0.1:
        (gains if reason.bark > 0 else costs).append(f"bark ({abs(reason.bark):.1f} of its index)")
    parts = [f"buys {_and(gains)}"] if gains else []
    parts += [f"costs {_and(costs)}"] if costs else []
    return " and ".join(parts) or "changes little"


def _and(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def rule_form(rule: Rule, begin: float) -> str:
    """Write a rule for the day."""
    side = "under" if rule.under else "over"
    what = f"pit to {degrees(rule.air)}"
    if rule.foil:
        what = f"foil round it and {what}"
    when = f"core {side} {degrees(rule.core)} at {day_clock(begin + rule.at)}"
    return f"{when}: {what} ({100.0 * rule.share:.0f} of 100 cooks)"


def policy_rows(policy: Policy, serve: float) -> list[tuple[str, str]]:
    """Write the rules, and what they bring on the same cooks."""
    m, fixed = policy.measured, policy.fixed
    begin = serve - m.room
    rows = [("rule", rule_form(rule, begin)) for rule in policy.rules]
    said = [
        ("start", day_clock(begin), day_clock(serve - fixed.room), ""),
        ("on time", percent(m.on_time), percent(fixed.on_time), "on time as often"),
        ("a wait in the mean of", format_duration(m.wait), format_duration(fixed.wait), "as long a wait"),
        ("tender", percent(m.tender), percent(fixed.tender), ""),
    ]
    words = [f"{name} {now} instead of {old}" if now != old else same for name, now, old, same in said]
    rows.append(("with the rules", ", ".join(filter(None, words))))
    return rows


def on_time(m: Measured) -> str:
    """Write how sure dinner is, and how long the meat waits for it."""
    return (
        f"in {percent(m.on_time)} of the possible cooks; it waits {format_duration(m.wait)} in the mean, "
        f"{format_duration(m.wait95)} at most in 19 of 20"
    )


def at_dinner(m: Measured, mass: float) -> str:
    """Write what comes to the table of a piece [kg]."""
    return (
        f"tender and not past it in {percent(m.tender)}; {percent(m.kept)} of the raw weight is left, "
        f"{BOTH.mass(m.kept * mass)}; bark {m.bark:.1f} (set at 1)"
    )


def _rows(best: Any) -> list[tuple[str, str]]:
    m, habit = best.measured, best.habit
    mass = float(best.plan.meat.mass)
    rows = [] if best.under_way else [("start", f"{best.start_clock}, dinner at {format_clock(best.serve)}")]
    if best.under_way:
        rows.append(("from now on", recipe_form(best.chosen.recipe, True)))
    rows += _stage_rows(best)
    rows += [("on time", on_time(m)), ("at dinner", at_dinner(m, mass))]
    if best.cooks.wishes.sleep is not None:
        rows.append(("sleep", f"undisturbed in {percent(1.0 - m.awake)} of the possible cooks"))
    if best.under_way:
        rows.append(
            (
                "against going on as planned",
                f"on time {percent(m.on_time)} instead of "
                f"{percent(habit.same_start.on_time)}; {prices(m, habit.same_start, mass)}; ready sooner in "
                f"{percent(best.better)} of the possible cooks",
            )
        )
    else:
        rows.append(("the habit", recipe_form(habit.recipe)))
        rows.append(("against the habit", prices(m, habit.measured, mass)))
        rows.append(("the habit from the same start", f"on time in {percent(habit.same_start.on_time)}"))
    rows += [("why", reason_form(one)) for one in best.reasons]
    if best.policy is not None:
        rows += policy_rows(best.policy, best.serve)
    for other in best.options[1:]:
        rows.append(
            (
                other.name,
                f"{recipe_form(other.recipe, best.under_way)}; against the plan above: "
                f"{prices(other.measured, m, mass)}; on time {percent(other.measured.on_time)}",
            )
        )
    return [(name, in_scale(value, best.units)) for name, value in rows]


def title(best: Any) -> str:
    """Write what it is for."""
    return f"Best plan from {len(best.chosen.cooks.weight)} possible cooks, {best.simulated} simulated"


def best_form(best: Any) -> str:
    """Write a best plan, a line each."""
    lines = [title(best), *(f"  {name}: {value}" for name, value in _rows(best))]
    lines += [f"  note: {in_scale(note, best.units)}" for note in best.notes]
    return "\n".join([*lines, in_scale(best.caution, best.units)])


def best_html(best: Any) -> str:
    """Write a best plan for a notebook."""
    notes = listed([in_scale(note, best.units) for note in best.notes])
    caution = box(escape(in_scale(best.caution, best.units)))
    return page(table(_rows(best)), notes, caution, title=title(best))
