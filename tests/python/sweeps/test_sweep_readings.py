"""Readings of sweeps: what the outcome says, however the cooks are cut, run, watched and stopped."""

import concurrent.futures

import numpy as np
import pytest
import xarray as xr
from cook_samples import roll
from sweep_samples import PIT, RANGES, alone, equal, expected, late_core, plan

import libcook as lc
from libcook import _core


def staged(meat, *stages):
    return lc.Plan(meat, list(stages))


def smoked(until="68 °C", **options):
    return lc.Stage("smoke", PIT, until=lc.core(until), **options)


def rested(place, until, wrap="foil"):
    return lc.Stage("rest", place, wrap=wrap, until=until)


PLANS = {
    "ends on the heat": staged(lc.brisket(mass=2.0, thickness="40 mm"), smoked("90 °C")),
    "barely warm": staged(lc.brisket(mass=2.0), smoked("30 °C")),
    "wrapped and held in a box": staged(
        lc.brisket(mass=3.0, thickness="50 mm"),
        smoked(),
        lc.Stage("wrapped", PIT, wrap="foil", until=lc.core("92 °C")),
        rested(lc.insulated_box(), lc.elapsed("6 h")),
    ),
    "cooled on the counter": staged(
        lc.brisket(mass=2.0, thickness="40 mm"),
        smoked("85 °C"),
        rested(lc.counter(), lc.cooled("50 °C"), "none"),
    ),
    "cylinder, spritzed": staged(
        roll(2.5),
        smoked("75 °C", spritz=lc.spritz()),
        lc.Stage("wrapped", PIT, wrap="butcher paper", until=lc.core("88 °C")),
        rested(lc.counter(), lc.elapsed("40 min")),
    ),
    "in a holding oven": staged(
        lc.brisket(mass=2.0, thickness="45 mm"),
        smoked("88 °C"),
        rested(lc.holding_oven("66 °C"), lc.elapsed("8 h")),
    ),
}


@pytest.mark.parametrize("name", PLANS)
@pytest.mark.parametrize("hold", [60.0, 75.0])
def test_every_reading_is_what_the_outcome_says(name, hold):
    made = PLANS[name]
    air = [112.0, 121.0, 133.0]
    found = lc.sweep(made, {"pit.air": air}, hold=hold)
    for i, celsius in enumerate(air):
        one = made.replace()
        for stage in one.stages:
            if stage.surroundings.kind == PIT.kind:
                stage.surroundings.air = celsius
        assert equal(found.isel({"pit.air": i}), alone(one, output_every=300.0), hold)


def test_the_plans_tell_the_readings_apart():
    every = [expected(alone(made)) for made in PLANS.values()]
    for name in lc.sweep_readings():
        assert len({str(one[name]) for one in every}) > 1, name


def test_fields_make_the_lethality_exact_and_the_readings_follow():
    found = lc.sweep(plan(), {"meat.start": [4.0]}, keep_fields=True)
    bound = lc.sweep(plan(), {"meat.start": [4.0]})
    assert equal(found.isel({"meat.start": 0}), alone(plan(), output_every=300.0, keep_fields=True))
    assert float(found["log_reduction"][0]) >= float(bound["log_reduction"][0])


FAILING = {
    "stages.smoke.until": ["60 °C", "200 °C", "63 °C"],
    "stages.wrapped.at_most": ["1 min", "48 h"],
    "meat.tissue.composition.water": [0.6989, 0.5],
    "meat.start": [2.0, 4.0],
}


@pytest.mark.filterwarnings("ignore::libcook.SweepWarning")
@pytest.mark.parametrize("parameters", [FAILING, lc.sample(RANGES, n=64)], ids=["failing", "sample"])
def test_neither_workers_nor_chunks_nor_what_else_is_read_change_a_reading(parameters):
    one = lc.sweep(plan(), parameters, workers=1)
    for options in ({"workers": 2}, {"workers": 3, "chunk": 5}, {"chunk": 1}):
        xr.testing.assert_identical(lc.sweep(plan(), parameters, **options), one)
    with concurrent.futures.ProcessPoolExecutor(2) as pool:
        xr.testing.assert_identical(lc.sweep(plan(), parameters, workers=pool), one)
    more = lc.sweep(plan(), parameters, readings=[*lc.sweep_readings(), {"late": late_core}], traces="core")
    for name in one.variables:
        np.testing.assert_array_equal(more[name].values, one[name].values, err_msg=name)


