"""Calibration as a cook meets it: logs in, a tuned plan and plain words out."""

import datetime as dt
import importlib.util
import json
import pickle

import numpy as np
import pytest
from invented_cook import HIDDEN, cook, log_until, plan

import libcook as lc
from libcook import _core
from libcook.fit.inputs import read_log

FREE = ["thickness", "film_coefficient", "vapour_pressure", "start", "expressed_mobility"]


@pytest.fixture(scope="module")
def fit():
    return lc.calibrate(plan(), cook()[1], FREE, model_error="slab")  # the cook is the model's own


def test_hidden_numbers_are_found(fit):
    assert fit.converged
    assert fit.rms < 0.6
    for name, value in HIDDEN.items():
        e = fit[name]
        off = np.log(value / e.value) if e.scale == "logarithmic" else value - e.value
        assert abs(off) < 3.0 * e.deviation, name
        assert e.interval90[0] < e.interval50[0] < e.value < e.interval50[1] < e.interval90[1]
    assert fit["thickness"].value == pytest.approx(HIDDEN["thickness"], rel=0.08)
    assert fit["start"].value == pytest.approx(HIDDEN["start"], abs=1.0)


def test_the_tuned_plan_cooks_like_the_log(fit):
    out, log = cook()
    off = []
    for one in (fit.plan, plan()):
        for stage in one.stages[:2]:
            stage.surroundings.air = log  # as the pit was that day
        off.append(abs(lc.simulate(one).stage_ends[1].time - out.stage_ends[1].time))
    assert off[0] < 0.02 * out.stage_ends[1].time
    assert off[0] < off[1]


def test_arrays_fit_together(fit):
    n = len(fit.estimates)
    assert fit.covariance.shape == fit.correlations.shape == (n, n)
    np.testing.assert_allclose(np.diag(fit.correlations), 1.0)
    assert fit.correlations[0, 1] == pytest.approx(fit.correlation(0, 1))
    (series,) = fit.series
    left = series.observed - series.fitted
    assert float(np.sqrt(np.mean(left**2))) == pytest.approx(fit.rms)
    assert not series.time.flags.writeable
    frame = fit.to_frame()
    assert list(frame.index) == [e.name for e in fit.estimates]
    assert frame.loc["start", "value"] == fit["start"].value


def test_words(fit):
    text = repr(fit)
    assert "thickness: 4" in text and "mm" in text and "kPa" in text
    html = fit._repr_html_()
    assert html.count("<tr>") == len(fit.estimates) + 1
    assert "<script" not in html
    assert repr(lc.prior("start", "5 °C", 2.0)) == "prior('start', median=5, spread=2)"
    assert repr(fit["start"]).startswith("start: ")


def test_json_and_pickle(fit):
    text = fit.to_json()
    again = lc.Fit.from_json(text)
    assert again.to_json() == text
    assert json.loads(text)["format"] == "libcook fit"
    assert repr(again) == repr(fit)
    other = pickle.loads(pickle.dumps(fit))
    assert other.to_json() == text
    assert other.plan == fit.plan
    with pytest.raises(lc.InvalidInput, match="does not hold the logs"):
        again.sample()


def test_priors_carry_units_and_sources():
    made = lc.prior("thickness", "2 in", "10 %", source="callipers")
    assert made.median == pytest.approx(0.0508)
    assert made.spread == pytest.approx(0.1)
    assert lc.prior("start", "41 °F").median == pytest.approx(5.0)
    assert lc.prior("start", spread="9 °F").spread == pytest.approx(5.0)
    assert lc.prior("wrap_resistance", 1500.0).median == 1500.0
    tight = lc.calibrate(
        plan(),
        cook()[1],
        ["vapour_pressure", lc.prior("thickness", "49 mm", 0.01, source="callipers")],
    )
    assert tight["thickness"].source == "callipers"
    assert tight["thickness"].value == pytest.approx(0.049, rel=0.02)
    assert set(lc.free_names()) >= {
        "thickness",
        "film_coefficient",
        "air_flow",
        "sensor_offset",
        "emissivity",
    }


def test_several_logs():
    logs = [cook()[1], cook(seed=11)[1]]
    fit = lc.calibrate(plan(), logs, ["thickness", "vapour_pressure"])
    assert [(e.name, e.log) for e in fit.estimates] == [
        ("vapour_pressure", -1),
        ("thickness", 0),
        ("thickness", 1),
    ]
    assert len(fit.plans) == 2
    assert "log[1]" in repr(fit)
    assert fit["thickness"].log == 1


def test_events_and_clocks_say_when_stages_ended():
    whole = cook()[1]
    wrapped = whole.events[0].time
    assert read_log(whole, plan(), None).ended == [(0, wrapped)]
    assert read_log(whole, plan(), {"smoke": "3 h"}).ended == [(0, 10800.0)]

    def noted(*events):
        log = lc.Log(time=whole.time, core=whole.core, pit=whole.pit, events=events)
        return read_log(log, plan(), None).ended

    assert noted((7200.0, "Wrapped")) == [(0, 7200.0)]
    assert noted((7200.0, "rest"), (3600.0, "spritzed")) == [(1, 7200.0)]
    assert noted((7200.0, "pulled it")) == [(1, 7200.0)]
    assert noted((7200.0, "unwrapped")) == []
    clocked = lc.Log(time=whole.time, core=whole.core, start_clock=dt.time(23, 30))
    assert read_log(clocked, plan(start="23:00"), None).time[0] == 1800.0
    assert read_log(clocked, plan(start="00:15"), None).time[0] == -2700.0
    assert read_log(clocked, plan(), None).time[0] == 0.0


