"""A cooker's own humidity, and the holding oven."""

import numpy as np
import pytest
from cook_samples import short_plan
from section_samples import COARSE, section_plan

import libcook as lc

DRUM = lc.pit("drum", air=120.0)


def test_breathing_leaves_the_cooker_it_was_given():
    wet = lc.breathing(DRUM, pan="3 kg", pieces=2)
    assert DRUM.pit_air is None
    assert wet.pit_air.pan.water == 3.0 and wet.pit_air.meat_count == 2.0
    assert wet.pit_air == lc.pit_air("drum", 120.0, ambient=DRUM.ambient, pan="3 kg", pieces=2)


def run(**how):
    plan = short_plan(90.0)
    plan.stages[0].surroundings = lc.breathing(DRUM, **how)
    return lc.simulate(plan)


def test_a_pan_and_less_air_make_the_cooker_humid():
    dry, pan, tight = run(), run(pan="2 kg"), run(air_flow=0.3 * lc.pit_air("drum", 120.0).air_flow)
    at = np.searchsorted(dry.time, 3600.0)
    for humid in (pan, tight):
        assert np.interp(3600.0, humid.time, humid.vapour_pressure) > 1.05 * dry.vapour_pressure[at]
    assert pan.pan_water[0] == pytest.approx(2.0) and pan.pan_water.min() < 2.0
    assert dry.pan_water.max() == 0.0


@pytest.mark.parametrize("grid", [{}, COARSE], ids=["slab", "cross-section"])
def test_the_vapour_balance_closes(grid):
    whole = section_plan(60.0, cooker=lc.breathing(DRUM, pan="1 kg"))
    plan = lc.Plan(whole.meat, [whole.stages[0]])
    ledger = lc.simulate(plan, **grid).ledger
    assert abs(ledger.air_residual) < 1e-9 and ledger.pan_given > 0.0
    assert ledger.vapour_out > ledger.vapour_in > 0.0


@pytest.mark.parametrize("grid", [{}, COARSE], ids=["slab", "cross-section"])
def test_the_air_of_two_stages_is_one_book(grid):
    drum = lc.breathing(DRUM, pan="1 kg", pieces=2)
    oven = lc.breathing(lc.pit("ceramic", air=110.0))
    whole = section_plan(60.0, cooker=drum)
    smoke = whole.stages[0]
    stages = [
        smoke,
        lc.Stage("wrapped", drum, wrap="butcher paper", until=lc.elapsed("40 min")),
        lc.Stage("moved", oven, wrap="butcher paper", until=lc.elapsed("30 min")),
    ]
    out = lc.simulate(lc.Plan(whole.meat, stages), **grid)
    ledger = out.ledger
    assert abs(ledger.air_residual) < 1e-9

    # The wrapped meat stays in the drum's air, with the pan as it was; the other cooker has none.
    moved = [end.time for end in out.stage_ends]
    here = {name: int(np.searchsorted(out.time, at - 1e-6)) for name, at in zip("abc", moved, strict=True)}
    steady = out.vapour_pressure[here["a"] + 1] / out.vapour_pressure[here["a"]]
    assert steady == pytest.approx(1.0, abs=0.35)
    assert 0.0 < out.pan_water[here["b"]] < out.pan_water[here["a"]] < 1.0
    assert out.pan_water[here["b"] + 1] == 0.0
    assert ledger.pan_given == pytest.approx(1.0 - out.pan_water[here["b"]], rel=1e-9)

    # By hand: what came in with air and fuel, at each cooker's own rate, and what the pieces gave.
    def inflow(place):
        air = place.pit_air
        ratio = 0.62195 * air.inlet_vapour_pressure / (air.pressure - air.inlet_vapour_pressure)
        return air.air_flow * ratio + air.fuel_water

    assert ledger.vapour_in == pytest.approx(inflow(drum) * moved[1] + inflow(oven) * 1800.0, rel=1e-4)
    given = sum(
        out.paths[face]["evaporated"] * area for face, area in zip(out.faces, out.face_area, strict=True)
    )
    pieces = 2.0 * given[here["b"]] + (given[here["c"]] - given[here["b"]])
    assert ledger.vapour_out == pytest.approx(ledger.vapour_in + ledger.pan_given + pieces, rel=0.02)


def test_a_holding_oven_has_the_humidity_it_was_given():
    held = lc.holding_oven("150 °F", humidity=0.5)
    saturated = float(lc.physics.saturation_pressure((150.0 - 32.0) / 1.8))
    assert held.vapour_pressure.value[0] == pytest.approx(0.5 * saturated)


@pytest.mark.parametrize(
    ("make", "field", "says"),
    [
        (lambda: lc.pit_air("drumm", 120.0), "pit_air.kind", "did you mean 'drum'"),
        (lambda: lc.pit_air("drum", 120.0, humidity=50), "humidity", "0 to 1"),
        (lambda: lc.pit_air("drum", 120.0, wind=90.0), "wind", "20"),
        (lambda: lc.pit_air("drum", 120.0, pan=[2]), "pit_air.pan", "libcook.WaterPan"),
        (lambda: lc.breathing(lc.counter()), "breathing.kind", "drum"),
        (lambda: lc.breathing("drum"), "cooker", "libcook.Surroundings"),
        (lambda: lc.holding_oven(humidity=40), "holding_oven.humidity", "0.4"),
    ],
)
def test_messages_name_the_field_and_the_slip(make, field, says):
    with pytest.raises(lc.InvalidInput) as caught:
        make()
    assert field in caught.value.field and says in str(caught.value)
