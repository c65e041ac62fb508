"""Fits, forecasts and start times: facts are read once, and text and notebook say the same of them."""

import html
import math
from dataclasses import replace

import pytest
from invented_cook import cook, plan
from said import durations

import libcook as lc
from libcook.readings.fit_facts import read_fit, read_forecast, read_schedule
from libcook.units import format_duration
from libcook.words.fit_forms import fit_words, forecast_words, schedule_words


@pytest.fixture(scope="module")
def fit():
    return lc.calibrate(plan(), [cook()[1], cook(seed=11)[1]], ["thickness", "vapour_pressure"])


@pytest.fixture(scope="module")
def ahead():
    return lc.forecast(plan(start="21:00"), {"4 h": "140 °F"}, members=60)


@pytest.fixture(scope="module")
def dinner():
    return lc.start_by(plan(), "18:00", members=60)


def test_text_and_notebook_say_the_same(fit, ahead, dinner):
    cells = 0
    for thing, said in (
        (fit, fit_words(read_fit(fit))),
        (ahead, forecast_words(read_forecast(ahead))),
        (dinner, schedule_words(read_schedule(dinner))),
    ):
        text, page = repr(thing), html.unescape(thing._repr_html_())
        assert said.title in page and (said.title in text or thing is dinner)
        for part in [*(cell for row in said.rows for cell in row), *said.notes, said.caution]:
            assert part in text and part in page
            cells += 1
    assert cells > 40


def test_the_facts_of_a_fit_are_the_columns_of_its_table(fit):
    facts, frame = read_fit(fit), fit.to_frame()
    assert [e.name for e in facts.estimates] == list(frame.index) == [e.name for e in fit.estimates]
    for told, e, (_, row) in zip(facts.estimates, fit.estimates, frame.iterrows(), strict=True):
        assert (told.low90, told.high90) == e.interval90 and (told.low50, told.high50) == e.interval50
        assert {name: row[name] for name in frame.columns} == {c: getattr(told, c) for c in frame.columns}
    assert [e.log for e in facts.estimates] == [None, *(series.name for series in fit.series)]


def test_a_forecast_says_the_times_of_its_record(ahead):
    facts = read_forecast(ahead)
    assert facts.done == [ahead.finish_quantile(q) for q in (0.05, 0.25, 0.5, 0.75, 0.95)]
    assert facts.ready == ahead.finish_quantile(0.5, "rest") and facts.sooner is None
    told = replace(facts, done=[3600.0, 7200.0, 10800.0, 14400.0, math.inf], ready=18000.0)
    said = {row.name: row.said for row in forecast_words(told).rows}
    assert [durations(text) for text in said.values()] == [[240], [180], [120, 240], [60], [300]]
    assert said["nine of ten"].endswith("to never")


@pytest.mark.parametrize(
    ("sooner", "said"),
    [
        ([600.0, 1200.0, 1800.0], "20 min sooner, nine of ten 10 min to 30 min"),
        ([-1800.0, -1200.0, -600.0], "20 min later, nine of ten 10 min to 30 min"),
        ([-600.0, 1200.0, 1800.0], "20 min sooner"),
    ],
)
def test_what_a_change_gains(ahead, sooner, said):
    assert forecast_words(replace(read_forecast(ahead), sooner=sooner)).rows[-1].said == said


def test_what_stands_alone_is_said_as_in_the_schedule(dinner):
    text, remedy, stage, other = repr(dinner), dinner.remedies[0], dinner.stages[0], dinner.alternatives[0]
    looked, done = repr(remedy).split(" after ")[0], repr(remedy).split(": ")[1]
    assert f"{looked} at " in text and f": {done} from then on" in text
    name, times = repr(stage).split(": ")
    assert f"{name}: " in text and "as likely as not, by" in times and times.endswith("to be sure")
    assert f"{other.what}, from the beginning: done {repr(other).split(': ')[1]}" in text


def test_remedies_for_next_to_nobody_are_left_out(dinner):
    facts = read_schedule(dinner)
    assert facts.remedies and all(remedy.late >= 0.005 for remedy in facts.remedies)
    none = schedule_words(replace(facts, remedies=[]))
    assert not any(row.name == "if late" or "hurried" in row.said for row in none.rows)


def test_durations_are_written_in_one_way():
    """By the library in its warnings, by Python elsewhere."""
    found = lc.start_by(plan(), "18:00", members=60, alternatives=False)
    (note,) = (warning for warning in found.warnings if "have a warm oven ready" in warning)
    assert format_duration(found.hold95) in note and format_duration(found.stays_hot) in note
