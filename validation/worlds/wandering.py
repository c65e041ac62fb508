"""A slab under a wet bulb that wanders, with a probe that somebody moves.

The face gives heat to a wet bulb through a constant conductance that dies away with the water lost; the
wet bulb is an Ornstein-Uhlenbeck process (a damp hour, a dry hour). Once or twice the probe is pushed to
another place, which shows as a step of 1 to 5 K. Tuned: the thickness of the usual piece.

ln(time until done) of 200 cooks about the field's regression, by `python -m worlds.tune`: median -0.03,
scatter 0.25; measured cooks scatter by 0.25 (brisket) and 0.35 (pork).
"""

from __future__ import annotations

import numpy as np

from . import nuisance
from . import physics as law
from .cook import Cook
from .setting import LONGEST, STEP, Scale, Setting, Truth, invent, march
from .slab import smoother

NUMBER = 5
SCALE = Scale(brisket=0.0715, pork=0.0835, spread=0.127)
CELLS = 10
EVAPORATION = 60.0  # W/m²K towards the wet bulb, about law.PSYCHROMETER's at 55 °C for half the film
DRIES = 2.6  # kg/m² lost for evaporation to fall by a factor e
WET_BULB, WANDER, MEMORY = 56.0, 4.0, 3.0 * 3600.0  # °C, K, s
JUMP = (1.0, 5.0)  # K
PAPER, PAPER_HEAT, FOIL_HEAT = 0.45, 0.9, 0.85


class Body:
    def __init__(self, setting: Setting, scale: Scale, dice: np.random.Generator) -> None:
        thick = scale.draw(setting.cut, dice) * law.size(setting.cut, setting.mass)
        self.film = law.film(setting.cooker, dice)
        self.evaporation = EVAPORATION * float(np.exp(0.15 * dice.standard_normal()))
        self.width = 0.5 * thick / CELLS
        self.heat = smoother(CELLS, self.width, law.CONDUCTIVITY / law.RHO_C, STEP)
        self.t = np.full(CELLS, setting.start)
        self.lost, self.at, self.shift = 0.0, 0, 0.0
        level = WET_BULB + 2.0 * float(dice.standard_normal())
        self.wet_bulb = level + nuisance.wander(LONGEST, WANDER, MEMORY, dice)
        moves = int(dice.integers(1, 3))
        steps = dice.integers(90, 660, moves)  # between 1.5 and 11 h
        sizes = dice.choice([-1.0, 1.0], moves) * dice.uniform(*JUMP, moves)
        self.moves = dict(zip(steps.tolist(), sizes.tolist(), strict=True))

    def step(self, air: float, wrap: str) -> float:
        film = self.film * {"": 1.0, "foil": FOIL_HEAT, "butcher paper": PAPER_HEAT}[wrap]
        share = {"": 1.0, "foil": 0.0, "butcher paper": PAPER}[wrap]
        inner = 2.0 * law.CONDUCTIVITY / self.width
        bulb, first = float(self.wet_bulb[self.at]), float(self.t[0])
        away = share * self.evaporation * np.exp(-self.lost / DRIES)
        face = (film * air + away * bulb + inner * first) / (film + away + inner)
        if face < bulb:  # nothing condenses here
            away, face = 0.0, (film * air + inner * first) / (film + inner)
        self.lost += STEP * away * (face - bulb) / law.LATENT
        # The face answers to the first cell at once, so that its heat is taken implicitly.
        outer = film + away
        both = outer * inner / (outer + inner)
        drive = (film * air + away * bulb) / outer
        number = STEP * both / (law.RHO_C * self.width)
        self.t[0] = (first + number * drive) / (1.0 + number)
        self.t = self.heat @ self.t
        self.at += 1
        self.shift += self.moves.get(self.at, 0.0)
        return float(self.t[-1]) + self.shift


def truth(setting: Setting, scale: Scale, dice: np.random.Generator) -> Truth:
    return march(setting, Body(setting, scale, dice).step)


def make(seed: int, scale: Scale = SCALE, cut: str | None = None) -> Cook:
    """The cook of this seed."""
    return invent(seed, NUMBER, truth, scale, cut)
