"""The four sentences of very different cooks, and how sure they say to be."""

import copy
import pickle
import re

import numpy as np
import pytest
from said import durations, quantities

import libcook as lc
from libcook.words import spread as _spread
from libcook.words import variants as _variants
from libcook.words.two_scales import join

DRUM = lc.pit("drum", air="250 °F")
REST = lc.Stage("rest", lc.counter("70 °F"), wrap="foil", until=lc.cooled("140 °F"))
PLAN = lc.Plan(
    lc.brisket(mass="14 lb"),
    [
        lc.Stage("smoke", DRUM, until=lc.core("150 °F")),
        lc.Stage("wrapped", DRUM, wrap="butcher paper", until=lc.core("200 °F")),
        REST,
    ],
)


@pytest.fixture(scope="module")
def out():
    return lc.simulate(PLAN)


def hours(text):
    h, m = re.fullmatch(r"(?:(\d+) h)?\s*(?:(\d+) min)?", text.strip()).groups()
    return int(h or 0) + int(m or 0) / 60.0


def test_the_range_of_the_finish_is_that_of_the_variants(out):
    low, high = re.search(r"it comes off after (.*) to (.*) in 8 of 10", out.in_words()[0]).groups()
    ends = [
        each.longer(each.outcome.carryover().pulled_at) / 3600.0
        for each in _variants.outcomes(lc.Outcome, PLAN, 100)
        if each is not None
    ]
    # to the quarter of an hour that it is rounded to
    np.testing.assert_allclose([hours(low), hours(high)], np.quantile(ends, (0.1, 0.9)), atol=0.13)
    assert hours(low) < out.carryover().pulled_at / 3600.0 < hours(high)


def test_without_variants_it_is_the_same_story(out):
    assert out.in_words("F", variants=0) == lc.sentences(out, units="F")
    for long, short in zip(out.in_words("F"), lc.sentences(out, units="F"), strict=True):
        assert "re-run" in long and "re-run" not in short and long.startswith(short[:25])


def test_the_same_plan_gives_the_same_words(out):
    assert out.in_words() == lc.simulate(PLAN).in_words()


def test_units_go_together_in_the_ranges(out):
    text = " ".join(out.in_words("F"))
    assert "°C" not in text and "kg" not in text
    assert len(re.findall(r"\d+ to \d+ °F", text)) >= 1  # where the variants stall


def test_variants_lie_about_what_the_plan_says():
    meat = lc.brisket(mass="14 lb")
    meat.tissue.mobility.expressed = 3e-8
    plan = lc.Plan(meat, [lc.Stage("smoke", DRUM, until=lc.core("150 °F"))])
    drawn = [each for each, _ in _variants.variants(plan, 40)]
    mobility = np.log([each.meat.tissue.mobility.expressed / 3e-8 for each in drawn])
    assert abs(mobility.mean()) < 0.1 and mobility.std() > 0.2
    np.testing.assert_allclose([each.meat.mass for each in drawn], meat.mass, rtol=1e-3)
    assert plan == lc.Plan(meat, plan.stages)  # the plan itself is not touched


def test_a_stage_that_was_given_up():
    plan = lc.Plan(
        lc.brisket(mass="14 lb"),
        [lc.Stage("smoke", lc.pit("drum", air="80 °C"), until=lc.core("76 °C"), at_most="12 h"), REST],
        start="20:00",
    )
    with pytest.raises(lc.Unreachable) as caught:
        lc.simulate(plan)
    end, stall, rest, loss = caught.value.outcome.in_words()
    assert "'smoke'" in end and durations(end) == [720] and "08:00 (+1 d)" in end and "0 of them" in end
    assert "to the end" in stall and durations(rest) == [] and len(quantities(loss, "kg")) >= 4


