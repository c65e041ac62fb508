"""Forecasts as a cook meets them."""

import pickle

import numpy as np
import pytest
from invented_cook import cook, log_until, plan

import libcook as lc


@pytest.fixture(scope="module")
def ahead():
    return lc.forecast(plan(start="06:00"), log_until(4.0))


def test_quantiles(ahead):
    done = cook()[0].stage_ends[1].time
    low, middle, high = (ahead.finish_quantile(q) for q in (0.05, 0.5, 0.95))
    assert ahead.now < low < middle < high
    assert ahead.finish_quantile(0.01) < done < ahead.finish_quantile(0.99)
    assert ahead.finish_quantile(0.5, "rest") == pytest.approx(middle + 3600.0, abs=60.0)
    assert ahead.chance_after(middle) == pytest.approx(0.5, abs=0.1)
    assert ahead.chance_after("1 h") == pytest.approx(1.0)
    assert ahead.finish.shape == ahead.ready.shape == ahead.weight.shape == (200,)
    assert ahead.stage_end.shape == (200, 3)
    assert ahead.core.shape == (200, ahead.time.size)
    assert ahead.values.shape == (200, len(ahead.names))
    assert ahead.weight.sum() == pytest.approx(1.0)


def test_bands_follow_the_log(ahead):
    past = ahead.time <= ahead.now
    log = log_until(4.0)
    read = np.interp(ahead.time[past], log.time, log.core)
    np.testing.assert_allclose(ahead.core_quantile(0.5)[past], read, atol=1.5)
    assert (ahead.core_quantile(0.05) <= ahead.core_quantile(0.95)).all()


def test_more_readings_sharpen_it(ahead):
    later = ahead.update(log_until(8.0))
    assert later.now > ahead.now

    def width(f):
        return f.finish_quantile(0.95) - f.finish_quantile(0.05)

    assert width(later) < width(ahead)


def test_the_outlook_is_the_pit_so_far(ahead):
    assert abs(ahead.outlook.level) < 4.0
    assert 1.0 < ahead.outlook.ripple < 6.0


def test_what_if_compares_the_same_members(ahead):
    foil = ahead.what_if(wrap="foil")
    assert foil.versus is ahead
    np.testing.assert_array_equal(foil.weight, ahead.weight)
    assert foil.gain_quantile(0.5) > 0.0
    hotter = ahead.what_if(air="275 °F")
    assert ahead.weight[hotter.finish < ahead.finish].sum() > 0.97
    assert hotter.gain_quantile(0.05) < hotter.gain_quantile(0.95)
    softer = ahead.what_if(until=lc.core("190 °F"))
    assert softer.gain_quantile(0.5) > 0.0
    both = ahead.what_if(wrap="foil", air="275 °F")
    assert both.finish_quantile(0.5) < min(foil.finish_quantile(0.5), hotter.finish_quantile(0.5))
    same = ahead.what_if(plan())
    np.testing.assert_allclose(same.finish, ahead.finish, atol=1.0)
    left = ahead.what_if(stages=plan().stages[1:])
    assert left.finish.shape == ahead.finish.shape
    assert "against the plan" in repr(foil)


def test_words_and_pictures(ahead, tmp_path):
    text = repr(ahead)
    assert "nine of ten" in text and "(1" in text  # a time of day
    html = ahead._repr_html_()
    assert "<table" in html and "<script" not in html
    pytest.importorskip("matplotlib").use("Agg")
    for units, theme in (("C", "light"), ("F", "dark")):
        axes = ahead.plot(units=units, theme=theme)
        assert f"°{units}" in axes.get_ylabel()
        assert lc.plots.savefig(axes, tmp_path / f"{units}.png").stat().st_size > 10_000


def test_seeds_and_pickles(ahead):
    again = pickle.loads(pickle.dumps(ahead))
    np.testing.assert_array_equal(again.finish, ahead.finish)
    other = ahead.update(log_until(4.0), seed=2)
    assert not np.array_equal(other.finish, ahead.finish)
    with pytest.raises(TypeError, match="what_if"):
        pickle.dumps(ahead.what_if(wrap="foil"))


