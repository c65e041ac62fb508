from html import unescape

import numpy as np
import pytest
from invented_outcome import invented_outcome
from said import durations, quantities

import libcook as lc
from libcook.readings.facts import read_facts, read_slow_spell
from libcook.words.sentences import sentences


def test_four_sentences_with_the_numbers_of_the_cook():
    end, stall, rest, loss = sentences(invented_outcome(clock_start=20 * 3600.0))
    assert durations(end) == [600, 180] and "06:00 (+1 d)" in end and "'wrapped'" in end
    assert quantities(end, "°C")[0] == 94.0
    assert durations(stall) == [162, 198] and quantities(stall, "°C")[0] == 68.0
    assert quantities(rest, "°C") == [1.5, 95.5, 60.0] and durations(rest) == [24, 180]
    assert quantities(loss, "%") == [40.0] and durations(loss) == [300]
    assert quantities(loss, "kg") == [6.4, 1.6, 0.6, 0.36]
    assert "local food-safety rules" in loss
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
    spell = read_slow_spell(out, out.stall())
    # the heat that lost water takes along cools nothing that stays
    assert (spell.arrives, spell.taken) == (pytest.approx(300.0), pytest.approx(210.0))
    said = sentences(out)[1]
    assert quantities(said, "W/m²") == [300.0] and quantities(said, "%") == [70.0]
    assert {"210", "90"} <= set(said.split())


def test_a_budget_that_leaves_nothing_says_so_instead_of_a_negative_number():
    out = invented_outcome()
    budget = out.heat_budget("top")
    budget.evaporation = 1.02 * (budget.convection + budget.radiation)
    out.heat_budget = lambda face: budget
    assert "next to nothing" in sentences(out)[1]
    assert "-" not in sentences(out)[1]


def test_a_stall_that_evaporation_does_not_explain_is_not_put_down_to_it():
    out = invented_outcome()
    budget = out.heat_budget(1)
    budget.evaporation[:] = 10.0
    out.heat_budget = lambda face: budget
    assert "not the only" in sentences(out)[1]


def test_without_stall_and_rest():
    end, stall, rest, _ = sentences(invented_outcome(stall=False, rest=False))
    assert durations(end) == [600] and "no stall" in stall
    assert durations(rest) == []


def test_hold_that_ends_or_never_was():
    out = invented_outcome()
    held, never = sentences(out, hold=80.0)[2], sentences(out, hold=97.0)[2]
    assert quantities(held, "°C")[-1] == 80.0 and durations(held)[-1] == pytest.approx(
        out.time_above(80.0) / 60.0, abs=0.5
    )
    assert quantities(never, "°C")[-1] == 97.0 and len(durations(never)) == 1


def test_units_go_together():
    text = " ".join(sentences(invented_outcome(), units="F", hold=60.0))
    assert "°C" not in text and "kg" not in text and "201.2 °F" in text and "14.1 lb" in text
    assert "another 2.7 °F" in text and "1.9 °F per hour" in text


@pytest.mark.parametrize(("passed", "said"), [(None, "3.2 of 6.5"), (3600.0, "after 1 h")])
def test_safety_says_how_far_the_kill_got(passed, said):
    out = invented_outcome(warnings=("one", "two"))
    safety = out.safety()
    safety.lethality_at, safety.log_reduction = passed, 3.2
    out.safety = lambda: safety
    assert said in sentences(out)[3] and "2 safety warnings" in sentences(out)[3]


def test_what_was_sprayed_on_is_told_apart_from_what_the_meat_lost():
    loss = sentences(invented_outcome(sprayed=0.2))[3]
    assert quantities(loss, "%") == [40.0] and quantities(loss, "kg")[1:4] == [1.8, 0.6, 0.2]
    assert "sprayed" not in sentences(invented_outcome())[3]


def test_a_stage_that_never_was_is_said_first_and_is_not_the_pull():
    pit, room = lc.pit("drum", air="275 °F"), lc.counter("70 °F")
    stages = [
        lc.Stage("smoke", pit, until=lc.core("160 °F")),
        lc.Stage("wrapped", pit, wrap="foil", until=lc.core("150 °F")),
        lc.Stage("rest", room, until=lc.core("140 °F")),
    ]
    out = lc.simulate(lc.Plan(lc.brisket(mass="8 lb"), stages, start="21:00"))
    assert len(out.notes) == len(read_facts(out).skipped) == 2
    assert "order" in out.notes[0] and "cooled()" in out.notes[1]
    said = lc.sentences(out, units="F")[0]
    places = [said.index(name) for name in ("'wrapped'", "'rest'", "cooled()", "The meat", "'smoke'")]
    assert places == sorted(places) and "°C" not in said
    for shown in (repr(lc.compare({"mine": out})), lc.compare({"mine": out})._repr_html_()):
        for note in out.notes:
            assert unescape(shown).count(f"mine: {note}") == 1


def test_a_comparison_says_the_time_of_day():
    pit = lc.pit("drum", air="275 °F")
    plan = lc.Plan(lc.brisket(mass="8 lb"), [lc.Stage("smoke", pit, until=lc.core("160 °F"))], start="21:00")
    out = lc.simulate(plan)
    off = lc.units.format_clock(21 * 3600.0 + out.time[-1], days=True)
    told = repr(lc.compare({"mine": plan, "twin": out})).splitlines()
    assert any(line.startswith("mine: ") and "21:00" in line and line.endswith(off) for line in told)
    assert "21:00" not in repr(lc.compare({"mine": plan.replace(start=None)}))
