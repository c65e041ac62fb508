"""Sweeps of the full model's default cook on this machine: `libcook.sweep`, `simulate_many`, one at a time.

The cooks differ in pit temperature and mass, within what a cook would try; each runs for 12 h, with outputs
every five minutes. A sweep also takes all its readings of each. The three take turns; the medians are given.
"""

from __future__ import annotations

import os
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass

import libcook as lc

COOKS = 8192
ALONE = 512  # of them one at a time
ROUNDS = 5
HOURS = 12.0


@dataclass
class FullSweep:
    """Cooks a second."""

    cores: int
    swept: dict[int, float]  # by cores used
    packed: dict[int, float]
    alone: float

    def sentence(self) -> str:
        """What was reached."""
        cores = self.cores
        all_cores, one_core = (self.swept[used] / self.alone for used in (cores, 1))
        return (
            f"Sweep of the full model, cooks of {HOURS:g} h: {self.swept[cores]:,.0f} a second on {cores} "
            f"cores with all readings (`lc.sweep`), {self.swept[1]:,.0f} on one; the batches alone "
            f"(`lc.simulate_many`) {self.packed[cores]:,.0f} and {self.packed[1]:,.0f}; one at a time on one "
            f"core (`lc.simulate`) {self.alone:,.0f}: the sweep on {cores} cores is "
            f"{all_cores:.1f} times, on one {one_core:.1f} times as fast."
        )


def measure() -> FullSweep:
    """Take turns."""
    cores = os.cpu_count() or 1
    default = lc.Plan(
        lc.brisket(), [lc.Stage("smoke", lc.pit("drum", air="237 °F"), until=lc.elapsed(HOURS * 3600.0))]
    )
    ranges = {"pit.air": ("225 °F", "250 °F"), "meat.mass": ("5 kg", "7 kg")}
    sample = lc.sample(ranges, COOKS, seed=1)
    plans = [
        lc.Plan(
            lc.brisket(mass=5.0 + 2.0 * mass),
            [lc.Stage("smoke", lc.pit("drum", air=f"{225 + 25 * air} °F"), until=lc.elapsed(HOURS * 3600.0))],
        )
        for air, mass in sample.unit
    ]

    def sweep(workers: int) -> None:
        found = lc.sweep(default, sample, workers=workers, progress=False)
        if found["finish_time"].isnull().any():
            raise RuntimeError("a cook of the sweep failed")

    def batch(threads: int) -> None:
        lc.simulate_many(plans, threads=threads, done=lambda index, outcome: None)

    def alone(count: int) -> None:
        for plan in plans[:count]:
            lc.simulate(plan, output_every="5 min", keep_fields=False)

    rates: dict[str, list[float]] = {}

    def turn(name: str, count: int, work: Callable[[int], None], argument: int) -> None:
        begin = time.perf_counter()
        work(argument)
        rates.setdefault(name, []).append(count / (time.perf_counter() - begin))

    for _ in range(ROUNDS):
        for used in sorted({1, cores}):
            turn(f"sweep {used}", COOKS, sweep, used)
            turn(f"batch {used}", COOKS, batch, used)
        turn("alone", ALONE, alone, ALONE)
    median = {name: statistics.median(of) for name, of in rates.items()}
    return FullSweep(
        cores=cores,
        swept={used: median[f"sweep {used}"] for used in {1, cores}},
        packed={used: median[f"batch {used}"] for used in {1, cores}},
        alone=median["alone"],
    )


if __name__ == "__main__":
    print(measure().sentence())
