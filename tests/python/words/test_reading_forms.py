"""Printed readings: what is computed, in units that a cook reads, and the same numbers as the attributes."""

import re
from types import SimpleNamespace

import pytest
from said import durations, quantities

import libcook as lc
from libcook.words import reading_forms as forms


@pytest.fixture(scope="module")
def out():
    pit = lc.pit("drum", air="250 °F")
    stages = [
        lc.Stage("smoke", pit, until=lc.core("203 °F")),
        lc.Stage("rest", lc.counter("70 °F"), wrap="foil", until=lc.cooled("130 °F")),
    ]
    return lc.simulate(lc.Plan(lc.brisket(mass="14 lb"), stages))


def celsius(text):
    return [float(number) for number in re.findall(r"\((-?[\d.]+) °C\)", text)]


def fahrenheit(text):
    return [float(number) for number in re.findall(r"(-?[\d.]+) °F \(-?[\d.]+ °C\)", text)]


def test_a_stall_says_when_where_and_how_slow(out):
    stall, text = out.stall(), repr(out.stall())
    assert durations(text) == [pytest.approx(s / 60.0, abs=0.5) for s in (stall.duration, stall.start)]
    assert celsius(text) == [pytest.approx(stall.plateau, abs=0.5)]
    assert fahrenheit(text) == [pytest.approx(1.8 * stall.plateau + 32.0, abs=0.5)]
    assert quantities(text, "K") == [pytest.approx(3600.0 * stall.slowest, abs=0.05)]
    assert quantities(text, "°F")[-1] == pytest.approx(1.8 * 3600.0 * stall.slowest, abs=0.05)


def test_a_carryover_says_how_far_and_when(out):
    carry, text = out.carryover(), repr(out.carryover())
    assert f"{1.8 * carry.rise:.1f} °F ({carry.rise:.1f} K)" in text
    assert celsius(text) == [pytest.approx(carry.peak, abs=0.05)]
    pulled, after = carry.pulled_at / 60.0, (carry.peak_at - carry.pulled_at) / 60.0
    assert durations(text) == [pytest.approx(pulled, abs=0.5), pytest.approx(after, abs=0.5)]


def test_a_loss_adds_up_in_both_units(out):
    loss, text = out.loss, repr(out.loss)
    kilograms = [float(number) for number in re.findall(r"\((-?[\d.]+) kg\)", text)]
    pounds = [float(number) for number in re.findall(r"(-?[\d.]+) lb", text)]
    assert kilograms[0] == pytest.approx(loss.total, abs=0.005)
    assert sum(kilograms[2:]) == pytest.approx(kilograms[0], abs=0.02)
    assert [p * 0.45359237 for p in pounds] == [pytest.approx(k, abs=0.03) for k in kilograms]
    assert "e-" not in text  # rounding left over in the ledger is no reading


def test_bark_and_hold_say_what_never_happens(out):
    hold = out.hot_hold("60 °C")
    times = (hold.pulled_at, hold.coldest_until, hold.hottest_until, hold.slice_at)
    assert durations(repr(hold)) == [pytest.approx(t / 60.0, abs=0.5) for t in times if t is not None]
    never = SimpleNamespace(pulled_at=0.0, coldest_until=None, hottest_until=None, slice_at=None)
    assert forms.hold_form(never).count("the plan") == 3 and durations(forms.hold_form(never)) == []
    assert "no time" in forms.bark_form(SimpleNamespace(index=0.2, set_at=None, driest=0.4))
    assert f"index {out.bark()[1].index:.2f}" in repr(out.bark()[1])


def test_safety_says_numbers_limits_and_the_caution(out):
    safety, text = out.safety(), repr(out.safety())
    assert "6.5 log" in text and "135 °F (57 °C)" in text
    for moment in (safety.lethality_at, safety.cooling_start, safety.come_up):
        assert lc.units.format_duration(moment) in text
    assert "USDA FSIS" in text and "FDA Food Code" in text
    assert text.endswith(safety.caution)


def test_a_plan_and_its_outcome_speak_both_scales(out):
    assert celsius(repr(out.plan)) == [121.1, 95.0, 21.1, 54.4] and "14.0 lb (6.35 kg)" in repr(out.plan)
    for line in repr(out).splitlines():
        assert line.count("°F") == len(re.findall(r"°C|K\)", line)), line
