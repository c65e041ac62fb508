"""What holds for every plan that a cook could carry out; see plan_strategies for how many are tried."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from plan_strategies import courses, examples, heated, meats, numbers, plans

import libcook as lc
from libcook import physics

COARSE = {"nodes": 15, "output_every": 300.0}
ROUNDING = 1e-9


def run(plan, **options):
    """The outcome, whole or of a stage that ended without its end being met."""
    try:
        return lc.simulate(plan, **{**COARSE, **options})
    except lc.Unreachable as failure:
        return failure.outcome


@examples()
@given(plans())
def test_every_plan_finishes_with_closed_ledgers(plan):
    is_sound(plan, run(plan))


@examples(0.5)
@given(st.lists(plans(), min_size=2, max_size=4))
def test_plans_side_by_side_finish_and_do_not_feel_each_other(some):
    batch = [*some, *reversed(some)]
    results = lc.simulate_many(batch, keep_fields=True, **COARSE)
    outcomes = [result.outcome if isinstance(result, lc.Unreachable) else result for result in results]
    for plan, out in zip(batch, outcomes, strict=True):
        is_sound(plan, out)
    for one, again in zip(outcomes[: len(some)], reversed(outcomes[len(some) :]), strict=True):
        np.testing.assert_array_equal(one.time, again.time)
        np.testing.assert_array_equal(one.temperature, again.temperature)
        np.testing.assert_array_equal(one.water, again.water)


def is_sound(plan, out):
    traces = ["time", "core", "coldest", "air", "tenderness", "mean_water", "mean_temperature", "surface"]
    for name in [*traces, "surface_water", "film", "temperature", "water"]:
        assert np.isfinite(getattr(out, name)).all(), name
    assert (np.diff(out.time) > 0.0).all()
    assert (np.diff(out.tenderness) >= -1e-9).all()
    assert out.water.min() >= -0.05
    assert abs(out.ledger.heat_residual) < ROUNDING
    assert abs(out.ledger.water_residual) < ROUNDING
    assert out.ledger.evaporated <= out.ledger.water_start + out.ledger.spritzed
    assert len(out.stage_ends) <= len(plan.stages)


@examples()
@given(plans())
def test_no_temperature_beyond_its_surroundings_and_start(plan):
    """The maximum principle, with latent heat: a face may cool to the wet-bulb and warm to the dew point."""
    out = run(plan)
    bounds = [bounds_of(stage) for stage in plan.stages]
    low = min([plan.meat.start, *(one[0] for one in bounds)])
    high = max([plan.meat.start, *(one[1] for one in bounds)])
    error = 0.3  # K; local errors of 0.04 K a step add up
    assert out.temperature.min() > low - error
    assert out.temperature.max() < high + error


def bounds_of(stage):
    """Coldest and hottest [°C] that a stage can make a face."""
    around = stage.surroundings
    offsets = [0.0, around.radiant_bottom, around.radiant_top]
    airs = [around.air] + ([around.air_below] if around.air_below else [])
    low = min(air.minimum for air in airs)
    high = max(air.maximum for air in airs)
    if stage.lid or stage.spritz:
        low = min(low, around.ambient)
    if around.box:
        low, high = min(low, around.box.start), max(high, around.box.start)
    vapour = around.vapour_pressure
    dew = physics.dew_point(max(vapour.maximum, 700.0))
    # Under a cover that holds heat back more than vapour, a face may go below the wet-bulb, to the dew point.
    covered = stage.wrap.name != "none"
    least_vapour = max(vapour.minimum, 620.0)  # the formulas begin at 0 °C
    evaporating = (
        physics.dew_point(least_vapour)
        if covered or least_vapour > 0.9 * physics.saturation_pressure(max(low, 1.0))
        else physics.wet_bulb(max(low, 1.0), least_vapour)
    )
    spritz = [stage.spritz.temperature] if stage.spritz else []
    return min([low + min(offsets), evaporating, *spritz]), max([high + max(offsets), dew, *spritz])


@examples(0.5)
@given(
    meats(),
    heated(),
    numbers(40.0, 78.0),
    numbers(5.0, 20.0),
    st.sampled_from(["none", "foil", "butcher paper"]),
)
def test_a_hotter_pit_is_never_later(meat, place, end, hotter, wrap):
    warm = place.replace(air=shifted(place.air, hotter)) if place.air.maximum + hotter <= 180.0 else None
    if warm is None or place.air_below:
        return
    late, early = (
        run(lc.Plan(meat, [lc.Stage("cook", where, wrap=wrap, until=lc.core(end), at_most="3 d")])).time[-1]
        for where in (place, warm)
    )
    assert early <= late * 1.002 + 1.0


def shifted(air, by):
    return air.replace(value=[value + by for value in air.value])


@examples(0.5)
@given(
    meats(slab_only=True, fat=("none",)), courses(90.0, 150.0), numbers(3.0, 60.0), st.booleans(), st.data()
)
def test_equal_faces_give_a_symmetric_cook(meat, air, film, foil, data):
    place = lc.pit("cabinet", air, film=film)
    stages = [lc.Stage("cook", place, until=lc.elapsed(data.draw(numbers(1200.0, 20000.0))))]
    if foil:
        stages.append(lc.Stage("wrapped", place, wrap="foil", until=lc.elapsed("1 h")))
    out = run(lc.Plan(meat, stages))
    lines = 2 if meat.shape.width is not None else 1
    for field in (out.temperature, out.water):
        for line in np.split(field, lines, axis=1):
            np.testing.assert_allclose(line, line[:, ::-1], rtol=0.0, atol=1e-6)
