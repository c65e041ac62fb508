"""Are stated intervals honest? Invented cooks with hidden numbers, fitted and forecast many times over.

    python validation/honesty.py [--repetitions 200] [--seed 1]

Writes validation/HONESTY.md. Data are invented: this checks the intervals, not the physics.
"""

from __future__ import annotations

import argparse
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path

import honesty_cooks as cooks
import honesty_report as report
import numpy as np

import libcook as lc
from libcook import _core

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
    error: str
    numbers: dict[str, Hits] = field(default_factory=dict)
    finish: dict[float, Hits] = field(default_factory=lambda: {m: Hits() for m in MOMENTS})
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


def repeat(seed: int, section: bool, error: str) -> One:
    """Invent, fit, forecast."""
    cook = cooks.make(seed, section)
    names = [free.name for free in _core.usual_free(cook.plan)]
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
    result.pounds.append(one.cook.mass / POUND)
    result.done.append(done)
    result.rms.append(one.fit.rms)
    result.unsettled += not one.fit.converged


def study(repetitions: int, section: bool, error: str, seed: int = 1, workers: int = 2) -> Result:
    """Repeat; a cook that cannot be made or fitted is counted by name and another one taken."""
    result = Result(section, error)

    def attempt(number: int) -> One | str:
        try:
            return repeat(number, section, error)
        except (lc.InvalidInput, lc.SolverFailure) as failure:
            return f"{type(failure).__name__}: {failure}"

    with ThreadPoolExecutor(workers) as pool:
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
    results = []
    for section, error, title, intro in report.STUDIES:
        begin = time.monotonic()
        results.append((study(wanted.repetitions, section, error, wanted.seed), title, intro))
        print(f"{title}: {time.monotonic() - begin:.0f} s", flush=True)
    wanted.output.write_text(report.page(results, wanted.repetitions, wanted.seed), encoding="utf-8")
    print(wanted.output)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
