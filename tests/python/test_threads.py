"""Many simulations at once give, bit by bit, what they give one at a time."""

import concurrent.futures
import subprocess
import sys

import numpy as np
from cook_samples import cylinder_plan, short_plan

import libcook as lc

WRAPS = ["none", "foil", "butcher paper", "pan"]


def varied_plans(count):
    made = []
    for i in range(count):
        plan = cylinder_plan() if i % 8 == 7 else short_plan(20.0 + i, start=2.0 + 0.1 * i)
        plan.stages[-1].wrap = WRAPS[i % len(WRAPS)]
        made.append(plan)
    return made


def facts(outcome):
    ledger = outcome.ledger
    return (
        [outcome.time, outcome.core, outcome.surface, outcome.film, outcome.temperature, outcome.water],
        (ledger.steps, ledger.evaporated, ledger.heat_stored, ledger.run_off, ledger.water_residual),
        outcome.stage_ends,
        outcome.events,
    )


def test_sixty_four_plans_in_eight_threads():
    plans = varied_plans(64)
    alone = [facts(lc.simulate(plan, nodes=15)) for plan in plans]
    with concurrent.futures.ThreadPoolExecutor(8) as pool:
        together = [facts(out) for out in pool.map(lambda plan: lc.simulate(plan, nodes=15), plans)]
    for (arrays, *rest), (arrays_alone, *rest_alone) in zip(together, alone, strict=True):
        assert rest == rest_alone
        for array, array_alone in zip(arrays, arrays_alone, strict=True):
            np.testing.assert_array_equal(array, array_alone)


def test_readings_of_one_outcome_in_many_threads():
    out = lc.simulate(short_plan(), nodes=15)

    def read(_):
        return out.safety().log_reduction, out.loss.total, out.to_json(fields=True)

    with concurrent.futures.ThreadPoolExecutor(8) as pool:
        assert set(pool.map(read, range(32))) == {read(0)}


def test_one_plan_object_shared_by_many_runs():
    plan = short_plan()
    with concurrent.futures.ThreadPoolExecutor(8) as pool:
        runs = list(pool.map(lambda nodes: (nodes, lc.simulate(plan, nodes=nodes)), [9, 15, 21] * 8))
    alone = {nodes: lc.simulate(plan, nodes=nodes).core for nodes in (9, 15, 21)}
    for nodes, out in runs:
        np.testing.assert_array_equal(out.core, alone[nodes])


def test_units_are_first_read_in_several_threads():
    """Each thread that comes while the unit registry is being made must get that one, not its own."""
    code = """
import threading, concurrent.futures
import libcook as lc
gate = threading.Barrier(8)
def read(_):
    gate.wait()
    return lc.units.to_si("212 °F", "temperature", "t") + lc.units.to_si("2 lb", "mass", "m")
with concurrent.futures.ThreadPoolExecutor(8) as pool:
    values = set(pool.map(read, range(8)))
assert len(values) == 1, values
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
