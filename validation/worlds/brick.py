"""A brick in three dimensions that conducts, dries at its faces, and shrinks.

An eighth of it is solved, in finite volumes with explicit steps: heat and water diffuse; a face
evaporates what its air takes or what comes up to it, whichever is less (joined smoothly); lost water
takes its volume with it, so that the brick becomes smaller in all directions. Coarse: it is a foreign
truth, not a reference (that is validation/brick). Tuned: the thickness of the usual piece.

ln(time until done) of 200 cooks about the field's regression, by `python -m worlds.tune`: median -0.04,
scatter 0.29; measured cooks scatter by 0.25 (brisket) and 0.35 (pork).
"""

from __future__ import annotations

import math

import numpy as np

from . import physics as law
from .cook import Array, Cook
from .setting import STEP, Scale, Setting, Truth, invent, march

NUMBER = 3
SCALE = Scale(brisket=0.0441, pork=0.0581, spread=0.178)
CELLS = (6, 5, 4)  # of half the length, width, thickness; the outermost are the last
ASPECT = {"brisket": 1.6, "pork": 1.3}  # length over width, as the sizes of validation/field have it
DENSITY, WATER = 1050.0, 740.0  # kg/m³
MOBILITY = 5.5e-9  # m²/s, between published drying (1e-9) and permeation (2e-8); from memory
CONVECTION = 0.4  # share of the film that carries vapour
PAPER, PAPER_HEAT, FOIL_HEAT = 0.4, 0.88, 0.8  # shares of evaporation and film that wraps leave


def _spread(field: Array, number: tuple[float, float, float]) -> Array:
    """What a step of diffusion adds to each cell, nothing passing the outside."""
    out = np.zeros_like(field)
    flow = number[0] * (field[1:] - field[:-1])
    out[:-1] += flow
    out[1:] -= flow
    flow = number[1] * (field[:, 1:] - field[:, :-1])
    out[:, :-1] += flow
    out[:, 1:] -= flow
    flow = number[2] * (field[:, :, 1:] - field[:, :, :-1])
    out[:, :, :-1] += flow
    out[:, :, 1:] -= flow
    return out


class Body:
    def __init__(self, setting: Setting, scale: Scale, dice: np.random.Generator) -> None:
        thick = scale.draw(setting.cut, dice) * law.size(setting.cut, setting.mass)
        self.film, self.outside = law.film(setting.cooker, dice), law.vapour(setting.cooker, dice)
        width = math.sqrt(setting.mass / (DENSITY * thick * ASPECT[setting.cut]))
        sides = np.array([ASPECT[setting.cut] * width, width, thick])
        self.fresh = 0.5 * sides / np.array(CELLS)
        self.mobility = MOBILITY * float(np.exp(0.2 * dice.standard_normal()))
        self.t, self.wet = np.full(CELLS, setting.start), np.ones(CELLS)
        order = np.arange(math.prod(CELLS)).reshape(CELLS)
        parts = [order[-1].ravel(), order[:, -1].ravel(), order[:, :, -1].ravel()]
        self.cell = np.concatenate(parts)
        self.axis = np.repeat([0, 1, 2], [part.size for part in parts])
        self.face = np.full(self.cell.size, setting.start)

    def step(self, air: float, wrap: str) -> float:
        lost = WATER / DENSITY * (1.0 - float(self.wet.mean()))
        size = self.fresh * (1.0 - lost) ** (1.0 / 3.0)
        heat = law.CONDUCTIVITY / law.RHO_C
        count = math.ceil(STEP * heat * float((1.0 / size**2).sum()) / 0.4)
        for _ in range(count):
            self._part(air, wrap, size, STEP / count)
        return float(self.t[0, 0, 0])

    def _part(self, air: float, wrap: str, size: Array, step: float) -> None:
        film = self.film * {"": 1.0, "foil": FOIL_HEAT, "butcher paper": PAPER_HEAT}[wrap]
        share = {"": 1.0, "foil": 0.0, "butcher paper": PAPER}[wrap]
        across = size[self.axis]
        inner = 2.0 * law.CONDUCTIVITY / across
        first, wet = self.t.ravel()[self.cell], self.wet.ravel()[self.cell]
        able = share * CONVECTION * self.film * law.PSYCHROMETER
        supply = 2.0 * law.LATENT * WATER * self.mobility * np.maximum(wet, 1e-6) / across  # W/m²
        pressure = law.saturations(self.face)
        asked = np.maximum(able * (pressure - self.outside), 0.0)
        away = asked * supply / (asked + supply)
        steep = (
            able * pressure * 17.5043 * 241.2 / (241.2 + self.face) ** 2 * (supply / (asked + supply)) ** 2
        )
        off = film * (air - self.face) - away - inner * (self.face - first)
        change = off / (film + inner + steep)
        self.face = self.face + change
        away = np.maximum(away + steep * change, 0.0)
        number = step / size**2
        heat, flow = law.CONDUCTIVITY / law.RHO_C * number, self.mobility * number
        warmer = _spread(self.t, (heat[0], heat[1], heat[2]))
        wetter = _spread(self.wet, (flow[0], flow[1], flow[2]))
        cells = self.t.size
        into = np.bincount(self.cell, inner * (self.face - first) / across, cells)
        out = np.bincount(
            self.cell, np.minimum(away / (law.LATENT * WATER * across), 0.3 * wet / step), cells
        )
        self.t = self.t + warmer + step / law.RHO_C * into.reshape(CELLS)
        self.wet = self.wet + wetter - step * out.reshape(CELLS)


def truth(setting: Setting, scale: Scale, dice: np.random.Generator) -> Truth:
    return march(setting, Body(setting, scale, dice).step)


def make(seed: int, scale: Scale = SCALE, cut: str | None = None) -> Cook:
    """The cook of this seed."""
    return invent(seed, NUMBER, truth, scale, cut)
