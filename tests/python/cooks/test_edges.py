"""Outcomes and plans at the edge of what can be: cooks of no time, pieces that cannot be any thinner."""

import pickle
import warnings

import matplotlib.pyplot as plt
import numpy as np
import pytest
from cook_samples import roll

import libcook as lc
from libcook import units
from libcook.words import variants as _variants

PIT = lc.pit("drum", air="250 °F")
OVER = {  # stages that are over when they begin, or next to it
    "one skipped": [lc.Stage("a", PIT, until=lc.core("0 °C"))],
    "two skipped": [lc.Stage("a", PIT, until=lc.core("0 °C")), lc.Stage("b", PIT, until=lc.core("1 °C"))],
    "no time": [lc.Stage("a", PIT, until=lc.elapsed("1e-9 s"))],
    "half a second": [lc.Stage("a", PIT, until=lc.elapsed("0.5 s"))],
}
LOOKS = {
    "repr": repr,
    "html": lambda out: out._repr_html_(),
    "sentences": lambda out: lc.sentences(out, units="F", variants=8),
    "readings": lambda out: [
        repr(read)
        for read in (out.stall(), out.carryover(), out.bark(), out.hot_hold(), out.safety(), out.loss)
    ],
    "budget": lambda out: [repr(out.heat_budget(face)) for face in out.faces],
    "frame": lambda out: out.to_frame(units="F"),
    "xarray": lambda out: out.to_xarray(),
    "comparison": lambda out: (
        repr(lc.compare({"a": out, "b": out})),
        lc.compare({"a": out, "b": out})._repr_html_(),
    ),
    "json": lambda out: lc.Outcome.from_json(out.to_json(fields=True)),
    "pickle": lambda out: pickle.loads(pickle.dumps(out)),
    "probe": lambda out: (out.probe(0.01), out.core_at("0 s"), out.hottest, out.tenderness_by_node()),
}
FIGURES = {
    "plot": lambda out: out.plot(units="F"),
    "budget": lambda out: out.plot_budget(),
    "budget of a face": lambda out: out.plot_budget(out.faces[0]),
    "profiles": lambda out: out.plot_profiles([0.0])[0],
    "comparison": lambda out: lc.compare({"a": out, "b": out}).plot(),
}


@pytest.fixture(scope="module", params=[lc.brisket, lc.pork_shoulder, roll])
def meat(request):
    return request.param()


@pytest.mark.parametrize("stages", OVER.values(), ids=OVER)
def test_a_cook_of_no_time_can_be_looked_at_in_every_way(meat, stages):
    out = lc.simulate(lc.Plan(meat, stages, start="18:00"))
    assert out.time[-1] in (0.0, 0.5)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        for look in LOOKS.values():
            look(out)
        for draw in FIGURES.values():
            axes = draw(out)
            axes.figure.canvas.draw()
            plt.close(axes.figure)


def test_a_figure_of_no_time_says_so():
    axes = lc.simulate(lc.Plan(lc.brisket(), OVER["one skipped"])).plot_budget()
    assert "no time passes: every stage was skipped" in [text.get_text() for text in axes.texts]
    plt.close(axes.figure)


def test_the_one_face_of_a_cylinder_is_drawn_by_its_name():
    out = lc.simulate(lc.Plan(roll(), [lc.Stage("a", PIT, until=lc.elapsed("1 h"))]))
    assert list(out.faces) == ["surface"]
    plt.close(out.plot_budget("surface").figure)
    with pytest.raises(lc.InvalidInput, match="no face of this meat"):
        out.plot_budget("bottom")


def thin(meat):
    meat.shape.thickness, meat.shape.extent = 0.005, 0.3
    return meat


