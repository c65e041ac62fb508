"""When to start, as a cook asks."""

import pickle

import numpy as np
import pytest
from invented_cook import plan
from said import durations, quantities

import libcook as lc
from libcook.words.fit_forms import day_clock


@pytest.fixture(scope="module")
def dinner():
    return lc.start_by(plan(), serve="18:00", confidence=0.9)


def test_the_start_keeps_the_chance(dinner):
    assert dinner.chance_late_with_remedies <= 0.105 + dinner.never
    assert dinner.start == pytest.approx(18 * 3600.0 - dinner.duration_with_remedies)
    assert dinner.duration50 < dinner.duration_with_remedies < dinner.duration
    assert dinner.hold50 < dinner.hold95
    surer = lc.start_by(plan(), "6 pm", 0.97, alternatives=False)
    assert surer.start < dinner.start
    assert surer.alternatives == []
    assert ":" in dinner.start_clock
    assert dinner.forecast.finish_quantile(0.5, "rest") == pytest.approx(dinner.duration50)


def test_alternatives(dinner):
    assert len(dinner.alternatives) >= 2
    for alternative in dinner.alternatives:
        assert alternative.sooner > 0.0
        assert alternative.chance_late <= dinner.chance_late
        assert "sooner" in repr(alternative)
        alternative.plan.validate()
    late = lc.start_by(plan(), "18:00", earliest="11:00")
    assert late.start == 11 * 3600.0
    assert late.chance_late > dinner.chance_late
    assert any("late in" in warning for warning in late.warnings)


def test_late_cooks_are_hurried_and_the_text_says_when(dinner):
    assert 0.0 < dinner.chance_late_with_remedies < dinner.chance_late
    assert [stage.name for stage in dinner.stages] == ["smoke", "wrapped", "rest"]
    text = repr(dinner)
    first = dinner.remedies[0]
    rows = dict(reversed([line.split(": ", 1) for line in text.splitlines() if ": " in line]))
    assert f"{9 / 5 * first.core + 32:.0f} °F" in rows["if late"] and first.what in rows["if late"]
    assert f"{100 * first.late:.0f} of 100" in rows["if late"]
    assert day_clock(dinner.start + dinner.stages[0].median) in rows["'smoke' ends"]
    unhurried, hurried = dinner.chance_late, dinner.chance_late_with_remedies
    assert quantities(rows["on time"], "%") == [round(100.0 * (1.0 - p)) for p in (hurried, unhurried)]
    assert durations(rows["if early"])[:2] == [
        pytest.approx(t / 60.0, abs=0.5) for t in (dinner.hold50, dinner.hold95)
    ]
    for alternative in dinner.alternatives:
        done = rows[f"{alternative.what}, from the beginning"]
        assert durations(done)[0] == pytest.approx(alternative.sooner / 60.0, abs=0.5)
    assert durations(repr(first)) == [pytest.approx(first.by / 60.0, abs=0.5)]
    assert durations(repr(dinner.stages[0]))[0] == pytest.approx(dinner.stages[0].median / 60.0, abs=0.5)
    first.plan.validate()
    alone = lc.start_by(plan(), "18:00", alternatives=False, remedies=False)
    assert alone.remedies == [] and alone.start == pytest.approx(18 * 3600.0 - dinner.duration)
    assert "if late" not in repr(alone) and "(" not in repr(alone).split("the plan takes")[1].split("\n")[0]


def test_days_are_said_in_words():
    early = lc.start_by(plan(), "01:00", alternatives=False)
    assert early.start < 0.0 and early.start_clock.endswith(" the day before")
    assert early.start_clock in repr(early) and " d)" not in repr(early)
    assert day_clock(-20.0) == "00:00" and day_clock(-40.0) == "23:59 the day before"
    assert day_clock(-86400.0 - 6 * 3600.0) == "18:00 2 days before"
    assert day_clock(90000.0) == "01:00 the day after"
    assert day_clock(float("inf")) == "never"


def test_a_pit_too_cold_for_some_of_the_possible_cooks_is_said():
    cold = plan()
    for air in ("228 °F", "224 °F", "220 °F", "216 °F", "212 °F"):
        for stage in cold.stages[:2]:
            stage.surroundings = lc.pit("drum", air=air)
        found = lc.start_by(cold, "18:00", alternatives=False)
        never = float(found.forecast.weight[~np.isfinite(found.forecast.ready)].sum())
        assert found.never == pytest.approx(never)
        if never >= 0.05:
            break
    else:
        pytest.fail("every cook ends even in the coldest pit")
    told = [warning for warning in found.warnings if "never get done" in warning]
    assert len(told) == 1 and f"{100 * never:.0f} of 100 possible cooks" in told[0]
    assert "hotter pit" in told[0]
    assert np.isfinite([found.duration, found.duration_with_remedies, found.start]).all()
    assert "-92233" not in repr(found) and "inf" not in repr(found).split()
    for stage in cold.stages[:2]:
        stage.surroundings = lc.pit("drum", air=94.5)
    with pytest.raises(lc.InvalidInput, match="never get done"):
        lc.start_by(cold, "18:00")


def test_words(dinner):
    text = repr(dinner)
    assert text.startswith("start: ") and dinner.caution in text
    html = dinner._repr_html_()
    assert dinner.caution in html and "<script" not in html
    again = pickle.loads(pickle.dumps(dinner))
    assert repr(again) == text


def test_a_start_time_of_the_plan_does_not_matter(dinner):
    assert lc.start_by(plan(start="03:00"), "18:00").start == dinner.start


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"confidence": 90}, "90 % is 0.9"),
        ({"serve": "25:00"}, "serve"),
        ({"serve": "6"}, "'6:00' or '6 pm'"),
        ({"hold_limit": 135.0}, "°F"),
        ({"earliest": "early"}, "earliest"),
        ({"plan": lc.brisket()}, "libcook.Plan"),
        ({"fit": 3}, "fit: 3"),
        ({"members": 1}, "members"),
    ],
)
def test_what_cannot_be_scheduled(change, message):
    with pytest.raises(lc.InvalidInput, match=message):
        lc.start_by(**{"plan": plan(), "serve": "18:00", **change})


def test_a_clock_end_is_refused():
    clocked = plan(start="06:00").replace()
    clocked.stages[2].until = lc.clock("17:00")
    with pytest.raises(lc.InvalidInput, match="time of day"):
        lc.start_by(clocked, "18:00")
