"""Two ways to say the same cook give the same cook: each relation below, on each of the plans.

`EXACT` relations give the same numbers bit by bit; `CLOSE` ones the same within what a step may be wrong,
since the steps begin anew at every moment.
"""

import copy
import json
import pickle

import numpy as np
import pytest
from cook_samples import roll

import libcook as lc

HOUR = 3600.0


def cooks():
    """A plan for each kind of surroundings with something of its own to remember."""
    drum = lc.pit("drum", air=121.0, ambient=15.0)
    log = ([0.0, 1800.0, 7000.0, 14000.0, 30000.0], [90.0, 125.0, 110.0, 140.0, 115.0])
    wet = lc.breathing(lc.pit("ceramic", air="250 °F"), pan="2 kg")
    counter = lc.counter("70 °F")
    return {
        "drum, paper, counter": (
            lc.brisket(mass="14 lb"),
            [
                lc.Stage("smoke", drum, until=lc.core("140 °F"), lid=[("1 h", "2 min")]),
                lc.Stage("wrapped", drum, wrap="butcher paper", until=lc.elapsed("3 h")),
                lc.Stage("rest", counter, wrap="foil", until=lc.elapsed("2 h")),
            ],
        ),
        "logged pit": (
            lc.brisket(mass=5.0, fat="up"),
            [lc.Stage("smoke", lc.pit("offset", air=log), until=lc.elapsed("8 h"))],
        ),
        "air and humidity set": (
            roll(2.5),
            [
                lc.Stage(
                    "smoke",
                    lc.pit(
                        "kettle",
                        air=lc.schedule([("0 h", 107.0), ("2 h", 135.0), ("5 h", 100.0)]),
                        vapour_pressure=([0.0, 20000.0], [4000.0, 15000.0]),
                    ),
                    until=lc.elapsed("7 h"),
                )
            ],
        ),
        "breathing, with a pan": (
            lc.brisket(mass=4.0),
            [
                lc.Stage("smoke", wet, until=lc.elapsed("5 h")),
                lc.Stage("wrapped", wet, wrap="foil", until=lc.elapsed("3 h")),
            ],
        ),
        "rest in a box": (
            lc.brisket(mass=6.0),
            [
                lc.Stage("smoke", lc.oven("275 °F"), until=lc.elapsed("5 h")),
                lc.Stage("rest", lc.insulated_box(), wrap="foil", until=lc.elapsed("8 h")),
            ],
        ),
        "holding oven": (
            lc.pork_shoulder(mass=3.0),
            [
                lc.Stage("roast", lc.oven("300 °F", fan=True), wrap="pan", until=lc.elapsed("4 h")),
                lc.Stage("hold", lc.holding_oven("150 °F"), wrap="towels", until=lc.elapsed("4 h")),
            ],
        ),
    }


PLANS = {name: lc.Plan(meat, stages, start="06:00") for name, (meat, stages) in cooks().items()}


def split(plan, parts):
    """Every timed stage in equal parts; what happens within a stage goes to the first."""
    stages = []
    for stage in plan.stages:
        (end,) = stage.until
        if end.kind != "elapsed":
            stages.append(stage)
            continue
        until = lc.End("elapsed", end.value / parts)
        stages += [stage.replace(until=until, lid=stage.lid if k == 0 else []) for k in range(parts)]
    return plan.replace(stages=stages)


def written_out(plan):
    """The plan from its JSON with every field in it, defaults too."""
    return lc.Plan.from_json(json.dumps(json.loads(plan.to_json())))


def with_more_ends(plan):
    """Further ends that are never first, before and behind."""
    late = [
        lc.core("105 °C") if s.surroundings.air.maximum > 106.0 else lc.elapsed("46 h") for s in plan.stages
    ]
    return plan.replace(
        stages=[
            stage.replace(until=[far, *stage.until, lc.elapsed("47 h")])
            for stage, far in zip(plan.stages, late, strict=True)
        ]
    )


def later(plan, seconds):
    """Started so much later, by the clock."""
    return plan.replace(start=(plan.start + seconds) % 86400.0)


