"""What to do from now on, and rules for the day."""

import dataclasses

import numpy as np
import pytest

import libcook as lc
from libcook.planner.policies import find_policy, looks_at
from libcook.words.two_scales import in_scale

LOOKS = {"2 h": "80 °F", "4 h": "118 °F", "6 h": "140 °F", "7 h": "147 °F"}  # invented


def habit(start="4:00"):
    drum = lc.pit("drum", air="250 °F")
    return lc.Plan(
        lc.brisket("14 lb"),
        [
            lc.Stage("smoke", drum, until=lc.core("165 °F")),
            lc.Stage("wrapped", drum, wrap="butcher paper", until=lc.core("203 °F")),
            lc.Stage("rest", lc.counter(), wrap="foil", until=lc.elapsed("1 h")),
        ],
        start=start,
    )


@pytest.fixture(scope="module")
def ahead():
    return lc.forecast(habit(), LOOKS, members=120)


@pytest.fixture(scope="module")
def new(ahead):
    return ahead.best_plan("18:00", tries=40, rules=False)


def test_a_new_plan_mid_cook_gets_dinner_on_the_table(ahead, new):
    assert new.under_way
    assert new.measured.room == 14 * 3600.0
    assert new.measured.on_time > new.habit.same_start.on_time + 0.3
    assert new.better > 0.9
    text = repr(new)
    assert (
        "against going on as planned" in text and "from now on" in text and in_scale(new.caution, "F") in text
    )
    assert new.units == "F" and "°C" not in text
    # The forecast, asked what happens if just this is done, says the same of the same cooks.
    stages = new.cooks.stages(new.chosen.recipe)[:-1]
    mine = new.cooks.parts["promise"]
    asked = ahead.what_if(stages=stages).stage_end[mine]
    there = np.isfinite(asked[:, -1])  # a very wet pit is no holding oven: what_if takes both for one
    assert there.mean() > 0.9
    # But for how much of the saving is believed: more of it on some cooks, less on others.
    cooks = new.chosen.cooks
    pulled = ahead.now + (asked[there, -2] - ahead.now) * cooks.stretch[there]
    assert np.allclose(pulled, cooks.pulled[there])
    assert np.allclose(asked[there, -1] - asked[there, -2], (cooks.ready - cooks.pulled)[there])
    assert 0.3 < (cooks.stretch > 1.0).mean() < 0.7


def test_going_on_as_planned_is_what_the_forecast_says(ahead, new):
    mine = new.cooks.parts["promise"]
    assert np.allclose(ahead.ready[mine], new.habit.cooks.ready)


def test_wrapped_meat_is_not_unwrapped():
    looks = {**LOOKS, "9 h": "163 °F", "11 h": "176 °F"}
    ahead = lc.forecast(habit(), looks, members=60, ended={"smoke": "9 h 20 min"})
    assert ahead.current == 1
    new = ahead.best_plan("18:00", tries=16, rules=False)
    assert all(one.recipe.wrap in ("butcher paper", "foil") for one in new.options)
    assert all(stage.name != "smoke" for stage in new.plan.stages)


def test_what_cannot_be_planned_is_said(ahead):
    with pytest.raises(lc.InvalidInput, match=r"did you mean plan.replace\(start='21:00'\)"):
        lc.forecast(habit(None), LOOKS, members=50).best_plan("18:00")
    soon = ahead.best_plan("11:30", tries=16, rules=False)  # half an hour from now
    assert soon.measured.on_time < 0.1
    assert any("no plan that was found is ready" in note for note in soon.notes)


def test_rules_use_only_what_the_thermometer_shows_and_bring_what_they_say():
    best = lc.best_plan(lc.brisket("14 lb"), "18:00", members=150, tries=30, seed=2)
    cooks = best.cooks
    policy = best.policy or find_policy(best.habit.recipe, cooks, best.habit.measured)
    assert policy is not None
    assert policy.rules == tuple(sorted(policy.rules, key=lambda one: one.at))
    score = cooks.wishes.score
    assert score(policy.measured) > score(policy.fixed)
    assert policy.fixed.room == policy.same_start.room
    for rule in policy.rules:
        assert 0.0 <= rule.share < 1.0
        assert rule.at % 1800.0 == 0.0
        assert 0.0 < rule.core < 100.0
    if best.policy is not None:
        assert "rule" in repr(best) and "with the rules" in repr(best)


def test_who_sleeps_looks_on_getting_up():
    hour = 3600.0
    assert looks_at(14 * hour, 0.0) == [5 * hour, 7 * hour, 9 * hour]
    night = (23 * hour, 6 * hour)
    # On at 22:00: looks at 3:00 and 5:00 wait until 6:00; the one at 7:00 stays.
    assert looks_at(14 * hour, 0.0, -2 * hour, night) == [8 * hour, 9 * hour]
    # On at 6:15, or asked at 1:00 of a cook that began at 21:00.
    assert looks_at(14 * hour, 0.0, 6.25 * hour, night) == looks_at(14 * hour, 0.0)
    assert looks_at(14 * hour, 0.0, 0.0, (0.0, 24 * hour - 60.0)) == []  # who gets up for a minute alone
    assert looks_at(14 * hour, 0.0, 0.0, (hour, hour)) == looks_at(14 * hour, 0.0)
    for at in looks_at(18 * hour, 4 * hour, -3 * hour, night):
        assert at > 4 * hour and 6 * hour <= (at - 3 * hour) % (24 * hour) < 23 * hour


def test_rules_are_told_by_what_they_change():
    from libcook.planner.policies import Policy, Rule
    from libcook.planner.words import policy_rows

    best = lc.best_plan(lc.brisket("14 lb"), "18:00", members=150, tries=30, seed=2, rules=False)
    m = best.measured
    later = dataclasses.replace(m, room=m.room - 1800.0, wait=m.wait - 1200.0)
    rule = Rule(6 * 3600.0, True, 60.0, 130.0, False, 0.1)
    row = dict(policy_rows(Policy((rule,), later, m, m), best.serve))["with the rules"]
    assert "on time as often" in row and "tender" not in row and row.count("instead of") == 2
    better = dataclasses.replace(m, on_time=m.on_time - 0.1)
    row = dict(policy_rows(Policy((rule,), better, m, m), best.serve))["with the rules"]
    assert row.startswith("on time ") and row.endswith("as long a wait") and row.count("instead of") == 1


def test_a_rule_changes_nothing_before_its_look(ahead):
    from libcook.planner.cooks import Cooks, Table
    from libcook.planner.habit import kitchen_of, recipe_of
    from libcook.planner.policies import _changes
    from libcook.planner.wishes import read_wishes

    ahead = lc.forecast(habit(None), members=50)
    recipe = recipe_of(habit())
    at = looks_at(12 * 3600.0, 0.0)[-1]
    cooks = Cooks(ahead, kitchen_of(habit()), Table(18 * 3600.0), read_wishes(None), False, looks=[at])
    base, *changed = cooks.run(
        [cooks.stages(recipe), *(stages for _, stages in _changes(recipe, at, cooks))], "choose"
    )
    assert len(changed) == 3
    for other, (rule, stages) in zip(changed, _changes(recipe, at, cooks), strict=True):
        for stage in stages[:-2]:
            air = stage.surroundings.air
            assert air.at(0.0) == air.at(at) == pytest.approx(recipe.pit)
            assert air.at(at + 60.0) == pytest.approx(rule.air)
        late = base.ready > at + 6 * 3600.0
        sooner = base.ready[late] - other.ready[late]
        assert late.sum() > 5
        assert (sooner > 0.0).all() if rule.under else (sooner < 0.0).all()
