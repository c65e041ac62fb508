"""NAFEMS benchmarks T3 and T2.

NAFEMS benchmarks T3 (transient) and T2 (steady, with radiation).

T3: a bar of 0.1 m, conductivity 35 W/(m·K), specific heat 440.5 J/(kg·K), density 7200 kg/m³, at 0 °C, its
one end held at 0 °C and the other at 100 sin(πt/40) °C. Target: 36.60 °C at 0.08 m after 32 s. Here the
ends are held by a film coefficient of 1e8 W/(m²·K), and the sine is the ripple of the air. T2: a bar of 0.1
m, one end at 1000 K, the other radiating (emissivity 0.98) to surroundings at 300 K; target 927.0 K. A plan
ends at 260 °C, so T2 is run as the same dimensionless problem (εσT₀³L/k and T_surroundings/T₀ kept) with T₀
= 533.15 K. Its surroundings are then colder than a sky that fills the whole view may be, so they fill half of
it, before half the conductivity.
"""

from collections.abc import Iterator
from functools import cache

import figures as draw
import numpy as np
import sources
from evidence import Figure, Row
from solids import Solid, at

import libcook as lc

HELD = 1e8  # 1e5 W/m² through the hot end then take 1 mK
# Shifted by 60 K and with three quarters of the amplitude, which conduction with constant properties does not
# see, so that the trough of the sine is no colder than a plan takes.
SHIFT = 60.0
SCALE = 0.75
T3 = Solid(0.1, 35.0, 440.5 * 7200.0, HELD, SHIFT, SHIFT, air_below=SHIFT, ripple=(100.0 * SCALE, 80.0))
COUNTS = (11, 21, 41, 81, 161, 321)
ORDER_OF = (41, 81, 161)


@cache
def t3(nodes: int) -> lc.Outcome:
    return T3.run(32.0, nodes=nodes, tolerance=1e-4, spacing=0.05, outputs=64)


def target(nodes: int) -> float:
    return (at(t3(nodes), 32.0, 0.08) - SHIFT) / SCALE


def rows() -> Iterator[Row]:
    fine = target(321)
    yield Row(
        "T3: temperature at 0.08 m after 32 s", "°C", sources.nafems, 36.60, fine, 0.01, "printed to 0.01 °C"
    )
    coarse, middle, dense = (target(n) for n in ORDER_OF)
    order = np.log2((middle - coarse) / (dense - middle))
    why = "central differences are second order; from the changes between three grids, each twice as fine"
    yield Row(f"T3: observed order in space, {ORDER_OF} nodes", "-", sources.nafems, 2.0, order, 0.1, why)
    yield t2()


def t2() -> Row:
    held = 533.15  # K, 260 °C: the hottest air that a plan takes
    ratio = held / 1000.0
    view = 0.5
    conductivity = 55.563 * ratio**3 * view
    surroundings = 300.0 * ratio
    # The radiating end has no film: what it sees is set below an air of 20 °C that it does not feel.
    bar = Solid(
        0.1, conductivity, 1e5, 0.0, 60.0, 20.0, film_below=1e6, air_below=held - 273.15, emissivity=0.98,
        radiant=surroundings - 293.15, view=view,
    )  # fmt: skip
    end = bar.run(2000.0, nodes=41, spacing=0.05, outputs=4).temperature[-1][-1]
    kelvin = (end + 273.15) / ratio
    why = "printed to 0.1 K, and the constant of the benchmark, 5.67e-8, is rounded"
    return Row("T2: radiating end (scaled)", "K", sources.nafems_t2, 927.0, kelvin, 0.1, why)


def figures() -> Iterator[Figure]:
    ax = draw.axes("time [s]", "temperature [°C]")
    out = t3(161)
    for colour, place in zip(draw.COLOURS, (0.1, 0.08, 0.06, 0.04), strict=False):
        trace = [(float(np.interp(place, out.position, row)) - SHIFT) / SCALE for row in out.temperature]
        ax.plot(out.time, trace, color=colour, label=f"libcook, {1e3 * place:.0f} mm")
    ax.plot(32.0, 36.60, color=draw.COLOURS[1], label="NAFEMS T3: 36.60 °C", **draw.REFERENCE)
    yield draw.finish(ax, "NAFEMS T3: a bar whose end follows a sine.")
    ax = draw.axes("intervals [-]", "error at the target [K]")
    errors = [abs(target(n) - 36.6031) for n in COUNTS]
    ax.loglog([n - 1 for n in COUNTS], errors, marker="s", label="libcook")
    ax.loglog(
        [10, 320], [errors[0], errors[0] / 1024.0], color="#888888", linestyle="--", label="second order"
    )
    caption = "T3: convergence on equal spacing to 36.6031 °C; the film coefficient of the end leaves 1 mK."
    yield draw.finish(ax, caption)
