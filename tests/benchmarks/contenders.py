"""Who takes part: for each problem libcook first, then the others.

Each at the loosest tolerance (of 1, 2 and 5 times powers of ten) that keeps the middle within 0.05 K;
`run_benchmarks.py --scan` shows how it was found.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from contenders_python import Fipy, Notebook, Scipy
from library import Cook, Library

FULL_TOLERANCE = 0.05  # K, libcook's of the full model
CVODE_TOLERANCE = 1e-4  # and CVODE's
Run = Callable[[int, float], Cook]


@dataclass
class Contender:
    """One solver of one problem."""

    name: str
    problem: str
    run: Run | None  # None: not installed
    tolerance: float
    once: bool = False  # too slow for more than one nominal cook


def _native(library: Library, problem: str, solver: str) -> Run | None:
    if solver == "cvode" and not library.has_cvode:
        return None
    return lambda index, tolerance: library.run(problem, solver, index, tolerance)


def all_contenders(library: Library) -> list[Contender]:
    """In the order of the table; the first of each problem is libcook."""

    def native(name: str, problem: str, solver: str, tolerance: float) -> Contender:
        return Contender(name, problem, _native(library, problem, solver), tolerance)

    def scipy(name: str, problem: str, method: str, tolerance: float) -> Contender:
        return Contender(name, problem, Scipy(library, problem, method).run, tolerance)

    return [
        native("libcook, ROS3 and block solver", "slab", "libcook", 0.0),
        native("SUNDIALS CVODE, banded", "slab", "cvode", 2e-4),
        native("Odeint dopri5", "slab", "dopri5", 1e-4),
        native("Odeint rosenbrock4 (dense)", "slab", "rosenbrock4", 5e-4),
        scipy("SciPy LSODA, banded, compiled", "slab", "LSODA", 5e-4),
        scipy("SciPy BDF, sparse, compiled", "slab", "BDF", 2e-4),
        Contender("SciPy LSODA, banded, NumPy", "slab", Notebook(library).run, 5e-4),
        Contender(
            "FiPy, backward Euler, 10 s",
            "slab",
            Fipy(library).run if Fipy.is_installed() else None,
            0.0,
            once=True,
        ),
        native("libcook, simulate()", "full", "libcook", FULL_TOLERANCE),
        native("the same, default tolerance", "full", "libcook", 0.0),
        native("SUNDIALS CVODE, banded", "full", "cvode", CVODE_TOLERANCE),
        scipy("SciPy LSODA, banded", "full", "LSODA", 1e-3),
        scipy("SciPy BDF, sparse", "full", "BDF", 5e-4),
    ]
