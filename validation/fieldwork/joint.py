"""All cooks at once: universal numbers, what differs from cook to cook, and how sure both are.

Every reading of every cook is

    T_read = T_model(universal numbers, numbers of this cook) + error,

the numbers of a cook scattered about those that a user would type, the error with heavy tails (Student's
t), since some cooks were not what was told of them. The mode is found by Gauss-Newton steps with weights
that follow the tails (iteratively reweighted), the posterior by Laplace's method around it: normal, with
the covariance that the curvature gives once the numbers of each cook are eliminated.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import Any

import numpy as np

import libcook as lc
from fieldwork import cooks as field_cooks
from fieldwork.cooks import Array, Field
from fieldwork.numbers import Number, per_cook, universal

NOISE = 4.0  # K: probe, its place, and what the model lacks from hour to hour
TAILS = 3.0  # degrees of freedom of a reading's error
STEP = 0.25  # prior standard deviations, for differences
OWN_TAILS = 3.0  # and of what differs from cook to cook
DAMPING = 0.5  # of a step that made things worse


@cache
def written(cook: Field) -> dict[str, Any]:
    """The cook's plan as JSON, written once."""
    plan = json.loads(field_cooks.plan(cook).to_json())
    for stage in plan["stages"]:
        if isinstance(stage["wrap"], str):
            raise ValueError(f"{cook.name}: the plan is not written out")
    return plan


def changed(cook: Field, numbers: Sequence[tuple[Number, float]]) -> lc.Plan:
    plan = json.loads(json.dumps(written(cook)))
    for number, z in numbers:
        number.apply(plan, number.value(z))
    return lc.Plan.from_json(json.dumps(plan))


def simulate(plans: Sequence[lc.Plan]) -> list[lc.Outcome]:
    return lc.simulate_many(plans, keep_fields=False, output_every="300 s")


@dataclass
class Fit:
    """The mode and the posterior, in prior standard deviations."""

    cooks: list[Field]
    shared: list[Number]
    own: list[Number]
    z: Array  # of the shared numbers
    own_z: Array  # (cooks, own)
    covariance: Array  # of the shared numbers
    own_variance: Array  # (cooks, own), given everything
    weights: list[Array] = field(default_factory=list)  # of the readings
    residuals: list[Array] = field(default_factory=list)  # model less measured [K]
    information: list[tuple[Array, Array]] = field(
        default_factory=list
    )  # each cook's share, own numbers eliminated

    def values(self, z: Array | None = None) -> dict[str, float]:
        z = self.z if z is None else z
        return {n.name: n.value(x) for n, x in zip(self.shared, z, strict=True)}

    def scatter(self) -> dict[str, float]:
        """How far the own numbers scatter from cook to cook, in their units: one step of expectation and
        maximisation (Dempster, Laird & Rubin, J. Royal Statistical Society B 39 (1977) 1, from memory) from
        the scatter that was believed, under the same tails."""
        kept = (OWN_TAILS + 1.0) / (OWN_TAILS + self.own_z**2)
        factor = np.sqrt(np.mean(kept * (self.own_z**2 + self.own_variance), axis=0))
        return {n.name: float(n.sd * f) for n, f in zip(self.own, factor, strict=True)}

    def without(self, i: int) -> Array:
        """The shared numbers had cook `i` not been there: one Gauss-Newton step from the mode."""
        hessian = np.linalg.inv(self.covariance) - self.information[i][0]
        return self.z + np.linalg.solve(hessian, self.information[i][1])


