"""One default cook of twelve hours, timed against SciPy's stiff integrators on the same equations.

All contenders integrate the same right-hand side, compiled (`libcook.equations`), over the same state, from
the same start; what differs is the integrator. SciPy gets the band structure. The error of each is shown: the
largest difference of the core from a reference solved 100 times tighter, at one-minute outputs, so that the
times can be read at like accuracy.

The contenders take turns, several rounds; the median and the ratio to ours are printed. The ratio holds when
the machine's speed drifts, single times do not. Nothing here passes or fails.
"""

from __future__ import annotations

import argparse
import platform
import statistics
import time
from collections.abc import Callable

import numpy as np
from scipy.integrate import solve_ivp

import libcook as lc

HOURS = 12.0
OUTPUT = np.arange(0.0, HOURS * 3600.0 + 1.0, 60.0)


def default_plan() -> lc.Plan:
    """A default brisket, never wrapped, in a generic drum."""
    return lc.Plan(
        lc.brisket(), [lc.Stage("smoke", lc.pit("drum", air="237 °F"), until=lc.elapsed(HOURS * 3600.0))]
    )


def scipy_run(method: str, rtol: float, atol: float) -> Callable[[], np.ndarray]:
    """A cook through solve_ivp; returns the core [°C] at the outputs."""
    eq = lc.equations(default_plan())
    start = eq.initial()
    band = eq.bandwidth
    options: dict[str, object] = {}
    if method == "LSODA":
        options = {"lband": band, "uband": band}
    else:
        i, j = np.indices((eq.size, eq.size))
        options = {"jac_sparsity": (np.abs(i - j) <= band).astype(float)}

    def run() -> np.ndarray:
        result = solve_ivp(
            eq.rhs, (0.0, OUTPUT[-1]), start, method, t_eval=OUTPUT, rtol=rtol, atol=atol, **options
        )
        if not result.success:
            raise RuntimeError(f"{method}: {result.message}")
        return np.array([eq.core(np.ascontiguousarray(column)) for column in result.y.T])

    return run


def ours(**options: float) -> Callable[[], np.ndarray]:
    """The same cook through simulate()."""
    plan = default_plan()

    def run() -> np.ndarray:
        return np.asarray(lc.simulate(plan, **options).core)

    return run


def main() -> None:
    """Take turns and print the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--rounds", type=int, default=7)
    rounds = parser.parse_args().rounds
    reference = ours(tolerance=4e-4)()
    contenders = {
        "libcook, defaults": ours(),
        "SciPy LSODA, banded": scipy_run("LSODA", 1e-4, 1e-3),
        "SciPy BDF, banded sparsity": scipy_run("BDF", 1e-4, 1e-3),
    }
    times: dict[str, list[float]] = {name: [] for name in contenders}
    solver: list[float] = []
    errors: dict[str, float] = {}
    for name, run in contenders.items():  # warm-up, and the error
        errors[name] = float(np.max(np.abs(run()[: reference.size] - reference)))
    for _ in range(rounds):
        for name, run in contenders.items():
            begin = time.perf_counter()
            run()
            times[name].append(time.perf_counter() - begin)
        solver.append(lc.simulate(default_plan()).ledger.solver_seconds)
    base = statistics.median(times["libcook, defaults"])
    print(f"one cook of {HOURS:g} h on {platform.machine()}, median of {rounds} rounds")
    print(f"{'solver':28s} {'ms':>9s} {'ratio':>8s} {'core error, K':>14s}")
    for name, series in times.items():
        median = statistics.median(series)
        print(f"{name:28s} {1e3 * median:9.2f} {median / base:8.0f} {errors[name]:14.3f}")
    ledger = lc.simulate(default_plan()).ledger
    print(
        f"inside the solver: {1e3 * statistics.median(solver):.2f} ms, {ledger.steps} steps, "
        f"{ledger.rejected} rejected, {ledger.evaluations} evaluations, "
        f"{ledger.factorisations} factorisations"
    )


if __name__ == "__main__":
    main()
