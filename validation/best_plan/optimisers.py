"""SciPy's differential evolution beside CMA-ES and Optuna's estimator, on the same budgets of plans.

`cma` and `optuna` are not among the project's requirements: install them to run this.
"""

from __future__ import annotations

import importlib
import warnings
from collections.abc import Callable
from typing import Any

import numpy as np

import libcook as lc
from best_plan.small import Case, cooks_of
from libcook.planner.choices import KNOBS, Choices
from libcook.planner.recipe import Recipe
from libcook.planner.search import Archive, Judge, evolve, polish

BATCH = 24
WHOLE = Case("everything that may vary, of a 14 lb brisket", lc.brisket("14 lb"), {}, {}, 0)
Optimise = Callable[[Choices, Judge, Archive, int, int, Recipe], None]


def _told(choices: Choices, judge: Judge, archive: Archive, table: Any) -> list[float]:
    top = np.array(choices.sizes) - 1
    places = [tuple(int(v) for v in np.clip(np.rint(row), 0, top)) for row in table]
    recipes = [choices.recipe(place) for place in places]
    for recipe, place in zip(recipes, places, strict=True):
        archive.recipes.setdefault(recipe, place)
    return [-v if np.isfinite(v) else 1e3 for v in judge(recipes)]


def scipy_alone(
    choices: Choices, judge: Judge, archive: Archive, tries: int, seed: int, habit: Recipe
) -> None:
    evolve(choices, judge, archive, tries, seed, [choices.place(habit)])


def scipy_polished(
    choices: Choices, judge: Judge, archive: Archive, tries: int, seed: int, habit: Recipe
) -> None:
    last = tries // 3
    evolve(choices, judge, archive, tries - last, seed, [choices.place(habit)])
    polish(choices, judge, archive, last)


def cma_es(choices: Choices, judge: Judge, archive: Archive, tries: int, seed: int, habit: Recipe) -> None:
    cma = importlib.import_module("cma")
    top = np.array(choices.sizes, float) - 1.0
    begin = np.array(choices.place(habit)) / np.maximum(top, 1.0)
    options = {"bounds": [0.0, 1.0], "popsize": BATCH, "seed": seed + 1, "verbose": -9}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        one = cma.CMAEvolutionStrategy(begin, 0.3, options)
        for _ in range(4 * tries // BATCH):
            if len(archive.recipes) >= tries:
                return
            asked = one.ask()
            one.tell(asked, _told(choices, judge, archive, np.array(asked) * top))


def optuna_tpe(
    choices: Choices, judge: Judge, archive: Archive, tries: int, seed: int, habit: Recipe
) -> None:
    optuna = importlib.import_module("optuna")
    optuna.logging.set_verbosity(optuna.logging.ERROR)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        sampler = optuna.samplers.TPESampler(seed=seed, multivariate=True, constant_liar=True)
    study = optuna.create_study(sampler=sampler)
    study.enqueue_trial(dict(zip(KNOBS, choices.place(habit), strict=True)))
    for _ in range(4 * tries // BATCH):
        if len(archive.recipes) >= tries:
            return
        trials = [study.ask() for _ in range(BATCH)]
        table = [
            [
                one.suggest_categorical(name, list(range(size)))
                for name, size in zip(KNOBS, choices.sizes, strict=True)
            ]
            for one in trials
        ]
        for one, points in zip(trials, _told(choices, judge, archive, np.array(table)), strict=True):
            study.tell(one, points)


OPTIMISERS: dict[str, Optimise] = {
    "SciPy, differential evolution": scipy_alone,
    "the same, its last third one change at a time": scipy_polished,
    "cma, CMA-ES": cma_es,
    "Optuna, tree-structured Parzen estimator": optuna_tpe,
}


def measured(tries: int = 120, seeds: int = 5) -> dict[str, list[float] | None]:
    """Points of the best plan that each finds, for each seed; None: not installed."""
    cooks, choices, habit = cooks_of(WHOLE)
    told: dict[str, list[float] | None] = {}
    base = -1e9
    for name, optimise in OPTIMISERS.items():
        found: list[float] | None = []
        for seed in range(seeds):
            archive = Archive()
            judge = lambda recipes: cooks.judge(recipes, "screen")  # noqa: E731
            try:
                optimise(choices, judge, archive, tries, seed, habit)
            except ImportError:
                found = None
                break
            known = list(archive.recipes)[:tries]
            found.append(max([base, *judge(known)]))
        told[name] = found
    return told
