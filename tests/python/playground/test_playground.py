"""The sliders without a page: what they change, what is shown, and what is left where nothing can move."""

import sys
import xml.etree.ElementTree as ET

import numpy as np
import pytest
from playground_page import finish

import libcook as lc
from libcook.playground import sliders as playground


@pytest.fixture
def play():
    return playground.show()


def move(play, **places):
    play.asked = {**play.asked, **places, "turn": play.asked.get("turn", 0) + 1}


def test_a_slider_changes_the_cook_that_is_shown(play):
    before = play.picture
    move(play, air=300)
    assert play.outcome.air[0] == pytest.approx((300 - 32) / 1.8)
    assert finish(play.picture["headline"]) < finish(before["headline"]) - 60
    assert play.picture["svg"] != before["svg"] and play.picture["answers"] == play.asked["turn"]


@pytest.mark.parametrize(
    ("places", "sooner"),
    [
        ({"wrap": "foil"}, True),
        ({"wrap": "none"}, False),
        ({"vapour": 25.0}, True),
        ({"thickness": 80.0}, False),
    ],
)
def test_each_of_them(play, places, sooner):
    before = finish(play.picture["headline"])
    move(play, **places)
    assert (finish(play.picture["headline"]) < before) is sooner


def test_the_plan_is_the_one_that_was_asked_for(play):
    move(play, wrap="foil", wrap_at=160, vapour=12.0, thickness=60.0)
    plan = play.outcome.plan
    assert [stage.wrap.name for stage in plan.stages] == ["none", "foil"]
    assert plan.stages[0].until[0].value == pytest.approx((160 - 32) / 1.8)
    assert plan.stages[0].surroundings.vapour_pressure.at(0.0) == pytest.approx(12000.0)
    assert plan.meat.shape.thickness == pytest.approx(0.06)
    assert plan.meat.mass == pytest.approx(14 * 0.45359237)


def test_a_pit_that_is_too_cool_shows_what_there_is(play):
    play.set(air=100.0, vapour=3.0, thickness=90.0, wrap="none")
    assert play.picture["headline"].startswith("not done after")
    ET.fromstring(play.picture["svg"])


def test_moved_from_python_the_page_follows(play):
    play.set(air=130.0, wrap="pan")
    assert play.asked["air"] == 265 and play.asked["wrap"] == "pan"  # 130 °C is 266 °F, in steps of 5
    assert play.outcome.air[0] == 130.0


def test_other_units(play):
    move(play, air=275)
    play.units = "C"
    assert play.asked["air"] == 135 and {c["unit"] for c in play.controls} == {"°C", "kPa", "mm"}
    assert "°F" not in play.picture["svg"] and "°F" not in " ".join(play.picture["words"])
    assert play.outcome.air[0] == pytest.approx((275 - 32) / 1.8)  # the cook is the same
    move(play, air=140)
    assert play.outcome.air[0] == 140.0


def test_the_figure_is_drawn_from_the_outcome(play):
    svg = ET.fromstring(play.picture["svg"])
    lines = [each for each in svg.iter() if each.tag.endswith("polyline")]
    core = next(each for each in lines if each.get("stroke-width") == "2.6")
    points = np.array([pair.split(",") for pair in core.get("points").split()], dtype=float)
    core_f = 1.8 * play.outcome.core + 32.0
    # both scales from two known points: the start and the end of the core
    x = (points[:, 0] - points[0, 0]) / (points[-1, 0] - points[0, 0]) * play.outcome.time[-1]
    scale = (points[-1, 1] - points[0, 1]) / (core_f[-1] - core_f[0])
    y = (points[:, 1] - points[0, 1]) / scale + core_f[0]
    np.testing.assert_allclose(y, np.interp(x, play.outcome.time, core_f), atol=0.8)
    words = " ".join("".join(each.itertext()) for each in svg.iter() if each.tag.endswith("text"))
    stall = play.outcome.stall()
    assert f"stall {playground.format_duration(stall.duration)}" in words
    assert "evaporation" in words and "W/m²" in words and "[h]" in words


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"wrap": "bark"}, "wrap"),
        ({"air": "hot"}, "air"),
        ({"air": float("nan")}, "air"),
        ({"fan": 1.0}, "fan"),
    ],
)
def test_what_is_no_place_of_a_slider(play, values, field):
    with pytest.raises(lc.InvalidInput, match=field):
        play.set(**values)


def test_beyond_its_ends_a_slider_stays_there(play):
    play.set(air=1000.0)
    assert play.values["air"] == 165.6


def test_a_page_without_a_kernel_shows_the_figure_and_the_caution(play):
    move(play, air=275)
    bundle = play._repr_mimebundle_()
    data = bundle[0] if isinstance(bundle, tuple) else bundle
    assert "application/vnd.jupyter.widget-view+json" in data
    page = data["text/html"]
    assert "<svg" in page and play.picture["headline"] in page and "pit 275 °F" in page
    assert "Follow your local food-safety rules" in page and "<script" not in page


def test_without_the_package_there_is_a_still(monkeypatch):
    monkeypatch.setitem(sys.modules, "anywidget", None)
    playground._widget.cache_clear()
    try:
        still = playground.show(units="C")
        assert isinstance(still, playground.Still)
        page = still._repr_html_()
        assert "<svg" in page and "libcook[playground]" in page and "121 °C" in page
    finally:
        playground._widget.cache_clear()


def test_in_a_terminal_it_is_a_line(play):
    play.set(wrap="foil", air=130.0)
    said = repr(play)
    assert said.startswith(play.picture["headline"]) and "(foil; " in said and "pit 265 °F" in said
    assert "\n" not in said


def test_the_shown_figure_is_well_formed_for_every_wrap(play):
    for name in playground.WRAPS:
        play.set(wrap=name)
        ET.fromstring(play.picture["svg"])
        assert play.picture["caution"] == play.outcome.safety().caution
