"""Are stated intervals honest? On measured cooks, on cooks of other worlds, and on cooks of the model's own.

    python validation/honesty.py [--repetitions 200] [--seed 1]

Writes validation/HONESTY.md. The last are invented with hidden numbers, then fitted and forecast many times
over: they check the intervals, not the physics.
"""

from __future__ import annotations

import argparse
import os
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path

import honesty_cooks as cooks
import honesty_report as report
import numpy as np
from forecasting import report as forecasts

import libcook as lc

HERE = Path(__file__).resolve().parent
MOMENTS = (0.25, 0.5, 0.75)
POUND = 0.45359237  # kg


@dataclass
class Hits:
    """How often intervals held the truth."""

    in50: list[bool] = field(default_factory=list)
    in90: list[bool] = field(default_factory=list)
    off: list[float] = field(default_factory=list)  # truth - estimate, in stated standard deviations
    learned: list[float] = field(default_factory=list)

    def share(self, which: str) -> float:
        return float(np.mean(getattr(self, which)))


@dataclass
class Result:
    """Of one study."""

    section: bool
    error: lc.ModelError | str
    numbers: dict[str, Hits] = field(default_factory=dict)
    finish: dict[float, Hits] = field(default_factory=lambda: {m: Hits() for m in MOMENTS})
    ranks: list[float] = field(default_factory=list)  # of later medians in earlier bands
    missed: dict[float, list[float]] = field(default_factory=lambda: {m: [] for m in MOMENTS})  # s
    line: dict[float, list[float]] = field(default_factory=lambda: {m: [] for m in MOMENTS})  # s
    pounds: list[float] = field(default_factory=list)
    done: list[float] = field(default_factory=list)  # s
    rms: list[float] = field(default_factory=list)
    unsettled: int = 0
    failures: list[str] = field(default_factory=list)

    def per_pound(self) -> list[float]:
        """Errors of minutes per pound, with the figure that suits these very cooks best [s]."""
        rate = float(np.median(np.array(self.done) / np.array(self.pounds)))
        return [abs(d - rate * p) for d, p in zip(self.done, self.pounds, strict=True)]


@dataclass
class One:
    """What one repetition gave."""

    cook: cooks.Cook
    fit: lc.Fit
    quantiles: dict[float, list[float]]
    line: dict[float, float]


QUANTILES = (0.05, 0.25, 0.5, 0.75, 0.95)


def repeat(seed: int, section: bool, error: lc.ModelError | str) -> One:
    """Invent, fit, forecast."""
    cook = cooks.make(seed, section)
    names = lc.belief(cook.plan).names  # all that was drawn: what is not free is taken as known
    whole = {"smoke": cook.wrapped, "wrapped": cook.done}
    whole["wrapped"] = min(cook.done, float(cook.log.time[-1]))
    fit = lc.calibrate(cook.plan, cook.log, names, model_error=error, ended=whole, threads=1)
    quantiles, line = {}, {}
    for moment in MOMENTS:
        log, ended = cooks.until(cook, moment * cook.done)
        ahead = lc.forecast(cook.plan, log, model_error=error, ended=ended, seed=seed, threads=1)
        quantiles[moment] = [ahead.finish_quantile(q) for q in QUANTILES]
        line[moment] = cooks.straight_line(log, cook.target)
    return One(cook, fit, quantiles, line)


def collect(result: Result, one: One) -> None:
    """Count one repetition."""
    for e in one.fit.estimates:
        hits = result.numbers.setdefault(e.name, Hits())
        truth = one.cook.hidden[e.name]
        hits.in50.append(bool(e.interval50[0] <= truth <= e.interval50[1]))
        hits.in90.append(bool(e.interval90[0] <= truth <= e.interval90[1]))
        off = np.log(truth / e.value) if e.scale == "logarithmic" else truth - e.value
        hits.off.append(float(off / e.deviation))
        hits.learned.append(e.learned)
    done = one.cook.done
    for moment, (low, lower, middle, upper, high) in one.quantiles.items():
        result.finish[moment].in50.append(lower <= done <= upper)
        result.finish[moment].in90.append(low <= done <= high)
        result.missed[moment].append(middle - done)
        result.line[moment].append(abs(one.line[moment] - done))
    for early, late in zip(MOMENTS, MOMENTS[1:], strict=False):
        told = one.quantiles[early]
        result.ranks.append(forecasts.rank(told, one.quantiles[late][2]))
    result.pounds.append(one.cook.mass / POUND)
    result.done.append(done)
    result.rms.append(one.fit.rms)
    result.unsettled += not one.fit.converged


def study(
    repetitions: int, section: bool, error: lc.ModelError | str, seed: int = 1, workers: int | None = None
) -> Result:
    """Repeat; a cook that cannot be made or fitted is counted by name and another one taken."""
    result = Result(section, error)

    def attempt(number: int) -> One | str:
        try:
            return repeat(number, section, error)
        except (lc.InvalidInput, lc.SolverFailure) as failure:
            return f"{type(failure).__name__}: {failure}"

    with ThreadPoolExecutor(workers or os.cpu_count()) as pool:
        begin = 1_000_000 * seed
        while len(result.done) < repetitions and len(result.failures) <= repetitions:
            wanted = repetitions - len(result.done)
            for made in pool.map(attempt, range(begin, begin + wanted)):
                if isinstance(made, One):
                    collect(result, made)
                else:
                    result.failures.append(made)
            begin += wanted
    return result


def main(arguments: list[str]) -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--repetitions", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--output", type=Path, default=HERE / "HONESTY.md")
    wanted = parser.parse_args(arguments)
    others = forecasts.parts(wanted.repetitions)
    results = []
    for section, error, title, intro in report.STUDIES:
        begin = time.monotonic()
        results.append((study(wanted.repetitions, section, error, wanted.seed), title, intro))
        print(f"{title}: {time.monotonic() - begin:.0f} s", flush=True)
    wanted.output.write_text(report.page(results, wanted.repetitions, wanted.seed, others), encoding="utf-8")
    print(wanted.output)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
