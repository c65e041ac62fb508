"""The best plan: tender, juicy and on the table in time, under uncertainty."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from libcook import _core
from libcook._core import Meat, Plan, Stage
from libcook.arguments.door import door
from libcook.arguments.plain import whole
from libcook.arguments.quote import quoted
from libcook.errors import InvalidInput, invalid
from libcook.fit.forecast import Forecast, forecast
from libcook.fit.result import Fit
from libcook.planner.answers import notes_of, nothing_safe, too_late
from libcook.planner.choices import Choices, read_choices
from libcook.planner.cooks import Cooks, Table
from libcook.planner.front import Option, front, promised
from libcook.planner.habit import kitchen_of, recipe_of, stages_as_given, usual_plan
from libcook.planner.limits import KEPT_HOT
from libcook.planner.measure import Measured
from libcook.planner.policies import find_policy
from libcook.planner.recipe import Recipe
from libcook.planner.result import BestPlan, Habit, Reason
from libcook.planner.search import search
from libcook.planner.wishes import PREFERRED, read_wishes
from libcook.planner.words import NOTICED, SAME, pits, pulled_at, wrapped_at
from libcook.sweeps.progress import Progress
from libcook.units import parse_clock
from libcook.units.clock import DAY

__all__ = ["BestPlan", "best_plan"]


@dataclass(frozen=True)
class _Asked:
    """What a search is for, beside the cooks."""

    choices: Choices
    habit: Recipe
    as_given: list[Stage]  # what would be done, with a wait behind it
    tries: int
    rules: bool
    seed: int
    units: str | None


@door
def best_plan(
    plan: Plan | Meat,
    serve: Any,
    *,
    choose: Any = None,
    want: Any = None,
    fit: Fit | None = None,
    members: int = 240,
    tries: int = 360,
    rules: bool = True,
    seed: int = 0,
    threads: int = 0,
    progress: bool | Callable[[int, int], None] | None = None,
) -> BestPlan:
    """Search for the plan that gets dinner on the table in time, tender, juicy and with its bark.

    Plans are tried on possible cooks, drawn from what is believed of meat, pit and model: the same ones for
    every plan. What is promised was counted on cooks that had no part in the search. Plans that break a limit
    of safety on the possible cooks are never proposed; local food-safety rules come first.

    Parameters
    ----------
    plan : Plan or Meat
        The habit to beat, in the cooker that is to be used; or only the meat: then the habit is a drum at
        250 °F, paper at 165 °F, 203 °F and an hour of rest.
    serve : str or datetime.time
        When dinner is, such as ``"18:00"``.
    choose : mapping or sequence of str, optional
        What may vary; by default everything, in usual ranges. A sequence of names: only these. A mapping: for
        each name a value, a list of values, or two for a range:

        - ``pit``, ``wrapped_pit``: temperature before and after wrapping, 93 to 163 °C (200 to 325 °F);
        - ``wrap``: kinds, such as ``["foil", "butcher paper", "none"]``;
        - ``wrap_at``: core temperatures, or ``"bark"`` for when the bark has set;
        - ``boost``: pit for the end, from a core of 180 °F on, or None;
        - ``pull``: core temperatures, or `libcook.tender`;
        - ``rest``: durations; ``hold``: ``"oven"`` (warm, 66 °C) or ``"cooler"``: where it rests and waits;
        - ``start``: a time of day, or the earliest and the latest.
    want : mapping, optional
        What is wanted; what is not named is as in `libcook.planner.wishes.Wishes`:

        - ``ready``: chance to be ready in time, 0.5 to 0.99;
        - ``tender``: share of the collagen that has to be converted, and at which it is past it;
        - ``weight``: least share of the raw weight left; ``bark``: least index, 1 is set;
        - ``longest_wait``: a duration; ``sleep``: True for no action between 23:00 and 6:00, or two times;
        - ``prefer``: ``"balance"``, ``"weight"``, ``"bark"``, ``"time"`` or ``"wait"``.
    fit : Fit, optional
        Of earlier cooks in the same cooker, as of `libcook.start_by`.
    members : int
        Possible cooks, 50 to 5000: a third of them decides, two thirds promise.
    tries : int
        Plans that are tried on a first look, 5 to 100 000.
    rules : bool
        Whether to look for rules for the day.
    seed : int
        The same one gives the same plan, whatever the threads.
    threads : int
        0: as many as the machine has.
    progress : bool or callable, optional
        Whether to show how far it is; None: in a terminal or notebook. A callable is given (done, total).

    Returns
    -------
    BestPlan

    Raises
    ------
    InvalidInput
        For what cannot be used, and where no safe plan is ready for dinner.

    Examples
    --------
    ``lc.best_plan(lc.brisket("14 lb"), serve="18:00")``
    """
    habit = usual_plan(plan) if isinstance(plan, Meat) else _without_start(plan)
    if fit is not None and not isinstance(fit, _core.Fit):
        raise invalid("fit", fit, f"{quoted(fit)} came", "what libcook.calibrate gives is accepted")
    dinner = parse_clock(serve, "serve")
    wishes = read_wishes(want)
    kitchen, recipe = kitchen_of(habit), recipe_of(habit)
    choices = read_choices(choose, recipe)
    stages = stages_as_given(list(habit.stages), _core.done_stage(habit), kitchen)
    count = whole(members, "members", 50, 5000)
    ahead = _possible_cooks(Plan(habit.meat, stages), fit, count, _seed(seed), threads)
    table = Table(dinner, rooms=_rooms(choices, dinner))
    cooks = Cooks(ahead, kitchen, table, wishes, wrapped=False)
    inputs = {
        "plan": plan.__copy__(), "serve": serve, "choose": choose, "want": want, "fit": fit, "seed": seed,
        "members": members, "tries": tries, "rules": rules, "threads": threads,
    }  # fmt: skip
    units = None if fit is None else str(fit.series[-1].units)
    asked = _Asked(choices, recipe, stages, _tries(tries), rules, _seed(seed), units)
    return _find(cooks, asked, progress, (best_plan, inputs))


def _possible_cooks(plan: Plan, fit: Fit | None, members: int, seed: int, threads: int) -> Forecast:
    """Draw the possible cooks; a cooker that is unlike all that is believed of cookers is told in words."""
    try:
        return forecast(plan, fit=fit, members=members, seed=seed, threads=threads)
    except InvalidInput as error:
        if not str(error).startswith("free["):
            raise
        raise invalid(
            "plan",
            None,
            f"no cooker is believed to be like this one ({str(error).partition(': ')[2]}); in an airtight "
            "pit meat is steamed, and no bark sets",
            "a vent that is open a little, so that vapour and air flow in that range, is accepted",
        ) from None


def _tries(tries: int) -> int:
    return whole(tries, "tries", 5, 100_000)


def _seed(seed: int) -> int:
    return whole(seed, "seed", 0, 2**31 - 1)


def _without_start(plan: Plan) -> Plan:
    for i, stage in enumerate(plan.stages):
        if any(end.kind == "clock" for end in stage.until):
            raise invalid(
                f"stages[{i}].until",
                None,
                "it ends at a time of day, and the start is what you ask for",
                "'elapsed' or a core temperature is accepted",
            )
    return plan.replace(start=None)


def _rooms(choices: Choices, serve: float) -> tuple[float, float] | None:
    """Shortest and longest time from the start to dinner [s] that the window of the start leaves."""
    if choices.start is None:
        return None
    earliest, latest = ((serve - one) % DAY or DAY for one in (choices.start.earliest, choices.start.latest))
    if latest > earliest:
        raise invalid(
            "choose['start']",
            None,
            "before dinner the latest start comes first then",
            "the earliest first is accepted",
        )
    return (latest, earliest)


@door
def best_plan_ahead(
    ahead: Forecast,
    serve: Any,
    *,
    choose: Any = None,
    want: Any = None,
    tries: int = 160,
    rules: bool = True,
    seed: int = 0,
    progress: bool | Callable[[int, int], None] | None = None,
) -> BestPlan:
    """Search for what to do from now on; `Forecast.best_plan` tells more."""
    plan = ahead.plan
    if plan.start is None:
        raise invalid(
            "plan.start",
            None,
            "nobody knows what time it is in this cook",
            "a start is needed",
            "plan.replace(start='21:00')",
        )
    if ahead.current > _core.done_stage(plan):
        raise invalid(
            "forecast",
            None,
            "the meat is off the heat, and nothing is left to choose",
            f"keep it at {KEPT_HOT} or above until dinner; a forecast of an earlier moment is accepted",
        )
    dinner = parse_clock(serve, "serve")
    room = (dinner - float(plan.start)) % DAY
    while room <= ahead.now:
        room += DAY
    wishes = read_wishes(want)
    kitchen, recipe = kitchen_of(plan), recipe_of(plan)
    wrapped = plan.stages[ahead.current].wrap.name != "none"
    core = float(ahead.core_quantile(0.5)[int(np.searchsorted(ahead.time, ahead.now, side="right")) - 1])
    choices = _left_to_choose(read_choices(choose, recipe), recipe, core, wrapped)
    stages = stages_as_given(_left(ahead), ahead.done - ahead.current, kitchen)
    cooks = Cooks(ahead, kitchen, Table(dinner, room=room, now=ahead.now), wishes, wrapped)
    inputs = {"ahead": ahead, "serve": serve, "choose": choose, "want": want, "tries": tries, "rules": rules,
              "seed": seed}  # fmt: skip
    asked = _Asked(choices, recipe, stages, _tries(tries), rules, _seed(seed), ahead.units)
    return _find(cooks, asked, progress, (best_plan_ahead, inputs))


def _left(ahead: Forecast) -> list[Stage]:
    """Return the stages that are left, the one under way with what is left of it."""
    stages = list(ahead.plan.stages[ahead.current :])
    begun = float(np.median(ahead.stage_end[:, ahead.current - 1])) if ahead.current else 0.0
    first = stages[0].__copy__()
    first.until = [
        _core.End(end.kind, max(end.value - (ahead.now - begun), 60.0)) if end.kind == "elapsed" else end
        for end in first.until
    ]
    return [first, *stages[1:]]


def _left_to_choose(choices: Choices, recipe: Recipe, core: float, wrapped: bool) -> Choices:
    """Leave what is still to come in a cook that is under way: wraps at hotter cores, or now."""
    if wrapped:
        covers = (
            tuple(dict.fromkeys((recipe.wrap, "foil")))
            if "foil" in choices.options["wrap"]
            else (recipe.wrap,)
        )
        return choices.only(wrap=covers, wrap_at=(("now", 0.0),), pit=(recipe.wrapped_pit,))
    later = tuple(one for one in choices.options["wrap_at"] if one[0] != "core" or one[1] > core + 2.0)
    return choices.only(wrap_at=(("now", 0.0), *later))


def _find(
    cooks: Cooks,
    asked: _Asked,
    progress: bool | Callable[[int, int], None] | None,
    again: tuple[Callable[..., BestPlan], dict[str, Any]],
) -> BestPlan:
    choices, habit, tries = asked.choices, asked.habit, asked.tries
    wanted = [
        cooks.wishes,
        *(cooks.wishes.preferring(one) for one in PREFERRED if one != cooks.wishes.prefer),
    ]
    total = _cooks_to_come(cooks, min(tries, choices.count()), asked.rules)
    with Progress(total, 0, progress, name="best plan") as bar:
        cooks.tick = lambda more: bar.add(min(more, total - bar.done), 0)
        cooks.compare_with(asked.as_given)
        given = cooks.run([asked.as_given], "promise")[0]
        if given is None:
            raise invalid(
                "plan", None, "it cannot be cooked as it is", "a plan that simulate() takes is accepted"
            )
        first = [habit, *_beginnings(choices, habit)]
        found = promised(search(choices, cooks, wanted, tries, asked.seed, first), cooks, cooks.wishes)
        options = front(found, cooks.wishes)
        if not options:
            raise nothing_safe(cooks, choices)
        chosen = options[0]
        too_late(cooks, choices, chosen, tries, asked.seed)
        beaten = Habit(habit, cooks.at_best_start(given), cooks.measure(given, chosen.measured.room), given)
        reasons = [] if cooks.table.room is not None else _reasons(cooks, habit, chosen)
        policy = find_policy(chosen.recipe, cooks, chosen.measured) if asked.rules else None
        bar.add(total - bar.done, 0)
    start = cooks.table.serve - chosen.measured.room
    sooner = float(chosen.cooks.weight[np.asarray(chosen.cooks.ready < given.ready)].sum())
    whole_plan = Plan(cooks.ahead.plan.meat, cooks.stages(chosen.recipe)[:-1], start=start % DAY)
    return BestPlan(
        plan=whole_plan,
        start=start,
        serve=cooks.table.serve,
        options=options,
        habit=beaten,
        reasons=reasons,
        policy=policy,
        better=sooner,
        notes=notes_of(cooks, choices, options, beaten.measured),
        units=asked.units,
        simulated=cooks.simulated,
        cooks=cooks,
        _again=again,
    )


def _cooks_to_come(cooks: Cooks, tries: int, rules: bool) -> int:
    """About how many cooks will be simulated; the bar is filled at the end."""
    sizes = {name: part.size for name, part in cooks.parts.items()}
    return int(
        tries * sizes["screen"]
        + 30 * sizes["choose"]
        + 14 * sizes["promise"]
        + 9 * len(cooks.ahead.weight) * rules
    )


def _beginnings(choices: Choices, habit: Recipe) -> list[Recipe]:
    """Plans that a cook would think of first: the habit with another wrap, or a hotter pit."""
    made = [replace(habit, wrap=one) for one in choices.options["wrap"] if one != habit.wrap]
    return [*made, replace(habit, wrapped_pit=max(choices.options["wrapped_pit"]))]


def _reasons(cooks: Cooks, habit: Recipe, chosen: Option) -> list[Reason]:
    """Say what each change of the habit does alone, and in the plan if it is not worth it alone."""
    new = chosen.recipe
    bare = new.wrap == "none"
    groups: list[tuple[str, Recipe, Recipe]] = []  # in words, changed alone, and the plan without it
    if (new.wrap, new.wrap_at) != (habit.wrap, habit.wrap_at):
        air = habit.pit if bare else habit.wrapped_pit
        words = f"{wrapped_at(new)} instead of {wrapped_at(habit)}"
        alone = replace(habit, wrap=new.wrap, wrap_at=new.wrap_at, wrapped_pit=air)
        groups.append((words, alone.plain, replace(new, wrap=habit.wrap, wrap_at=habit.wrap_at).plain))
    if pits(new) != pits(habit):
        alone = replace(habit, pit=new.pit, wrapped_pit=new.pit if bare else new.wrapped_pit, boost=new.boost)
        without = replace(new, pit=habit.pit, wrapped_pit=habit.wrapped_pit, boost=habit.boost)
        groups.append((f"{pits(new)} instead of {pits(habit)}", alone.plain, without.plain))
    if new.pull != habit.pull:
        words = f"{pulled_at(new)} instead of {pulled_at(habit)}"
        groups.append((words, replace(habit, pull=new.pull).plain, replace(new, pull=habit.pull).plain))
    plain, *others = cooks.see([habit, *(alone for _, alone, _ in groups)], "promise")
    if plain is None:
        return []
    base = cooks.at_best_start(plain)
    mass = float(cooks.ahead.plan.meat.mass)

    def between(what: str, m: Measured, other: Measured, within: Reason | None = None) -> Reason:
        gains = (other.pulled50 - m.pulled50, m.kept - other.kept, m.bark - other.bark)
        return Reason(what, *gains, mass=mass, within=within)

    made = []
    for (words, _, without), one in zip(groups, others, strict=True):
        if one is None:
            continue
        m, within = cooks.at_best_start(one), None
        if base.pulled50 - m.pulled50 < -NOTICED and m.kept - base.kept < SAME:
            kept = cooks.see([without], "promise")[0]
            if kept is not None:
                within = between(words, chosen.measured, cooks.at_best_start(kept))
        made.append(between(words, m, base, within))
    return made


Forecast._planner = staticmethod(best_plan_ahead)  # so that nothing below imports what stands above
