"""Fits, forecasts, schedules and logs speak the scale of their log; what was typed comes back as typed."""

import pickle
import re
import sys

import numpy as np
import pytest
from invented_cook import cook, log_until, plan

import libcook as lc
from libcook.words.two_scales import in_scale, quantity, span


@pytest.fixture(autouse=True)
def _closed_figures():
    yield
    if "matplotlib.pyplot" in sys.modules:
        sys.modules["matplotlib.pyplot"].close("all")


FREE = ["thickness", "film_coefficient", "vapour_pressure", "pit_offset", "start", "fat_cap"]
METRIC = re.compile(r"°C|\bmm\b|\bkg\b|(?<!·)\bK\b")
IMPERIAL = re.compile(r"°F|\bin\b(?= [(;]|;)|\blbs?\b")
FILM = "W/(m²·K)"


def in_units(log, units):
    """The same readings, from a file in the other scale."""
    return lc.Log(log.time, log.core, log.pit, events=log.events, units=units)


@pytest.fixture(scope="module", params=["F", "C"])
def units(request):
    return request.param


@pytest.fixture(scope="module")
def fit(units):
    return lc.calibrate(plan(), in_units(cook()[1], units), FREE)


@pytest.fixture(scope="module")
def ahead(fit, units):
    return fit.forecast(in_units(log_until(4.0), units), members=60)


@pytest.fixture(scope="module")
def dinner(fit):
    return lc.start_by(plan(), "18:00", fit=fit, members=60)


def speaks(text, units):
    """Assert that a text holds one scale only."""
    foreign = METRIC if units == "F" else IMPERIAL
    assert not foreign.search(text.replace(FILM, "")), text


def test_a_fit(fit, units):
    assert fit.units == units and fit.series[0].units == units
    for text in (repr(fit), fit._repr_html_()):
        speaks(text, units)
    said, thick = repr(fit), fit["thickness"].value
    assert (
        f"thickness: {thick / 0.0254:.3g} in" if units == "F" else f"thickness: {1e3 * thick:.3g} mm"
    ) in said
    cold = fit["start"].value
    assert (f"start: {1.8 * cold + 32.0:.3g} °F" if units == "F" else f"start: {cold:.3g} °C") in said
    off = fit["pit_offset"].value
    assert (f"pit offset: {1.8 * off:.3g} °F" if units == "F" else f"pit offset: {off:.3g} K") in said
    assert (f"within {1.8 * fit.rms:.1f} °F" if units == "F" else f"within {fit.rms:.1f} K") in said
    assert FILM in said


def test_the_scale_of_a_fit_is_kept(fit):
    assert repr(lc.Fit.from_json(fit.to_json())) == repr(fit)
    assert repr(pickle.loads(pickle.dumps(fit))) == repr(fit)
    older = re.sub(r',\s*"fahrenheit": (true|false)|"fahrenheit": (true|false),\s*', "", fit.to_json())
    assert "fahrenheit" not in older
    assert lc.Fit.from_json(older).units == "C"


def test_a_fits_figure(fit, units):
    pytest.importorskip("matplotlib").use("Agg")
    upper, lower = fit.plot()
    assert upper.get_ylabel() == f"core temperature [°{units}]"
    assert ("°F" if units == "F" else "K") in lower.get_ylabel()
    shown = upper.get_lines()[0].get_ydata()
    observed = fit.series[0].observed
    assert np.allclose(shown, 1.8 * observed + 32.0 if units == "F" else observed)
    other = "C" if units == "F" else "F"
    assert fit.plot(units=other)[0].get_ylabel() == f"core temperature [°{other}]"


def test_notes_of_a_fit(units):
    """A belief that is far off: the note tells the numbers in millimetres or inches, not in metres."""
    wrong = [lc.prior("thickness", "80 mm", 0.05), "film_coefficient"]
    found = lc.calibrate(plan(thickness="80 mm"), in_units(cook()[1], units), wrong, model_error="slab")
    note = next(note for note in repr(found).splitlines() if "came out far" in note)
    speaks(note, units)
    assert "against 3.1 in" in note if units == "F" else "against 80 mm" in note
    assert any("3.1 in (80 mm)" in note for note in found.notes)


def test_a_forecast(ahead, units):
    assert ahead.units == units
    for made in (ahead, ahead.what_if(wrap="foil"), pickle.loads(pickle.dumps(ahead))):
        assert made.units == units
        speaks(repr(made), units)
        speaks(made._repr_html_(), units)
    pytest.importorskip("matplotlib").use("Agg")
    assert ahead.plot().get_ylabel() == f"core temperature [°{units}]"
    assert ahead.what_if(wrap="foil").plot().get_ylabel() == f"core temperature [°{units}]"
    assert ahead.plot(units="C").get_ylabel() == "core temperature [°C]"


