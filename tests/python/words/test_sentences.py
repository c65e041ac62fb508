import numpy as np
import pytest
from invented_outcome import invented_outcome

import libcook as lc
from libcook.words.sentences import sentences


def test_four_sentences_with_the_numbers_of_the_cook():
    end, stall, rest, loss = sentences(invented_outcome(clock_start=20 * 3600.0))
    assert "after 10 h (06:00 (+1 d))" in end and "'wrapped'" in end and "94.0 °C" in end
    assert "stalls for 2 h 42 min, from 3 h 18 min on, near 68 °C" in stall
    assert "another 1.5 °C to 95.5 °C within 24 min" in rest and "still above 60 °C" in rest
    assert "40 % is lost" in loss and "after 5 h" in loss and "local food-safety rules" in loss
    assert all(text.endswith(".") for text in (end, stall, rest, loss))


def test_the_cause_is_the_mean_budget_of_the_faces_over_the_stall():
    def budget(face):
        one = invented_outcome().heat_budget(face)
        # in the stall 300 W/m² in the mean of the faces, before and after it nothing
        inside = (one.time > 3.3 * 3600.0) & (one.time < 6.0 * 3600.0)
        one.convection = np.where(inside, {"top": 250.0, "bottom": 150.0}[face], 0.0)
        one.radiation = np.where(inside, 100.0, 0.0)
        one.evaporation, one.carried = np.where(inside, 210.0, 0.0), np.where(inside, 30.0, 0.0)
        return one

    out = invented_outcome()
    out.heat_budget = budget
    said = sentences(out)[1]
    # the heat that lost water takes along cools nothing that stays
    assert "of the 300 W/m² that reach the meat meanwhile, evaporation takes 210 (70 %), " in said
    assert "which leaves 90 for warming the meat" in said


def test_a_budget_that_leaves_nothing_says_so_instead_of_a_negative_number():
    out = invented_outcome()
    budget = out.heat_budget("top")
    budget.evaporation = 1.02 * (budget.convection + budget.radiation)
    out.heat_budget = lambda face: budget
    assert "which leaves next to nothing for warming the meat" in sentences(out)[1]


def test_a_stall_that_evaporation_does_not_explain_is_not_put_down_to_it():
    out = invented_outcome()
    budget = out.heat_budget(1)
    budget.evaporation[:] = 10.0
    out.heat_budget = lambda face: budget
    assert "so it is not the only brake" in sentences(out)[1]


def test_without_stall_and_rest():
    end, stall, rest, _ = sentences(invented_outcome(stall=False, rest=False))
    assert "the plan ends there" in end and stall.startswith("There is no stall")
    assert "says nothing about carryover" in rest


def test_hold_that_ends_or_never_was():
    out = invented_outcome()
    assert "stays at or above 80 °C for 2 h" in sentences(out, hold=80.0)[2]
    assert "below 97 °C all through the rest" in sentences(out, hold=97.0)[2]


def test_units_go_together():
    text = " ".join(sentences(invented_outcome(), units="F", hold=60.0))
    assert "°C" not in text and "kg" not in text and "201.2 °F" in text and "14.1 lb" in text
    assert "another 2.7 °F" in text and "1.9 °F per hour" in text


@pytest.mark.parametrize(("passed", "said"), [(None, "reaches only 3.2 of 6.5"), (3600.0, "after 1 h")])
def test_safety_says_how_far_the_kill_got(passed, said):
    out = invented_outcome(warnings=("one", "two"))
    safety = out.safety()
    safety.lethality_at, safety.log_reduction = passed, 3.2
    out.safety = lambda: safety
    assert said in sentences(out)[3] and "with 2 safety warnings to read" in sentences(out)[3]


def test_what_was_sprayed_on_is_told_apart_from_what_the_meat_lost():
    loss = sentences(invented_outcome(sprayed=0.2))[3]
    assert "40 % is lost: 1.80 kg evaporated" in loss and "(0.20 kg of this was sprayed on)" in loss
    assert "sprayed" not in sentences(invented_outcome())[3]


def test_a_stage_that_never_was_is_said_first_and_is_not_the_pull():
    pit, room = lc.pit("drum", air="275 °F"), lc.counter("70 °F")
    stages = [
        lc.Stage("smoke", pit, until=lc.core("160 °F")),
        lc.Stage("wrapped", pit, wrap="foil", until=lc.core("150 °F")),
        lc.Stage("rest", room, until=lc.core("140 °F")),
    ]
    out = lc.simulate(lc.Plan(lc.brisket(mass="8 lb"), stages, start="21:00"))
    said = lc.sentences(out, units="F")[0]
    wrapped, rest = (
        f"he stage '{name}' is skipped, as what ends it was so when it began: "
        for name in ("wrapped", "rest")
    )
    assert said.startswith(
        f"T{wrapped}is the order right? T{rest}a rest ends when the core has cooled(). The meat"
    )
    assert "at the end of the stage 'smoke'" in said
    table = repr(lc.compare({"mine": out}, units="F"))
    assert f"mine: t{wrapped}" in table and f"mine: t{rest}" in table
    assert f"mine: t{rest}" in lc.compare({"mine": out})._repr_html_().replace("&#x27;", "'")


def test_a_comparison_says_the_time_of_day():
    pit = lc.pit("drum", air="275 °F")
    plan = lc.Plan(lc.brisket(mass="8 lb"), [lc.Stage("smoke", pit, until=lc.core("160 °F"))], start="21:00")
    out = lc.simulate(plan)
    off = lc.units.format_clock(21 * 3600.0 + out.time[-1], days=True)
    assert f"mine: on at 21:00, off the heat at {off}\n" in repr(lc.compare({"mine": plan, "twin": out}))
    assert "on at" not in repr(lc.compare({"mine": plan.replace(start=None)}))
