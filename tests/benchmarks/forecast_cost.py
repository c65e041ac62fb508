"""What a fit, a first forecast and an update of the whole piece cost on this machine, in seconds and in cooks.

A brisket of 14 lb whose core and pit were read every minute, invented by the model with noise: forecast after
five hours, updated twelve minutes later, five numbers fitted to ten hours. A forecast is of 200 possible
cooks. "Cooks" is the time over that of one `lc.simulate` of the same plan, taken in turns: it travels between
machines as seconds do not. Medians.

    python tests/benchmarks/forecast_cost.py       alone, in half a minute
"""

from __future__ import annotations

import os
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

import libcook as lc

ROUNDS = 7
NUMBERS = ["thickness", "film_coefficient", "vapour_pressure", "pit_offset", "held_mobility"]


@dataclass
class ForecastCost:
    """Medians [s], by how many threads were used."""

    alone: float  # one simulation
    seconds: dict[int, dict[str, float]]

    def sentence(self) -> str:
        """What was measured."""

        def told(threads: int) -> str:
            of = self.seconds[threads]
            each = "; ".join(f"{name} {of[name]:.2f} s ({of[name] / self.alone:,.0f})" for name in of)
            return f"on {threads} core{'s' if threads > 1 else ''}: {each}"

        return (
            "Fits and forecasts of the whole piece, in brackets how many cooks simulated one at a time "
            f"({1e3 * self.alone:.1f} ms each) take as long, {'; '.join(told(t) for t in self.seconds)}."
        )


def the_plan() -> lc.Plan:
    pit = lc.pit("offset", air="250 °F")
    return lc.Plan(
        lc.brisket("14 lb"),
        [
            lc.Stage("smoke", pit, until=lc.core("165 °F")),
            lc.Stage("wrapped", pit, wrap="butcher paper", until=lc.core("203 °F")),
        ],
    )


def log_until(out: lc.Outcome, hours: float) -> lc.Log:
    """Readings a minute apart, with 0.3 K of noise; the pit sways by 3 K."""
    at = np.arange(0.0, hours * 3600.0, 60.0)
    random = np.random.default_rng(1)
    core = np.interp(at, out.time, out.core) + 0.3 * random.normal(size=at.size)
    return lc.Log(time=at, core=core, pit=121.0 + 3.0 * random.normal(size=at.size))


def measure() -> ForecastCost:
    """Take turns."""
    plan = the_plan()
    out = lc.simulate(plan)
    five, later, ten = (log_until(out, hours) for hours in (5.0, 5.2, 10.0))
    told: dict[int, dict[str, list[float]]] = {}
    alone: list[float] = []

    def turn(into: list[float], work: Callable[[], object]) -> object:
        begin = time.perf_counter()
        made = work()
        into.append(time.perf_counter() - begin)
        return made

    for _ in range(ROUNDS):
        for threads in sorted({1, os.cpu_count() or 1}):
            of = told.setdefault(threads, {"five-number fit": [], "first forecast": [], "update": []})

            def first(threads: int = threads) -> lc.Forecast:
                return lc.forecast(plan, five, threads=threads)

            turn(alone, lambda: lc.simulate(plan))
            ahead = turn(of["first forecast"], first)
            assert isinstance(ahead, lc.Forecast)
            turn(of["update"], lambda ahead=ahead: ahead.update(later))
            turn(of["five-number fit"], lambda t=threads: lc.calibrate(plan, ten, NUMBERS, threads=t))
    return ForecastCost(
        statistics.median(alone),
        {t: {name: statistics.median(s) for name, s in of.items()} for t, of in told.items()},
    )


if __name__ == "__main__":
    print(measure().sentence())
