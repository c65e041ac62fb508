"""Semi-infinite solid.

Semi-infinite solid in convection, at early times of a thick slab.

Before the warmth of one face is felt at the other, a slab is a half space: the complementary error function
solution holds. A 0.3 m slab, whose middle is still cold (Fo below 0.02) at the end.
"""

from collections.abc import Iterator
from functools import cache

import exact
import figures as draw
import numpy as np
import sources
from evidence import Figure, Row, Worst
from scipy.special import erfinv
from solids import Solid, at

import libcook as lc

SIZE, K, C, H = 0.3, 0.5, 3.6e6, 20.0
START, AIR = 10.0, 110.0
ALPHA = K / C
BETAS = (0.5, 1.0, 1.5)
ETAS = (0.0, 0.25, 0.5, 1.0, 1.5)


def seconds(beta: float) -> float:
    return (beta * K / H) ** 2 / ALPHA


@cache
def run(beta: float) -> lc.Outcome:
    # Two slabs' worth of nodes at the faces, where everything happens.
    return Solid(SIZE, K, C, H, START, AIR).run(seconds(beta), nodes=401, spacing=2e-4, outputs=10)


def share(beta: float, eta: float) -> float:
    depth = 2.0 * eta * np.sqrt(ALPHA * seconds(beta))
    return (at(run(beta), seconds(beta), depth) - START) / (AIR - START)


def rows() -> Iterator[Row]:
    why = "100 K span: 0.02 K, 401 nodes and a step tolerance of 1e-3 K; the solution is exact"
    for beta in BETAS:
        worst = Worst()
        for eta in ETAS:
            worst.add(share(beta, eta), exact.half_space(eta, beta), f"x/2√(αt) = {eta:g}")
        yield worst.row(f"warming over final warming, h√(αt)/k = {beta:g}", "-", sources.carslaw, 2e-4, why)
    # The water main of a textbook: how deep does frost of 60 days go? The depth goes with the root of the
    # time, so a slab that fits the plan is run for a 400th of it and the depth taken twentyfold. Temperatures
    # are shifted by 20 K, which conduction does not see, to be inside what a plan takes.
    alpha = 0.52 / (2050.0 * 1840.0)
    span = 60 * 86400.0 / 400.0
    out = Solid(0.3, 0.52, 2050.0 * 1840.0, 1e6, 40.0, 5.0).run(span, nodes=401, spacing=2e-4, outputs=4)
    profile, depth = out.temperature[-1], out.position
    half = len(depth) // 2
    frost = 20.0 * float(np.interp(20.0, profile[:half], depth[:half]))
    solved = 2.0 * np.sqrt(alpha * 60 * 86400.0) * erfinv(15.0 / 35.0)
    yield Row("depth of frost after 60 days (scaled)", "m", sources.carslaw, solved, frost, 1e-3, "as above")
    why = "printed to two digits"
    yield Row("the same, as the book prints it", "m", sources.incropera_conduction, 0.68, frost, 0.005, why)


def figures() -> Iterator[Figure]:
    ax = draw.axes("depth [mm]", "temperature [°C]")
    for colour, beta in zip(draw.COLOURS, BETAS, strict=False):
        out = run(beta)
        near = out.position < 0.06
        label = f"libcook, {seconds(beta) / 60:.0f} min"
        ax.plot(1e3 * out.position[near], out.temperature[-1][near], color=colour, label=label)
        depth = np.linspace(0.0, 0.06, 13)
        eta = depth / (2.0 * np.sqrt(ALPHA * seconds(beta)))
        ax.plot(
            1e3 * depth,
            [START + (AIR - START) * exact.half_space(e, beta) for e in eta],
            color=colour,
            **draw.REFERENCE,
        )
    yield draw.finish(
        ax, "The first centimetres of a thick slab. Lines: libcook; circles: error-function solution."
    )
