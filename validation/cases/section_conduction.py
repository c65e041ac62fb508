"""Cross-section: conduction in a rectangle.

A rectangle against the product of two plane walls, and against NAFEMS benchmark T4.

The cross-section with constant properties, nothing evaporates or radiates. A bar of 120 mm x 80 mm, at one
temperature, is put into air at another: with one film coefficient on all four faces its temperature is the
product of two plane walls (Newman). T4, steady: a plate of 0.6 m x 1.0 m, conductivity 52 W/(m·K), one side
insulated, the bottom at 100 °C, 750 W/(m²·K) to 0 °C at the other side and on top; target 18.25 °C on the
convecting side, 0.2 m up. A section has no insulated end: the plate is mirrored there, so that both ends
convect. A section is at most 0.5 m thick: the plate has half the size and the film twice the coefficient, the
same Biot number. The bottom is held by a film coefficient of 1e8 W/(m²·K).
"""

from collections.abc import Iterator
from functools import cache

import exact
import figures as draw
import numpy as np
import sources
from evidence import Figure, Row, Worst
from solids import Block

import libcook as lc

LENGTH, THICK = 0.12, 0.08
K, C, FILM, START, AIR = 0.5, 3.6e6, 20.0, 5.0, 105.0
HOURS = 4
BAR = Block(LENGTH, THICK, K, C, FILM, START, AIR)
SCALE = 0.5
PLATE = Block(2.0 * 0.6 * SCALE, SCALE, 52.0, 1e5, 750.0 / SCALE, 20.0, 0.0, film_below=1e8, air_below=100.0)
COUNTS = (21, 41, 81)  # nodes on either side of the plate, equally spaced
PLACES = {
    "middle": (0.5, 0.5),
    "middle of the bottom": (0.5, 0.0),
    "middle of an end": (0.0, 0.5),
    "a quarter in, a quarter up": (0.25, 0.25),
}


@cache
def bar(columns: int = 81, rows: int = 61) -> lc.Outcome:
    return BAR.run(HOURS * 3600.0, columns=columns, rows=rows, spacing=0.4e-3)


def product(seconds: float, along: float, up: float) -> float:
    """Exact temperature at a place given as shares of length and thickness [°C]."""
    theta = 1.0
    for size, share in ((LENGTH, along), (THICK, up)):
        half = 0.5 * size
        fourier = K / C * seconds / half**2
        theta *= exact.wall(FILM * half / K, fourier, abs(2.0 * share - 1.0))
    return AIR + (START - AIR) * theta


@cache
def target(count: int) -> float:
    """T4's target on equal spacing: a fifth of the way up the end is a node."""
    out = PLATE.run(3000.0, columns=count, rows=count, spacing=0.05, outputs=1)
    last = np.asarray(out.temperature[-1]).reshape(count, count)
    return float(last[-1, (count - 1) // 5])


def rows() -> Iterator[Row]:
    out = bar()
    why = "100 K span: second order on 81 x 61 nodes leaves half of it"
    for name, (along, up) in PLACES.items():
        worst = Worst()
        trace = out.probe((along * LENGTH, up * THICK))
        for time, ours in zip(out.time[1:], trace[1:], strict=True):
            worst.add(ours, product(float(time), along, up), f"after {time / 3600.0:g} h")
        yield worst.row(f"bar of 120 mm x 80 mm: {name}", "°C", sources.carslaw_product, 0.03, why)
    usual = lc.simulate(
        BAR.plan(HOURS * 3600.0), grid="cross-section", evaporation=False, squeezing=False, sinks=False,
        radiation=False, output_every=1800.0,
    )  # fmt: skip
    worst = Worst()
    for time, ours in zip(usual.time[1:], usual.probe((0.5 * LENGTH, 0.5 * THICK))[1:], strict=True):
        worst.add(ours, product(float(time), 0.5, 0.5), f"after {time / 3600.0:g} h")
    why = "as for the slab: the default step tolerance, far below any probe's error"
    yield worst.row("the same, default mesh and tolerance: middle", "°C", sources.carslaw_product, 0.2, why)
    fine = target(COUNTS[-1])
    why = "printed to 0.01 °C; the corner between 100 °C and the film is singular"
    yield Row("T4: temperature 0.2 m up the side", "°C", sources.nafems_t4, 18.25, fine, 0.02, why)


def figures() -> Iterator[Figure]:
    ax = draw.axes("time [h]", "temperature [°C]")
    out = bar()
    for colour, (name, (along, up)) in zip(draw.COLOURS, PLACES.items(), strict=False):
        ax.plot(out.time / 3600.0, out.probe((along * LENGTH, up * THICK)), color=colour, label=name)
        some = np.arange(1800.0, HOURS * 3600.0 + 1.0, 1800.0)
        values = [product(float(s), along, up) for s in some]
        ax.plot(some / 3600.0, values, color=colour, **draw.REFERENCE)
    yield draw.finish(ax, "A bar of 120 mm x 80 mm. Lines: libcook; circles: product of two plane walls.")
