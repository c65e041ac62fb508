"""Rules for the day: at a time, by what the thermometer shows, go on as planned or change something.

Each rule was found by running the possible cooks with the change made at the look, and choosing by what the
thermometer would show then: nothing is used that somebody beside the cooker would not know. A cook is changed
once at most. Rules are chosen on the cooks that choose, and told of on those that promise. Where the model's
own error of pace puts a cook ahead of its simulation or behind, the change comes as much later or earlier in
its course: the decision goes by the clock, the change by the simulation.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from libcook._core import End, Stage
from libcook.planner import limits
from libcook.planner.cooks import Cooks
from libcook.planner.measure import FloatArray, Measured, Seen, quiet
from libcook.planner.recipe import Recipe, stages_of, turned
from libcook.units import celsius_to_fahrenheit, fahrenheit_to_celsius
from libcook.units.clock import DAY

LOOK_GRAIN = 1800.0  # s: on the half hours since the start, as the possible pits are drawn
HOTTER, COOLER = 14.0, 14.0  # K that a pit is turned: 25 °F
WORTH = 0.25  # points that a rule has to bring
MOST_RULES = 4
LEAST_SHARE = 0.04  # of the cooks that a rule has to be for
AROUND = (0.35, 0.5, 0.65, 0.8, 1.0, 1.25, 1.6, 2.2)  # shares of a look's time that the core is read at
THRESHOLDS = tuple(np.linspace(0.1, 0.9, 9))


@dataclass(frozen=True)
class Rule:
    """If the core is under (or over) a temperature at a time, do something from then on.

    Attributes
    ----------
    at : float
        When to look [s since the start].
    under : bool
        Whether it is for cooks that run late; else for those that run early.
    core : float
        What the thermometer is compared with [°C].
    air : float
        Pit from then on [°C].
    foil : bool
        Whether it is wrapped in foil then, if it is bare still.
    share : float
        Of the possible cooks that it is for.
    """

    at: float
    under: bool
    core: float
    air: float
    foil: bool
    share: float = 0.0


@dataclass(frozen=True)
class Policy:
    """A plan with rules for the day.

    Rules lean on the model more than the plan does: on some cooks of other worlds they keep less than they
    promise (validation/BEST_PLAN.md), so where it matters, start when the plan without rules does.

    Attributes
    ----------
    rules : tuple of Rule
        In the order of the day.
    measured : Measured
        What the plan with its rules comes to, started when that suits it best.
    same_start : Measured
        The same, started when the plan without rules is.
    fixed : Measured
        The plan without rules, on the same possible cooks.
    """

    rules: tuple[Rule, ...]
    measured: Measured
    same_start: Measured
    fixed: Measured


def looks_at(
    ready50: float, now: float, start: float = 0.0, sleep: tuple[float, float] | None = None
) -> list[float]:
    """Return when to look [s since the start]: at a third, a half and two thirds of what is left.

    Parameters
    ----------
    ready50 : float
        Middle of when it is ready [s since the start].
    now : float
        Of a cook that is under way [s since the start].
    start : float
        Of the cook [s after midnight].
    sleep : tuple of float or None
        Quiet hours [s after midnight]: who sleeps looks on getting up, and not at all where the day is over
        before the next half hour.
    """
    found = []
    for share in (0.35, 0.5, 0.65):
        at = now + max(LOOK_GRAIN, round(share * (ready50 - now) / LOOK_GRAIN) * LOOK_GRAIN)
        if sleep is not None and wakes(start + at, sleep):
            night = (sleep[1] - start - at) % DAY  # what is left of it
            at += float(np.ceil(night / LOOK_GRAIN)) * LOOK_GRAIN
            if wakes(start + at, sleep):
                continue
        if at not in found:
            found.append(at)
    return found


def wakes(clock: float, sleep: tuple[float, float]) -> bool:
    """Say whether a look at a time of day [s] falls into the quiet hours."""
    return bool(quiet(np.array([clock]), sleep)[0])


def _changes(recipe: Recipe, at: float, cooks: Cooks) -> list[tuple[Rule, list[Stage]]]:
    """Return what may be done at a look, with the stages that come of it for every cook."""
    base = cooks.stages(recipe)
    last = recipe.wrapped_pit if recipe.wrap != "none" else recipe.pit
    hot = _even(min(max(recipe.pit, last) + HOTTER, _hottest(recipe, cooks)))
    cool = _even(max(min(recipe.pit, last) - COOLER, limits.COOLEST_PIT + 1.0))
    found = []
    if hot > last + 2.0:
        found.append((Rule(at, True, 0.0, hot, False), turned(base, at, hot)))
    if cool < last - 2.0:
        found.append((Rule(at, False, 0.0, cool, False), turned(base, at, cool)))
    if not cooks.wrapped and recipe.wrap_at[0] != "now" and at > cooks.table.now:
        foiled = replace(recipe, wrap="foil", wrapped_pit=last if recipe.wrap != "none" else recipe.pit)
        if recipe.wrap == "none":
            foiled = replace(
                foiled, wrap_at=("core", recipe.pull[1] - 2.0 if recipe.pull[0] == "core" else 90.0)
            )
        stages = stages_of(foiled, cooks.kitchen)
        stages[0].until = [*stages[0].until, End("elapsed", at - cooks.table.now)]
        hotter = _even(min(last + HOTTER, limits.HOTTEST_PIT))
        found.append((Rule(at, True, 0.0, hotter, True), turned(stages, at, hotter)))
    return found


def _even(air: float) -> float:
    """Round a pit to fives of °F, as cooks set it."""
    return float(fahrenheit_to_celsius(5.0 * round(float(celsius_to_fahrenheit(air)) / 5.0)))


def _hottest(recipe: Recipe, cooks: Cooks) -> float:
    return limits.HOTTEST_PAPER if recipe.wrap == "butcher paper" else limits.HOTTEST_PIT


def find_policy(recipe: Recipe, cooks: Cooks, fixed: Measured) -> Policy | None:
    """Find rules for the day of a plan.

    Parameters
    ----------
    recipe : Recipe
        The plan.
    cooks : Cooks
        The possible cooks.
    fixed : Measured
        What the plan comes to without rules.

    Returns
    -------
    Policy or None
        None where no rule is worth it.
    """
    now, sleep = cooks.table.now, cooks.wishes.sleep
    looks = looks_at(fixed.ready50, now, cooks.table.serve - fixed.room, sleep)
    around = sorted({now + (at - now) * share for at in looks for share in AROUND})
    asked = replace(cooks, looks=around)
    changes = [change for at in looks for change in _changes(recipe, at, asked)]
    chosen: dict[str, list[tuple[Seen, Seen]]] = {}
    for part in ("choose", "promise"):
        base, *others = asked.run([asked.stages(recipe), *(stages for _, stages in changes)], part)
        if base is None:
            return None
        chosen[part] = [(base, base if one is None else one) for one in others]
        cooks.simulated = asked.simulated
    rules = _choose(changes, chosen["choose"], asked)
    if not rules:
        return None
    mixed, shares = _apply(rules, chosen["promise"], asked)
    told = tuple(replace(rule, share=share) for (_, rule), share in zip(rules, shares, strict=True))
    measured = cooks.at_best_start(mixed)
    same = cooks.measure(mixed, fixed.room)
    begin = cooks.table.serve - measured.room
    if sleep is not None and any(wakes(begin + rule.at, sleep) for rule in told):
        measured = same  # another start would bring a look into the night
    fixed = cooks.measure(chosen["promise"][0][0], fixed.room)
    better = cooks.wishes.score(measured) > cooks.wishes.score(fixed)
    return Policy(told, measured, same, fixed) if better and measured.safe else None


Chosen = list[tuple[int, Rule]]  # which change, and the rule with its threshold


def shown_at(one: Seen, at: float, cooks: Cooks) -> FloatArray:
    """Return what the thermometer shows at a time [°C], whatever each takes over what the model says."""
    now = cooks.table.now
    simulated = now + (at - now) / one.stretch
    return np.array([np.interp(t, cooks.looks, row) for t, row in zip(simulated, one.shown, strict=True)])


def _apply(rules: Chosen, seen: Sequence[tuple[Seen, Seen]], cooks: Cooks) -> tuple[Seen, list[float]]:
    """Return the cooks as the rules make them, and the share of the cooks that each rule is for."""
    base = seen[0][0]
    mixed = base
    free: npt.NDArray[np.bool_] = np.ones(base.ready.size, bool)
    shares = []
    for k, rule in rules:
        shown = shown_at(base, rule.at, cooks)
        # Foil goes round what is bare still: nobody unwraps, and nobody knew before.
        open_ones = (base.actions[:, 0] if rule.foil else base.pulled) > rule.at
        hit = free & open_ones & ((shown < rule.core) if rule.under else (shown > rule.core))
        mixed = mixed.with_rows(hit, seen[k][1])
        free = free & ~hit
        shares.append(float(base.weight[hit].sum()))
    return mixed, shares


def _choose(
    changes: Sequence[tuple[Rule, list[Stage]]],
    seen: Sequence[tuple[Seen, Seen]],
    cooks: Cooks,
) -> Chosen:
    """Add the rule that brings most, again and again."""
    if not changes:
        return []
    kinds = [rule for rule, _ in changes]
    base = seen[0][0]
    rules: Chosen = []
    points = cooks.wishes.score(cooks.at_best_start(base))
    while len(rules) < MOST_RULES:
        best: tuple[float, Chosen] | None = None
        for k, kind in enumerate(kinds):
            if any(one.at == kind.at and one.under == kind.under for _, one in rules):
                continue
            shown = shown_at(base, kind.at, cooks)
            for core in sorted({_whole(float(np.quantile(shown, q))) for q in THRESHOLDS}):
                tried = sorted([*rules, (k, replace(kind, core=core))], key=lambda one: one[1].at)
                mixed, shares = _apply(tried, seen, cooks)
                if min(shares) < LEAST_SHARE:
                    continue
                found = cooks.wishes.score(cooks.at_best_start(mixed))
                if best is None or found > best[0]:
                    best = (found, tried)
        if best is None or best[0] < points + WORTH:
            break
        points, rules = best
    return rules


def _whole(core: float) -> float:
    """Round a core to whole °F, as a thermometer shows it."""
    return float(fahrenheit_to_celsius(round(float(celsius_to_fahrenheit(core)))))
