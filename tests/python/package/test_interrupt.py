"""Ctrl-C, as a user presses it: SIGINT to a process whose run would take minutes."""

import os
import random
import signal
import subprocess
import sys

import interrupts
import pytest

POSIX = pytest.mark.skipif(os.name != "posix", reason="needs POSIX signals")

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


@POSIX
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


# In one cook, in threads of C++, in Python between many cooks, in a library that calls back. The others, and
# at many more moments: validation/interrupts.py.
@POSIX
@pytest.mark.parametrize(
    "call",
    [
        "simulate",
        "simulate_section",
        "simulate_many",
        "simulate_many_done",
        "calibrate",
        "sample_of_a_fit",
        "forecast",
        "start_by",
        "sweep_to_a_folder",
        "in_words",
    ],
)
def test_ctrl_c_stops_every_long_call_soon_and_leaves_nothing_running(call):
    made = interrupts.interrupt(call, after=random.uniform(0.0, 0.5))
    assert not made.wrong, made.wrong


@POSIX
@pytest.mark.parametrize(
    ("call", "threads"),
    [("simulate", 3), ("simulate_short", 2), ("simulate_many_done", 1), ("forecast", 2), ("start_by", 1)],
)
def test_a_process_ends_quietly_while_daemon_threads_are_in_a_call(call, threads):
    made = interrupts.leave(call, threads, after=random.uniform(0.1, 0.5))
    assert not made.wrong, made.wrong
