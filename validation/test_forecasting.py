"""Bands hold on measured cooks what they promise, and the middle beats a straight line.

Loose by the sampling error of so few cooks: two standard errors of 35 and of 101 forecasts.
"""

from __future__ import annotations

import numpy as np
import pytest
from forecasting import answers, cases, learn, report

FEW = 50  # effective possible cooks that a forecast must keep


@pytest.fixture(scope="module", params=[0.0, 0.75])
def told(request):
    return answers.ask(cases.at_shares(learn.measured(), (request.param,)))


def test_bands_of_measured_cooks_hold_what_they_promise(told):
    n = len(told)
    for held, promised in ((np.mean([a.in90 for a in told]), 0.9), (np.mean([a.in50 for a in told]), 0.5)):
        assert abs(held - promised) <= 2.0 * np.sqrt(promised * (1.0 - promised) / n)
    assert not any(a.refused for a in told)
    assert min(a.effective for a in told) >= FEW


def test_the_middle_beats_what_a_cook_does_by_hand(told):
    off = float(np.median([abs(a.off) for a in told]))
    hand = report.by_hand_off(told)
    for rule in ("line", "population"):
        if np.isfinite(hand[rule]):
            assert off <= 0.8 * hand[rule], rule


def test_weights_are_those_that_the_library_has():
    text = learn.HEADER.read_text(encoding="utf-8")
    found, _ = learn.population_time(learn.measured())
    assert ", ".join(f"{v:.4f}" for v in found) in text


def test_readings_of_a_measured_cook_come_as_they_were_told():
    cook = next(c for c in learn.measured() if c.start_known and len(c.time) > 2)
    case = cases.of_field(cook, 0.75)
    assert case.done == cook.time[-1] and case.target == cook.core[-1]
    assert case.now <= 0.75 * case.done
    assert cases.of_field(cook, 0.0).log is None
