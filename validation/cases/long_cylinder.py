"""Long cylinder.

Long cylinder in convection against its exact series.

As the plane wall, in a cylinder, whose grid runs from the axis to the surface: Bessel functions in place of
cosines.
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

RADIUS, K, C = 0.05, 0.48, 1060.0 * 3500.0
BIOTS = (0.1, 1.0, 10.0)
FOURIERS = (0.05, 0.1, 0.2, 0.5, 1.0)
UNIT_TIME = RADIUS**2 * C / K
START, AIR = 5.0, 105.0


@cache
def run(biot: float) -> lc.Outcome:
    solid = Solid(2 * RADIUS, K, C, biot * K / RADIUS, START, AIR, is_cylinder=True)
    return solid.run(UNIT_TIME, nodes=321, outputs=20)


def theta(out: lc.Outcome, fourier: float, place: float) -> float:
    return (at(out, fourier * UNIT_TIME, RADIUS * place) - AIR) / (START - AIR)


def rows() -> Iterator[Row]:
    why = "100 K span: 0.02 K, 161 nodes along the radius and a step tolerance of 1e-3 K; the series is exact"
    for biot in BIOTS:
        for name, place in (("axis", 0.0), ("surface", 1.0)):
            worst = Worst()
            for fo in FOURIERS:
                worst.add(theta(run(biot), fo, place), exact.cylinder(biot, fo, place), f"Fo {fo:g}")
            yield worst.row(f"theta at the {name}, Bi {biot:g}", "-", sources.carslaw, 2e-4, why)
        out, worst = run(biot), Worst()
        for fo in FOURIERS:
            i = int(np.argmin(np.abs(out.time - fo * UNIT_TIME)))
            mean = (out.mean_temperature[i] - AIR) / (START - AIR)
            worst.add(1.0 - mean, 1.0 - exact.cylinder_mean(biot, fo), f"Fo {fo:g}")
        yield worst.row(f"heat taken up over heat to exchange, Bi {biot:g}", "-", sources.carslaw, 2e-4, why)


def figures() -> Iterator[Figure]:
    ax = draw.axes("r/R [-]", "θ [-]")
    places = np.linspace(0.0, 1.0, 11)
    for colour, fo in zip(draw.COLOURS, (0.05, 0.2, 0.5, 1.0), strict=False):
        out = run(1.0)
        line = [theta(out, fo, place) for place in np.linspace(0.0, 1.0, 60)]
        ax.plot(np.linspace(0.0, 1.0, 60), line, color=colour, label=f"libcook, Fo {fo:g}")
        ax.plot(places, [exact.cylinder(1.0, fo, p) for p in places], color=colour, **draw.REFERENCE)
    ax.set_ylim(0.0, 1.05)
    yield draw.finish(ax, "Profiles in a cylinder at Bi 1. Lines: libcook; circles: the Bessel series.")
