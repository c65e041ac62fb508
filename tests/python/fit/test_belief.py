"""One belief: what is drawn, and that words and forecasts say the same of one plan."""

import re

import numpy as np
import pytest

import libcook as lc
from libcook import _core
from libcook.sweeps import paths as _sweep_paths

DRUM = lc.pit("drum", air="250 °F")
REST = lc.Stage("rest", lc.counter("70 °F"), wrap="foil", until=lc.cooled("140 °F"))
BRISKET = lc.Plan(  # README's
    lc.brisket(mass="14 lb"),
    [
        lc.Stage("smoke", DRUM, until=lc.core("150 °F")),
        lc.Stage("wrapped", DRUM, wrap="butcher paper", until=lc.core("200 °F")),
        REST,
    ],
)
SHOULDER = lc.Plan(
    lc.pork_shoulder(mass="8 lb"),
    [lc.Stage("smoke", lc.pit("drum", air="240 °F"), until=lc.core("195 °F")), REST],
)


def hours(text):
    h, m = re.fullmatch(r"(?:(\d+) h)?\s*(?:(\d+) min)?", text.strip()).groups()
    return int(h or 0) + int(m or 0) / 60.0


@pytest.mark.parametrize("plan", [BRISKET, SHOULDER], ids=["brisket", "shoulder"])
def test_words_and_forecast_give_one_range(plan):
    words = lc.simulate(plan).in_words(variants=200)[0]
    told = [hours(t) for t in re.search(r"comes off after (.*) to (.*) in 8 of 10", words).groups()]
    ahead = lc.forecast(plan, members=2000)
    expected = [ahead.finish_quantile(q) / 3600.0 for q in (0.1, 0.9)]
    # 200 cooks here; 5 h and more are told to the quarter of an hour
    np.testing.assert_allclose(told, expected, rtol=0.07)


def test_what_the_plan_times_is_not_stretched():
    rest = lc.Stage("rest", lc.counter("70 °F"), wrap="foil", until=lc.elapsed("2 h"))
    timed = lc.Plan(lc.brisket(mass="14 lb"), [lc.Stage("smoke", DRUM, until=lc.elapsed("6 h")), rest])
    assert "8 of 10" not in lc.simulate(timed).in_words()[0]


def test_a_belief_names_what_is_drawn():
    believed = lc.belief(BRISKET)
    assert {"thickness", "pit_offset", "wrap_resistance", "final_share"} <= set(believed.names)
    n = len(believed.names)
    assert believed.median.shape == believed.spread.shape == (n,) and believed.correlation.shape == (n, n)
    np.linalg.cholesky(believed.correlation)
    for name, spread in zip(believed.names, believed.spread, strict=True):
        assert spread == lc.parameter(f"free.{name}.spread").value
    assert "thickness: 0.05" in repr(believed) and "heavy-tailed" in repr(believed)


def test_cooks_drawn_can_be_simulated_and_read():
    drawn = lc.belief(BRISKET).draw(24, seed=3)
    done = lc.simulate_many(drawn.plans)
    assert len(done) == len(drawn.pace) == 24 and sum(isinstance(o, lc.Outcome) for o in done) > 20
    at = drawn.names.index("thickness")
    thickness = [plan.meat.shape.thickness for plan in drawn.plans]
    np.testing.assert_allclose(thickness, drawn.values[:, at], rtol=1e-12)
    np.testing.assert_allclose(
        [p.meat.mass for p in drawn.plans], BRISKET.meat.mass, rtol=1e-3
    )  # weighed; fat is lighter when warm
    assert np.sum(drawn.values[:, at] < BRISKET.meat.shape.thickness) in range(8, 17)
    table = drawn.to_frame()
    assert list(table.columns) == [*drawn.names, "pace"] and len(table) == 24


def test_the_same_seed_draws_the_same_cooks():
    believed = lc.belief(BRISKET)
    assert believed.draw(8, seed=2).plans == believed.draw(8, seed=2).plans
    assert believed.draw(8, seed=2).plans != believed.draw(8, seed=1).plans


@pytest.mark.parametrize("count", [0, 100_001, 2.5, True])
def test_a_number_of_cooks_that_is_none(count):
    with pytest.raises(lc.InvalidInput, match="count"):
        lc.belief(BRISKET).draw(count)


def test_a_piece_is_resized_in_one_way():
    plan = lc.Plan(lc.brisket(mass="14 lb"), [lc.Stage("smoke", DRUM, until=lc.core("150 °F"))])
    thicker = 1.1 * plan.meat.shape.thickness
    once = _core.resized(plan.meat, plan.meat.mass, thicker)
    assert _core.with_value(plan, "thickness", thicker).meat == once
    swept = plan.replace()
    _sweep_paths.Thickness().bound(swept)(thicker)
    assert swept.meat == once
