"""Sweeps of the full model's default cook on this machine: batches in C++, `libcook.sweep`, one at a time.

The cooks differ in pit temperature and mass, within what a cook would try; each runs for 12 h, with outputs
every five minutes. `libcook.sweep` also takes all its readings of each. The three take turns; the medians are
given.
"""

from __future__ import annotations

import os
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from contenders import CVODE_TOLERANCE, FULL_TOLERANCE
from library import Library

import libcook as lc

COOKS = 8192
ALONE = 512  # of them one at a time
BY_CVODE = 64
SECTIONS = 8
ROUNDS = 5
HOURS = 12.0


@dataclass
class FullSweep:
    """Cooks a second."""

    cores: int
    swept: dict[int, float]  # by cores used
    packed: dict[int, float]
    alone: float
    cvode: float | None  # one at a time, on the same equations; None: not installed
    packed_alike: float  # in batches on one core, at the tolerance of the table of single cooks
    sections: float  # cross-sections, many in one call, on one core

    def sentence(self) -> str:
        """What was reached."""
        cores = self.cores
        all_cores, one_core = (self.swept[used] / self.alone for used in (cores, 1))
        return (
            f"Sweep of the full model, cooks of {HOURS:g} h: {self.packed[cores]:,.0f} a second on {cores} "
            f"cores in batches (`simulate_many` in C++), {self.packed[1]:,.0f} on one; with all readings of "
            f"each, in Python (`lc.sweep`), {self.swept[cores]:,.0f} and {self.swept[1]:,.0f}; one at a time "
            f"on one core (`lc.simulate`) {self.alone:,.0f}. The sweep on {cores} cores is {all_cores:.1f} "
            f"times, on one {one_core:.1f} times as fast as one at a time. "
            f"{self.scaling()} {self.against_cvode()} "
            f"Cross-sections, many in one call, on one core: {self.sections:,.1f} a second."
        )

    def against_cvode(self) -> str:
        """How a batch compares with CVODE on the same cooks, to the same accuracy."""
        if self.cvode is None:
            return ""
        return (
            f"A batch on one core at the tolerance of the table: {self.packed_alike:,.0f} a second, "
            f"{self.packed_alike / self.cvode:.0f} times one CVODE ({self.cvode:,.0f})."
        )

    def scaling(self) -> str:
        """How both grow with the cores, over one core."""
        grown = "; ".join(
            f"{used}: {self.packed[used] / self.packed[1]:.1f} and {self.swept[used] / self.swept[1]:.1f}"
            for used in sorted(self.swept)
        )
        return f"Times as fast as on one core, in C++ and by `lc.sweep`, by cores: {grown}."


def powers_of_two(cores: int) -> list[int]:
    """Return 1, 2, 4, ... up to all cores, and those."""
    return sorted({1 << k for k in range(cores.bit_length()) if 1 << k <= cores} | {cores})


def measure(library: Library) -> FullSweep:
    """Take turns."""
    cores = len(os.sched_getaffinity(0))
    used_in_turn = powers_of_two(cores)
    default = lc.Plan(
        lc.brisket(), [lc.Stage("smoke", lc.pit("drum", air="237 °F"), until=lc.elapsed(HOURS * 3600.0))]
    )
    ranges = {"pit.air": ("225 °F", "250 °F"), "meat.mass": ("5 kg", "7 kg")}
    sample = lc.sample(ranges, COOKS, seed=1)

    def sweep(workers: int) -> None:
        found = lc.sweep(default, sample, workers=workers, progress=False)
        if found["finish_time"].isnull().any():
            raise RuntimeError("a cook of the sweep failed")

    def alone() -> None:
        for air, mass in sample.unit[:ALONE]:
            stage = lc.Stage(
                "smoke", lc.pit("drum", air=f"{225 + 25 * air} °F"), until=lc.elapsed(HOURS * 3600.0)
            )
            lc.simulate(
                lc.Plan(lc.brisket(mass=5.0 + 2.0 * mass), [stage]), output_every=300.0, keep_fields=False
            )

    def by_cvode() -> float:
        return sum(library.run("full", "cvode", i, CVODE_TOLERANCE).seconds for i in range(BY_CVODE))

    def sections() -> None:
        plans = [lc.Plan(lc.brisket(mass=5.0 + i / 4), default.stages) for i in range(SECTIONS)]
        lc.simulate_many(plans, grid="cross-section", threads=1)

    rates: dict[str, list[float]] = {}

    def turn(name: str, count: int, work: Callable[[], float | None]) -> None:
        begin = time.perf_counter()
        seconds = work()
        rates.setdefault(name, []).append(count / (seconds or time.perf_counter() - begin))

    for _ in range(ROUNDS):
        for used in used_in_turn:
            turn(f"sweep {used}", COOKS, partial(sweep, used))
            turn(f"batch {used}", COOKS, partial(library.full_sweep, COOKS, used))
        turn("alone", ALONE, alone)
        turn("batch alike", COOKS, partial(library.full_sweep, COOKS, 1, FULL_TOLERANCE))
        turn("sections", SECTIONS, sections)
        if library.has_cvode:
            turn("cvode", BY_CVODE, by_cvode)
    median = {name: statistics.median(of) for name, of in rates.items()}
    return FullSweep(
        cores=cores,
        swept={used: median[f"sweep {used}"] for used in used_in_turn},
        packed={used: median[f"batch {used}"] for used in used_in_turn},
        alone=median["alone"],
        cvode=median.get("cvode"),
        packed_alike=median["batch alike"],
        sections=median["sections"],
    )


if __name__ == "__main__":
    import argparse
    from pathlib import Path

    parser = argparse.ArgumentParser(description="How sweeps grow with the cores of this machine, alone.")
    parser.add_argument("--library", type=Path, required=True, help="the compiled part of the benchmarks")
    print(measure(Library(parser.parse_args().library)).sentence())
