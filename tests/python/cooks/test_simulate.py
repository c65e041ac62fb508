"""Running plans from Python: options, failures, interrupts, threads."""

import concurrent.futures
import signal
import threading

import numpy as np
import pytest
from cook_samples import short_plan

import libcook as lc


def test_options_do_what_they_say():
    plan = short_plan()
    fine = lc.simulate(plan, nodes=81, tolerance="0.005 K", output_every="5 min")
    coarse = lc.simulate(plan, nodes=21, output_every="5 min")
    assert fine.position.size == 2 * 81  # of the middle, and of the rim
    assert coarse.position.size == 2 * 21
    assert lc.simulate(plan, grid="slab", nodes=21).position.size == 21
    np.testing.assert_array_equal(np.diff(fine.time), 300.0)
    assert fine.ledger.steps > coarse.ledger.steps
    assert fine.core[-1] == pytest.approx(coarse.core[-1], abs=0.3)


def test_physics_can_be_turned_off_three_ways():
    plan = short_plan()
    ways = [
        lc.simulate(plan, evaporation=False),
        lc.simulate(plan, physics={"evaporation": False}),
        lc.simulate(plan, physics=lc.Physics(evaporation=False)),
    ]
    assert [out.ledger.evaporated for out in ways] == [0.0, 0.0, 0.0]
    assert lc.simulate(plan).ledger.evaporated > 0.0
    assert ways[0].core[-1] > lc.simulate(plan).core[-1]


def test_the_switches_given_are_not_changed():
    switches = lc.Physics()
    lc.simulate(short_plan(), physics=switches, radiation=False)
    assert switches.radiation


@pytest.mark.parametrize(
    ("options", "field", "says"),
    [
        ({"nodes": 40}, "nodes", "odd"),
        ({"nodes": 4.5}, "nodes", "whole number"),
        ({"tolerance": 50.0}, "tolerance", "accepted"),
        ({"output_every": "60"}, "output_every", "unit"),
        ({"grid": "cube"}, "grid", "slab"),
        ({"keep_fields": "no"}, "keep_fields", "True or False"),
        ({"evaporatoin": False}, "physics.evaporatoin", "'evaporation'"),
        ({"physics": 3}, "physics", "libcook.Physics"),
    ],
)
def test_options_that_cannot_be_used(options, field, says):
    with pytest.raises(lc.InvalidInput, match=says) as caught:
        lc.simulate(short_plan(), **options)
    assert caught.value.field == field


def test_only_plans_can_be_run():
    with pytest.raises(lc.InvalidInput, match=r"plan: .*libcook\.Plan"):
        lc.simulate(lc.brisket())


def test_what_cannot_be_reached_keeps_the_outcome():
    plan = short_plan()
    plan.stages[0].until = lc.core(90.0)
    plan.stages[0].at_most = "20 min"
    with pytest.raises(lc.Unreachable, match=r"stages\[0\]\.until") as caught:
        lc.simulate(plan)
    out = caught.value.outcome
    assert isinstance(out, lc.Outcome)
    assert out.time[-1] == pytest.approx(1200.0)
    assert isinstance(caught.value, lc.SolverFailure)


def test_too_many_steps_keep_the_outcome():
    with pytest.raises(lc.SolverFailure, match="20 steps") as caught:
        lc.simulate(short_plan(), max_steps=20)
    assert caught.value.outcome.time.size > 1


def test_a_plan_spoilt_after_it_was_made_is_found():
    plan = short_plan()
    plan.stages[1].until = lc.elapsed(-5.0)
    with pytest.raises(lc.InvalidInput, match=r"stages\[1\]\.until"):
        lc.simulate(plan)


def slow_plan():
    """Days of ripple: long enough for a signal to arrive."""
    air = lc.ripple(60.0, 5.0, "1 min")
    stage = lc.Stage("long", lc.pit("drum", air=air), until=lc.elapsed("20 d"), at_most="29 d")
    return lc.Plan(lc.brisket(), [stage])


@pytest.mark.skipif(not hasattr(signal, "setitimer"), reason="needs POSIX timers")
@pytest.mark.parametrize("kind", [KeyboardInterrupt, TimeoutError])
def test_a_signal_stops_the_run_with_its_own_exception(kind):
    def handler(number, frame):
        raise kind("stopped by the test")

    before = signal.signal(signal.SIGALRM, handler)
    try:
        signal.setitimer(signal.ITIMER_REAL, 0.2)
        with pytest.raises(kind, match="stopped by the test") as caught:
            lc.simulate(slow_plan(), tolerance=1e-4, max_steps=100_000_000, keep_fields=False)
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0.0)
        signal.signal(signal.SIGALRM, before)
    out = caught.value.outcome
    assert isinstance(out, lc.Outcome)
    assert 0.0 < out.time[-1] < 20 * 86400.0


def test_other_threads_run_meanwhile():
    ticks = []
    stop = threading.Event()

    def tick():
        while not stop.wait(0.001):
            ticks.append(1)

    thread = threading.Thread(target=tick)
    thread.start()
    try:
        lc.simulate(short_plan(), tolerance=1e-4, nodes=161)
        seen = len(ticks)
    finally:
        stop.set()
        thread.join()
    assert seen > 0


def test_threads_give_what_one_gives():
    plan = short_plan()
    alone = lc.simulate(plan).core
    with concurrent.futures.ThreadPoolExecutor(4) as pool:
        for out in pool.map(lambda _: lc.simulate(plan), range(8)):
            np.testing.assert_array_equal(out.core, alone)


def test_the_plan_can_change_while_it_runs():
    plan = short_plan()
    with concurrent.futures.ThreadPoolExecutor(1) as pool:
        running = pool.submit(lc.simulate, plan, tolerance=1e-4)
        running_plan = plan.replace()
        plan.meat.start = 20.0
        out = running.result()
    assert out.plan in (running_plan, plan)
    assert out.core[0] == pytest.approx(out.plan.meat.start)