def by_the_clock(plan):
    """The first timed stage until the time of day that its end comes at."""
    stage, *rest = plan.stages
    (end,) = stage.until
    if end.kind != "elapsed":
        return plan
    at = lc.End("clock", (plan.start + end.value) % 86400.0)
    return plan.replace(stages=[stage.replace(until=at), *rest])


def with_rows_between(plan):
    """More points on the straight lines of the air."""
    stages = []
    for stage in plan.stages:
        air = stage.surroundings.air
        if len(air.time) > 1:
            times = np.unique(np.concatenate([air.time, np.linspace(air.time[0], air.time[-1], 23)]))
            values = np.interp(times, air.time, air.value)
            place = stage.surroundings.replace(air=air.replace(time=times, value=values))
            stage = stage.replace(surroundings=place)
        stages.append(stage)
    return plan.replace(stages=stages)


def with_skipped_stages(plan):
    """Between the stages some that are over before they begin, elsewhere."""
    over = lc.Stage("over", lc.counter("30 °C"), until=lc.core("-1 °C"))
    stages = [stage for one in plan.stages for stage in (one, over)]
    return plan.replace(stages=stages[:-1])


def with_empty_sprays(plan):
    """A spray every 23 minutes of nothing, with the lid shut."""
    nothing = lc.Spritz(every=23 * 60.0, first=60.0, amount=0.0, lid_open=0.0)
    return plan.replace(stages=[stage.replace(spritz=nothing) for stage in plan.stages])


EXACT = {
    "JSON": lambda plan: lc.Plan.from_json(plan.to_json()),
    "pickle": lambda plan: pickle.loads(pickle.dumps(plan)),
    "copy": copy.deepcopy,
    "defaults written out": written_out,
    "ends that are never first": with_more_ends,
    "time shifted": lambda plan: later(plan, 5000.0),
    "by the clock": by_the_clock,
    "longer at most": lambda plan: plan.replace(stages=[s.replace(at_most="47 h") for s in plan.stages]),
    "names": lambda plan: plan.replace(stages=[s.replace(name="x") for s in plan.stages]),
    "a probe beside": lambda plan: plan.replace(probes=[lc.Probe("near the face", z=0.004)]),
}
CLOSE = {
    "split in 2": lambda plan: split(plan, 2),
    "split in 6": lambda plan: split(plan, 6),
    "rows between": with_rows_between,
    "skipped stages between": with_skipped_stages,
    "empty sprays": with_empty_sprays,
}


@pytest.fixture(scope="module")
def told():
    return {name: lc.simulate(plan) for name, plan in PLANS.items()}


@pytest.mark.parametrize("name", PLANS)
@pytest.mark.parametrize("relation", EXACT)
def test_the_same_cook_bit_by_bit(told, name, relation):
    out, other = told[name], lc.simulate(EXACT[relation](PLANS[name]))
    if relation == "by the clock":  # the time of day is rounded
        np.testing.assert_allclose(other.time, out.time, rtol=0.0, atol=1e-6)
        assert other.core[-1] == pytest.approx(out.core[-1], abs=1e-6)
        return
    for trace in ("time", "core", "surface", "film", "temperature", "water", "vapour_pressure", "pan_water"):
        np.testing.assert_array_equal(getattr(other, trace), getattr(out, trace), err_msg=trace)
    assert [e[1:] for e in other.stage_ends] == [e[1:] for e in out.stage_ends]


@pytest.mark.parametrize("name", PLANS)
@pytest.mark.parametrize("relation", CLOSE)
def test_the_same_cook_within_a_step(told, name, relation):
    close(told[name], lc.simulate(CLOSE[relation](PLANS[name])))


