"""The safety panel of real and of given-up cooks, against the readings it is made of."""

import pytest

import libcook as lc
from libcook.units import format_duration
from libcook.words.safety_rows import LOCAL, safety_rows

DRUM = lc.pit("drum", air="120 °C")


def rows(out, units="C"):
    return {row.what.partition(",")[0].split(" from")[0]: row for row in safety_rows(out, units)}


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
    assert panel["kill at the slowest place"].computed.endswith(format_duration(safety.lethality_at))
    assert panel["warming"].computed == format_duration(safety.come_up)
    assert format_duration(safety.core_danger_time) in panel["danger zone"].computed
    assert panel["hot holding"].computed == f"until {format_duration(safety.cooling_start)}"
    took = cooled.falls_to(21.0) - safety.cooling_start
    assert panel["cooling 57 to 21 °C"].computed == format_duration(took)
    # the room is warmer than 5 °C
    assert "not within" in panel["cooling 57 to 5 °C"].computed


def test_limits_are_the_ones_that_the_warnings_use(cooled):
    said = " ".join(cooled.safety().warnings)
    panel = rows(cooled)
    assert "allows 2 h" in said and panel["cooling 57 to 21 °C"].limit == "2 h"
    assert "allows 6 h in all" in said and panel["cooling 57 to 5 °C"].limit == "6 h in all"
    assert all(row.source.startswith(("USDA FSIS", "FDA Food Code")) for row in panel.values())


def test_fahrenheit(cooled):
    text = " ".join(" ".join(row) for row in safety_rows(cooled, "F"))
    assert "°C" not in text and "135 to 70 °F" in text and "50 to 130 °F" in text and "41 to 135 °F" in text


def test_text_and_html_of_every_outcome_show_it(cooled):
    with pytest.raises(lc.Unreachable) as caught:
        lc.simulate(
            lc.Plan(lc.brisket(mass="3 kg"), [lc.Stage("smoke", DRUM, until=lc.core("90 °C"), at_most="1 h")])
        )
    for out in (cooled, caught.value.outcome):
        assert LOCAL in out._repr_html_() and "Follow your local food-safety rules" in out._repr_html_()
        assert out.safety().caution in repr(out) and "safety: kill at the slowest place" in repr(out)
        for row in safety_rows(out, "both"):
            assert row.computed in repr(out) and row.limit in repr(out) and row.source in repr(out)
    panel = rows(caught.value.outcome)
    assert panel["kill at the slowest place"].computed == "only 0.0 log by the end"
    assert panel["warming"].computed == "not within the plan"
    assert panel["hot holding"].computed == "the core never reaches 57 °C"
    assert panel["cooling"].computed == "not begun within the plan"
