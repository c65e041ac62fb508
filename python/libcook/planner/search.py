"""The search: an evolution over the values that may vary, few cooks for bad plans, many for good ones.

The optimiser is SciPy's differential evolution on whole numbers (Storn and Price, J. Global Optimization 11
(1997) 341, from memory), which hands over a whole generation at once, so that the cooks fill packs; the best
is polished by hand. On the same budgets of plans it was measured against CMA-ES (`cma`), which is worse, and
the tree-structured Parzen estimator of Optuna, which is no better by what a cook would notice and brings a
database layer along: `validation/best_plan/optimisers.py`, with the points in validation/BEST_PLAN.md.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations, product

import numpy as np
import numpy.typing as npt

from libcook.arguments.optional import need
from libcook.planner.choices import KNOBS, Choices
from libcook.planner.cooks import Cooks
from libcook.planner.recipe import Recipe
from libcook.planner.wishes import Wishes

GENERATION = 24  # plans of one generation
FINALISTS = 8  # that each preference sends on to more cooks
PROMISING = 3  # of those that each sends on to the promise
UNSAFE = 1e6  # stands for minus infinity where an optimiser wants a number
Judge = Callable[[Sequence[Recipe]], list[float]]


@dataclass
class Archive:
    """Every recipe that was judged on the first look, in the order of the search."""

    recipes: dict[Recipe, tuple[int, ...]] = field(default_factory=dict)


class Enough(Exception):
    """As many plans were tried as were asked for."""


def evolve(
    choices: Choices, judge: Judge, archive: Archive, tries: int, seed: int, first: Sequence[tuple[int, ...]]
) -> None:
    """Try new recipes until as many were as are asked for, or all there are.

    Parameters
    ----------
    choices : Choices
        What may vary.
    judge : callable
        Points of several recipes; more is better.
    archive : Archive
        What was tried, which grows.
    tries : int
        New recipes to try.
    seed : int
        Of the random numbers.
    first : sequence of tuple
        Places to begin from.
    """
    optimise = need("scipy.optimize", "best", "best_plan")
    before = len(archive.recipes)
    sizes = np.array(choices.sizes)

    def points(table: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        places = [
            tuple(int(v) for v in np.clip(np.rint(row), 0, sizes - 1)) for row in np.atleast_2d(table.T)
        ]
        recipes = [choices.recipe(place) for place in places]
        for recipe, place in zip(recipes, places, strict=True):
            archive.recipes.setdefault(recipe, place)
        found = np.array(judge(recipes))
        if len(archive.recipes) - before >= tries:
            raise Enough
        return np.where(np.isfinite(found), -found, UNSAFE)

    random = np.random.default_rng(seed)
    population = min(GENERATION, max(5, tries // 3))
    begin = _spread(sizes, population, random, first)
    bounds = [(0, max(int(size) - 1, 0)) for size in sizes]
    try:
        optimise.differential_evolution(
            points,
            bounds,
            integrality=[True] * len(KNOBS),
            init=begin,
            vectorized=True,
            updating="deferred",
            maxiter=max(1, 3 * tries // population),
            tol=0.0,
            atol=0.0,
            polish=False,
            seed=seed,
            mutation=(0.4, 0.9),
            recombination=0.8,
        )
    except Enough:
        pass


def polish(choices: Choices, judge: Judge, archive: Archive, tries: int) -> None:
    """Change one thing of the best recipe at a time, then two at once, as long as plans may be tried.

    Parameters
    ----------
    choices : Choices
        What may vary.
    judge : callable
        Points of several recipes.
    archive : Archive
        What was tried, which grows.
    tries : int
        New recipes to try at most.
    """
    until = len(archive.recipes) + tries
    best: Recipe | None = None
    while len(archive.recipes) < until:
        known = list(archive.recipes)
        now = known[int(np.argmax(judge(known)))]
        at_once = 1 if now != best else 2
        best = now
        before = len(archive.recipes)
        for place in _near(archive.recipes[best], choices.sizes, at_once):
            archive.recipes.setdefault(choices.recipe(place), place)
            if len(archive.recipes) >= min(until, before + GENERATION):
                break
        if at_once == 2 and len(archive.recipes) == before:
            return


def _near(place: tuple[int, ...], sizes: tuple[int, ...], at_once: int) -> Iterator[tuple[int, ...]]:
    """Places that differ in so many values."""
    for knobs in combinations(range(len(sizes)), at_once):
        for values in product(*(range(sizes[i]) for i in knobs)):
            other = list(place)
            for i, value in zip(knobs, values, strict=True):
                other[i] = value
            yield tuple(other)


def _spread(
    sizes: npt.NDArray[np.int_], count: int, random: np.random.Generator, first: Sequence[tuple[int, ...]]
) -> npt.NDArray[np.float64]:
    """Places that hold every value of everything about as often, those given in front."""
    table = np.empty((count, sizes.size))
    for j, size in enumerate(sizes):
        table[:, j] = random.permutation(np.arange(count) % size)
    for i, place in enumerate(first[:count]):
        table[i] = place
    return table


def every_recipe(choices: Choices) -> dict[Recipe, tuple[int, ...]]:
    """Return all that can be put together."""
    made: dict[Recipe, tuple[int, ...]] = {}
    for place in np.ndindex(*choices.sizes):
        made.setdefault(choices.recipe(place), tuple(place))
    return made


def search(
    choices: Choices, cooks: Cooks, wishes: Sequence[Wishes], tries: int, seed: int, first: Sequence[Recipe]
) -> list[Recipe]:
    """Find the recipes that are worth a promise, best first by the first of the wishes.

    Parameters
    ----------
    choices : Choices
        What may vary.
    cooks : Cooks
        The possible cooks.
    wishes : sequence of Wishes
        The user's, and the same with other preferences, for the front.
    tries : int
        Recipes to try on the few cooks of a first look.
    seed : int
        Of the search.
    first : sequence of Recipe
        To begin with, such as the habit.
    """
    archive = Archive()
    if choices.count() <= tries:
        archive.recipes = every_recipe(choices)
        cooks.see(list(archive.recipes), "screen")
    else:
        share = tries // (2 * len(wishes))  # half of all is for the user's own wishes, a part of it to polish
        begin = [choices.place(one) for one in first]
        for i, wanted in enumerate(wishes):
            own = tries - share * (len(wishes) - 1) if i == 0 else share
            last = min(own // 3, sum(choices.sizes))

            def judge(recipes: Sequence[Recipe], wanted: Wishes = wanted) -> list[float]:
                return cooks.judge(recipes, "screen", wanted)

            if i > 0:  # what the others have found
                known = list(archive.recipes)
                points = judge(known)
                order = np.argsort([-one for one in points], kind="stable")
                begin = [archive.recipes[known[k]] for k in order[: GENERATION // 3]]
            evolve(choices, judge, archive, own - last, seed + i, begin)
            polish(choices, judge, archive, last)
    known = list(archive.recipes)
    columns = [cooks.judge(known, "screen", one) for one in wishes]
    good = _best(known, columns + _by_wrap(known, columns[0]), FINALISTS)
    columns = [cooks.judge(good, "choose", one) for one in wishes]
    return _best(good, columns, PROMISING, _by_wrap(good, columns[0]))


def _by_wrap(recipes: list[Recipe], points: list[float]) -> list[list[float]]:
    """Return the points for one kind of wrap each, so that those who hold by theirs find their best."""
    kinds = dict.fromkeys(one.wrap for one in recipes)
    return [
        [value if one.wrap == kind else float("-inf") for one, value in zip(recipes, points, strict=True)]
        for kind in kinds
    ]


def _best(
    recipes: list[Recipe], points: list[list[float]], count: int, alone: Sequence[list[float]] = ()
) -> list[Recipe]:
    """Return those that are among the best by one column, each column's best in turn; one each of `alone`."""
    found: dict[Recipe, None] = {}
    for rank in range(count):
        for column in [*points, *alone] if rank == 0 else points:
            order = np.argsort([-one for one in column], kind="stable")
            if rank < len(order) and np.isfinite(column[order[rank]]):
                found.setdefault(recipes[order[rank]])
    return list(found)
