"""Steps in time: the second-order backward differentiation formula with steps of any length, in what is
conserved.

    (1 + 2 w) / (1 + w) Q(y) - h F(y) = (1 + w) Q_last - w² / (1 + w) Q_before,   w = h / h_last

(Hairer, Nørsett & Wanner, Solving Ordinary Differential Equations I, III.5). Newton iterations, a factorised
matrix for as long as it serves. What the totals of the surface gain is added up by the same formula, and each
step goes on from the Q that the formula gave, not from Q(y): so the balances close to the last residual.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from independent.tissue import Array
from scipy.sparse.linalg import SuperLU, splu

from brick import face as on
from brick.system import System

# What counts as one unit of error, before the tolerance: K, kg/kg dry, kg/m².
SCALE = (0.05, 0.01, 0.005)
CLOSE = 5e-3  # of these units: the Newton change that is left undone
ITERATIONS = 10
FIRST_STEP = 0.02  # s, after a jump


@dataclass
class Point:
    """State at a moment; `q`: what is conserved; `totals`: so far through each bit of surface, see below."""

    time: float
    y: Array
    q: Array
    totals: Array


# Rows of the totals: water evaporated and run off [kg], heat from air and walls, and with water [J].
EVAPORATED, RUN_OFF, FROM_AIR, WITH_WATER = range(4)


class Stepper:
    def __init__(self, system: System, y: Array, tolerance: float) -> None:
        self.system = system
        brick = system.brick
        self.tolerance = tolerance
        self.scale = np.concatenate(
            [np.full(count, s) for count, s in zip(self.counts(), SCALE, strict=True)]
        )
        totals = np.zeros((4, brick.faces))
        self.points = [Point(0.0, y.copy(), system.contents(y), totals)]
        self.factors: SuperLU | None = None
        self.ratio = 0.0  # h / a of the factors
        self.step = FIRST_STEP
        self.drive: Callable[[float], tuple[float, float]]  # temperature and vapour pressure of the air
        self.steps = self.failures = self.factorisations = self.evaluations = 0

    def counts(self) -> tuple[int, int, int]:
        brick = self.system.brick
        return brick.cells, brick.cells, brick.faces

    @property
    def now(self) -> Point:
        return self.points[-1]

    def restart(self) -> None:
        """Forget what was before a jump."""
        self.points = [self.now]
        self.factors = None
        self.step = FIRST_STEP

    def predicted(self, time: float) -> Array:
        """Through the last points, up to three."""
        known = self.points[-3:]
        weights = [np.prod([(time - o.time) / (p.time - o.time) for o in known if o is not p]) for p in known]
        return np.asarray(sum(w * p.y for w, p in zip(weights, known, strict=True)))

    def attempt(self, h: float) -> tuple[Point, float] | None:
        """A step of length h and its error in units of the tolerance, or nothing if Newton fails."""
        last = self.now
        self.system.air, self.system.vapour = self.drive(last.time + h)
        if len(self.points) > 1:
            before = self.points[-2]
            w = h / (last.time - before.time)
            a, b, c = (1.0 + 2.0 * w) / (1.0 + w), 1.0 + w, -w * w / (1.0 + w)
            left, totals = b * last.q + c * before.q, b * last.totals + c * before.totals
        else:
            a, left, totals = 1.0, last.q, last.totals
        guess = self.predicted(last.time + h)
        solved = self.newton(guess, a, h, left)
        if solved is None:
            self.factors = None
            return None
        y, rates, flux = solved
        gained = self.system.brick.face_area * self.through(y, flux)
        point = Point(last.time + h, y, (left + h * rates) / a, (totals + h * gained) / a)
        return point, self.error(point, guess, h, a)

    def through(self, y: Array, flux: Array) -> Array:
        """Rates of the totals per m²."""
        liquid = self.system.bulk.liquid(y[self.system.brick.face_cell])
        with_water = flux[on.VAPOUR] * (flux[on.LATENT] + liquid) + flux[on.RUN_OFF] * liquid
        return np.stack((flux[on.VAPOUR], flux[on.RUN_OFF], flux[on.HEAT], with_water))

    def error(self, point: Point, guess: Array, h: float, a: float) -> float:
        """By Milne's device: the formula and the prediction miss by known shares of the third derivative."""
        if len(self.points) < 3:
            return 0.0
        share = h / a / (h / a + point.time - self.points[-3].time)
        off = share * (point.y - guess) / self.scale / self.tolerance
        start, worst = 0, 0.0
        for count in self.counts():
            worst = max(worst, float(np.sqrt(np.mean(off[start : start + count] ** 2))))
            start += count
        return worst

    def newton(self, y: Array, a: float, h: float, left: Array) -> tuple[Array, Array, Array] | None:
        """Solve a step from a guess: the state, F and the fluxes at the faces; nothing if it does not settle.

        A change counts if the next one, by the same factors, is smaller (Deuflhard's natural monotonicity);
        else the factors are made anew, and then the change is halved.
        """
        if not 0.7 < self.ratio * a / h < 1.4:
            self.factors = None
        rates, flux, residual = self.residual(y, a, h, left)
        for _ in range(ITERATIONS):
            fresh = self.factors is None
            if self.factors is None:
                self.factors = self.factorised(y, a, h)
            change = self.factors.solve(-residual)
            for share in (1.0, 0.5, 0.25, 0.125):
                trial = y + share * change
                rates, flux, there = self.residual(trial, a, h, left)
                following = self.factors.solve(-there)
                fall = self.norm(following) / self.norm(change)
                settles = fall <= 1.0 - 0.25 * share  # false if not a number, too
                if settles or not fresh:
                    break
            if not settles:
                if fresh:
                    return None
                self.factors = None
                continue
            y, residual = trial, there
            if float(np.abs(following / self.scale).max()) < CLOSE:
                return y, rates, flux
            if fall > 0.25:
                self.factors = None
        return None

    def residual(self, y: Array, a: float, h: float, left: Array) -> tuple[Array, Array, Array]:
        with np.errstate(all="ignore"):  # a wild iterate is found out by what follows from it
            rates, flux = self.system.rates(y)
            residual = (a * self.system.contents(y) - h * rates - left) / self.system.unit
        self.evaluations += 1
        return rates, flux, residual

    def norm(self, change: Array) -> float:
        return float(np.sqrt(np.mean((change / self.scale) ** 2)))

    def factorised(self, y: Array, a: float, h: float) -> SuperLU:
        matrix = self.system.matrix(y, a, h)
        self.ratio = h / a
        self.factorisations += 1
        return splu(
            matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True}
        )

    def take(self, limit: float) -> Point:
        """The next point that is exact enough, not beyond `limit`; it does not count before `accept`."""
        while True:
            left = limit - self.now.time
            h = self.step if self.step < 0.6 * left else left if self.step >= left else 0.5 * left
            if h < 1e-6 * min(1.0, left):
                raise RuntimeError(f"no step could be made at {self.now.time:.1f} s")
            found = self.attempt(h)
            if found is None:
                self.failures += 1
                self.step = 0.3 * h
                continue
            point, error = found
            factor = 0.9 / max(error, 0.05) ** (1.0 / 3.0)
            if error > 1.0:
                self.failures += 1
                self.step = h * max(factor, 0.2)
                continue
            if not 0.9 < factor < 1.2:  # else keep the step, and with it the factors
                self.step = h * min(factor, 2.0)
            return point

    def accept(self, point: Point) -> None:
        self.points = [*self.points[-2:], point]
        self.steps += 1
        t = self.system.split(point.y)[0]
        self.system.peak = np.maximum(self.system.peak, t)