@pytest.mark.filterwarnings("ignore::libcook.SweepWarning")
@pytest.mark.parametrize("more", [[], [{"late": late_core}]], ids=["ours", "own"])
def test_reasons_are_those_of_simulate(more):
    found = lc.sweep(plan(), FAILING, readings=["yield", *more])
    kinds = set()
    for cook in found.stack(cook=list(FAILING)).transpose("cook", ...)["failure"]:
        made = plan()
        try:
            made.meat.tissue.composition.water = float(cook["meat.tissue.composition.water"])
            made.meat.start = float(cook["meat.start"])
            made.stages[0].until = lc.End("core", float(cook["stages.smoke.until"]))
            made.stages[1].at_most = float(cook["stages.wrapped.at_most"])
            (result,) = lc.simulate_many([made], output_every=300.0, keep_fields=False)
        except lc.InvalidInput as error:
            result = error
        good = isinstance(result, lc.Outcome)
        assert str(cook.values) == ("" if good else f"{type(result).__name__}: {result}")
        kinds.add(type(result).__name__)
    assert kinds == {"Outcome", "InvalidInput", "Unreachable"}


@pytest.mark.filterwarnings("ignore::libcook.SweepWarning")
def test_ticks_add_up_to_the_cooks_and_the_failures():
    batch = _core.PlanBatch()
    for i in range(40):
        made = plan()
        made.stages[1].at_most = 60.0 if i % 4 == 0 else 86400.0
        batch.add(made)
    ticks = []
    values, reasons = _core.read_many(
        batch, _core.Options(), _core.Reader(["end_time"], 3, 60.0), 2, lambda *new: ticks.append(new)
    )
    assert np.sum(ticks, axis=0).tolist() == [40, 10]
    assert all(done >= failed >= 0 and done > 0 for done, failed in ticks)
    assert (
        [bool(why) for why in reasons] == np.isnan(values[:, 0]).tolist() == [i % 4 == 0 for i in range(40)]
    )


@pytest.mark.filterwarnings("ignore::libcook.SweepWarning")
def test_progress_tells_of_each_cook_once_failed_ones_too():
    told = []
    found = lc.sweep(plan(), FAILING, progress=lambda *at: told.append(at), chunk=7)
    assert told == [(i, 24) for i in range(1, 25)]
    assert 0 < found.attrs["failed"] < 24


def test_what_the_callable_of_the_progress_raises_stops_the_cooks_and_keeps_the_chunks():
    class Enough(Exception):
        pass

    def told(done, total):
        if done == 37:
            raise Enough

    with pytest.raises(Enough) as stop:
        lc.sweep(plan(), lc.sample(RANGES, n=2**13), chunk=16, progress=told)
    assert stop.value.partial.attrs["cooks"] - stop.value.partial.attrs["not_run"] == 32


def test_a_cook_does_not_feel_the_one_before_it():
    # both reshape the piece, each from what it is by then
    thick = {"meat.thickness": ["60 mm", "35 mm", "40 mm"], "meat.mass": [2.0, 3.0]}
    together = lc.sweep(plan(), thick, readings=["raw_mass", "finish_time", "yield"])
    for i in range(3):
        apart = lc.sweep(plan(), thick | {"meat.thickness": [thick["meat.thickness"][i]]},
                         readings=["raw_mass", "finish_time", "yield"])  # fmt: skip
        xr.testing.assert_identical(together.isel({"meat.thickness": [i]}).drop_attrs(deep=False),
                                    apart.drop_attrs(deep=False))  # fmt: skip


def test_a_plan_is_restored_in_place():
    made, origin = plan(), plan()
    stage, shape = made.stages[1], made.meat.shape
    stage.wrap, shape.thickness, made.meat.start = "none", 0.1, 9.0
    _core.restore(made, origin)
    assert made == origin and (stage.wrap.name, shape.thickness) == (
        "butcher paper",
        origin.meat.shape.thickness,
    )
    origin = origin.replace(stages=list(origin.stages[:2]))
    with pytest.raises(lc.InvalidInput, match="origin: 2 stages; 3 are in the plan to restore"):
        _core.restore(made, origin)
