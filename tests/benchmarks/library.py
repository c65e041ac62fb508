"""The compiled part of the benchmarks (bindings.cpp), loaded with ctypes."""

from __future__ import annotations

import contextlib
import ctypes
import functools
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import csc_matrix

_DOUBLES = ctypes.POINTER(ctypes.c_double)
_LONGS = ctypes.POINTER(ctypes.c_long)
_CAPACITY = 1024  # minutes of the longest cook, with some room


class _Summary(ctypes.Structure):
    _fields_ = [
        ("reached", ctypes.c_double * 2),
        ("end", ctypes.c_double),
        ("lost", ctypes.c_double),
        ("steps", ctypes.c_long),
        ("rejected", ctypes.c_long),
        ("evaluations", ctypes.c_long),
        ("minutes", ctypes.c_long),
    ]


@dataclass
class Cook:
    """One cook of one contender."""

    seconds: float
    middle: np.ndarray  # °C at every full minute
    reached: tuple[float, float]  # s; -1: never
    steps: int


@functools.cache
def _banded_rows() -> int:
    """Rows of a Jacobian with a band of 3 to each side, as LSODA behind `solve_ivp` takes it.

    By its documentation 7; but SciPy up to 1.15 wants three more, to work in, which newer ones refuse. So a
    stiff system is solved both ways: a Jacobian that is misread costs many more evaluations.
    """
    size = 12
    band = np.eye(size) * np.logspace(0, 5, size) + 0.5 * (np.eye(size, k=3) + np.eye(size, k=-3))
    taken: dict[int, int] = {}
    for rows in (7, 10):
        stored = np.zeros((rows, size))
        for i, j in zip(*np.nonzero(band), strict=True):
            stored[i - j + 3, j] = -band[i, j]
        with contextlib.suppress(ValueError, RuntimeError):
            found = solve_ivp(
                lambda t, y: -band @ y,
                (0.0, 10.0),
                np.ones(size),
                "LSODA",
                jac=lambda t, y, stored=stored: stored,
                lband=3,
                uband=3,
            )
            taken[rows] = found.nfev
    return min(taken, key=lambda rows: taken[rows])


def _pointer(array: np.ndarray) -> ctypes.c_void_p:
    return ctypes.c_void_p(array.ctypes.data)


class Library:
    """The contenders in C++, and the counts that go with them."""

    def __init__(self, path: Path) -> None:
        lib = ctypes.CDLL(str(path))
        lib.cook_benchmarks_error.restype = ctypes.c_char_p
        lib.cook_benchmarks_run.argtypes = [
            ctypes.c_char_p,
            ctypes.c_char_p,
            ctypes.c_int,
            ctypes.c_double,
            ctypes.POINTER(_Summary),
            ctypes.c_void_p,
            ctypes.c_long,
            _DOUBLES,
        ]
        lib.cook_benchmarks_recipe.argtypes = [ctypes.c_int, ctypes.c_void_p]
        lib.cook_benchmarks_full_sweep.argtypes = [ctypes.c_long, ctypes.c_int, ctypes.c_double, _DOUBLES]
        lib.cook_benchmarks_sweep.argtypes = [ctypes.c_long, ctypes.c_int, ctypes.c_void_p, _DOUBLES]
        lib.cook_benchmarks_slab_step_operations.restype = ctypes.c_long
        lib.cook_benchmarks_peak.restype = ctypes.c_double
        lib.cook_benchmarks_problem.argtypes = [ctypes.c_char_p]
        lib.cook_benchmarks_problem.restype = ctypes.c_void_p
        lib.cook_benchmarks_problem_free.argtypes = [ctypes.c_void_p]
        lib.cook_benchmarks_size.argtypes = [ctypes.c_void_p]
        lib.cook_benchmarks_size.restype = ctypes.c_long
        lib.cook_benchmarks_bandwidth.argtypes = [ctypes.c_void_p]
        lib.cook_benchmarks_bandwidth.restype = ctypes.c_long
        lib.cook_benchmarks_set.argtypes = [ctypes.c_void_p, ctypes.c_int, ctypes.c_int]
        lib.cook_benchmarks_start.argtypes = [ctypes.c_void_p, ctypes.c_void_p]
        lib.cook_benchmarks_rates.argtypes = [
            ctypes.c_void_p,
            ctypes.c_double,
            ctypes.c_void_p,
            ctypes.c_void_p,
        ]
        lib.cook_benchmarks_middle.argtypes = [ctypes.c_void_p, ctypes.c_void_p]
        lib.cook_benchmarks_middle.restype = ctypes.c_double
        lib.cook_benchmarks_banded.argtypes = [ctypes.c_void_p] * 3
        lib.cook_benchmarks_entries.argtypes = [ctypes.c_void_p] * 5
        lib.cook_benchmarks_entries.restype = ctypes.c_long
        self.raw = lib

    def _check(self, code: int) -> None:
        if code != 0:
            raise RuntimeError(self.raw.cook_benchmarks_error().decode())

    @property
    def has_cvode(self) -> bool:
        return bool(self.raw.cook_benchmarks_has_cvode())

    def run(self, problem: str, solver: str, index: int, tolerance: float) -> Cook:
        """A cook of `problem`: varied cook `index`, or the nominal one at -1."""
        summary = _Summary()
        seconds = ctypes.c_double()
        middle = np.empty(_CAPACITY)
        self._check(
            self.raw.cook_benchmarks_run(
                problem.encode(),
                solver.encode(),
                index,
                tolerance,
                ctypes.byref(summary),
                _pointer(middle),
                _CAPACITY,
                ctypes.byref(seconds),
            )
        )
        reached = (summary.reached[0], summary.reached[1])
        return Cook(seconds.value, middle[: summary.minutes].copy(), reached, summary.steps)

    def recipe(self, index: int) -> np.ndarray:
        """What is varied in a slab: length, film and vapour film of the open phase, air, mobility."""
        values = np.empty(5)
        self.raw.cook_benchmarks_recipe(index, values.ctypes.data)
        return values

    def sweep(self, count: int, threads: int) -> tuple[float, np.ndarray]:
        """Seconds that the first `count` varied slabs take in packs, and what each lost [kg/kg]."""
        lost = np.empty(count)
        seconds = ctypes.c_double()
        self._check(self.raw.cook_benchmarks_sweep(count, threads, _pointer(lost), ctypes.byref(seconds)))
        return seconds.value, lost

    def full_sweep(self, count: int, threads: int, tolerance: float = 0.0) -> float:
        """Seconds that so many variants of the full model's default cook take in batches.

        :param tolerance: local error [K]; 0: the default
        """
        seconds = ctypes.c_double()
        self._check(self.raw.cook_benchmarks_full_sweep(count, threads, tolerance, ctypes.byref(seconds)))
        return seconds.value

    def slab_step_operations(self) -> int:
        return int(self.raw.cook_benchmarks_slab_step_operations())

    def peak(self) -> float:
        """Operations a second on one core."""
        return float(self.raw.cook_benchmarks_peak())


