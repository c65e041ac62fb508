"""Nothing unsafe is ever proposed: 500 random wishes, in every kind of kitchen that they may be made in."""

import dataclasses

import numpy as np
import pytest

import libcook as lc
from libcook import _core
from libcook.planner import limits
from libcook.planner.choices import read_choices
from libcook.planner.cooks import Cooks, Table
from libcook.planner.front import front, promised
from libcook.planner.habit import kitchen_of, recipe_of, stages_as_given, usual_plan
from libcook.planner.recipe import stages_of
from libcook.planner.search import search
from libcook.planner.wishes import PREFERRED, read_wishes

WISHES, KITCHENS, PUBLIC = 500, 5, 12


def some(random, values, most=3):
    count = int(random.integers(1, min(most, len(values)) + 1))
    return [values[i] for i in sorted(random.choice(len(values), count, replace=False))]


def random_choice(random):
    """What may vary: also what nobody should try, from a lattice, so that cooks are run once."""
    choose = {
        "pit": some(
            random, ["150 °F", "200 °F", "225 °F", "275 °F", "400 °F"][int(random.integers(0, 2)) : 4], 2
        ),
        "wrap": some(random, ["butcher paper", "foil", None], 2),
        "wrap_at": some(random, ["150 °F", "165 °F", "bark"], 1),
        "wrapped_pit": some(random, ["225 °F", "325 °F"], 1),
        "boost": some(random, [None, "325 °F"], 1),
        "pull": some(random, ["185 °F", "203 °F", lc.tender(0.9)], 2),
        "rest": some(random, ["30 min", "2 h"], 1),
        "hold": some(random, ["oven", "cooler"], 1),
    }
    if random.random() < 0.3:
        choose["start"] = [("21:00", "9:00"), "16:00", ("6:00", "7:00")][int(random.integers(3))]
    return choose


def random_want(random):
    want = {"ready": float(random.choice([0.5, 0.8, 0.95])), "prefer": str(random.choice(PREFERRED))}
    if random.random() < 0.3:
        want["sleep"] = True
    if random.random() < 0.3:
        want["longest_wait"] = str(random.choice(["0 h", "2 h", "20 h"]))
    if random.random() < 0.2:
        want["bark"] = 2.0
    return want


def kitchen(number):
    """A forecast for each kind of kitchen: brisket and pork, drums, a wet cabinet, an oven."""
    meat = [
        lc.brisket("14 lb"),
        lc.pork_shoulder("8 lb"),
        lc.brisket("5 lb"),
        lc.brisket("18 lb"),
        lc.pork_shoulder("9 lb"),
    ]
    place = [
        lc.pit("drum", air="250 °F"),
        lc.pit("cabinet", air="250 °F", vapour_pressure="40 kPa"),
        lc.oven("250 °F"),
        lc.pit("offset", air="250 °F"),
        lc.pit("kettle", air="250 °F"),
    ]
    plan = usual_plan(meat[number])
    stages = [one if one.name == "rest" else one.replace(surroundings=place[number]) for one in plan.stages]
    return lc.Plan(plan.meat, stages)


def cooks_in(plan):
    where = kitchen_of(plan)
    stages = stages_as_given(list(plan.stages), _core.done_stage(plan), where)
    ahead = lc.forecast(lc.Plan(plan.meat, stages), members=50, seed=3)
    return Cooks(ahead, where, Table(18 * 3600.0), read_wishes(None), wrapped=False)


def check(option, where, meat, table):
    """A proposal by its own numbers, and once more by a cook that had no part in anything: the middle one."""
    recipe = option.recipe
    for air in (recipe.pit, recipe.wrapped_pit, *([recipe.boost] if recipe.boost else [])):
        assert limits.COOLEST_PIT <= air <= limits.HOTTEST_PIT
    if recipe.wrap == "butcher paper":
        assert max(recipe.wrapped_pit, recipe.boost) <= limits.HOTTEST_PAPER
    assert recipe.hold in ("oven", "cooler")
    assert all(share <= limits.UNSAFE_SHARE + 1e-9 for share in option.measured.unsafe.values())
    stages = stages_of(recipe, where)
    ready = option.measured.ready50
    wait = min(max(option.measured.room - ready, 0.0) + 60.0, 12 * 3600.0)
    stages[-1] = stages[-1].replace(until=lc.elapsed(wait), at_most=wait + 60.0)
    out = lc.simulate(lc.Plan(meat, stages), keep_fields=False)
    kind, value = recipe.pull
    pulled = out.stage_ends[-3]
    if kind == "core":
        assert pulled.core >= value - 0.1
    safe = out.safety()
    assert safe.log_reduction >= 6.5
    assert 0.0 <= safe.come_up <= limits.COME_UP
    kept = out.time >= pulled.time
    assert out.coldest[kept].min() >= limits.HOT_HOLDING - 0.5
    assert not any("hot holding" in words for words in safe.warnings)


@pytest.mark.parametrize("number", range(KITCHENS))
def test_nothing_unsafe_is_ever_proposed(number):
    random = np.random.default_rng([20, number])
    plan = kitchen(number)
    base = cooks_in(plan)
    seen, refused, proposed = {}, 0, 0
    for k in range(WISHES // KITCHENS):
        choose, want = random_choice(random), random_want(random)
        wishes = read_wishes(want)
        try:
            choices = read_choices(choose, recipe_of(plan))
        except lc.InvalidInput as error:
            assert "pit of" in str(error)
            assert any(one in choose["pit"] for one in ("150 °F", "400 °F"))
            refused += 1
            continue
        assert not {"150 °F", "400 °F"} & set(choose["pit"])
        rooms = None
        if choices.start is not None:
            day = 86400.0
            rooms = tuple((18 * 3600.0 - one) % day for one in (choices.start.latest, choices.start.earliest))
        cooks = dataclasses.replace(base, wishes=wishes, table=Table(18 * 3600.0, rooms=rooms), _points={})
        recipes = search(choices, cooks, [wishes], 6, k, [recipe_of(plan)])
        for option in front(promised(recipes, cooks, wishes), wishes):
            proposed += 1
            key = (option.recipe, round(option.measured.room))
            if key not in seen:
                seen[key] = True
                check(option, cooks.kitchen, plan.meat, cooks.table)
    assert proposed > 10, "the wishes are not all refused"
    assert refused > 5


def test_nor_by_the_door_that_users_take():
    random = np.random.default_rng(21)
    answered = 0
    for k in range(PUBLIC):
        plan = kitchen(k % KITCHENS)
        try:
            best = lc.best_plan(
                plan,
                "18:00",
                choose=random_choice(random),
                want=random_want(random),
                members=50,
                tries=6,
                seed=k,
            )
        except lc.InvalidInput as error:
            assert any(words in str(error) for words in ("pit of", "safe", "dinner at")), error
            continue
        answered += 1
        assert best.caution in repr(best)
        for option in best.options:
            check(option, best.cooks.kitchen, plan.meat, best.cooks.table)
        for rule in best.policy.rules if best.policy else ():
            assert limits.COOLEST_PIT <= rule.air <= limits.HOTTEST_PIT
    assert answered > 0