@pytest.mark.parametrize(
    "plan",
    [
        lc.Plan(thin(lc.brisket()), [lc.Stage("a", PIT, until=lc.elapsed("10 min"))]),
        lc.Plan(thin(roll()), [lc.Stage("a", PIT, until=lc.elapsed("10 min"))]),
        lc.Plan(lc.brisket(), [lc.Stage("a", lc.pit("drum", air="230 °C"), until=lc.elapsed("1 h"))]),
        lc.Plan(lc.brisket(), [lc.Stage("a", lc.oven(260.0), until=lc.elapsed("1 h"))]),
        lc.Plan(lc.brisket(), [lc.Stage("a", lc.pit("drum", air=-20.0), until=lc.elapsed("1 h"))]),
        lc.Plan(lc.brisket(), [lc.Stage("a", lc.pit("ceramic", air=20.0), until=lc.elapsed("1 h"))]),
    ],
    ids=["thinnest slab", "thinnest cylinder", "hottest pit", "hottest oven", "coldest pit", "damp pit"],
)
def test_how_sure_it_is_can_be_said_at_the_edge_of_what_is_accepted(plan):
    assert len(lc.simulate(plan).in_words()) == 4
    made = _variants.variants(plan, 8)
    assert all(each is not None for each in made)


def test_a_variant_that_cannot_get_to_its_end_counts_as_one_that_does_not():
    stage = lc.Stage("a", lc.pit("drum", air=90.0), until=lc.core(88.5) | lc.elapsed("20 min"))
    plan = lc.Plan(lc.brisket(), [stage])
    missing = sum(each is None for each in _variants.outcomes(lc.Outcome, plan, 16))
    assert 0 < missing < 16
    assert len(lc.sentences(lc.simulate(plan), variants=16)) == 4


def test_what_is_nothing_has_no_sign():
    assert units.format_mass(-1e-5) == "0.00 kg"
    assert units.format_mass(-1e-5, "lb") == "0.0 lb"
    assert units.format_mass(-0.02) == "-0.02 kg"
    assert units.format_percent(-1e-4) == "0 %"
    assert units.format_percent(0.394) == "39 %"
    out = lc.simulate(lc.Plan(lc.brisket(), OVER["half a second"]))
    assert out.ledger.evaporated < 0.0  # a breath of dew
    assert "-0" not in repr(out.loss) and "nothing evaporated" in repr(out)


@pytest.mark.parametrize("air", ["200 °C", 200.0, 230.0, "445 °F"])
def test_a_hot_pit_is_accepted_and_a_plain_number_asked_about(air):
    plan = lc.Plan(lc.brisket(), [lc.Stage("a", lc.pit("drum", air=air), until=lc.elapsed("1 h"))])
    out = lc.simulate(plan)
    assert out.air[-1] > 199.0
    asked = any("if °F was meant" in note for note in out.notes)
    assert asked == (air != "445 °F")
    assert ("if °F was meant" in repr(out)) == asked


def test_what_is_hotter_than_any_pit_is_taken_for_fahrenheit():
    for air in (231.0, 275.0, "232 °C"):
        with pytest.raises(lc.InvalidInput, match="-20 to 230 °C.*did you mean '2.. °F'"):
            lc.pit("drum", air=air)


def test_impossible_air_is_refused_wherever_it_comes_from():
    with pytest.raises(
        lc.InvalidInput, match=r"pit.vapour_pressure: 90000 Pa of vapour cannot be in air of 32"
    ):
        lc.pit("drum", air=0.0, vapour_pressure="90 kPa")
    with pytest.raises(lc.InvalidInput, match="fog and dew"):
        lc.Pit(air="60 °C", vapour_pressure="25 kPa")
    place = lc.pit("drum", air="250 °F", vapour_pressure="30 kPa")
    place.air = 60.0
    with pytest.raises(lc.InvalidInput, match=r"stages\[0\].surroundings.vapour_pressure"):
        lc.Plan(lc.brisket(), [lc.Stage("a", place, until=lc.elapsed("1 h"))])
    # A pit that goes out at night is none.
    night = lc.pit("ceramic", air=lc.schedule([("0 h", "225 °F"), ("3 h", "40 °F")]))
    out = lc.simulate(lc.Plan(lc.brisket(), [lc.Stage("a", night, until=lc.elapsed("6 h"))]))
    assert any("the rest condenses" in note for note in out.notes)
    held = np.array([lc.physics.saturation_pressure(t) for t in out.air])
    assert (out.vapour_pressure <= held * 1.000001).all()
