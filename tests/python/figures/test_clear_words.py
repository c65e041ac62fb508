"""No line runs through words and no leader through other words, in the figures that the library draws."""

import matplotlib
import matplotlib.pyplot as plt
import numpy as np
import pytest
from figure_texts import collisions, crossings
from invented_outcome import invented_outcome

import libcook as lc
from libcook import plots

matplotlib.use("Agg")

PIT = lc.pit("drum", air="250 °F")
TENDER = lc.core("200 °F")


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


def plan(*stages, mass="14 lb", start=None):
    return lc.Plan(lc.brisket(mass=mass), list(stages), start=start)


COOKS = {
    "paper and rest": plan(
        lc.Stage("smoke", PIT, until=lc.core("150 °F")),
        lc.Stage("wrapped", PIT, wrap="butcher paper", until=TENDER),
        lc.Stage("rest", lc.counter("70 °F"), wrap="foil", until=lc.cooled("140 °F")),
        start="21:00",
    ),
    "bare": plan(lc.Stage("smoke", PIT, until=TENDER)),
    "foil early, short rest": plan(
        lc.Stage("smoke", PIT, until=lc.core("140 °F")),
        lc.Stage("foil", PIT, wrap="foil", until=TENDER),
        lc.Stage("rest", lc.counter(), wrap="foil", until=lc.elapsed("30 min")),
    ),
    "long rest in a box": plan(
        lc.Stage("smoke", PIT, until=lc.core("160 °F")),
        lc.Stage("foil", PIT, wrap="foil", until=TENDER),
        lc.Stage("box", lc.insulated_box(), wrap="foil", until=lc.elapsed("8 h")),
    ),
    "a small one, spritzed": plan(
        lc.Stage("smoke", PIT, spritz=lc.spritz("1 h"), lid=[("3 h", "5 min")], until=lc.core("170 °F")),
        lc.Stage("pan", PIT, wrap="pan", until=TENDER),
        lc.Stage("oven", lc.holding_oven(), wrap="pan", until=lc.elapsed("2 h")),
        mass="4 lb",
    ),
    "a pit that goes out": plan(
        lc.Stage(
            "smoke",
            lc.pit("kettle", air=lc.schedule([("0 h", "250 °F"), ("5 h", "90 °F"), ("7 h", "275 °F")])),
            until=TENDER,
        ),
    ),
}


@pytest.fixture(scope="module")
def cooked():
    return {name: lc.simulate(each) for name, each in COOKS.items()}


@pytest.mark.parametrize("name", COOKS)
def test_a_cook(cooked, name):
    ax = plots.plot_outcome(cooked[name], units="CF"[len(name) % 2])
    assert crossings(ax) == []
    assert collisions(ax) == []


@pytest.mark.parametrize("name", COOKS)
def test_its_budget(cooked, name):
    ax = plots.plot_budget(cooked[name], ("top", "bottom")[len(name) % 2])
    assert crossings(ax) == []
    assert collisions(ax) == []


@pytest.mark.parametrize("options", [{}, {"rest": False}, {"stall": False}], ids=str)
def test_an_invented_cook(options):
    assert crossings(plots.plot_outcome(invented_outcome(**options), units="F")) == []


def test_a_comparison(cooked):
    both = lc.compare({name: cooked[name] for name in ("bare", "paper and rest", "foil early, short rest")})
    assert crossings(both.plot()) == []


def test_names_of_curves_that_end_within_the_axes():
    x = np.linspace(0.0, 10.0, 60)
    curves = {
        "one that ends early": (x[:20], 20.0 * x[:20]),
        "one that passes behind its name": (x[:36], 11.5 * x[:36]),
        "the same end as the next": (x[:50], 8.0 * x[:50]),
        "as it is": (x[:50], 8.02 * x[:50]),
        "to the edge": (x, 4.0 * x),
    }
    ax = plots.lines(None, curves, "x [-]", "y [-]")
    assert crossings(ax) == []
    assert collisions(ax) == []


def test_profiles_go_through_the_middle_and_the_rim_apart(cooked):
    out = cooked["bare"]
    left, right = plots.plot_profiles(out, ["2 h", "6 h", "12 h"])
    for ax in (left, right):
        assert len(ax.lines) == 3 * out.lines == 6
        for each in ax.lines:  # no line goes back from one face to the other
            assert (np.diff(each.get_xdata()) > 0.0).all()
        assert crossings(ax, on_lines=[text.get_text() for text in ax.texts]) == []


def test_the_measure_sees_what_is_wrong():
    _, ax = plt.subplots()
    ax.plot([0, 1], [0, 1], label="a line")
    ax.text(0.5, 0.5, "words on it", ha="center", va="center")
    ax.text(0.2, 0.8, "words beside it", ha="center", va="center")
    ax.annotate("far", xy=(0.2, 0.6), xytext=(0.2, 0.97), ha="center", arrowprops=dict(arrowstyle="-"))
    assert ("words on it", "line a line") in crossings(ax)
    assert ("words beside it", "leader of far") in crossings(ax)
    assert len(crossings(ax)) == 2