def close(out, other, kelvin=0.15):
    assert other.time[-1] == pytest.approx(out.time[-1], rel=2e-3)
    assert other.core[-1] == pytest.approx(out.core[-1], abs=kelvin)
    assert other.air[-1] == pytest.approx(out.air[-1], abs=kelvin)
    assert other.mean_water[-1] == pytest.approx(out.mean_water[-1], rel=2e-3)
    assert other.pan_water[-1] == pytest.approx(out.pan_water[-1], rel=2e-3, abs=1e-6)
    assert other.vapour_pressure[-1] == pytest.approx(out.vapour_pressure[-1], rel=0.01)
    assert other.loss.total == pytest.approx(out.loss.total, rel=3e-3)
    for one in (out, other):
        for residual in (one.ledger.heat_residual, one.ledger.water_residual, one.ledger.air_residual):
            assert abs(residual) < 1e-11


@pytest.mark.parametrize("name", PLANS)
def test_a_batch_is_as_alone_whatever_is_beside_and_in_whatever_order(told, name):
    plans = list(PLANS.values())
    order = [list(PLANS).index(name), 3, 1, 0, 5, 2, 4, list(PLANS).index(name)]
    first, *_, last = lc.simulate_many([plans[i] for i in order], keep_fields=True)
    (only,) = lc.simulate_many([PLANS[name]], keep_fields=True)
    for other in (last, only):
        np.testing.assert_array_equal(other.time, first.time)
        np.testing.assert_array_equal(other.temperature, first.temperature)
    close(told[name], first)


def test_units_are_only_ways_to_write():
    def plan(mass, air, wrap_at, hours, start):
        pit = lc.pit("drum", air=air)
        return lc.Plan(
            lc.brisket(mass=mass),
            [
                lc.Stage("smoke", pit, until=lc.core(wrap_at)),
                lc.Stage("wrapped", pit, wrap="foil", until=lc.elapsed(hours)),
            ],
            start=start,
        )

    kelvin = 5.0 / 9.0
    metric = plan(14 * 0.45359237, (250 - 32) * kelvin, (150 - 32) * kelvin, 9000.0, 21 * HOUR)
    out = lc.simulate(metric)
    for other in (
        plan("14 lb", "250 °F", "150 °F", "2.5 h", "21:00"),
        plan("224 oz", "250F", "150 °F", "150 min", "21:00"),
        plan("6350.29318 g", f"{(250 - 32) * kelvin} °C", f"{(150 - 32) * kelvin} °C", "9000 s", "21:00:00"),
    ):
        again = lc.simulate(other)
        assert again.time[-1] == pytest.approx(out.time[-1], rel=1e-6)
        assert again.core[-1] == pytest.approx(out.core[-1], abs=1e-4)


def test_a_larger_piece_of_the_same_thickness_is_the_same_cook_times_its_size():
    small = PLANS["drum, paper, counter"]
    small = small.replace(meat=small.meat.replace())
    small.meat.shape.width = None  # endless: without sides, and in air that knows no edge
    large = small.replace(meat=small.meat.replace())
    large.meat.shape.extent *= 2.0
    one, two = lc.simulate(small), lc.simulate(large)
    np.testing.assert_allclose(two.core, one.core, rtol=0.0, atol=1e-9)
    for mass in ("evaporated", "run_off", "water_start", "on_surface"):
        assert getattr(two.ledger, mass) == pytest.approx(2.0 * getattr(one.ledger, mass), rel=1e-9)


@pytest.mark.parametrize("parts", [2, 6, 24])
def test_a_rest_in_a_box_is_the_same_in_however_many_equal_stages(told, parts):
    plan = PLANS["rest in a box"]
    smoke, rest = plan.stages
    part = rest.replace(until=lc.End("elapsed", rest.until[0].value / parts))
    other = lc.simulate(plan.replace(stages=[smoke, *[part] * parts]))
    close(told["rest in a box"], other, kelvin=0.1)


def test_the_reading_of_a_rest_does_not_hang_on_how_it_is_cut(told):
    name = "rest in a box"
    out, other = told[name], lc.simulate(split(PLANS[name], 4))
    assert other.carryover().pulled_at == pytest.approx(out.carryover().pulled_at)
    assert other.carryover().peak == pytest.approx(out.carryover().peak, abs=0.1)
    assert other.time_above("140 °F") == pytest.approx(out.time_above("140 °F"), rel=0.01)
    assert other.hot_hold().coldest_until == pytest.approx(out.hot_hold().coldest_until, rel=0.01)