class Joint:
    """The posterior over all cooks given, with further observations that depend on shared numbers alone."""

    def __init__(self, cooks: Sequence[Field], others: Sequence[Any] = ()) -> None:
        self.cooks = list(cooks)
        self.shared = universal({c.name: c.thickness for c in lc.cuts()})
        self.own = per_cook()
        self.others = list(others)

    def predict(
        self, z: Array, own: Array, steps: Sequence[tuple[int, int, float]] = ()
    ) -> tuple[list[Array], ...]:
        """Core at the readings of all cooks, and again with each (kind 0 shared 1 own, index, step) added."""
        plans, slots = [], []
        for kind, index, step in [(-1, 0, 0.0), *steps]:
            for c, cook in enumerate(self.cooks):
                zs, os = z.copy(), own[c].copy()
                if kind == 0:
                    zs[index] += step
                if kind == 1:
                    os[index] += step
                pairs = [*zip(self.shared, zs, strict=True), *zip(self.own, os, strict=True)]
                plans.append(changed(cook, pairs))
                slots.append(c)
        read = []
        for out, c in zip(simulate(plans), slots, strict=True):
            cook = self.cooks[c]
            read.append(np.interp(cook.time * field_cooks.HOUR, out.time, out.core))
        n = len(self.cooks)
        return tuple(read[i : i + n] for i in range(0, len(read), n))

    def fit(
        self, rounds: int = 12, tell: Any = None, z: Array | None = None, own: Array | None = None
    ) -> Fit:
        k, m, n = len(self.shared), len(self.own), len(self.cooks)
        z = np.zeros(k) if z is None else z.copy()
        own = np.zeros((n, m)) if own is None else own.copy()
        steps = [*((0, i, STEP) for i in range(k)), *((1, i, STEP) for i in range(m))]
        best, start, step, scale = np.inf, (z, own), None, 1.0
        for turn in range(rounds + 1):
            base, *moved = self.predict(z, own, steps)
            residuals = [b - c.core for b, c in zip(base, self.cooks, strict=True)]
            extra = [other.terms(z, self.shared) for other in self.others]
            cost = self.cost(residuals, z, own) + sum(0.5 * float(np.sum(r**2)) for r, _ in extra)
            if tell:
                tell(turn, cost, z)
            if cost > best + 1e-3 and step is not None and scale > 0.05:
                scale *= DAMPING
                z, own = start[0] + scale * step[0], start[1] + scale * step[1]
                continue
            gained = best - cost
            best = cost
            weights = [(TAILS + 1.0) / (TAILS + (r / NOISE) ** 2) / NOISE**2 for r in residuals]
            jacobian = [np.array([(x[c] - base[c]) / STEP for x in moved]).T for c in range(n)]
            hessian, gradient = np.eye(k), z.copy()
            for residual, slope in extra:
                hessian += slope.T @ slope
                gradient += slope.T @ residual
            parts, information = [], []
            for c in range(n):
                a, b = jacobian[c][:, :k], jacobian[c][:, k:]
                w = weights[c]
                kept = (OWN_TAILS + 1.0) / (OWN_TAILS + own[c] ** 2)  # weight of what is believed of it
                inner = np.diag(kept) + (b.T * w) @ b
                cross = (a.T * w) @ b
                pull = (b.T * w) @ residuals[c] + kept * own[c]
                solved = np.linalg.solve(inner, np.column_stack([cross.T, pull]))
                share = (a.T * w) @ a - cross @ solved[:, :k]
                slope_c = (a.T * w) @ residuals[c] - cross @ solved[:, k]
                hessian += share
                gradient += slope_c
                information.append((share, slope_c))
                parts.append((inner, cross, pull))
            done = Fit(
                self.cooks,
                self.shared,
                self.own,
                z.copy(),
                own.copy(),
                np.linalg.inv(hessian),
                np.array([np.diag(np.linalg.inv(p[0])) for p in parts]),
                weights,
                residuals,
                information,
            )
            if turn == rounds or (turn > 2 and 0.0 <= gained < 0.05):
                return done
            dz = -np.linalg.solve(hessian, gradient)
            down = np.array([-np.linalg.solve(p[0], p[2] + p[1].T @ dz) for p in parts])
            largest = max(1.0, float(np.abs(dz).max()) / 1.0, float(np.abs(down).max()) / 1.5)
            start, step, scale = (z, own), (dz / largest, down / largest), 1.0
            z, own = z + step[0], own + step[1]
        return done

    @staticmethod
    def cost(residuals: Sequence[Array], z: Array, own: Array) -> float:
        tails = sum(
            0.5 * (TAILS + 1.0) * float(np.sum(np.log1p((r / NOISE) ** 2 / TAILS))) for r in residuals
        )
        scattered = 0.5 * (OWN_TAILS + 1.0) * float(np.sum(np.log1p(own**2 / OWN_TAILS)))
        return tails + 0.5 * float(np.sum(z**2)) + scattered
