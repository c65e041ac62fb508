"""Ctrl-C at random moments of every long call, and exits while daemon threads are in them.

    python validation/interrupts.py                  200 interrupts and 48 exits; half an hour
    python validation/interrupts.py --interrupts 20 --exits 8 --calls simulate forecast

An interrupted call raises KeyboardInterrupt within half a second, leaves no thread running, and the process
then ends as if nothing had been. Half a second of the clock, or where the machine is busy with other work, of
the processor time that the process itself had. An exit has status 0 and says nothing.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

# s; under sanitizers everything between two looks at the interrupt takes several times as long
STOPS_WITHIN = 2.0 if "COOK_SANITIZED" in os.environ else 0.5
GIVEN_UP_AFTER = 30.0  # s of the clock: it hangs, or does not listen
# Those that an exit was tried in: each of the ways that a thread can be in C++.
DAEMONS = (
    "simulate",
    "simulate_short",
    "simulate_many",
    "simulate_many_done",
    "calibrate",
    "forecast",
    "start_by",
    "sweep",
)

# Prints when it begins, and what it saw at the interrupt. A job that a shell has put into the background
# inherits SIGINT ignored, and Python leaves it so.
INTERRUPTED = """
import faulthandler, json, os, signal, sys, threading, time
signal.signal(signal.SIGINT, signal.default_int_handler)
faulthandler.register(signal.SIGUSR1)  # so that one which goes on says where it is
import long_calls
long_calls.warm_up()
call = long_calls.CALLS[sys.argv[1]]()
before = len(os.listdir("/proc/self/task"))
try:
    print("begins", flush=True)
    call()
except KeyboardInterrupt:
    saw = {"clock": time.monotonic(), "processor": time.process_time()}
    time.sleep(0.05)  # a thread that has said it is over may still be there
    saw["threads"] = threading.active_count() - 1
    saw["tasks"] = len(os.listdir("/proc/self/task")) - before
    print(json.dumps(saw), flush=True)
"""

LEFT = """
import sys, threading, time
import long_calls
call = long_calls.CALLS[sys.argv[1]]()
for _ in range(int(sys.argv[2])):
    threading.Thread(target=call, daemon=True).start()
time.sleep(float(sys.argv[3]))
"""


@dataclass
class Try:
    """One interrupt or exit."""

    call: str
    clock: float = 0.0  # s from the signal to the exception
    processor: float = 0.0  # s of processor time meanwhile
    wrong: str = ""  # what went wrong, or nothing


def _start(script: str, *arguments: str) -> subprocess.Popen[str]:
    folder = str(Path(__file__).parent)
    path = os.pathsep.join(filter(None, [folder, os.environ.get("PYTHONPATH", "")]))
    return subprocess.Popen(
        [sys.executable, "-c", script, *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": path},
    )


def _processor_time(pid: int) -> float:
    fields = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    ticks = int(fields[11]) + int(fields[12])
    return float(ticks / os.sysconf("SC_CLK_TCK"))


def interrupt(call: str, after: float) -> Try:
    """Interrupt a call so many seconds after it began."""
    made = Try(call)
    with _start(INTERRUPTED, call) as process:
        assert process.stdout is not None
        try:
            if process.stdout.readline() != "begins\n":
                made.wrong = f"never began: {process.communicate()[1]}"
                return made
            time.sleep(after)
            processor, clock = _processor_time(process.pid), time.monotonic()
            process.send_signal(signal.SIGINT)
            printed, complaint = process.communicate(timeout=GIVEN_UP_AFTER)
        except subprocess.TimeoutExpired:
            process.send_signal(signal.SIGUSR1)
            time.sleep(0.5)
            process.kill()
            made.wrong = f"still running: {process.communicate()}"
            return made
        finally:
            process.kill()
    if process.returncode != 0 or complaint or not printed:
        made.wrong = f"status {process.returncode}, said {complaint[-2000:]!r}, printed {printed!r}"
        return made
    saw = json.loads(printed)
    made.clock, made.processor = saw["clock"] - clock, saw["processor"] - processor
    if min(made.clock, made.processor) > STOPS_WITHIN:
        made.wrong = f"stopped after {made.clock:.2f} s, {made.processor:.2f} s of processor time"
    elif saw["threads"] or saw["tasks"] > 0:
        made.wrong = f"left {saw['threads']} threads of Python's, {saw['tasks']} in all"
    return made


def leave(call: str, threads: int, after: float) -> Try:
    """End a process while daemon threads are in a call."""
    made = Try(call)
    with _start(LEFT, call, str(threads), str(after)) as process:
        try:
            printed, complaint = process.communicate(timeout=after + GIVEN_UP_AFTER)
        except subprocess.TimeoutExpired:
            made.wrong = "never ends"
            return made
        finally:
            process.kill()
    if process.returncode != 0 or complaint or printed:
        made.wrong = f"status {process.returncode}, said {complaint[-2000:]!r}"
    return made


def _percentile(values: Sequence[float], share: float) -> float:
    return sorted(values)[int(share * (len(values) - 1))] if values else float("nan")


def _report(what: str, tries: Sequence[Try]) -> bool:
    for name in dict.fromkeys(one.call for one in tries):
        own = [one for one in tries if one.call == name]
        clock = [one.clock for one in own if not one.wrong]
        processor = [one.processor for one in own if not one.wrong]
        print(
            f"{what} {name}: {sum(not one.wrong for one in own)} of {len(own)}"
            + (
                f"; clock median {_percentile(clock, 0.5):.3f} s, most {max(clock):.3f} s;"
                f" processor most {max(processor):.3f} s"
                if clock and what == "interrupt"
                else ""
            )
        )
        for one in own:
            if one.wrong:
                print(f"  WRONG: {one.wrong}")
    good = sum(not one.wrong for one in tries)
    print(f"{what}: {good} of {len(tries)}", flush=True)
    return good == len(tries)


def main() -> int:
    """Run as told by the command line; 1 when anything went wrong."""
    import long_calls

    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--interrupts", type=int, default=200)
    parser.add_argument("--exits", type=int, default=48)
    parser.add_argument("--calls", nargs="*", default=list(long_calls.CALLS))
    parser.add_argument("--seed", type=int, default=1)
    told = parser.parse_args()
    random.seed(told.seed)
    tries = [
        interrupt(told.calls[i % len(told.calls)], random.uniform(0.0, 1.5)) for i in range(told.interrupts)
    ]
    stopped = _report("interrupt", tries)
    daemons = [name for name in DAEMONS if name in told.calls]
    exits = [
        leave(daemons[i % len(daemons)], 1 + i % 3, random.uniform(0.0, 1.5))
        for i in range(told.exits if daemons else 0)
    ]
    return 0 if _report("exit", exits) and stopped else 1


if __name__ == "__main__":
    sys.exit(main())
