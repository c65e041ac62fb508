"""Numbers that a log can teach, read from a plan and written back: the same cook, bit for bit."""

import numpy as np
import pytest

import libcook as lc

SMOKE = {"until": lc.core(93.0)}
PLANS = {
    "shoulder": lambda: lc.Plan(
        lc.pork_shoulder("8 lb"), [lc.Stage("smoke", lc.pit("drum", air="250 °F"), **SMOKE)]
    ),
    "brisket": lambda: lc.Plan(
        lc.brisket(mass="14 lb"),
        [
            lc.Stage("smoke", lc.pit("drum", air="250 °F"), until=lc.core(66.0)),
            lc.Stage("wrapped", lc.oven("250 °F", fan=True), wrap="butcher paper", **SMOKE),
            lc.Stage("rest", lc.counter("70 °F"), wrap="foil", until=lc.cooled("140 °F")),
        ],
    ),
    "breathing": lambda: lc.Plan(
        lc.brisket(mass="6 lb", fat="up"),
        [lc.Stage("smoke", lc.breathing(lc.pit("kettle", air="250 °F"), pan="3 kg"), **SMOKE)],
    ),
    "cylinder": lambda: lc.Plan(
        lc.Meat(shape=lc.Shape("cylinder", "11 cm", 0.2), fat_cap=lc.FatCap(side="none")),
        [lc.Stage("smoke", lc.pit("pellet", air="225 °F"), **SMOKE)],
    ),
}


def numbers_in(plan):
    """Every free number that a plan has."""
    found = {}
    for kind in lc._core.free_kinds():
        try:
            found[kind.name] = lc._core.value_in(plan, kind.name)
        except lc.InvalidInput:
            continue
    return found


@pytest.mark.parametrize("name", PLANS)
def test_writing_back_what_was_read_is_the_same_cook(name):
    plan = PLANS[name]()
    as_it_is = lc.simulate(plan)
    found = numbers_in(plan)
    assert {"thickness", "film_coefficient", "probe_distance", "pit_offset"} <= set(found)
    for number, value in found.items():
        written = lc._core.with_value(plan, number, value)
        assert written.to_json() == plan.to_json(), number
        out = lc.simulate(written)
        assert [e.time for e in out.stage_ends] == [e.time for e in as_it_is.stage_ends], number
        np.testing.assert_array_equal(out.core, as_it_is.core, err_msg=number)


@pytest.mark.parametrize("name", PLANS)
@pytest.mark.parametrize("film", [3.0, 8.0, 25.0])
def test_the_film_written_is_the_film_read(name, film):
    written = lc._core.with_value(PLANS[name](), "film_coefficient", film)
    assert lc._core.value_in(written, "film_coefficient") == pytest.approx(film, rel=1e-12)


def test_all_numbers_at_once_written_back_are_the_same_cook():
    plan = PLANS["brisket"]()
    written = plan
    for number, value in numbers_in(plan).items():
        written = lc._core.with_value(written, number, value)
    assert written.to_json() == plan.to_json()
    assert lc.simulate(written).time[-1] == lc.simulate(plan).time[-1]
