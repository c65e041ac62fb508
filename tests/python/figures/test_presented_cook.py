"""Tables, figures and sentences of simulated cooks; what they show must be what the outcome says."""

import matplotlib
import matplotlib.pyplot as plt
import numpy as np
import pytest
from cook_samples import roll
from figure_texts import collisions, line
from html_reader import Reader

import libcook as lc
from libcook import plots

matplotlib.use("Agg")


def stages(wrap_at):
    return [
        lc.Stage(
            "smoke", lc.pit("drum", air="250 °F"), until=lc.core(wrap_at), spritz=lc.spritz(every="90 min")
        ),
        lc.Stage("wrapped", lc.oven("250 °F"), wrap="butcher paper", until=lc.core("94 °C")),
        lc.Stage("rest", lc.counter("21 °C"), wrap="foil", until=lc.elapsed("90 min")),
    ]


@pytest.fixture(scope="module")
def plan():
    return lc.Plan(lc.brisket(mass="6.4 kg"), stages("165 °F"), start="22:00")


@pytest.fixture(scope="module", params=["slab", "cylinder"])
def out(request, plan):
    if request.param == "slab":
        return lc.simulate(plan)
    return lc.simulate(lc.Plan(roll(3.5), stages("165 °F")))


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


def test_frame_and_data_set_agree_with_the_outcome(out):
    frame, data = out.to_frame(units="F"), out.to_xarray()
    np.testing.assert_allclose(frame["core [°F]"], out.core * 1.8 + 32.0)
    np.testing.assert_array_equal(data.temperature.values, out.temperature)
    np.testing.assert_array_equal(data.surface.values, out.surface)
    assert list(data.face.values) == list(out.faces)
    assert not frame.isna().any().any()
    for end in out.stage_ends:
        assert frame["stage"].loc[end.time / 3600.0] == end.name
    assert "smoke: drum" in data.attrs["stages"] and data.attrs["software"] == f"libcook {lc.__version__}"
    # both ways to the mean temperature agree: the node volumes are shares of the whole
    mean = (data.temperature * data.node_volume).sum("node")
    np.testing.assert_allclose(mean.values, out.mean_temperature, atol=1e-6)


def test_figures_show_the_traces_and_keep_their_words_apart(out):
    ax = out.plot()
    np.testing.assert_array_equal(line(ax, "surface").get_ydata(), out.surface[:, -1])
    assert collisions(ax) == []
    budget = plots.plot_budget(out)
    np.testing.assert_array_equal(line(budget, "into the meat").get_ydata(), out.heat_budget("top").into_meat)
    assert collisions(budget) == []
    assert collisions(*plots.plot_profiles(out, ["1 h", "3 h", "6 h"])) == []


def test_notebook_view_is_well_formed_and_carries_the_caution(out):
    reader = Reader.of(out._repr_html_())
    assert reader.open == [] and out.safety().caution in reader.text
    assert all(warning in reader.text for warning in out.safety().warnings)


def test_sentences_rest_on_the_readings(out):
    end, stall, rest, loss = lc.sentences(out)
    carry = out.carryover()
    assert f"{carry.pulled_core:.1f} °C" in end and f"{carry.peak:.1f} °C" in rest
    assert ("stalls for" in stall) == (out.stall() is not None)
    assert f"{100.0 * out.loss.total / out.loss.raw:.0f} % is lost" in loss


def test_a_comparison_simulates_plans_and_keeps_outcomes(plan):
    out = lc.simulate(plan)
    result = lc.compare({"plan": plan, "outcome": out}, units="F")
    first, second = result.table
    assert {**first, "cook": ""} == {**second, "cook": ""}
    assert first["pull [h]"] == pytest.approx(out.carryover().pulled_at / 3600.0)
    assert result.outcomes["outcome"] is out
    assert collisions(result.plot()) == []
