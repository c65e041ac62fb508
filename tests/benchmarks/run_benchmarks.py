"""libcook against general-purpose integrators, on the same equations, in one run: prints a table, writes
RESULTS.md beside this file, and the part of the README between the marks.

Three problems: a slab with simple properties (reference/recipe.hpp), and the default cook of the full model,
on a line and on a cross-section; then sweeps. The contenders take turns, libcook before each
of the others, and the ratios are the medians of such pairs: they hold when the machine's speed drifts, single
times do not. Error: the largest difference of the temperature in the middle from a reference solved much
tighter by another integrator, at one-minute outputs. Nothing here passes or fails.
"""

from __future__ import annotations

import argparse
import os
import statistics
import time
from pathlib import Path

import dask_scaling
import forecast_cost
import full_sweep
import numpy as np
import section_cook
import vectors
from contenders import Contender, all_contenders
from library import Cook, Library
from numpy_slab import INTERVALS
from table import Row, Sweep, as_markdown, as_readme, as_text, machine

HERE = Path(__file__).resolve().parent
README = HERE.parents[1] / "README.md"
MARKS = ("<!-- benchmarks -->", "<!-- end of benchmarks -->")
COOKS = 200  # varied ones of a problem
CHUNK = 20  # of them between turns
REFERENCE = ("dopri5", 1e-9)  # of the slab
SCAN = (2e-3, 1e-3, 5e-4, 2e-4, 1e-4, 5e-5)
SWEPT = 10_000  # slabs
MISSED = 5  # minutes between the ends of two cooks that cannot come from their errors alone


def error(cook: Cook, reference: Cook) -> float:
    """Largest difference in the middle while both cook [K]; infinite when an event was missed."""
    if abs(cook.middle.size - reference.middle.size) > MISSED:
        return float("inf")
    n = min(cook.middle.size, reference.middle.size)
    return float(np.max(np.abs(cook.middle[:n] - reference.middle[:n])))


class Turns:
    """One problem: its cooks, their references, and the contenders taking turns."""

    def __init__(self, library: Library, problem: str, contenders: list[Contender]) -> None:
        self.contenders = [c for c in contenders if c.problem == problem]
        self.cooks = list(range(COOKS))
        self.chunk = CHUNK
        if problem == "slab":
            solver, tolerance = REFERENCE
            self.references = {i: library.run(problem, solver, i, tolerance) for i in [-1, *self.cooks]}
        else:
            lsoda = next(c for c in self.contenders if "LSODA" in c.name)
            assert lsoda.run is not None
            self.references = {i: lsoda.run(i, 1e-9) for i in self.cooks}

    def take(self, contender: Contender, cooks: list[int], tolerance: float) -> list[Cook]:
        assert contender.run is not None
        return [contender.run(i, tolerance) for i in cooks]

    def worst(self, cooks: list[int], done: list[Cook]) -> float:
        return max(error(c, self.references[i]) for i, c in zip(cooks, done, strict=True))

    def race(self, rounds: int) -> list[Row]:
        ours, *others = self.contenders
        seconds: dict[str, list[float]] = {c.name: [] for c in self.contenders}
        ratios: dict[str, list[float]] = {c.name: [] for c in others}
        errors: dict[str, float] = {c.name: 0.0 for c in self.contenders}
        steps: dict[str, list[int]] = {c.name: [] for c in self.contenders}

        def turn(contender: Contender, cooks: list[int]) -> float:
            done = self.take(contender, cooks, contender.tolerance)
            mean = statistics.fmean(c.seconds for c in done)
            seconds[contender.name].append(mean)
            errors[contender.name] = max(errors[contender.name], self.worst(cooks, done))
            steps[contender.name] += [c.steps for c in done]
            return mean

        for round_ in range(rounds):
            for first in range(0, len(self.cooks), self.chunk):
                cooks = self.cooks[first : first + self.chunk]
                for other in others:
                    if other.run is None or (other.once and (round_ > 0 or first > 0)):
                        continue
                    base = turn(ours, cooks)
                    ratios[other.name].append(turn(other, [-1] if other.once else cooks) / base)
        rows = []
        for c in self.contenders:
            if c.run is None:
                rows.append(Row(c.problem, c.name, None, None, None, None))
                continue
            ratio = statistics.median(ratios[c.name]) if c is not ours else 1.0
            milliseconds = 1e3 * statistics.median(seconds[c.name])
            rows.append(
                Row(c.problem, c.name, milliseconds, ratio, errors[c.name], statistics.fmean(steps[c.name]))
            )
        return rows

    def scan(self) -> None:
        """Prints the error at tolerances from loose to tight."""
        for c in self.contenders[1:]:
            for tolerance in SCAN:
                if c.run is None or c.once:
                    break
                worst = self.worst(self.cooks, self.take(c, self.cooks, tolerance))
                print(f"{c.problem:10s} {c.name:32s} {tolerance:7.0e} {worst:9.4f} K", flush=True)
                if worst < 0.05:
                    break


