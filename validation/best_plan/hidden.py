"""Hidden cooks of the other worlds, cooked by a plan: when each would be ready, and what it would weigh.

A hidden cook is a body, its restless pit and its biased thermometer, all from one seed: the same body is
cooked by the chosen plan, by that plan with its rules, and by the habit. The worlds wrap by the core that the
display shows and know no bark and no tenderness, so the plans are chosen among cores. What a pit does beside
its set point, lids and sagging charcoal included, is the same by every plan.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from worlds import brick, lumped, mobility, nuisance, traces, wandering
from worlds.cook import Array
from worlds.setting import LONGEST, STEP, Setting, Truth, done, march

from libcook.planner.policies import Rule
from libcook.planner.recipe import BOOST_AT, Recipe

PHYSICAL = {"mobility": mobility, "lumped": lumped, "brick": brick, "wandering": wandering}
WORLDS = (*PHYSICAL, "traces")
ROUNDS = 5  # passes until every change of the pit lies where the core has put it
DRY = 740.0 / 1050.0  # kg of water in a kg of these worlds' meat


@dataclass(frozen=True)
class Known:
    """What the user knows."""

    cut: str
    mass: float  # kg
    start: float  # °C
    cooker: str


@dataclass(frozen=True)
class Result:
    """What came of a hidden cook; infinite where it was not done within 30 h."""

    ready: float  # s since the start, rest included
    kept: float  # share of the raw weight after evaporation; not a number: this world has no water


class Hidden:
    """One hidden cook."""

    def __init__(self, known: Known, world: str, seed: int) -> None:
        self.known, self.world, self.seed = known, world, seed
        dice = np.random.default_rng([seed, 20, WORLDS.index(world)])
        self.start = known.start + 1.5 * float(dice.standard_normal())
        usual = 120.0
        self.off = nuisance.air(usual, known.cooker, LONGEST + 1, dice) - usual
        self.bias = float(dice.choice([-1.0, 1.0]) * dice.uniform(0.1, 1.0))

    def cook(self, recipe: Recipe, rules: tuple[Rule, ...] = ()) -> Result:
        """Cook by a plan; with rules, the first that fits at its look changes it."""
        truth, kept = self._run(recipe, None)
        for rule in sorted(rules, key=lambda one: one.at):
            at = int(rule.at / STEP)
            shown = self._shown(truth, at)
            ended = done(truth.core + self.bias, recipe.pull[1])
            if ended is not None and ended <= at:
                break
            bare = recipe.wrap == "none" or not truth.wrapped or truth.wrapped[0] > at
            if (shown < rule.core) == rule.under and (bare or not rule.foil):
                truth, kept = self._run(recipe, rule)
                break
        ended = done(truth.core + self.bias, recipe.pull[1])
        return Result(math.inf if ended is None else STEP * ended + recipe.rest, kept)

    def _shown(self, truth: Truth, at: int) -> float:
        return float(truth.core[min(at, truth.core.size - 1)]) + self.bias

    def _run(self, recipe: Recipe, rule: Rule | None) -> tuple[Truth, float]:
        wrap, core = ("" if recipe.wrap == "none" else recipe.wrap), recipe.wrap_at[1]
        course = np.full(LONGEST + 1, recipe.pit)
        truth, kept = self._once(course, wrap, core, recipe.pull[1])
        if rule is not None and rule.foil:
            wrap, core = (
                "foil",
                min(core if recipe.wrap != "none" else 200.0, self._shown(truth, int(rule.at / STEP))),
            )
        for _ in range(ROUNDS):
            course = np.full(LONGEST + 1, recipe.pit)
            if wrap and truth.wrapped:
                course[truth.wrapped[0] :] = recipe.wrapped_pit
            hot = np.flatnonzero(truth.core + self.bias >= BOOST_AT)
            if recipe.boost > 0.0 and hot.size:
                course[hot[0] :] = recipe.boost
            if rule is not None:
                course[int(rule.at / STEP) :] = rule.air
            before = truth
            truth, kept = self._once(course, wrap, core, recipe.pull[1])
            if truth.core.shape == before.core.shape and np.allclose(truth.core, before.core):
                break
        return truth, kept

    def _once(self, course: Array, wrap: str, core: float, target: float) -> tuple[Truth, float]:
        known = self.known
        air = np.maximum(course + self.off, 25.0)
        setting = Setting(known.cut, known.mass, self.start, known.cooker, air, wrap, core, self.bias, target)
        dice = np.random.default_rng([self.seed, 21, WORLDS.index(self.world)])
        if self.world == "traces":
            return traces.truth(setting, traces.SCALE, dice), math.nan
        module = PHYSICAL[self.world]
        body = module.Body(setting, module.SCALE, dice)
        truth = march(setting, body.step)
        return truth, 1.0 - DRY * EVAPORATED[self.world](body)


def _mobility(body: mobility.Body) -> float:
    return float(1.0 - body.water.mean() / mobility.WATER)


def _lumped(body: lumped.Body) -> float:
    return float(1.0 - (body.shell + body.core) / body.full)


def _brick(body: brick.Body) -> float:
    return float(1.0 - body.wet.mean())


def _wandering(body: wandering.Body) -> float:
    return float(body.lost / (740.0 * wandering.CELLS * body.width))


EVAPORATED: dict[str, Callable[..., float]] = {
    "mobility": _mobility,
    "lumped": _lumped,
    "brick": _brick,
    "wandering": _wandering,
}
