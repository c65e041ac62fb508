"""The sliders without a page: what they change, what is shown, and what is left where nothing can move."""

import contextlib
import io
import re
import sys
import xml.etree.ElementTree as ET

import numpy as np
import pytest
from playground_page import finish

import libcook as lc
from libcook import playground
from libcook.playground import settings
from libcook.playground.widget import playground_class
from libcook.units import format_duration


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
        ({"thickness": 3.15}, False),  # in, for the degrees are °F
        ({"mass": 10.0}, True),
        ({"cooker": "offset"}, True),
        ({"pull": 190}, True),
        ({"spritz": 60.0}, False),
        ({"cut": "pork shoulder", "mass": 5.0}, True),
    ],
)
def test_each_of_them(play, places, sooner):
    before = finish(play.picture["headline"])
    move(play, **places)
    assert (finish(play.picture["headline"]) < before) is sooner


def test_the_plan_is_the_one_that_was_asked_for(play):
    move(play, wrap="foil", wrap_at=160, vapour=12.0, thickness=2.4)
    plan = play.outcome.plan
    assert [stage.wrap.name for stage in plan.stages] == ["none", "foil"]
    assert plan.stages[0].until[0].value == pytest.approx((160 - 32) / 1.8)
    assert plan.stages[0].surroundings.vapour_pressure.at(0.0) == pytest.approx(12000.0)
    assert plan.meat.shape.thickness == pytest.approx(2.4 * 0.0254)
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
    assert play.asked["air"] == 135 and {c["unit"] for c in play.controls if "unit" in c} == {
        "°C",
        "kPa",
        "mm",
        "kg",
        "min",
        "h",
    }
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
    assert f"stall {format_duration(stall.duration)}" in words
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
    assert play.values["air"] == 176.7


def test_a_page_without_a_kernel_shows_the_figure_and_the_caution(play):
    move(play, air=275)
    bundle = play._repr_mimebundle_()
    data = bundle[0] if isinstance(bundle, tuple) else bundle
    assert "application/vnd.jupyter.widget-view+json" in data
    page = data["text/html"]
    assert "<svg" in page and play.picture["headline"] in page and "pit temperature 275 °F" in page
    assert "Follow your local food-safety rules" in page and "<script" not in page


def test_without_the_package_there_is_a_still(monkeypatch):
    monkeypatch.setitem(sys.modules, "anywidget", None)
    playground_class.cache_clear()
    try:
        still = playground.show(units="C")
        assert isinstance(still, playground.Still)
        page = still._repr_html_()
        assert "<svg" in page and "libcook[playground]" in page and "121 °C" in page
    finally:
        playground_class.cache_clear()


def test_in_a_terminal_it_is_a_line(play):
    play.set(wrap="foil", air=130.0)
    said = repr(play)
    assert (
        said.startswith(play.picture["headline"]) and "; foil; " in said and "pit temperature 265 °F" in said
    )
    assert "\n" not in said


def test_the_shown_figure_is_well_formed_for_every_wrap(play):
    for name in settings.choices()["wrap"][1]:
        play.set(wrap=name)
        ET.fromstring(play.picture["svg"])
        assert play.picture["caution"] == play.outcome.safety().caution


PLACES = {
    "wrap": ["none", "butcher paper", "foil", "pan"],
    "rest": ["none", "counter", "box", "oven"],
    "units": ["F", "C"],
}


def made_by(code):
    """Run the code as a cook would, in a name space of its own."""
    held, said = {}, io.StringIO()
    with contextlib.redirect_stdout(said):
        exec(code, held)
    assert "follow your local food-safety rules" in said.getvalue()
    return held


@pytest.mark.parametrize("units", PLACES["units"])
@pytest.mark.parametrize("wrap", PLACES["wrap"])
def test_the_code_makes_the_same_plan_and_the_same_cook(units, wrap):
    play = playground.show(units=units)
    for rest in PLACES["rest"]:
        play.set(wrap=wrap, rest=rest, air=118.3, mass=5.217, spritz=45.0 * (rest == "box"), rest_time=1.5)
        if rest in ("counter", "oven"):
            play.set(thickness=61.7, vapour=11.3, cooker="oven" if rest == "oven" else "kettle")
        made = made_by(play.code)
        assert made["plan"] == play.plan == play.outcome.plan
        np.testing.assert_array_equal(made["out"].core, play.outcome.core)
        assert f'units="{units}"' in play.code and max(map(len, play.code.splitlines())) <= 120


@pytest.mark.parametrize("name", settings.PRESETS)
def test_a_cook_to_begin_with_is_cooked_and_its_code_is_in_round_numbers(play, name):
    before = play.picture["svg"]
    play.begin_with("brisket without a wrap" if name == "brisket, in paper" else "brisket, in paper")
    play.begin_with(name)
    assert play.picture["headline"].startswith("done after") and (play.picture["svg"] == before) is (
        name == "brisket, in paper"
    )
    assert made_by(play.code)["plan"] == play.plan
    assert not re.search(r"\d\.\d{3,}", play.code)
    page = playground.show()
    move(page, preset=name)  # as the page asks for it
    assert page.plan == play.plan and page.asked["cut"] == play.values["cut"] and "preset" not in page.asked