def test_a_fit_of_earlier_cooks_narrows_it():
    names = ["film_coefficient", "vapour_pressure", "wrap_resistance"]
    # As sure of the model as of an invented cook: errors as of real ones leave one log little to teach.
    fit = lc.calibrate(plan(), cook(seed=11)[1], names, model_error="slab")
    log = log_until(2.0)
    informed = fit.forecast(log, model_error="slab")
    fresh = lc.forecast(plan(), log, model_error="slab")

    def width(f):
        return f.finish_quantile(0.95) - f.finish_quantile(0.05)

    assert width(informed) < width(fresh)
    assert pickle.loads(pickle.dumps(informed)).finish_quantile(0.5) == informed.finish_quantile(0.5)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda a: a.finish_quantile(90), "did you mean 0.9"),
        (lambda a: a.finish_quantile("most"), "q: 'most'"),
        (lambda a: a.finish_quantile(0.5, "wraped"), "did you mean 'wrapped'"),
        (lambda a: a.what_if(), "say one thing"),
        (lambda a: a.what_if(plan(), wrap="foil"), "say one thing"),
        (lambda a: a.what_if(wrap="fol"), "did you mean 'foil'"),
        (lambda a: a.what_if(stages=["rest"]), "libcook.Stage is accepted"),
        (lambda a: a.what_if(stages=[]), "stages: no stage came"),
        (lambda a: a.what_if(air="500 °F"), "accepted"),
        (lambda a: a.gain_quantile(0.5), "no what_if"),
        (lambda a: a.what_if(wrap="foil").update(log_until(5.0)), "what_if"),
        (lambda a: lc.forecast(plan(), log_until(4.0), members=3), "members: 3"),
        (lambda a: lc.forecast(plan(), log_until(4.0), seed=-1), "seed: -1"),
        (lambda a: lc.forecast(plan(), log_until(4.0), fit=7), "fit: 7"),
        (lambda a: lc.forecast(plan(), log_until(4.0), free=["wrap"]), "free"),
        (lambda a: lc.forecast(plan(), [1.0, 2.0]), "libcook.Log is accepted"),
        (lambda a: lc.forecast(plan(), "tonight.csv"), r"did you mean libcook.read_log\('tonight.csv'\)"),
        (lambda a: lc.forecast(plan(), {}), "log: no reading came"),
        (lambda a: lc.forecast(plan(), {4: 62.0}), "plain numbers are in s.*did you mean '4 h'"),
        (lambda a: lc.forecast(plan(), {"4 h": 145}), "145 °C is above the range.*did you mean '145 °F'"),
        (lambda a: lc.forecast(plan(), lc.Log([0, 14400], [38, 145])), "293 °F .* is no core of meat"),
    ],
)
def test_what_cannot_be_forecast(ahead, call, message):
    with pytest.raises(lc.InvalidInput, match=message):
        call(ahead)


def test_a_look_at_the_thermometer_is_enough():
    first = float(plan().meat.start)
    looks = lc.forecast(plan(), {"4 h": "140 °F", "2 h": "100 °F"})
    log = lc.Log([0.0, 7200.0, 14400.0], [first, (100 - 32) / 1.8, 60.0])
    assert looks.now == 14400.0
    np.testing.assert_array_equal(looks.finish, lc.forecast(plan(), log).finish)
    warmer = lc.forecast(plan(), {"4 h": "150 °F", "2 h": "110 °F"})
    assert warmer.finish_quantile(0.5) < looks.finish_quantile(0.5)
    assert repr(pickle.loads(pickle.dumps(looks))) == repr(looks)


def test_a_pulled_probe_may_read_the_pit():
    whole = cook()[1]
    early = whole.time < 6 * 3600.0
    time, core, pit = whole.time[early], whole.core[early], whole.pit[early]
    pulled = lc.Log(time, np.where(time > 5.5 * 3600.0, np.maximum(pit, 112.0), core), pit)
    lc.forecast(plan(), pulled, members=50)  # not refused as a core that no meat has
    with pytest.raises(lc.InvalidInput, match="no core of meat"):
        lc.forecast(plan(), lc.Log(time, pulled.core + 30.0 * (time > 5.5 * 3600.0), pit))


def test_a_finished_cook_and_one_that_never_gets_done():
    whole = cook()[1]
    done = float(whole.time[-1])
    with pytest.raises(lc.InvalidInput, match="nothing left to forecast"):
        lc.forecast(plan(), whole, ended={"wrapped": done - 7200.0, "rest": done - 3600.0})
    cold = plan()
    for stage in cold.stages:
        stage.at_most = "5 h"
    with pytest.raises(lc.InvalidInput, match="never get done"):
        lc.forecast(cold, log_until(2.0))


def test_a_cook_unlike_the_model_widens_the_band_and_says_so():
    log = log_until(6.0)
    time = np.asarray(log.time, dtype=float)
    wave = np.where(time > 3600.0, 6.0 * np.sin(2.0 * np.pi * time / 5400.0), 0.0)  # K; no cook does that

    def ahead(by):
        return lc.forecast(plan(), lc.Log(time=time, core=np.asarray(log["core"], dtype=float) + by))

    plain, odd = ahead(0.0), ahead(wave)
    words = "does not behave like the model"
    assert odd.odd > 1.5 > plain.odd
    assert any(words in note for note in odd.notes) and not any(words in note for note in plain.notes)
    assert odd.finish_quantile(0.95) - odd.finish_quantile(0.05) > 1.5 * (
        plain.finish_quantile(0.95) - plain.finish_quantile(0.05)
    )


def test_a_cook_that_has_not_begun_is_forecast_without_a_log():
    made = lc.forecast(plan())
    assert made.now == 0.0 and made.units is None
    assert made.finish_quantile(0.05) < made.finish_quantile(0.5) < made.finish_quantile(0.95)
    with pytest.raises(lc.InvalidInput, match="ended: no log came|no log came"):
        lc.forecast(plan(), ended={"smoke": "3 h"})