def test_missing_readings_are_left_out():
    whole = cook()[1]
    core, pit = whole.core.copy(), whole.pit.copy()
    core[10:40] = np.nan
    pit[5:25] = np.nan
    ready = read_log(lc.Log(time=whole.time, core=core, pit=pit), plan(), None)
    assert ready.time.size == whole.time.size - 30
    fit = lc.calibrate(plan(), lc.Log(time=whole.time, core=core, pit=pit), ["thickness"])
    assert fit["thickness"].value > 0.045


def test_model_error_is_a_word_or_numbers():
    log = log_until(5.0)
    trusting = lc.calibrate(plan(), log, ["thickness"], model_error="slab")
    usual = lc.calibrate(plan(), log, ["thickness"])
    own = lc.calibrate(plan(), log, ["thickness"], model_error=lc.ModelError(pace=0.4, level="8 K"))
    assert trusting["thickness"].deviation < usual["thickness"].deviation < own["thickness"].deviation
    with pytest.raises(lc.InvalidInput, match="slap"):
        lc.calibrate(plan(), log, ["thickness"], model_error="slap")
    with pytest.raises(lc.InvalidInput, match="pace"):
        lc.ModelError(pace=-1.0)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"free": ["thicknes"]}, r"free\[0\]: 'thicknes'.*did you mean 'thickness'"),
        ({"free": []}, "free: empty"),
        ({"free": 7}, "free: 7 of type int came"),
        ({"free": ["start", "start"]}, r"free\[1\]: 'start' is named twice"),
        ({"free": ["air_flow"]}, "fit 'vapour_pressure' instead"),
        ({"log": lc.Log(time=[0.0, 60.0], pit=[100.0, 101.0])}, "no core temperatures; it has: pit"),
        ({"log": lc.Log(time=[0.0, 60.0], core=[4.0, 4.1])}, "log.core: 2 readings; at least"),
        ({"log": []}, "log: no log came"),
        ({"log": "cook.csv"}, r"did you mean libcook.read_log"),
        ({"plan": lc.brisket()}, "plan.*libcook.Plan is accepted"),
        ({"ended": {"smok": "3 h"}}, "'smok' is no stage of the plan.*did you mean 'smoke'"),
        ({"ended": [{}, {}]}, "ended: 2 mappings for 1 logs"),
        ({"max_iterations": 0}, "max_iterations"),
        ({"threads": -1}, "threads"),
    ],
)
def test_what_cannot_be_fitted(change, message):
    given = {
        "plan": plan(),
        "log": log_until(4.0),
        "free": ["thickness", "start", "film_coefficient"],
        **change,
    }
    with pytest.raises(lc.InvalidInput, match=message):
        lc.calibrate(**given)


def test_swapped_columns_and_a_log_of_another_day():
    log = log_until(6.0)
    swapped = lc.Log(time=log.time, core=np.minimum(log.pit, 105.0), pit=log.core)
    with pytest.raises(lc.InvalidInput, match="columns swapped"):
        lc.calibrate(plan(), swapped, ["thickness"])
    late = lc.Log(time=log.time + 1e6, core=log.core)
    with pytest.raises(lc.InvalidInput, match="do not overlap"):
        lc.calibrate(plan(), late, ["thickness"])


def test_figures(fit, tmp_path):
    pytest.importorskip("matplotlib").use("Agg")
    for units, theme in (("C", "light"), ("F", "dark")):
        upper, lower = fit.plot(units=units, theme=theme)
        assert f"°{units}" in upper.get_ylabel()
        written = lc.plots.savefig(upper, tmp_path / f"{units}.png")
        assert written.stat().st_size > 10_000
        assert len(lower.lines) == 2
    with pytest.raises(lc.InvalidInput, match="log: 3"):
        fit.plot(3)


@pytest.mark.skipif(importlib.util.find_spec("emcee") is None, reason="emcee is not installed")
def test_the_sampler_agrees_with_the_intervals():
    fit = lc.calibrate(plan(), log_until(6.0), ["thickness", "start", "vapour_pressure"])
    draws = fit.sample(steps=240, walkers=16, seed=3)
    assert set(draws) == {"thickness", "start", "vapour_pressure"}
    for e in fit.estimates:
        drawn = np.log(draws[e.name]) if e.scale == "logarithmic" else draws[e.name]
        best = np.log(e.value) if e.scale == "logarithmic" else e.value
        # 240 steps of 16 walkers leave a tenth or so of a standard deviation of chance.
        assert abs(np.median(drawn) - best) < 0.5 * e.deviation
        assert np.std(drawn) == pytest.approx(e.deviation, rel=0.35)


def test_the_density_refuses_rows_of_another_length():
    density = _core.LogPosterior(
        [plan()], [read_log(log_until(3.0), plan(), None)], [lc.prior("start")], lc.ModelError(), 1
    )
    assert len(density) == 1
    values = density(np.array([[0.0], [0.5]]))
    assert values.shape == (2,)
    two = _core.LogPosterior(
        [plan()],
        [read_log(log_until(3.0), plan(), None)],
        [lc.prior("start"), lc.prior("thickness")],
        lc.ModelError(),
        1,
    )
    with pytest.raises(lc.InvalidInput, match="rows of 2"):
        two(np.zeros(3))