def test_a_variant_that_never_gets_there_is_counted():
    # it may take hardly longer than it does: some variants need more
    plan = lc.Plan(
        lc.brisket(mass="14 lb"),
        [lc.Stage("smoke", lc.pit("drum", air="95 °C"), until=lc.core("72 °C"), at_most="40 h")],
    )
    plan.stages[0].at_most = 1.05 * lc.simulate(plan).time[-1]
    ends = [f for f in _variants.outcomes(lc.Outcome, plan, 100) if f is None]
    assert 0 < len(ends) < 100
    assert f"{len(ends)} of them never" in lc.simulate(plan).in_words()[0]


def test_only_a_rest():
    plan = lc.Plan(
        lc.brisket(mass="3 kg", start="58 °C"),
        [lc.Stage("rest", lc.counter("21 °C"), wrap="towels", until=lc.elapsed("2 h"))],
    )
    end, stall, rest, _ = lc.simulate(plan).in_words()
    assert quantities(end, "°C")[0] == 58.0 and durations(end)[0] == 120
    assert "no stall" in stall and quantities(stall, "°C") == [] and quantities(rest, "°C") == [60.0]


def test_no_stall_says_how_slow_it_got_and_who_took_the_heat():
    plan = lc.Plan(lc.brisket(mass="14 lb"), [lc.Stage("smoke", DRUM, until=lc.core("200 °F"))])
    dry = lc.simulate(plan, evaporation=False).in_words()[1]
    assert "no stall" in dry and "nothing evaporates meanwhile" in dry
    assert "0 of 100 re-runs" in dry  # they were run without evaporation as well
    foil = lc.simulate(
        PLAN.replace(
            stages=[
                lc.Stage("smoke", DRUM, until=lc.core("120 °F")),
                lc.Stage("foil", DRUM, wrap="foil", until=lc.core("200 °F")),
            ]
        )
    ).in_words()[1]
    assert "no stall" in foil and "per hour" in foil and quantities(foil, "°C")[:2] == [50.0, 80.0]


def test_a_roast_that_never_gets_near_a_stall():
    plan = lc.Plan(lc.brisket(mass="2 kg"), [lc.Stage("oven", lc.oven("110 °C"), until=lc.core("45 °C"))])
    said = lc.simulate(plan).in_words()[1]
    assert quantities(said, "°C")[-2:] == [50.0, 80.0] and 45.0 <= quantities(said, "°C")[0] < 50.0


def test_a_cross_section_is_varied_in_one_dimension():
    out = lc.simulate(PLAN, grid="cross-section", columns=15, rows=11)
    low, high = re.search(r"it comes off after (.*) to (.*) in 8 of 10", out.in_words()[0]).groups()
    # its range is about its own finish
    assert hours(low) < out.carryover().pulled_at / 3600.0 < hours(high)


def test_a_cook_that_its_plan_does_not_give_again_has_no_range():
    plan = lc.Plan(lc.brisket(mass="14 lb"), [lc.Stage("smoke", DRUM, until=lc.core("200 °F"))])
    dry = lc.simulate(plan, evaporation=False)
    read = pickle.loads(pickle.dumps(dry))  # a file does not say which physics was off
    assert "stays open" in read.in_words()[0]
    assert "re-runs" not in " ".join(read.in_words()[1:])
    full = pickle.loads(pickle.dumps(lc.simulate(plan)))
    assert "in 8 of 10" in full.in_words()[0]


@pytest.mark.parametrize("count", [1, -8, 201, 16.0, True, "16"])
def test_a_number_of_variants_that_is_none(out, count):
    with pytest.raises(lc.InvalidInput, match="variants"):
        out.in_words(variants=count)


def test_ranges_are_written_with_one_unit():
    assert join("35 %", "41 %") == "35 to 41 %"
    assert join("145 °F", "184 °F") == "145 to 184 °F"
    assert join("50 min", "3 h 30 min") == "50 min to 3 h 30 min"
    assert join("2 h", "2 h") == "about 2 h"
    assert copy.copy(_spread.SAME) < 0.05