def sweep(library: Library, single_ms: float) -> Sweep:
    """Slabs a second in packs, on one core and on all."""
    cores = os.cpu_count() or 1
    rates: dict[int, list[float]] = {1: [], cores: []}
    for _ in range(5):
        for threads in rates:
            rates[threads].append(SWEPT / library.sweep(SWEPT, threads)[0])
    return Sweep(
        cores=cores,
        one_core=statistics.median(rates[1]),
        all_cores=statistics.median(rates[cores]),
        one_at_a_time=1e3 / single_ms,
        operations=library.slab_step_operations(),
        nodes=INTERVALS + 1,
        peak=library.peak(),
    )


def show_in_readme(text: str) -> None:
    before, begin, rest = README.read_text(encoding="utf-8").partition(MARKS[0])
    _, end, after = rest.partition(MARKS[1])
    if not begin or not end:
        raise RuntimeError(f"{README} has not the marks {MARKS}")
    README.write_text(f"{before}{begin}\n{text}\n{end}{after}", encoding="utf-8")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--library", type=Path, required=True, help="the compiled part")
    parser.add_argument("--avx2", type=Path, help="the same, compiled for AVX2 at most")
    parser.add_argument("--baseline", type=Path, help="the same, compiled for any processor")
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--scan", action="store_true", help="how the tolerances were found, instead")
    arguments = parser.parse_args()
    library = Library(arguments.library)
    contenders = all_contenders(library)
    rows: list[Row] = []
    begin = time.perf_counter()
    for problem in ("slab", "full"):
        turns = Turns(library, problem, contenders)
        if arguments.scan:
            turns.scan()
        else:
            rows += turns.race(arguments.rounds)
    if arguments.scan:
        return
    rows += section_cook.race(arguments.rounds)
    swept = sweep(library, next(r.milliseconds for r in rows if r.problem == "slab") or 1.0)
    steps = next(r.steps for r in rows if r.problem == "slab") or 0.0
    slabs, bound = swept.sentences(steps)
    full = full_sweep.measure(library).sentence()
    ahead = forecast_cost.measure().sentence()
    wide = [slabs, full, ahead]
    if shared := dask_scaling.measure():
        wide.append(shared.sentence())
    if library.has_cvode and arguments.avx2 and arguments.baseline:
        narrower = {"none": Library(arguments.baseline), "AVX2": Library(arguments.avx2)}
        wide.append(vectors.measure(narrower | {"all": library}).sentence())
    print("\n".join([as_text(rows), "", *wide, bound]))
    print(f"\n{machine()}; {time.perf_counter() - begin:.0f} s in all")
    (HERE / "RESULTS.md").write_text(as_markdown(rows, [*wide, bound]), encoding="utf-8")
    show_in_readme(as_readme(rows, wide))


if __name__ == "__main__":
    main()
