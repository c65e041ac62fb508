"""Contenders in Python: SciPy's stiff integrators on the compiled equations, and FiPy on its own mesh."""

from __future__ import annotations

import time

import numpy as np
from library import Cook, Library, Problem, SparseJacobian
from numpy_slab import LONGEST, MINUTE, REST, UNTIL, NumpySlab
from scipy.integrate import solve_ivp


class Scipy:
    """`solve_ivp` with one of its methods. The rates are those of the C++ contenders, through ctypes; the
    Jacobian is analytic too, banded for LSODA and sparse for BDF."""

    def __init__(self, library: Library, problem: str, method: str) -> None:
        self._compiled = Problem(library, problem)
        self._method = method
        self._full = problem == "full"
        self._options: dict[str, object] = {}
        band = self._compiled.bandwidth
        if self._full:  # no analytic Jacobian: differences, with the band known
            if method == "LSODA":
                self._options = {"lband": band, "uband": band}
            else:
                i, j = np.indices((self._compiled.size, self._compiled.size))
                self._options = {"jac_sparsity": (np.abs(i - j) <= band).astype(float)}
        elif method == "LSODA":
            self._options = {"jac": self._compiled.banded, "lband": band, "uband": band}
        else:
            self._compiled.set(-1, 0)
            self._options = {"jac": SparseJacobian(self._compiled)}

    @property
    def _problem(self) -> Problem | NumpySlab:
        return self._compiled

    def _set(self, index: int, phase: int) -> None:
        self._compiled.set(index, phase)

    def run(self, index: int, tolerance: float) -> Cook:
        begin = time.perf_counter()
        self._set(index, 0)
        problem = self._problem
        y = problem.start()
        absolute = self._absolute(y, tolerance)
        middle: list[float] = []
        reached = [-1.0, -1.0]
        phase = 0
        t = 0.0
        end = LONGEST
        steps = 0
        latest = -1.0

        def excess(now: float, state: np.ndarray) -> float:
            nonlocal steps, latest
            if now > latest:  # called at the end of each step, then back within it to find the root
                latest = now
                steps += 1
            return problem.middle(state) - UNTIL[phase] if phase < 2 and not self._full else -1.0

        excess.terminal = True  # type: ignore[attr-defined]
        excess.direction = 1.0  # type: ignore[attr-defined]
        while t < end:
            result = solve_ivp(
                problem.rates,
                (t, end),
                y,
                method=self._method,
                t_eval=np.arange(MINUTE * len(middle), end + 1e-9, MINUTE),
                events=excess,
                rtol=tolerance,
                atol=absolute,
                **self._options,
            )
            if not result.success:
                raise RuntimeError(f"{self._method}: {result.message}")
            middle += [problem.middle(state) for state in np.ascontiguousarray(result.y.T)]
            if result.status != 1:
                break
            t = float(result.t_events[0][0])
            y = result.y_events[0][0]
            reached[phase] = t
            phase += 1
            self._set(index, phase)
            if phase == 2:
                end = min(LONGEST, t + REST)
        return Cook(time.perf_counter() - begin, np.array(middle), (reached[0], reached[1]), steps)

    def _absolute(self, start: np.ndarray, tolerance: float) -> np.ndarray:
        """10 K and 0.1 kg/kg times the relative tolerance, as for CVODE."""
        absolute = np.full(start.size, 0.1 * tolerance)
        if self._full:  # films at both ends, one or two each; enthalpy and water in turn between them
            films = self._compiled.bandwidth // 4
            absolute[films:-films:2] = 10.0 * tolerance
        else:
            absolute[start > 1.0] = 10.0 * tolerance  # temperatures start at 4 °C, water below 1
        return absolute


class Notebook(Scipy):
    """The slab as written in a notebook: rates in NumPy, the Jacobian by differences, LSODA knowing its
    band."""

    def __init__(self, library: Library) -> None:
        self._library = library
        self._method = "LSODA"
        self._full = False
        self._options = {"lband": 3, "uband": 3}
        self._set(-1, 0)

    @property
    def _problem(self) -> NumpySlab:
        return self._numpy

    def _set(self, index: int, phase: int) -> None:
        if phase == 0:
            self._numpy = NumpySlab(self._library.recipe(index))
        self._numpy.phase = phase


class Fipy:
    """FiPy on the nominal slab: backward Euler, two equations solved in turn, fluxes of the faces as sources
    of their cells, two sweeps a step."""

    STEP = 10.0  # s
    SWEEPS = 2

    def __init__(self, library: Library) -> None:
        self._library = library

    @staticmethod
    def is_installed() -> bool:
        try:
            import fipy  # noqa: F401
        except ImportError:
            return False
        return True

    def run(self, _index: int, _tolerance: float) -> Cook:
        from fipy_slab import cook

        begin = time.perf_counter()
        slab = NumpySlab(self._library.recipe(-1))
        middle, reached, steps = cook(slab, self.STEP, self.SWEEPS)
        return Cook(time.perf_counter() - begin, middle, reached, steps)
