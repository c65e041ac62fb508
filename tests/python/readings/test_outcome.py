"""What an outcome gives: arrays without copies, readings, text."""

import gc

import numpy as np
import pytest
from cook_samples import cylinder_plan, short_plan

import libcook as lc


@pytest.fixture(scope="module")
def out():
    return lc.simulate(short_plan())


SERIES = ["time", "core", "coldest", "air", "tenderness", "mean_water", "mean_temperature"]
BY_FACE = ["surface", "surface_water", "film"]
BY_NODE = ["temperature", "water"]


def test_shapes(out):
    times, nodes = out.time.size, out.position.size
    assert all(getattr(out, name).shape == (times,) for name in SERIES)
    assert all(getattr(out, name).shape == (times, 2) for name in BY_FACE)
    assert all(getattr(out, name).shape == (times, nodes) for name in BY_NODE)
    assert out.node_volume.sum() == pytest.approx(1.0)
    assert out.faces == ("bottom", "top")
    assert len(out.face_area) == 2


def test_arrays_cannot_be_written(out):
    for name in [*SERIES, *BY_FACE, *BY_NODE, "position", "node_volume"]:
        array = getattr(out, name)
        assert array.dtype == np.float64
        with pytest.raises(ValueError, match="read-only"):
            array[...] = 0.0
    with pytest.raises(AttributeError):
        out.core = 3


def test_arrays_are_views_on_one_memory(out):
    for name in [*SERIES, *BY_NODE, "position"]:
        assert np.shares_memory(getattr(out, name), getattr(out, name))


def test_arrays_outlive_the_outcome():
    out = lc.simulate(short_plan())
    core, field, total = out.core, out.temperature, out.paths["top"]["evaporated"]
    expected = core.copy(), field.copy(), total.copy()
    del out
    gc.collect()
    rubbish = [np.full(field.size, -1.0) for _ in range(8)]  # would land where freed memory was
    for array, copy in zip((core, field, total), expected, strict=True):
        np.testing.assert_array_equal(array, copy)
    assert len(rubbish) == 8


def test_a_cylinder_has_one_face():
    out = lc.simulate(cylinder_plan())
    assert out.faces == ("surface",)
    assert out.surface.shape == (out.time.size, 1)
    middle = out.position.size // out.lines  # then come the nodes of the ends
    np.testing.assert_array_equal(out.surface[:, 0], out.temperature[:, middle - 1])
    assert list(out.paths) == ["surface"]
    np.testing.assert_array_equal(out.heat_budget("top").time, out.heat_budget("surface").time)


def test_without_fields_there_are_no_rows():
    out = lc.simulate(short_plan(), keep_fields=False)
    assert out.temperature.shape == (0, out.position.size)
    with pytest.raises(lc.InvalidInput, match="fields were not kept"):
        out.probe("10 mm")


def test_stage_ends_unpack_and_tell_more(out):
    (name, time, core), rest = out.stage_ends
    assert (name, time) == ("smoke", 5400.0)
    assert core == pytest.approx(out.core_at("90 min"))
    assert (rest.start, rest.time, rest.name) == (5400.0, 7200.0, "rest")
    assert "30 min" in rest.reason


def test_probes(out):
    np.testing.assert_array_equal(out.probe(), out.core)
    np.testing.assert_array_equal(out.probe("top"), out.surface[:, 1])
    middle = 0.5 * out.plan.meat.shape.thickness
    np.testing.assert_allclose(out.probe(middle), out.core)
    low, high = out.probe("1 mm"), out.probe("39 mm")
    assert (high[5:60] != low[5:60]).all()
    with pytest.raises(lc.InvalidInput, match="'20 mm'"):
        out.probe(20.0)
    with pytest.raises(lc.InvalidInput, match="probe"):
        out.probe("middle")


def test_core_at_is_between_the_stored_times(out):
    assert out.core_at(0.0) == out.core[0] == pytest.approx(4.0)
    assert out.core_at(90.0) == pytest.approx(0.5 * (out.core[1] + out.core[2]))
    with pytest.raises(lc.InvalidInput, match="time"):
        out.core_at("5 h")


def test_the_budget_is_what_the_paths_say(out):
    for face in out.faces:
        budget, paths = out.heat_budget(face), out.paths[face]
        steps = np.diff(out.time)
        np.testing.assert_allclose(budget.convection * steps, np.diff(paths["convection"]), atol=1e-6)
        balance = budget.convection + budget.radiation - budget.evaporation
        np.testing.assert_allclose(budget.into_meat, balance, rtol=0, atol=1e-9 * abs(balance).max())
        assert not budget.time.flags.writeable
    with pytest.raises(lc.InvalidInput, match="face"):
        out.heat_budget("side")