@pytest.mark.parametrize(("look", "units"), [("140 °F", "F"), ("140 F", "F"), ("60 °C", "C"), (60.0, "C")])
def test_looks_at_the_thermometer(look, units):
    pytest.importorskip("matplotlib").use("Agg")
    made = lc.forecast(plan(), {"4 h": look}, members=60)
    assert made.units == units
    assert made.plot().get_ylabel() == f"core temperature [°{units}]"


def test_a_schedule(dinner, units):
    assert dinner.units == units and dinner.forecast.units == units
    for text in (repr(dinner), dinner._repr_html_()):
        speaks(text, units)
    said = repr(dinner)
    assert ("25 °F hotter" if units == "F" else "14 °C hotter") in said
    assert ("135 °F or above" if units == "F" else "57 °C or above") in said
    assert repr(pickle.loads(pickle.dumps(dinner))) == said


def test_without_a_log_both_scales_are_spoken():
    """As plans and outcomes do."""
    made = lc.start_by(plan(), "18:00", members=60)
    assert made.units is None and made.forecast.units is None
    assert "25 °F (14 °C) hotter" in repr(made) and made.caution in repr(made)


def test_a_log(units):
    """Guessed from its readings, with defects: every line of the report in one scale."""
    minutes = np.arange(0, 300, 5)
    core, pit = 40.0 + 0.35 * minutes, 250.0 + 0.0 * minutes
    pit[20:22] = 9999.0
    core[30] += 90.0
    if units == "C":
        core, pit = (core - 32.0) / 1.8, (pit - 32.0) / 1.8
    rows = [f"{m},{c:.1f},{p:.1f}" for m, c, p in zip(minutes, core, pit, strict=True)]
    log = lc.read_log("\n".join(["minutes,core,pit", *rows]))  # invented data
    assert log.units == units
    assert log.summary
    for text in (log.report(), repr(log), log._repr_html_()):
        speaks(text.replace(f"taken as °{units}", ""), units)


@pytest.mark.parametrize(
    ("typed", "shown"), [("12.0 lb", "12.0 lb"), ("6.4 kg", "6.40 kg"), ("14 lb", "14.0 lb")]
)
def test_a_mass_comes_back_as_it_was_typed(typed, shown):
    """The piece was weighed: nothing that is learned of it changes its weight."""
    believed = plan()
    believed.meat = lc.brisket(mass=typed)
    whole = believed.meat.mass
    assert shown in repr(believed)
    for name, value in {"fat_cap": 0.002, "start": 20.0, "thickness": 0.07}.items():
        learned = lc._core.with_value(believed, name, value)
        assert learned.meat.mass == pytest.approx(whole, rel=1e-12), name
        assert lc._core.value_in(learned, name) == value
        assert shown in repr(learned)
        same = lc._core.with_value(believed, name, lc._core.value_in(believed, name))
        assert same == believed  # bit for bit


def test_the_tuned_plan_weighs_what_was_typed(fit):
    assert fit["fat_cap"].value != fit["fat_cap"].prior
    assert fit.plan.meat.mass == pytest.approx(plan().meat.mass, rel=1e-12)


def test_one_scale_of_two():
    both = "wrapped at 149 °F (65.1 °C) instead of 160 °F (71.1 °C), 57 °C (135 °F)"
    assert in_scale(both, "F") == "wrapped at 149 °F instead of 160 °F, 135 °F"
    assert in_scale(both, "C") == "wrapped at 65.1 °C instead of 71.1 °C, 57 °C"
    assert in_scale(both, None) == both
    assert in_scale("10 to 54.4 °C (50 to 130 °F)", "F") == "50 to 130 °F"
    assert (
        in_scale("66 mm of 5 W/(m²·K) at 60 °C, within 5 K", "F")
        == "2.6 in of 5 W/(m²·K) at 140 °F, within 9 °F"
    )
    assert in_scale("the stage 'rest at 60 °C' ends", "F") == "the stage 'rest at 60 °C' ends"
    assert quantity(0.0508, "m") == "2 in (50.8 mm)"
    assert span((0.0, 10.0), "°C") == "32 to 50 °F (0 to 10 °C)"
    assert quantity(7.0, FILM, "F") == f"7 {FILM}"
    assert quantity(0.001, "kg/s", "F") == "7.94 lb/h"
