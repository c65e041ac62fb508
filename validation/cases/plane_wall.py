"""Plane wall.

Plane wall in convection against its exact series.

A slab at one temperature is put into air at another; both faces have the same given film coefficient,
conductivity and heat capacity are constant, nothing evaporates or radiates. Biot numbers 0.1, 1 and 10 at
Fourier numbers 0.05 to 2.
"""

from collections.abc import Iterator
from functools import cache

import exact
import figures as draw
import numpy as np
import sources
from evidence import Figure, Row, Worst
from solids import Solid, at

import libcook as lc

HALF, K, C = 0.03, 0.48, 1060.0 * 3500.0  # meat-like: 60 mm thick
BIOTS = (0.1, 1.0, 10.0)
FOURIERS = (0.05, 0.1, 0.2, 0.5, 1.0, 2.0)
UNIT_TIME = HALF**2 * C / K
START, AIR = 5.0, 105.0


@cache
def run(biot: float, **options: float) -> lc.Outcome:
    solid = Solid(2 * HALF, K, C, biot * K / HALF, START, AIR)
    return solid.run(2.0 * UNIT_TIME, outputs=40, **options)


def theta(out: lc.Outcome, fourier: float, place: float) -> float:
    return (at(out, fourier * UNIT_TIME, HALF * (1.0 + place)) - AIR) / (START - AIR)


def rows() -> Iterator[Row]:
    why = "100 K span: 0.02 K, 161 nodes and a step tolerance of 1e-3 K; the series is exact to rounding"
    for biot in BIOTS:
        for name, place in (("middle", 0.0), ("face", 1.0)):
            worst = Worst()
            for fo in FOURIERS:
                worst.add(theta(run(biot), fo, place), exact.wall(biot, fo, place), f"Fo {fo:g}")
            yield worst.row(f"theta at the {name}, Bi {biot:g}", "-", sources.carslaw, 2e-4, why)
        out, worst = run(biot), Worst()
        for fo in FOURIERS:
            i = int(np.argmin(np.abs(out.time - fo * UNIT_TIME)))
            mean = (out.mean_temperature[i] - AIR) / (START - AIR)
            worst.add(1.0 - mean, 1.0 - exact.wall_mean(biot, fo), f"Fo {fo:g}")
        yield worst.row(f"heat taken up over heat to exchange, Bi {biot:g}", "-", sources.carslaw, 2e-4, why)
    yield defaults()
    yield order()


def defaults() -> Row:
    """The grid and tolerance that a user gets without asking."""
    solid, worst = Solid(2 * HALF, K, C, 18.0, 5.0, 121.0), Worst()
    seconds = 6 * 3600.0
    out = lc.simulate(solid.plan(seconds), evaporation=False, squeezing=False, sinks=False, radiation=False)
    for hours in (0.5, 1, 2, 3, 4, 6):
        fo = hours * 3600.0 / UNIT_TIME
        reference = 121.0 + (5.0 - 121.0) * exact.wall(18.0 * HALF / K, fo, 0.0)
        worst.add(out.core_at(hours * 3600.0), reference, f"after {hours:g} h")
    why = "the default step tolerance is some 0.02 K a step; ten times that is far below any probe's error"
    return worst.row("core of a 60 mm slab with default grid and tolerance", "°C", sources.carslaw, 0.2, why)


def order() -> Row:
    """Error of the middle against the number of intervals, equally spaced."""
    counts, errors = (9, 17, 33), []
    for nodes in counts:
        out = run(10.0, nodes=nodes, tolerance=2e-5, spacing=HALF)
        errors.append(abs(theta(out, 0.2, 0.0) - exact.wall(10.0, 0.2, 0.0)))
    slope = np.polyfit(np.log([n - 1 for n in counts]), np.log(errors), 1)[0]
    why = "central differences are second order; the coarsest grid is not yet in the asymptotic range"
    return Row(f"observed order in space, {counts} nodes", "-", sources.carslaw, 2.0, -slope, 0.2, why)


def figures() -> Iterator[Figure]:
    ax = draw.axes("Fo = αt/L² [-]", "θ at the middle [-]")
    fine = np.linspace(0.01, 2.0, 100)
    for colour, biot in zip(draw.COLOURS, BIOTS, strict=False):
        out = run(biot)
        fo = out.time / UNIT_TIME
        ax.plot(fo, (out.core - AIR) / (START - AIR), color=colour, label=f"libcook, Bi {biot:g}")
        some = fine[::8]
        ax.plot(some, [exact.wall(biot, f, 0.0) for f in some], color=colour, **draw.REFERENCE)
    yield draw.finish(ax, "Middle of a plane wall. Lines: libcook; circles: the series of Carslaw & Jaeger.")
