"""Independent solver.

The same continuous model, written a second time from the documented equations and integrated by SciPy, on
plans drawn at random from a seed: pit, humidity, thickness, mobilities, held share, fat cap, wraps at a
time or a core temperature, rests, a pit that still warms up, slabs and cylinders.

The second implementation (`validation/independent`) shares no code with the engine. Its unknowns are
temperature and water content instead of enthalpy; its cells are centred, graded by a tanh, with a skin cell
of 4 micrometres on each face; mobilities and advected heat are averaged instead of taken from the giving
side; properties are evaluated directly, saturation and latent heat by IAPWS SR1-86 instead of Hyland &
Wexler and a cubic; LSODA with a numerical banded Jacobian takes the steps. Only the numbers of the plan,
from its JSON form, are common.

Core temperatures are compared at equal times since each stage began, every minute: a stage that ends at a
core temperature during the slow creep ends some seconds apart in the two, and where the core then cools by
50 K an hour those seconds would show as tenths of a kelvin. The seconds have a row of their own. The engine
runs with a fine grid and tight tolerances for these rows; what its defaults give is compared in the last
ones.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import figures as draw
import numpy as np
from evidence import Figure, Row, Worst
from independent.plans import SEED, plans
from independent.solver import Cook, Solver
from sources import LIBRARY, Source

import libcook as lc

COUNT, CELLS, RTOL = 12, 101, 1e-5
FINE = {"nodes": 801, "face_spacing": 2e-6, "tolerance": 2e-4, "max_steps": 1_000_000}
CORE, WATER, TIME = 0.1, 1e-3, 1e-3

source = Source(
    "SciPy's LSODA (ODEPACK) on our own second implementation of the equations, with IAPWS SR1-86 for water",
    LIBRARY,
    "computed",
)


@cache
def ours(number: int, fine: bool) -> lc.Outcome:
    options = FINE if fine else {}
    return lc.simulate(plans(COUNT)[number][1], grid="slab", keep_fields=False, **options)


@cache
def second(number: int) -> Cook:
    return Solver(plans(COUNT)[number][1].to_json(), CELLS, RTOL).run()


def traces(out: lc.Outcome, cook: Cook) -> Iterator[tuple[np.ndarray, np.ndarray, np.ndarray]]:
    """Per stage: times on the second solver's clock, its core, libcook's as long after the stage began."""
    starts = [0.0, *cook.ends[:-1]]
    for stage, start, end in zip(out.stage_ends, starts, cook.ends, strict=True):
        length = min(end - start, stage.time - stage.start)
        since = np.arange(0.0, length, 60.0)
        theirs = np.interp(start + since, cook.time, cook.core)
        yield start + since, theirs, np.interp(stage.start + since, out.time, out.core)


def furthest(out: lc.Outcome, cook: Cook) -> tuple[float, float, float]:
    """Time [s] and the two core temperatures, libcook's first, where they are furthest apart."""
    time, theirs, mine = (np.concatenate(part) for part in zip(*traces(out, cook), strict=True))
    at = int(np.argmax(np.abs(mine - theirs)))
    return float(time[at]), float(mine[at]), float(theirs[at])


def left(out: lc.Outcome) -> float:
    """Water that left [kg]."""
    return float(out.ledger.water_start - out.ledger.water_end - out.ledger.on_surface)


def rows() -> Iterator[Row]:
    why = "both are converged to about half of it"
    ends, usual_ends, usual_cores, usual_water = Worst(), Worst(), Worst(), Worst()
    for number, (words, _) in enumerate(plans(COUNT)):
        name, cook, fine, usual = (
            f"plan {number + 1}",
            second(number),
            ours(number, True),
            ours(number, False),
        )
        time, mine, theirs = furthest(fine, cook)
        text = f"{name} ({words}): core where it differs most, at {time / 3600.0:.1f} h"
        yield Row(text, "°C", source, theirs, mine, CORE, why)
        text = f"{name}: water that left"
        yield Row(text, "kg", source, cook.water_left, left(fine), WATER, why, relative=True)
        for stage, end in zip(fine.stage_ends, cook.ends, strict=True):
            ends.add(stage.time / 3600.0, end / 3600.0, f"{name}, {stage.name}")
        for stage, end in zip(usual.stage_ends, cook.ends, strict=True):
            usual_ends.add(stage.time / 3600.0, end / 3600.0, f"{name}, {stage.name}")
        time, mine, theirs = furthest(usual, cook)
        usual_cores.add(mine, theirs, f"{name}, at {time / 3600.0:.1f} h")
        usual_water.add(left(usual), cook.water_left, name)
    yield ends.row("end of a stage", "h", source, TIME, why, relative=True)
    why = "the first order in the spacing at a face (0.15 mm) that the defaults leave"
    yield usual_ends.row("end of a stage, default grid and tolerance", "h", source, 0.015, why, relative=True)
    yield usual_cores.row("core, default grid and tolerance", "°C", source, 0.6, why)
    yield usual_water.row(
        "water that left, default grid and tolerance", "kg", source, 0.015, why, relative=True
    )


def figures() -> Iterator[Figure]:
    ax = draw.axes("time [h]", "core [°C]")
    for colour, number in zip(draw.COLOURS, (0, 3, 6, 9, 11), strict=True):
        out, cook = ours(number, True), second(number)
        ax.plot(out.time / 3600.0, out.core, color=colour, label=f"plan {number + 1}")
        some = np.arange(0.0, cook.time[-1], 2700.0)
        ax.plot(some / 3600.0, np.interp(some, cook.time, cook.core), color=colour, **draw.REFERENCE)
    yield draw.finish(
        ax,
        f"Plans drawn at random (seed {SEED}). Lines: libcook; circles: second implementation, SciPy.",
    )
