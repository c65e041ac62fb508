"""Answers to wishes that no plan can fulfil, and what has to be said beside one that can."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from libcook.errors import InvalidInput, invalid
from libcook.planner import limits
from libcook.planner.choices import Choices
from libcook.planner.cooks import Cooks, Table
from libcook.planner.front import Option
from libcook.planner.measure import Measured, quantile
from libcook.planner.search import search
from libcook.planner.words import percent
from libcook.units import format_clock, format_duration
from libcook.words.fit_forms import day_clock

HOPELESS = 0.25  # chance to be ready in time below which there is no plan to speak of
WAKING = 0.5  # share of cooks with a hand in the quiet hours from which there is no sleep to speak of
LEAST_BARK = 0.5  # index below which nobody would speak of a bark


def nothing_safe(cooks: Cooks, choices: Choices) -> InvalidInput:
    """Say why no plan is left: which limit of safety the plans break."""
    recipes = [choices.recipe(place) for place in choices.corners()]
    worst: dict[str, float] = {}
    for one in cooks.see(recipes, "screen"):
        if one is not None:
            for name, share in cooks.at_best_start(one).unsafe.items():
                worst[name] = min(worst.get(name, 1.0), share)
    broken = [
        f"{name} (at best {percent(share)} of the possible cooks)"
        for name, share in worst.items()
        if share > limits.UNSAFE_SHARE
    ]
    why = "; ".join(broken) or "each breaks one limit or another"
    return invalid(
        "choose",
        None,
        f"no plan that may be chosen is safe: {why}",
        "other values, a hotter pit, a shorter wait or a warmer place to hold it would help",
    )


def too_late(cooks: Cooks, choices: Choices, chosen: Option, tries: int, seed: int) -> None:
    """Refuse a dinner that no plan has ready, where the cook has not begun.

    Raises
    ------
    InvalidInput
        With the quickest plan, and when dinner could be.
    """
    if cooks.table.room is not None or chosen.measured.on_time >= HOPELESS:
        return
    q = cooks.wishes.ready
    hurried = cooks.wishes.preferring("time")
    free = replace(cooks, table=Table(cooks.table.serve), wishes=hurried, _points={})
    quick = search(choices, free, [hurried], max(tries // 3, 5), seed, [chosen.recipe])
    found = [one for one in free.see(quick, "promise") if one is not None]
    least = min(quantile(one.ready, one.weight, q) for one in [chosen.cooks, *found])
    latest, start = cooks.table.serve - least, cooks.table.serve - chosen.measured.room
    raise invalid(
        "serve",
        None,
        f"between {day_clock(start)} and dinner at {format_clock(cooks.table.serve)} there are "
        f"{format_duration(chosen.measured.room)}, and the quickest plan that was found needs "
        f"{format_duration(least)} to be ready in {percent(q)} of the possible cooks",
        f"a start by {day_clock(latest)}, or dinner at {day_clock(start + least)}, is accepted",
    )


def notes_of(cooks: Cooks, choices: Choices, options: Sequence[Option], habit: Measured) -> list[str]:
    """Say what a cook should know beside the plan."""
    m = options[0].measured
    notes = []
    if not choices.open:
        notes.append(
            "nothing was left to choose but the start"
            if cooks.table.room is None
            else "nothing was left to choose"
        )
    short = cooks.wishes.ready - m.on_time
    if short > 0.02:
        late = quantile(options[0].cooks.ready, options[0].cooks.weight, 0.5) - m.room
        when = f"; as likely as not it is ready {format_duration(late)} after that" if late > 0.0 else ""
        notes.append(
            f"no plan that was found is ready in {percent(cooks.wishes.ready)}: the best is in "
            f"{percent(m.on_time)}{when}"
        )
    if m.bark < LEAST_BARK:
        notes.append(
            f"hardly any bark sets (index {m.bark:.1f}, 1 is set): the air is too wet, or it is wrapped too "
            "early for it"
        )
    if m.tender < 0.8:
        notes.append(
            f"tender and not past it in only {percent(m.tender)} of the possible cooks: probe it before you "
            "slice"
        )
    if m.kept < cooks.wishes.weight:
        notes.append(
            f"{percent(m.kept)} of the raw weight is left, less than the {percent(cooks.wishes.weight)} "
            "wished for"
        )
    if m.bark < cooks.wishes.bark:
        notes.append(f"the bark comes to {m.bark:.1f}, less than the {cooks.wishes.bark:g} wished for")
    if cooks.wishes.sleep is not None and m.awake > WAKING:
        notes.append(
            "no plan that was found leaves the quiet hours alone: somebody is up in "
            f"{percent(m.awake)} of the possible cooks"
        )
    if m.wait95 > cooks.wishes.longest_wait:
        notes.append(
            f"it waits up to {format_duration(m.wait95)} in 19 cooks of 20, longer than it should "
            f"({format_duration(cooks.wishes.longest_wait)}): hold it hot, and check it"
        )
    broken = [
        f"{name} in {percent(share)} of the possible cooks"
        for name, share in habit.unsafe.items()
        if share > limits.UNSAFE_SHARE
    ]
    if broken:
        notes.append(
            "the habit as it is does not keep to the limits of safety that all plans here keep to: "
            f"{'; '.join(broken)}"
        )
    return notes