class Problem:
    """Equations of a problem, compiled, for integrators in Python."""

    def __init__(self, library: Library, name: str) -> None:
        self._lib = library.raw
        self._handle = self._lib.cook_benchmarks_problem(name.encode())
        if not self._handle:
            raise ValueError(self._lib.cook_benchmarks_error().decode())
        self.size = int(self._lib.cook_benchmarks_size(self._handle))
        self._banded_rows = _banded_rows()  # now: LSODA lets nobody in while it runs
        self.bandwidth = int(self._lib.cook_benchmarks_bandwidth(self._handle))

    def __del__(self) -> None:
        if getattr(self, "_handle", None):
            self._lib.cook_benchmarks_problem_free(self._handle)

    def set(self, index: int, phase: int) -> None:
        self._lib.cook_benchmarks_set(self._handle, index, phase)

    def start(self) -> np.ndarray:
        y = np.empty(self.size)
        self._lib.cook_benchmarks_start(self._handle, y.ctypes.data)
        return y

    def rates(self, t: float, y: np.ndarray) -> np.ndarray:
        y = np.ascontiguousarray(y)
        f = np.empty(self.size)
        self._lib.cook_benchmarks_rates(self._handle, t, y.ctypes.data, f.ctypes.data)
        return f

    def middle(self, y: np.ndarray) -> float:
        y = np.ascontiguousarray(y)
        return float(self._lib.cook_benchmarks_middle(self._handle, y.ctypes.data))

    def banded(self, _t: float, y: np.ndarray) -> np.ndarray:
        """Jacobian of the slab, entry (i, j) at [i - j + 3, j]."""
        y = np.ascontiguousarray(y)
        out = np.zeros((self._banded_rows, self.size))
        self._lib.cook_benchmarks_banded(self._handle, y.ctypes.data, out.ctypes.data)
        return out


class SparseJacobian:
    """Jacobian of a problem as SciPy's implicit methods take it; its pattern is found once."""

    def __init__(self, problem: Problem) -> None:
        self._problem = problem
        y = problem.start()
        lib, handle = problem._lib, problem._handle
        self._count = int(lib.cook_benchmarks_entries(handle, y.ctypes.data, None, None, None))
        rows = np.empty(self._count, dtype=np.int64)
        columns = np.empty(self._count, dtype=np.int64)
        lib.cook_benchmarks_entries(handle, y.ctypes.data, rows.ctypes.data, columns.ctypes.data, None)
        places, self._place = np.unique(columns * problem.size + rows, return_inverse=True)
        self._rows = places % problem.size
        self._starts = np.searchsorted(places // problem.size, np.arange(problem.size + 1))
        self._values = np.empty(self._count)

    def __call__(self, _t: float, y: np.ndarray) -> csc_matrix:
        y = np.ascontiguousarray(y)
        problem = self._problem
        problem._lib.cook_benchmarks_entries(
            problem._handle, y.ctypes.data, None, None, self._values.ctypes.data
        )
        data = np.bincount(self._place, weights=self._values, minlength=self._rows.size)
        return csc_matrix((data, self._rows, self._starts), shape=(problem.size, problem.size))
