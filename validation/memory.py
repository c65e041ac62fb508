"""Whether memory stays flat over very many calls.

    python validation/memory.py              200,000 simulate and 5,000 forecast calls; ten minutes
    python validation/memory.py --simulate 3000 --forecast 50

What a call keeps is counted: the resident memory of the second quarter of the calls against that of the last.
A leak of one small object a call is seen in the full run, of a plan a call in the short one.
"""

from __future__ import annotations

import argparse
import gc
import os
import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

SAMPLES = 20
# The allocator takes pages and gives them back in lots: this much comes and goes with nothing kept.
NOISE = 3.0  # MB


@dataclass(frozen=True)
class Course:
    """How the resident memory went."""

    calls: int
    resident: list[float]  # MB, at even steps

    @property
    def grown(self) -> float:
        """From the second quarter to the last [MB]."""
        quarter = len(self.resident) // 4
        early, late = self.resident[quarter : 2 * quarter], self.resident[-quarter:]
        return statistics.median(late) - statistics.median(early)

    @property
    def flat(self) -> bool:
        """Whether that is no more than noise."""
        return self.grown <= NOISE


def resident() -> float:
    """Return the resident memory of this process [MB]."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") / 1e6


def watch(call: Callable[[], object], calls: int) -> Course:
    """Make many calls, and look at the memory now and then."""
    course = []
    for sample in range(SAMPLES):
        for _ in range(sample * calls // SAMPLES, (sample + 1) * calls // SAMPLES):
            call()
        gc.collect()
        course.append(resident())
    return Course(calls, course)


def courses(simulate: int, forecast: int) -> dict[str, Course]:
    """Watch the calls of both kinds."""
    import long_calls

    import libcook as lc

    plan, log = long_calls.plan(), long_calls.a_log(0.4)
    return {
        "simulate": watch(lambda: lc.simulate(plan), simulate),
        "forecast": watch(lambda: lc.forecast(plan, log, members=50), forecast),
    }


def main() -> int:
    """Run as told by the command line; 1 when memory grew."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--simulate", type=int, default=200_000)
    parser.add_argument("--forecast", type=int, default=5_000)
    told = parser.parse_args()
    begun = time.monotonic()
    made = courses(told.simulate, told.forecast)
    for name, course in made.items():
        print(
            f"{name}: {course.calls:,} calls, {course.resident[0]:.1f} MB at first,"
            f" {course.resident[-1]:.1f} MB at last, {max(course.resident):.1f} MB at most;"
            f" grown by {course.grown:.2f} MB: {'flat' if course.flat else 'NOT FLAT'}"
        )
    print(f"{time.monotonic() - begun:.0f} s")
    return 0 if all(course.flat for course in made.values()) else 1


if __name__ == "__main__":
    sys.exit(main())
