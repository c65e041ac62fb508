"""One default cook of twelve hours on a cross-section, timed against SciPy's BDF on the same equations.

All contenders integrate the same right-hand side, compiled (`libcook.equations`), over the same state, from
the same start; what differs is the integrator. SciPy's BDF comes twice: with the exact sparse Jacobian of
these equations, and with its own differences in groups of columns that share no row, from the sparsity alone.
Both factorise with SuperLU.

The error of each is shown beside its time, against a reference solved 100 times tighter, the largest over
outputs every ten minutes: of the core (the flat's middle), of the root mean square over the volume, and of
any node. The last is that of a crust cell in the minutes in which it dries and its temperature jumps; 0.7 K
of SciPy's is the memory of denaturation, which the equations leave out. SciPy's tolerances are those at which
it is quickest, with errors like ours: looser ones are slower, because steps are then refused.

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
from scipy.sparse import csc_matrix, csr_matrix
from table import Row

import libcook as lc

HOURS = 12.0
EVERY = 600.0
OUTPUT = np.arange(0.0, HOURS * 3600.0 + 1.0, EVERY)

# A run gives the core [°C] and every node's temperature (outputs x nodes), and what it did in words.
Result = tuple[np.ndarray, np.ndarray, str]


def errors(found: Result, reference: Result, volume: np.ndarray) -> tuple[float, float, float]:
    """Largest over time of the error of core, of the mean square's root, and of any node [K]."""
    off = found[1] - reference[1]
    return (
        float(np.abs(found[0] - reference[0]).max()),
        float(np.sqrt(off**2 @ volume).max()),
        float(np.abs(off).max()),
    )


def default_plan() -> lc.Plan:
    """A default brisket, never wrapped, in a generic drum."""
    return lc.Plan(
        lc.brisket(), [lc.Stage("smoke", lc.pit("drum", air="237 °F"), until=lc.elapsed(HOURS * 3600.0))]
    )


def scipy_run(exact_jacobian: bool, rtol: float, atol: float) -> Callable[[], Result]:
    """A cook through solve_ivp."""
    eq = lc.equations(default_plan(), grid="cross-section")
    start = eq.initial()
    starts, columns = eq.pattern
    options: dict[str, object] = {}
    if exact_jacobian:
        options["jac"] = lambda t, y: csc_matrix(csr_matrix((eq.jacobian(t, y), columns, starts)))
    else:
        options["jac_sparsity"] = csr_matrix((np.ones(columns.size), columns, starts))

    def run() -> Result:
        found = solve_ivp(
            eq.rhs, (0.0, OUTPUT[-1]), start, "BDF", t_eval=OUTPUT, rtol=rtol, atol=atol, **options
        )
        if not found.success:
            raise RuntimeError(found.message)
        states = [np.ascontiguousarray(column) for column in found.y.T]
        work = f"{found.nfev} evaluations, {found.njev} Jacobians, {found.nlu} factorisations"
        return (
            np.array([eq.core(state) for state in states]),
            np.array([eq.temperatures(state) for state in states]),
            work,
        )

    return run


def ours(**options: float) -> Callable[[], Result]:
    """The same cook through simulate()."""
    plan = default_plan()

    def run() -> Result:
        out = lc.simulate(plan, grid="cross-section", output_every=EVERY, **options)
        ledger = out.ledger
        work = (
            f"{ledger.steps} steps, {ledger.rejected} rejected, {ledger.evaluations} evaluations, "
            f"{ledger.factorisations} factorisations; {1e3 * ledger.solver_seconds:.0f} ms in the solver"
        )
        return np.asarray(out.core), np.asarray(out.temperature).reshape(len(out.time), -1), work

    return run


RTOL, ATOL = 3e-4, 3e-3


def race(rounds: int, rtol: float = RTOL, atol: float = ATOL, tell: bool = False) -> list[Row]:
    """Take turns.

    :param tell: print the table with all errors, and what each solver did
    """
    tolerances = f"rtol {rtol:g}, atol {atol:g}"
    reference = ours(tolerance=4e-4)()
    volume = np.asarray(lc.simulate(default_plan(), grid="cross-section").node_volume)
    contenders = {
        "libcook, defaults": ours(),
        "SciPy BDF, exact sparse Jacobian": scipy_run(True, rtol, atol),
        "SciPy BDF, sparsity, differences": scipy_run(False, rtol, atol),
    }
    times: dict[str, list[float]] = {name: [] for name in contenders}
    off: dict[str, tuple[float, float, float]] = {}
    works: dict[str, str] = {}
    for name, run in contenders.items():  # warm-up, and the error
        found = run()
        off[name] = errors(found, reference, volume)
        works[name] = found[2]
    for _ in range(rounds):
        for name, run in contenders.items():
            begin = time.perf_counter()
            run()
            times[name].append(time.perf_counter() - begin)
    base = statistics.median(times["libcook, defaults"])
    medians = {name: statistics.median(series) for name, series in times.items()}
    rows = [Row("section", name, 1e3 * m, m / base, off[name][0], None) for name, m in medians.items()]
    if not tell:
        return rows
    mesh = lc.equations(default_plan(), grid="cross-section")
    print(
        f"one cook of {HOURS:g} h on a section of {mesh.nodes} nodes, {mesh.size} unknowns, on "
        f"{platform.machine()}, median of {rounds} rounds; SciPy: {tolerances}"
    )
    print(f"{'solver':34s} {'ms':>8s} {'ratio':>7s} {'error, K: core':>15s} {'mean sq.':>9s} {'any':>6s}")
    for name, median in medians.items():
        core, square, anywhere = off[name]
        print(
            f"{name:34s} {1e3 * median:8.0f} {median / base:7.1f} {core:15.3f} {square:9.3f} {anywhere:6.2f}"
        )
    for name, work in works.items():
        print(f"{name}: {work}")
    return rows


def main() -> None:
    """Take turns and print the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--rtol", type=float, default=RTOL)
    parser.add_argument("--atol", type=float, default=ATOL)
    given = parser.parse_args()
    race(given.rounds, given.rtol, given.atol, tell=True)


if __name__ == "__main__":
    main()
