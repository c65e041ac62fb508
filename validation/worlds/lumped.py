"""Two lumps: a shell that takes up heat, evaporates and dries out, and a core that follows it.

The shell's water is made up from the core's at a rate of its own; evaporation falls with what the shell
still has. No profile, no front. Tuned: the thickness that the lumps' capacities and the conductance
between them stand for.

ln(time until done) of 200 cooks about the field's regression, by `python -m worlds.tune`: median +0.03,
scatter 0.27; measured cooks scatter by 0.25 (brisket) and 0.35 (pork).
"""

from __future__ import annotations

import numpy as np

from . import physics as law
from .cook import Cook
from .setting import STEP, Scale, Setting, Truth, invent, march

NUMBER = 2
SCALE = Scale(brisket=0.0650, pork=0.0736, spread=0.208)
SHELL = 0.35  # share of the piece
WATER = 740.0  # kg/m³
FLOW = 2.2e-9  # m²/s: over half the thickness squared, the rate at which shell and core share water
DRY = 1.0  # power of the shell's wetness in its evaporation
CONVECTION = 0.5  # share of the film that carries vapour
PAPER, PAPER_HEAT, FOIL_HEAT = 0.35, 0.85, 0.8  # shares of evaporation and film that wraps leave


class Body:
    def __init__(self, setting: Setting, scale: Scale, dice: np.random.Generator) -> None:
        half = 0.5 * scale.draw(setting.cut, dice) * law.size(setting.cut, setting.mass)
        self.film, self.outside = law.film(setting.cooker, dice), law.vapour(setting.cooker, dice)
        self.between = law.CONDUCTIVITY / (0.45 * half)
        self.capacity = law.RHO_C * half
        self.full = WATER * half
        flow = FLOW * float(np.exp(0.2 * dice.standard_normal()))
        self.supply = self.full * flow / half**2
        self.t_shell = self.t_core = setting.start
        self.shell, self.core = SHELL * self.full, (1.0 - SHELL) * self.full

    def step(self, air: float, wrap: str) -> float:
        wet = max(self.shell / (SHELL * self.full), 0.0)
        film = self.film * {"": 1.0, "foil": FOIL_HEAT, "butcher paper": PAPER_HEAT}[wrap]
        share = {"": 1.0, "foil": 0.0, "butcher paper": PAPER}[wrap]
        drive = max(law.saturation(self.t_shell) - self.outside, 0.0)
        away = share * CONVECTION * self.film * law.PSYCHROMETER * drive * wet**DRY  # W/m²
        up = self.supply * (self.core / ((1.0 - SHELL) * self.full) - wet)
        inward = self.between * (self.t_shell - self.t_core)
        self.t_shell += STEP * (film * (air - self.t_shell) - away - inward) / (SHELL * self.capacity)
        self.t_core += STEP * inward / ((1.0 - SHELL) * self.capacity)
        self.shell += STEP * (up - away / law.LATENT)
        self.core -= STEP * up
        return self.t_core


def truth(setting: Setting, scale: Scale, dice: np.random.Generator) -> Truth:
    return march(setting, Body(setting, scale, dice).step)


def make(seed: int, scale: Scale = SCALE, cut: str | None = None) -> Cook:
    """The cook of this seed."""
    return invent(seed, NUMBER, truth, scale, cut)
