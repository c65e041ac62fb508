"""Batches from Python: each outcome as alone, failures in their place, delivery, interrupts."""

from __future__ import annotations

import os
import signal
import threading

import numpy as np
import pytest

import libcook as lc


def plan(mass: float = 6.0, air: float = 118.0, until: lc.End | None = None) -> lc.Plan:
    return lc.Plan(
        lc.brisket(mass=f"{mass} kg"),
        [
            lc.Stage("smoke", lc.pit("drum", air=air), until=lc.core("65 °C")),
            lc.Stage("wrapped", lc.pit("drum", air=air), wrap="foil", until=until or lc.core("93 °C")),
        ],
    )


PLANS = [plan(mass, air) for mass in (4.5, 6.0, 7.5) for air in (107.0, 121.0, 135.0)]


def test_each_outcome_is_that_of_simulate():
    results = lc.simulate_many(PLANS)
    assert len(results) == len(PLANS)
    for one, result in zip(PLANS, results, strict=True):
        assert isinstance(result, lc.Outcome)
        alone = lc.simulate(one, output_every="300 s", keep_fields=False)
        assert result.stage_ends[-1].time == pytest.approx(alone.stage_ends[-1].time, rel=5e-3)
        assert result.loss.evaporated == pytest.approx(alone.loss.evaporated, rel=5e-3)
        assert abs(result.ledger.heat_residual) < 1e-9
        assert np.isfinite(result.core).all()


def test_a_failure_stands_in_its_place_with_what_was_computed():
    bad = plan(until=lc.core("104 °C"), air=108.0)
    bad.stages[1].at_most = 3600.0
    results = lc.simulate_many([PLANS[0], bad, PLANS[1]])
    assert isinstance(results[0], lc.Outcome) and isinstance(results[2], lc.Outcome)
    assert isinstance(results[1], lc.Unreachable)
    assert isinstance(results[1].outcome, lc.Outcome)
    assert "was not reached" in str(results[1])


def test_done_gets_every_result_once_and_nothing_is_returned():
    seen: dict[int, lc.Outcome] = {}
    assert lc.simulate_many(PLANS, done=lambda i, result: seen.__setitem__(i, result)) is None
    assert sorted(seen) == list(range(len(PLANS)))
    assert all(isinstance(result, lc.Outcome) for result in seen.values())


def test_what_done_raises_comes_through():
    def done(index: int, result: object) -> None:
        raise ZeroDivisionError(f"at {index}")

    with pytest.raises(ZeroDivisionError, match="at "):
        lc.simulate_many(PLANS, done=done)


def test_options_and_plans_are_checked_by_name():
    with pytest.raises(lc.InvalidInput, match="output_every"):
        lc.simulate_many(PLANS, output_every="-1 s")
    with pytest.raises(lc.InvalidInput, match="threads"):
        lc.simulate_many(PLANS, threads=-3)
    with pytest.raises(lc.InvalidInput, match=r"plans\[1\]"):
        lc.simulate_many([PLANS[0], "no plan"])  # type: ignore[list-item]
    assert lc.simulate_many([]) == []


def test_cross_sections_go_in_batches_too():
    short = lc.Plan(PLANS[0].meat, [lc.Stage("warm", lc.pit("drum", air=118.0), until=lc.elapsed("20 min"))])
    (one, other) = lc.simulate_many([short, short], grid="cross-section", columns=21, rows=9)
    assert isinstance(one, lc.Outcome) and isinstance(other, lc.Outcome)
    assert np.array_equal(one.core, other.core)


def test_ctrl_c_stops_a_batch():
    handler = signal.signal(signal.SIGINT, signal.default_int_handler)
    timer = threading.Timer(0.3, os.kill, (os.getpid(), signal.SIGINT))
    try:
        timer.start()
        with pytest.raises(KeyboardInterrupt):
            lc.simulate_many(PLANS * 3000)
    finally:
        timer.cancel()
        signal.signal(signal.SIGINT, handler)
