"""Cases small enough to enumerate, and what the search finds in them with a part of the plans."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

import libcook as lc
from libcook import _core
from libcook.planner.choices import Choices, read_choices
from libcook.planner.cooks import Cooks, Table
from libcook.planner.habit import kitchen_of, recipe_of, stages_as_given, usual_plan
from libcook.planner.recipe import Recipe
from libcook.planner.search import Archive, every_recipe, evolve, polish
from libcook.planner.wishes import read_wishes

MEMBERS = 72  # possible cooks; a third of them judges


@dataclass(frozen=True)
class Case:
    """A choice of few plans."""

    name: str
    meat: lc.Meat
    choose: dict[str, Any]
    want: dict[str, Any]
    tries: int


FIXED = {"boost": None, "rest": "1 h", "hold": "oven"}
CASES = (
    Case(
        "a 14 lb brisket, when to wrap it and in what",
        lc.brisket("14 lb"),
        {
            **FIXED, "pit": ["225 °F", "250 °F", "275 °F"], "wrapped_pit": ["250 °F", "275 °F"],
            "wrap": ["butcher paper", "foil", "none"], "wrap_at": ["150 °F", "160 °F", "170 °F"],
            "pull": ["195 °F", "203 °F"],
        },
        {},
        36,
    ),
    Case(
        "an 8 lb pork shoulder that is to lose little",
        lc.pork_shoulder("8 lb"),
        {
            **FIXED, "pit": ["225 °F", "250 °F", "275 °F"], "wrap": ["foil"], "boost": [None, "300 °F"],
            "wrap_at": ["145 °F", "155 °F", "165 °F", "175 °F"], "wrapped_pit": ["225 °F", "275 °F"],
            "pull": ["195 °F", "200 °F"],
        },
        {"prefer": "weight"},
        48,
    ),
    Case(
        "a 10 lb brisket for a cook who sleeps",
        lc.brisket("10 lb"),
        {
            "boost": None, "hold": ["oven", "cooler"], "rest": ["1 h", "2 h"], "pit": ["235 °F", "265 °F"],
            "wrapped_pit": ["235 °F", "300 °F"], "wrap": ["butcher paper", "foil"],
            "wrap_at": ["150 °F", "165 °F"], "pull": ["200 °F", lc.tender(0.85, every="30 min")],
        },
        {"sleep": True},
        56,
    ),
)  # fmt: skip


def cooks_of(case: Case, seed: int = 0) -> tuple[Cooks, Choices, Recipe]:
    """Possible cooks for a case."""
    plan = usual_plan(case.meat)
    kitchen, habit = kitchen_of(plan), recipe_of(plan)
    stages = stages_as_given(list(plan.stages), _core.done_stage(plan), kitchen)
    ahead = lc.forecast(lc.Plan(case.meat, stages), members=MEMBERS, seed=seed)
    cooks = Cooks(ahead, kitchen, Table(18 * 3600.0), read_wishes(case.want), wrapped=False)
    return cooks, read_choices(case.choose, habit), habit


@dataclass(frozen=True)
class Found:
    """What came of a case."""

    case: Case
    all: int
    tried: int
    best: float  # points of the enumerated optimum
    found: float  # points of what the search found
    rank: int  # of it among all; 1: the optimum
    recipe: Recipe


def compare(case: Case, seed: int = 0) -> Found:
    """Search with a part of the plans, then judge all."""
    cooks, choices, habit = cooks_of(case, seed)
    judge = lambda recipes: cooks.judge(recipes, "screen")  # noqa: E731
    archive = Archive()
    last = case.tries // 2
    evolve(choices, judge, archive, case.tries - last, seed, [choices.place(habit)])
    polish(choices, judge, archive, last)
    tried = list(archive.recipes)
    points = judge(tried)
    found = tried[int(np.argmax(points))]
    every = list(every_recipe(choices))
    all_points = np.array(judge(every))
    rank = 1 + int((all_points > max(points) + 1e-9).sum())
    return Found(case, len(every), len(tried), float(all_points.max()), max(points), rank, found)
