"""Cross-section: a long one of even thickness.

The middle of a long cross-section of even thickness against a slab.

A section 2 m long and 50 mm thick throughout, of the brisket's tissue, without fat cap: far from its ends it
is a slab. It is smoked bare at 120 °C for five hours, three more in butcher paper, and rested on the counter
in foil, with all of the physics. Its middle is compared with the second implementation of the equations
(`validation/independent`, one dimension, SciPy's LSODA) and with libcook's own slab, whose rows against
everything else are in the other cases.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import figures as draw
import numpy as np
from evidence import Figure, Row
from independent.solver import Cook, Solver
from sources import LIBRARY, Source, own_slab

import libcook as lc

LENGTH, THICK = 2.0, 0.05
SPACING, ROWS = 0.1e-3, 41

second_solver = Source(
    "SciPy's LSODA (ODEPACK) on our own second implementation of the equations, with IAPWS SR1-86 for water",
    LIBRARY,
    "computed",
)


def plan() -> lc.Plan:
    pit = lc.pit("drum", air=120.0)
    section = lc.Section(length=LENGTH, width=0.3, at=[0.0, LENGTH], thickness=[THICK, THICK], side_share=0.0)
    meat = lc.with_section(lc.brisket(mass=6.0), section).replace(fat_cap=lc.FatCap(side="none"))
    return lc.Plan(
        meat,
        [
            lc.Stage("smoke", pit, until=lc.elapsed("5 h")),
            lc.Stage("wrapped", pit, wrap="butcher paper", until=lc.elapsed("3 h")),
            lc.Stage("rest", lc.counter(21.0), wrap="foil", until=lc.elapsed("90 min")),
        ],
        probes=[lc.Probe("middle", x=0.5 * LENGTH, z=0.5 * THICK)],
    )


@cache
def section() -> lc.Outcome:
    return lc.simulate(
        plan(), grid="cross-section", columns=21, rows=ROWS, face_spacing=SPACING, tolerance=0.01
    )


@cache
def slab() -> lc.Outcome:
    return lc.simulate(plan(), grid="slab", nodes=ROWS, face_spacing=SPACING, tolerance=0.01)


@cache
def second() -> Cook:
    return Solver(plan().to_json(), 101, 1e-5).run()


def middle(out: lc.Outcome) -> np.ndarray:
    return np.asarray(out.probe("middle"))


def rows() -> Iterator[Row]:
    out, other, cook = section(), slab(), second()
    for source, time, core, tolerance, why in (
        (
            second_solver,
            cook.time,
            cook.core,
            0.15,
            "the spacing at the faces, 0.1 mm against 4 micrometres, is first order",
        ),
        (own_slab, other.time, other.core, 0.1, "the same cells across, stepped on their own"),
    ):
        theirs = np.interp(out.time, time, core)
        ours = middle(out)
        worst = int(np.argmax(np.abs(ours - theirs)))
        text = f"middle of a long, even section where it differs most, at {out.time[worst] / 3600.0:.1f} h"
        yield Row(text, "°C", source, float(theirs[worst]), float(ours[worst]), tolerance, why)


def figures() -> Iterator[Figure]:
    ax = draw.axes("time [h]", "middle [°C]")
    out, cook = section(), second()
    ax.plot(out.time / 3600.0, middle(out), color=draw.COLOURS[0], label="cross-section")
    some = np.arange(0.0, cook.time[-1], 1800.0)
    ax.plot(
        some / 3600.0,
        np.interp(some, cook.time, cook.core),
        color=draw.COLOURS[1],
        label="second implementation, slab",
        **draw.REFERENCE,
    )
    yield draw.finish(ax, "A long section of even thickness, bare, in paper, and resting in foil.")