def test_a_cut_brings_its_weight_and_size_and_a_cooker_its_vapour(play):
    move(play, cut="pork shoulder")
    shoulder = next(cut for cut in lc.cuts() if cut.name == "pork shoulder")
    assert play.values["mass"] == shoulder.mass
    assert play.values["thickness"] == pytest.approx(1e3 * lc.cut("pork shoulder").shape.thickness, abs=0.06)
    high = next(each["high"] for each in play.controls if each["key"] == "mass")
    assert high == pytest.approx(min(12.0, shoulder.largest) / 0.45359237, abs=0.13)
    play.set(thickness=80.0)
    play.set(wrap="foil")
    assert play.values["thickness"] == 80.0  # what was told stays
    move(play, cooker="pellet")
    assert play.values["vapour"] == pytest.approx(1e-3 * lc.pit("pellet", air=121.0).vapour_pressure.value[0])


def test_a_second_cook_stands_beside_the_first(play):
    alone = play.picture
    play.cooks = {"second": True, "picked": "b"}  # as the page's button does
    move(play, wrap="foil")
    a, b = (finish(part) for part in play.picture["headline"].split("; "))
    assert play.picture["headline"].startswith("cook A done") and b < a == finish(alone["headline"])
    sooner = re.search(
        r"Cook B comes off the heat (?:(\d+) h ?)?(?:(\d+) min)? sooner", play.picture["words"][0]
    )
    assert abs(60 * int(sooner[1] or 0) + int(sooner[2] or 0) - (a - b)) <= 1
    assert "dashed: the core of cook A" in play.picture["svg"]
    play.cooks = {"second": True, "picked": "a"}
    assert play.asked["wrap"] == "butcher paper" and "the core of cook B" in play.picture["svg"]
    play.cooks = {"second": False, "picked": "a"}
    assert play.picture["headline"] == alone["headline"]
    play.compare(air=135.0)
    assert play.cooks == {"second": True, "picked": "b"} and play.values["air"] == 135.0
    play.alone()
    assert play.cooks["second"] is False
    with pytest.raises(lc.InvalidInput, match="no cook 'b'"):
        play._still.pick("b")


def test_plan_data_and_code_can_be_taken_along(play, tmp_path):
    move(play, rest="counter", wrap="foil")
    for turn, what in enumerate(("plan", "data", "code"), start=1):
        play.wanted = {"what": what, "turn": turn}
        assert play.file["what"] == what and play.file["turn"] == turn
        (tmp_path / what).write_text(play.file["text"], encoding="utf-8")
    assert play.file["name"] == "brisket_foil.py" and play.file["text"] == play.code
    assert lc.Plan.from_json((tmp_path / "plan").read_text(encoding="utf-8")) == play.plan
    (tmp_path / "data").rename(tmp_path / "data.csv")
    log = lc.read_log(tmp_path / "data.csv")
    np.testing.assert_allclose(log.core, play.outcome.core, atol=0.006)
    np.testing.assert_allclose(log.time, play.outcome.time, atol=0.04)
    assert [event.kind for event in log.events][:1] == ["wrapped"]


def test_a_wrap_that_comes_too_late_is_none(play):
    move(play, wrap_at=200, pull=195)
    assert [stage.wrap.name for stage in play.plan.stages] == ["none"]
    assert made_by(play.code)["plan"] == play.plan


def test_a_cook_that_is_not_on_the_list(play):
    with pytest.raises(lc.InvalidInput, match="'paella'"):
        play.begin_with("paella")
    with pytest.raises(lc.InvalidInput, match="cut"):
        play.set(cut="ham")


@pytest.mark.parametrize("name", settings.PRESETS)
def test_no_line_runs_through_a_word_of_the_figure(play, name):
    play.begin_with(name)
    play.set(rest="box")
    svg = ET.fromstring(play.picture["svg"])
    rules = [
        float(each.get("x1")) for each in svg.iter() if each.get("x1") and each.get("x1") == each.get("x2")
    ]
    (into,) = (
        np.array([pair.split(",") for pair in each.get("points").split()], dtype=float)
        for each in svg.iter()
        if each.tag.endswith("polyline")
        and each.get("stroke-width") == "1.6"
        and each.get("stroke") == "currentColor"
    )
    assert len(rules) >= 2
    words = {"".join(each.itertext()): each for each in svg.iter() if each.tag.endswith("text")}
    checked = 0
    for said, each in words.items():
        if each.get("text-anchor") != "middle" or not re.match(
            "stall|radiation|convection|evaporation", said
        ):
            continue
        at, foot, half = float(each.get("x")), float(each.get("y")), 2.7 * len(said)
        assert all(abs(rule - at) > half for rule in rules), said
        near = into[(into[:, 0] > at - half) & (into[:, 0] < at + half)]
        assert not ((near[:, 1] > foot - 9.0) & (near[:, 1] < foot + 1.0)).any(), said
        checked += 1
    assert checked >= 2  # where spray leaves thin bands, one may have no room
