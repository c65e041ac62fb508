"""Ctrl-C, as a user presses it: SIGINT to a process whose run would take minutes."""

import os
import signal
import subprocess
import sys

import pytest

# Weeks of fast ripple on a fine grid. The parent sends the signal once it has read the first line.
# A job that a shell has put into the background inherits SIGINT ignored, and Python leaves it so.
LONG_RUN = """
import signal
import threading
import libcook as lc

signal.signal(signal.SIGINT, signal.default_int_handler)

air = lc.ripple(60.0, 5.0, "30 s")
stage = lc.Stage("long", lc.pit("drum", air=air), until=lc.elapsed("28 d"), at_most="29 d")
plan = lc.Plan(lc.brisket(), [stage])
threading.Timer(0.5, lambda: print("running", flush=True)).start()
try:
    lc.simulate(plan, nodes=201, tolerance=1e-5, max_steps=1_000_000_000, keep_fields=False)
except KeyboardInterrupt as stop:
    out = stop.outcome
    assert 0.0 < out.time[-1] < 28 * 86400.0, out.time[-1]
    assert abs(out.ledger.heat_residual) < 1e-9, out.ledger
    print(type(out).__name__, len(out.time), flush=True)
    raise
"""


@pytest.mark.skipif(os.name != "posix", reason="needs POSIX signals")
def test_ctrl_c_stops_a_long_run_and_keeps_what_was_computed():
    with subprocess.Popen(
        [sys.executable, "-c", LONG_RUN], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as process:
        try:
            assert process.stdout.readline() == "running\n", process.stderr.read()
            process.send_signal(signal.SIGINT)
            printed, complaint = process.communicate(timeout=60)  # generous: only a hang gets there
        finally:
            process.kill()
    assert printed.startswith("Outcome "), complaint
    assert complaint.rstrip().endswith("KeyboardInterrupt")
    assert process.returncode == -signal.SIGINT


LONG_FORECAST = """
import signal
import threading
import libcook as lc

signal.signal(signal.SIGINT, signal.default_int_handler)

stage = lc.Stage("smoke", lc.pit("drum", air=118.0), until=lc.core(93.0))
log = lc.Log(time=[0.0, 300.0, 600.0], core=[4.0, 4.1, 4.5], pit=[118.0, 119.0, 117.0])
threading.Timer(0.5, lambda: print("running", flush=True)).start()
for seed in range(1000):
    lc.forecast(lc.Plan(lc.brisket(), [stage]), log, members=5000, seed=seed)
"""


@pytest.mark.skipif(os.name != "posix", reason="needs POSIX signals")
def test_ctrl_c_stops_a_forecast_on_several_threads():
    with subprocess.Popen(
        [sys.executable, "-c", LONG_FORECAST], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as process:
        try:
            assert process.stdout.readline() == "running\n", process.stderr.read()
            process.send_signal(signal.SIGINT)
            _, complaint = process.communicate(timeout=60)  # generous: only a hang gets there
        finally:
            process.kill()
    assert complaint.rstrip().endswith("KeyboardInterrupt")
    assert process.returncode == -signal.SIGINT
