"""The safety panel of real and of given-up cooks, against the readings it is made of."""

import inspect
from html import unescape

import pytest
from said import durations, quantities

import libcook as lc
from libcook.readings.safety import read_safety
from libcook.units import format_duration
from libcook.words.safety_rows import LOCAL, safety_rows

DRUM = lc.pit("drum", air="120 °C")


KILL, WARMING, DANGER, HOLDING = range(4)  # rows of the panel; those of cooling follow


def rows(out, units="C"):
    return safety_rows(out, units)


@pytest.fixture(scope="module")
def cooled():
    return lc.simulate(
        lc.Plan(
            lc.brisket(mass="3 kg"),
            [
                lc.Stage("smoke", DRUM, until=lc.core("90 °C")),
                lc.Stage("counter", lc.counter("10 °C"), until=lc.elapsed("9 h")),
            ],
        )
    )


def test_numbers_are_those_of_the_readings(cooled):
    safety, panel = cooled.safety(), rows(cooled)
    assert panel[KILL].computed.endswith(format_duration(safety.lethality_at))
    assert panel[WARMING].computed == format_duration(safety.come_up)
    assert format_duration(safety.core_danger_time) in panel[DANGER].computed
    assert panel[HOLDING].computed == f"until {format_duration(safety.cooling_start)}"
    took = cooled.falls_to(21.0) - safety.cooling_start
    assert panel[4].computed == format_duration(took)
    # the room is warmer than 5 °C
    assert "not within" in panel[5].computed


def test_limits_are_the_ones_that_the_warnings_use(cooled):
    said = " ".join(cooled.safety().warnings)
    panel = rows(cooled)
    assert "allows 2 h" in said and durations(panel[4].limit) == [120]
    assert "allows 6 h" in said and durations(panel[5].limit) == [360]
    assert (quantities(panel[4].what, "°C"), quantities(panel[5].what, "°C")) == ([57.0, 21.0], [57.0, 5.0])
    assert all(row.source.startswith(("USDA FSIS", "FDA Food Code")) for row in panel)


def test_fahrenheit(cooled):
    text = " ".join(" ".join(row) for row in safety_rows(cooled, "F"))
    assert "°C" not in text and "135 to 70 °F" in text and "50 to 130 °F" in text and "41 to 135 °F" in text


def test_text_and_html_of_every_outcome_show_it(cooled):
    with pytest.raises(lc.Unreachable) as caught:
        lc.simulate(
            lc.Plan(lc.brisket(mass="3 kg"), [lc.Stage("smoke", DRUM, until=lc.core("90 °C"), at_most="1 h")])
        )
    for out in (cooled, caught.value.outcome):
        assert LOCAL in out._repr_html_() and out.safety().caution in unescape(out._repr_html_())
        assert out.safety().caution in repr(out)
        for row in safety_rows(out, "both"):
            assert row.computed in repr(out) and row.limit in repr(out) and row.source in repr(out)
    panel = rows(caught.value.outcome)
    facts = read_safety(caught.value.outcome.safety(), caught.value.outcome)
    assert (facts.killed_at, facts.come_up, facts.cooling_from, facts.gets_hot) == (None, None, None, False)
    assert "0.0 log" in panel[KILL].computed and "not" in panel[WARMING].computed
    assert "57 °C" in panel[HOLDING].computed and durations(panel[4].limit) == [120, 360]


def test_defaults_are_those_of_the_table():
    def default(function, name):
        return inspect.signature(function).parameters[name].default

    hot = lc.parameter("safety.hot_holding").value
    assert default(lc.start_by, "hold_limit") == default(lc.Outcome.hot_hold, "limit") == hot
    for name in ("air", "humidity"):
        assert default(lc.holding_oven, name) == lc.parameter(f"holding_oven.{name}").value