def test_budgets_outlive_their_outcome(out):
    flux = out.heat_budget("top").radiation
    copy = flux.copy()
    gc.collect()
    np.testing.assert_array_equal(flux, copy)


def test_readings_of_rest_and_loss(out):
    carry = out.carryover()
    assert carry is not None
    assert carry.pulled_at == pytest.approx(5400.0, abs=1.0)
    assert carry.rise == pytest.approx(carry.peak - carry.pulled_core)
    assert out.loss.raw == pytest.approx(out.plan.meat.mass)
    assert out.loss.evaporated == pytest.approx(out.ledger.evaporated)
    assert 0.0 < out.loss.yield_ < 1.0
    assert out.falls_to(-5.0) is None
    assert out.time_above(0.0) == pytest.approx(1800.0, abs=60.0)
    assert out.time_above("32 °F") == out.time_above(0.0)


def test_a_stall_of_a_given_trace_is_found():
    hours = np.linspace(0.0, 10.0, 601)
    core = np.interp(hours, [0.0, 3.0, 7.0, 10.0], [4.0, 65.0, 68.0, 95.0])  # invented
    stall = lc.find_stall(hours * 3600.0, core)
    assert stall is not None
    assert stall.start / 3600.0 == pytest.approx(3.0, abs=0.3)
    assert stall.duration / 3600.0 == pytest.approx(4.0, abs=0.5)
    assert stall.slowest * 3600.0 == pytest.approx(0.75, abs=0.1)
    levelling = 110.0 - 106.0 * np.exp(-hours / 4.0)  # a rate that only falls
    assert lc.find_stall(hours * 3600.0, levelling) is None
    assert [s.start for s in lc.find_stalls(hours * 3600.0, core)] == [stall.start]
    with pytest.raises(lc.InvalidInput, match="at least 5"):
        lc.find_stall([0.0, 3600.0], [4.0, 40.0])


def test_a_cook_with_few_stored_times_still_tells_its_story():
    out = lc.simulate(short_plan(), output_every="10 h")
    assert out.time.size < 5
    assert out.stall() is None
    assert "no stall" not in repr(out)


def test_a_cook_that_was_cut_short_still_tells_its_story():
    with pytest.raises(lc.SolverFailure) as caught:
        lc.simulate(short_plan(), max_steps=1)
    lines = repr(caught.value.outcome).splitlines()
    assert lines[0].startswith("Outcome: brisket 4.4 lb (2.00 kg)")
    assert lines[1].startswith("  smoke: not finished") and "39 °F (4 °C)" in lines[1]


def test_ledger_closes_to_rounding(out):
    assert abs(out.ledger.heat_residual) < 1e-9
    assert abs(out.ledger.water_residual) < 1e-9
    assert out.ledger.steps > 10
    assert out.ledger.spritzed > 0.0


def test_events_are_told(out):
    assert {what for _, what in out.events} == {"spritz", "lid"}
    assert (1800.0, "spritz") in out.events


def test_the_plan_of_an_outcome_is_a_copy(out):
    out.plan.meat.start = 30.0
    assert out.plan.meat.start == 4.0


def test_the_text_tells_the_story(out):
    lines = repr(out).splitlines()
    assert lines[0] == "Outcome: brisket 4.4 lb (2.00 kg), 2 h"
    assert lines[1].startswith("  smoke: ") and "1 h 30 min (00:30 (+1 d))" in lines[1]
    assert lines[1].endswith(out.stage_ends[0].reason)
    assert any(line.startswith("  carryover") for line in lines)
    assert any(line.startswith("  weight loss") for line in lines)
    assert out.safety().caution in lines[-1]


def test_safety_says_never_as_none(out):
    safety = out.safety()
    assert safety.lethality_at is None or safety.lethality_at >= 0.0
    assert safety.caution
    assert safety.log_reduction >= 0.0


def test_json_round_trip(out):
    again = lc.Outcome.from_json(out.to_json(fields=True))
    assert isinstance(again, lc.Outcome)
    assert again.plan == out.plan
    for name in [*SERIES, *BY_FACE, *BY_NODE]:
        np.testing.assert_array_equal(getattr(again, name), getattr(out, name))
    assert again.stage_ends == out.stage_ends


def test_json_from_a_file(out, tmp_path):
    path = tmp_path / "cook.json"
    path.write_text(out.to_json(), encoding="utf-8")
    np.testing.assert_array_equal(lc.Outcome.from_json(path).core, out.core)


def test_frames_figures_and_html(out):
    pytest.importorskip("xarray")
    pytest.importorskip("matplotlib").use("Agg")
    import matplotlib.pyplot as plt

    assert len(out.to_frame(units="F")) == out.time.size
    assert out.to_xarray().sizes["time"] == out.time.size
    assert out.plot().lines
    plt.close("all")
    assert out.safety().caution in out._repr_html_()
