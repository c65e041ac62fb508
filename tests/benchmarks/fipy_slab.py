"""The nominal reference slab with FiPy (Python, finite volumes), as its manual would have one write it."""

from __future__ import annotations

import os

import numpy as np

os.environ.setdefault("FIPY_SOLVERS", "scipy")  # read when FiPy is imported
from fipy import CellVariable, DiffusionTerm, FaceVariable, Grid1D, TransientTerm  # noqa: E402
from numpy_slab import (  # noqa: E402
    CAPACITY,
    CONDUCTIVITY,
    DENSITY,
    INTERVALS,
    LONGEST,
    MINUTE,
    REST,
    START,
    UNTIL,
    WATER,
    NumpySlab,
)


def cook(slab: NumpySlab, step: float, sweeps: int) -> tuple[np.ndarray, tuple[float, float], int]:
    """Temperatures of the middle at full minutes, when it reached its targets [s], and steps."""
    half = 0.5 * slab.length / INTERVALS
    mesh = Grid1D(dx=np.concatenate([[half], np.full(INTERVALS - 1, 2.0 * half), [half]]))
    t = CellVariable(mesh=mesh, value=START, hasOld=True)
    c = CellVariable(mesh=mesh, value=WATER, hasOld=True)
    # FiPy measures from centre to centre of the cells; the nodes of the half cells lie on the surface.
    nearer = np.ones(INTERVALS + 2)
    nearer[[1, -2]] = 0.75
    conductivity = FaceVariable(mesh=mesh, value=CONDUCTIVITY * nearer)
    spread = FaceVariable(mesh=mesh, value=0.0)
    heating = CellVariable(mesh=mesh, value=0.0)
    drying = CellVariable(mesh=mesh, value=0.0)
    heat = TransientTerm(DENSITY * CAPACITY) == DiffusionTerm(conductivity) + heating
    water = TransientTerm() == DiffusionTerm(spread) + drying
    ends = [0, -1]
    middle = [START]
    reached = [-1.0, -1.0]
    phase = steps = 0
    end = LONGEST
    per_minute = round(MINUTE / step)
    while steps * step < end:
        t.updateOld()
        c.updateOld()
        for _ in range(sweeps):
            t_now, c_now = np.array(t.value), np.array(c.value)
            q, m = slab.faces(t_now[ends], c_now[ends])
            sources = np.zeros((2, t_now.size))
            sources[0, ends] = q / half
            sources[1, ends] = -m / DENSITY / half
            heating.setValue(sources[0])
            drying.setValue(sources[1])
            d = slab.mobility(t_now, c_now)
            spread.setValue(nearer * np.concatenate([[0.0], 0.5 * (d[1:] + d[:-1]), [0.0]]))
            heat.sweep(var=t, dt=step)
            water.sweep(var=c, dt=step)
        steps += 1
        core = float(t.value[INTERVALS // 2])
        if steps % per_minute == 0:
            middle.append(core)
        if phase < 2 and core >= UNTIL[phase]:
            reached[phase] = steps * step
            phase += 1
            slab.phase = phase
            if phase == 2:
                end = min(LONGEST, steps * step + REST)
    return np.array(middle), (reached[0], reached[1]), steps
