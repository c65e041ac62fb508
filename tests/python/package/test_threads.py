"""Many simulations at once give, bit by bit, what they give one at a time."""

import concurrent.futures
import subprocess
import sys

import numpy as np
from cook_samples import cylinder_plan, short_plan

import libcook as lc
from libcook import _core

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


def test_one_plan_is_changed_read_and_run_by_many_threads():
    """Whose change comes last is the user's matter; no thread sees half of one. Free-threaded Python too."""
    plan = short_plan()
    names = ["smoke" * 20, "rest", "wrapped" * 50]
    cooker = lc.breathing(lc.pit("ceramic", air=110.0), pan="3 kg")

    def work(number):
        for i in range(100):
            stage = plan.stages[0]
            stage.name = names[(i + number) % 3]
            stage.surroundings = cooker
            if i % 2:
                stage.surroundings.pit_air = None
            air = cooker.pit_air
            air.pan.water = 1.0 + i % 5
            cooker.pit_air = air
            assert stage.name in names
            assert repr(stage) and (stage == stage.replace()) in (True, False)
            assert 1.0 <= air.pan.water <= 5.0
            if i % 25 == 0:
                assert lc.simulate(plan, nodes=9).stage_ends[0].name in names
        return True

    with concurrent.futures.ThreadPoolExecutor(8) as pool:
        assert all(pool.map(work, range(8)))


def test_a_batch_grows_while_it_is_run():
    batch, reader = _core.PlanBatch(), _core.Reader(["finish_time"], len(short_plan().stages), 60.0)
    for i in range(64):
        batch.add(short_plan(20.0 + 0.1 * i))

    def grow():
        for _ in range(2000):
            batch.add(short_plan())

    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        grown = pool.submit(grow)
        values, reasons = _core.read_many(batch, _core.Options(nodes=9), reader, 2)
        grown.result()
    assert len(values) == len(reasons) >= 64
    assert not any(reasons) and np.isfinite(values).all()
    assert len(batch) == 2064


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
