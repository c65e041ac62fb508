"""A slab with one mobility of moisture and an evaporating front that recedes behind a dry crust.

Heat enters through film and crust to the front, which evaporates near a wet bulb; the vapour then has to
diffuse out through the crust. Liquid comes up with a single mobility; where the front asks for more than
that, it recedes. Nothing is bound, nothing drips, nothing shrinks. Tuned: the thickness of the usual
piece.

ln(time until done) of 200 cooks about the field's regression, by `python -m worlds.tune`: median +0.04,
scatter 0.26; measured cooks scatter by 0.25 (brisket) and 0.35 (pork).
"""

from __future__ import annotations

import math

import numpy as np

from . import physics as law
from .cook import Cook
from .setting import Scale, Setting, Truth, invent, march
from .slab import smoother

NUMBER = 1
SCALE = Scale(brisket=0.0705, pork=0.0796, spread=0.069)
CELLS, STEP = 10, 30.0  # two steps a minute
WATER, LEFT = 740.0, 250.0  # kg/m³ at the start, and in the crust
MOBILITY = 4.5e-9  # m²/s, between published drying (1e-9) and permeation (2e-8); from memory
CRUST_VAPOUR = 2.2e-5 * 0.02  # m²/s: in air, by a small share of open pores
CRUST_HEAT = 0.2  # W/mK, dry meat, from memory
CONVECTION = 0.35  # share of the film that carries vapour; the rest radiates
PAPER_VAPOUR, PAPER_HEAT, FOIL_HEAT = 300.0, 0.003, 0.012  # s/m, m²K/W, m²K/W


class Body:
    def __init__(self, setting: Setting, scale: Scale, dice: np.random.Generator) -> None:
        thick = scale.draw(setting.cut, dice) * law.size(setting.cut, setting.mass)
        self.film, self.outside = law.film(setting.cooker, dice), law.vapour(setting.cooker, dice)
        self.width = 0.5 * thick / CELLS
        self.mobility = MOBILITY * float(np.exp(0.1 * dice.standard_normal()))
        self.heat = smoother(CELLS, self.width, law.CONDUCTIVITY / law.RHO_C, STEP)
        self.flow = smoother(CELLS, self.width, self.mobility, STEP)
        self.t = np.full(CELLS, setting.start)
        self.water = np.full(CELLS, WATER)
        self.crust = 0.0
        self.front = setting.start

    def step(self, air: float, wrap: str) -> float:
        for _ in range(2):
            self._half(air, wrap)
        return float(self.t[-1])

    def _half(self, air: float, wrap: str) -> None:
        inner = 2.0 * law.CONDUCTIVITY / self.width
        extra = {"": 0.0, "foil": FOIL_HEAT, "butcher paper": PAPER_HEAT}[wrap]
        outer = 1.0 / (1.0 / self.film + self.crust / CRUST_HEAT + extra)
        gas = law.GAS * (self.front + 273.15)
        resistance = (
            law.LATENT / (CONVECTION * self.film * law.PSYCHROMETER) + gas * self.crust / CRUST_VAPOUR
        )
        if wrap:
            resistance = math.inf if wrap == "foil" else resistance + gas * PAPER_VAPOUR
        first, front = float(self.t[0]), self.front
        for _ in range(3):
            pressure = law.saturation(front)
            slope = pressure * 17.5043 * 241.2 / (241.2 + front) ** 2
            out = (pressure - self.outside) / resistance
            off = outer * (air - front) - law.LATENT * max(out, 0.0) - inner * (front - first)
            front += off / (outer + inner + (law.LATENT * slope / resistance if out > 0.0 else 0.0))
        self.front = min(front, 105.0)
        there = float(self.water[0]) - LEFT
        out = min(
            max((law.saturation(self.front) - self.outside) / resistance, 0.0),
            0.5 * there * self.width / STEP,
        )
        short = out - 2.0 * self.mobility * there / self.width
        if short > 0.0:
            self.crust += STEP * short / max(there, 100.0)
        self.water[0] -= STEP * out / self.width
        self.water = self.flow @ self.water
        self.t[0] += STEP * inner * (self.front - first) / (law.RHO_C * self.width)
        self.t = self.heat @ self.t


def truth(setting: Setting, scale: Scale, dice: np.random.Generator) -> Truth:
    return march(setting, Body(setting, scale, dice).step)


def make(seed: int, scale: Scale = SCALE, cut: str | None = None) -> Cook:
    """The cook of this seed."""
    return invent(seed, NUMBER, truth, scale, cut)
