"""The nominal reference slab with FiPy (Python, finite volumes), as its manual would have one write it."""

from __future__ import annotations

import os

os.environ.setdefault("FIPY_SOLVERS", "scipy")

import numpy as np
from fipy import CellVariable, DiffusionTerm, Grid1D, TransientTerm

INTERVALS = 60
LENGTH = 0.07  # m
DENSITY, CAPACITY, CONDUCTIVITY = 1060.0, 3500.0, 0.45  # SI
LATENT, VAPOUR_GAS, AIR_VAPOUR, GAS = 2.4e6, 461.5, 6000.0, 8.314462618  # SI
ACTIVATION, MOBILITY = 25000.0, 3e-9  # J/mol, m²/s at 60 °C
PHASES = ((18.0, 0.012, 121.0), (12.0, 1e-4, 121.0), (6.0, 0.0, 21.0))  # h, h_m, air
UNTIL = (68.0, 95.0)
REST, LONGEST, MINUTE = 7200.0, 43200.0, 60.0


def mobility(t: np.ndarray, c: np.ndarray) -> np.ndarray:
    """Mobility of the water [m²/s]."""
    hot = MOBILITY * np.exp(ACTIVATION / GAS * (1.0 / 333.15 - 1.0 / (t + 273.15)))
    return hot * (0.01 + 0.99 / (1.0 + np.exp(-(c - 0.2) / 0.03)))


def face(t: np.ndarray, c: np.ndarray, phase: int) -> tuple[np.ndarray, np.ndarray]:
    """Heat into and water out of the faces."""
    film, vapour_film, air = PHASES[phase]
    bound = 1.0 - np.exp(-((np.maximum(c, 0.0) / 0.15) ** 2))
    pressure = bound * 610.94 * np.exp(17.625 * t / (t + 243.04))
    density = pressure / (VAPOUR_GAS * (t + 273.15)) - AIR_VAPOUR / (VAPOUR_GAS * (air + 273.15))
    water = vapour_film * density
    return film * (air - t) - water * LATENT, water


def cook(step: float, sweeps: int) -> tuple[np.ndarray, tuple[float, float], int]:
    """Temperatures of the middle at full minutes, when it reached its targets [s], and steps."""
    half = 0.5 * LENGTH / INTERVALS
    mesh = Grid1D(dx=np.concatenate([[half], np.full(INTERVALS - 1, 2.0 * half), [half]]))
    t = CellVariable(mesh=mesh, value=4.0, hasOld=True)
    c = CellVariable(mesh=mesh, value=0.70, hasOld=True)
    spread = CellVariable(mesh=mesh, value=0.0)
    heating = CellVariable(mesh=mesh, value=0.0)
    drying = CellVariable(mesh=mesh, value=0.0)
    heat = TransientTerm(DENSITY * CAPACITY) == DiffusionTerm(CONDUCTIVITY) + heating
    water = TransientTerm() == DiffusionTerm(spread.arithmeticFaceValue) + drying
    ends = [0, -1]
    middle = [4.0]
    reached = [-1.0, -1.0]
    phase = steps = 0
    end = LONGEST
    per_minute = round(MINUTE / step)
    while steps * step < end:
        t.updateOld()
        c.updateOld()
        for _ in range(sweeps):
            t_now, c_now = np.array(t.value), np.array(c.value)
            q, m = face(t_now[ends], c_now[ends], phase)
            sources = np.zeros((2, t_now.size))
            sources[0, ends] = q / half
            sources[1, ends] = -m / DENSITY / half
            heating.setValue(sources[0])
            drying.setValue(sources[1])
            spread.setValue(mobility(t_now, c_now))
            heat.sweep(var=t, dt=step)
            water.sweep(var=c, dt=step)
        steps += 1
        core = float(t.value[INTERVALS // 2])
        if steps % per_minute == 0:
            middle.append(core)
        if phase < 2 and core >= UNTIL[phase]:
            reached[phase] = steps * step
            phase += 1
            if phase == 2:
                end = min(LONGEST, steps * step + REST)
    return np.array(middle), (reached[0], reached[1]), steps
