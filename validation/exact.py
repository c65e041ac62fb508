"""Exact solutions of heat conduction in one dimension, summed with general-purpose tools.

Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, ch. 2, 3 and 7. theta = (T - T_air) / (T_start
- T_air) unless said otherwise; Fo = alpha t / L² with L the half thickness or the radius; Bi = h L / k.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from scipy.optimize import brentq
from scipy.special import erfc, erfcx, j0, j1, jn_zeros

TERMS = 200
EDGE = 1e-12  # keeps a bracket off the pole at its end


@cache
def wall_roots(biot: float) -> np.ndarray:
    """Roots of zeta tan(zeta) = Bi, one in each (n pi, n pi + pi/2)."""
    return np.array(
        [
            brentq(
                lambda z: z * np.sin(z) - biot * np.cos(z), n * np.pi + EDGE, (n + 0.5) * np.pi, xtol=1e-13
            )
            for n in range(TERMS)
        ]
    )


@cache
def cylinder_roots(biot: float) -> np.ndarray:
    """Roots of zeta J1(zeta) = Bi J0(zeta), one between a zero of J1 and the next of J0."""
    low = np.concatenate([[EDGE], jn_zeros(1, TERMS - 1)])
    high = jn_zeros(0, TERMS)
    return np.array(
        [brentq(lambda z: z * j1(z) - biot * j0(z), a, b, xtol=1e-13) for a, b in zip(low, high, strict=True)]
    )


def wall(biot: float, fourier: float, place: float) -> float:
    """theta in a plane wall; `place` 0 at the middle, 1 at the face."""
    z = wall_roots(biot)
    c = 4.0 * np.sin(z) / (2.0 * z + np.sin(2.0 * z))
    return float(np.sum(c * np.exp(-(z**2) * fourier) * np.cos(z * place)))


def wall_mean(biot: float, fourier: float) -> float:
    """Mean theta of a plane wall: what is left of the heat to exchange."""
    z = wall_roots(biot)
    c = 4.0 * np.sin(z) / (2.0 * z + np.sin(2.0 * z))
    return float(np.sum(c * np.exp(-(z**2) * fourier) * np.sin(z) / z))


def cylinder(biot: float, fourier: float, place: float) -> float:
    """theta in a long cylinder; `place` 0 on the axis, 1 at the surface."""
    z = cylinder_roots(biot)
    c = 2.0 / z * j1(z) / (j0(z) ** 2 + j1(z) ** 2)
    return float(np.sum(c * np.exp(-(z**2) * fourier) * j0(z * place)))


def cylinder_mean(biot: float, fourier: float) -> float:
    """Mean theta of a long cylinder."""
    z = cylinder_roots(biot)
    c = 2.0 / z * j1(z) / (j0(z) ** 2 + j1(z) ** 2)
    return float(np.sum(c * np.exp(-(z**2) * fourier) * 2.0 * j1(z) / z))


def half_space(eta: float, beta: float) -> float:
    """(T - T_start) / (T_air - T_start) in a half space with convection.

    eta = x / (2 sqrt(alpha t)), beta = h sqrt(alpha t) / k. Written with the scaled complementary error
    function, so that the product of a huge and a tiny factor does not overflow.
    """
    return float(erfc(eta) - np.exp(-(eta**2)) * erfcx(eta + beta))
