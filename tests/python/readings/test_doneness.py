"""Tender by probing, bark, hot holding."""

import numpy as np
import pytest
from cook_samples import cylinder_plan, short_plan
from section_samples import section_outcome

import libcook as lc


def plan_until(end):
    return lc.Plan(lc.brisket(mass=2.0, thickness="30 mm"), [lc.Stage("roast", lc.oven(150.0), until=end)])


def test_checked_every_half_hour_it_ends_at_the_next_check():
    at_once = lc.simulate(plan_until(lc.tender(0.3))).stage_ends[0].time
    checked = lc.simulate(plan_until(lc.tender(0.3, every="30 min"))).stage_ends[0].time
    assert at_once % 1800.0 > 1.0
    assert checked == pytest.approx(1800.0 * np.ceil(at_once / 1800.0), abs=1e-3)


def test_every_is_part_of_the_end():
    end = lc.tender("80 %", every="30 min")
    assert (end.value, end.every) == (0.8, 1800.0) and lc.tender(0.8).every == 0.0
    assert lc.Plan.from_json(plan_until(end).to_json()).stages[0].until[0] == end


def test_hotter_air_makes_more_bark():
    mild, hot = (lc.simulate(lc.Plan(lc.brisket(mass=2.0, thickness="40 mm"), [
        lc.Stage("roast", lc.oven(air, fan=True), until=lc.elapsed("3 h"))
    ])).bark() for air in (110.0, 160.0))  # fmt: skip
    # of the bare top; under its fat cap the bottom stays wet with the juice that more heat presses out
    assert hot[1].index > 2.0 * mild[1].index > 0.0
    assert mild[1].index > mild[0].index


def test_the_index_passes_one_when_the_bark_sets():
    out = lc.simulate(lc.Plan(lc.brisket(mass=2.0, fat="none"), [
        lc.Stage("roast", lc.oven(180.0, fan=True), until=lc.elapsed("5 h"))
    ]))  # fmt: skip
    top = out.bark()[1]
    assert (top.set_at is None) == (top.index < 1.0)
    assert top.driest == pytest.approx(out.surface_water[:, 1].min())


def test_a_cylinder_has_bark_on_its_one_face():
    nothing, face = lc.simulate(cylinder_plan()).bark()
    assert nothing.index == 0.0 and face.index > 0.0


def test_hot_hold_is_read_off_coldest_and_hottest():
    plan = short_plan(240.0)
    plan.stages[1].until = lc.elapsed("4 h")
    out = lc.simulate(plan)
    hold = out.hot_hold("57 °C", slicing="65 °C")
    assert hold.pulled_at == pytest.approx(240.0 * 60.0)
    assert hold.hottest_at_end == out.hottest[-1] and hold.coldest_at_end == out.coldest[-1]
    assert np.interp(hold.hottest_until, out.time, out.hottest) == pytest.approx(57.0, abs=0.1)
    assert np.interp(hold.coldest_until, out.time, out.coldest) == pytest.approx(57.0, abs=0.1)
    assert hold.slice_at < hold.hottest_until and hold.coldest_until < hold.hottest_until


def test_fahrenheit_typed_as_celsius_is_refused():
    with pytest.raises(lc.InvalidInput, match="°F"):
        section_outcome().hot_hold(135)


def test_hottest_and_tenderness_of_the_nodes():
    out = section_outcome()
    np.testing.assert_array_equal(out.hottest, out.temperature.max(axis=1))
    share = out.tenderness_by_node()
    assert share.shape == out.node_volume.shape and 0.0 < share.min() < share.max() < 1.0


def test_tenderness_until_a_time_follows_the_solvers_own_integral():
    plan = plan_until(lc.elapsed("3 h"))
    out = lc.simulate(plan, output_every="60 s")
    middle = int(np.argmin(np.abs(out.position - 0.5 * out.position[-1])))
    for at in (1.5, 2.0083, 3.0):  # h; the second between two stored times
        here = np.interp(3600.0 * at, out.time, out.tenderness)
        assert out.tenderness_by_node(f"{at} h")[middle] == pytest.approx(here, rel=2e-3, abs=1e-6)
    assert (out.tenderness_by_node() >= out.tenderness_by_node("2 h")).all()
    with pytest.raises(lc.InvalidInput, match="outside the simulated cook"):
        out.tenderness_by_node("9 h")
