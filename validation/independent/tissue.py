"""Meat as a continuum: heat capacity, conductivity, held water and its two mobilities, for arrays.

Components by Choi & Okos 1986 (from temperature in °C): lean in parallel, fat dispersed in it by
Maxwell-Eucken. What denaturation leaves behind is remembered by the highest temperature so far (`peak`): it
takes over from 0.5 to 2.5 K below the peak.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# Per component: conductivity [W/(m·K)], density [kg/m³], specific heat [J/(kg·K)], as polynomials in °C.
CHOI_OKOS = {
    "water": (
        (5.7109e-1, 1.7625e-3, -6.7036e-6),
        (997.18, 3.1439e-3, -3.7574e-3),
        (4176.2, -9.0864e-2, 5.4731e-3),
    ),
    "protein": ((1.7881e-1, 1.1958e-3, -2.7178e-6), (1329.9, -0.5184, 0.0), (2008.2, 1.2089, -1.3129e-3)),
    "fat": ((1.8071e-1, -2.7604e-4, -1.7749e-7), (925.59, -0.41757, 0.0), (1984.2, 1.4733, -4.8008e-3)),
    "carbohydrate": (
        (2.0141e-1, 1.3874e-3, -4.3312e-6),
        (1599.1, -0.31046, 0.0),
        (1548.8, 1.9625, -5.9399e-3),
    ),
    "ash": ((3.2962e-1, 1.4011e-3, -2.9069e-6), (2423.8, -0.28063, 0.0), (1092.6, 1.8896, -3.6817e-3)),
}
SOLIDS = ("protein", "carbohydrate", "ash")
FAT = list(CHOI_OKOS).index("fat")
GAS = 8.314462618
LOG_10 = math.log(10.0)
MODULUS_FLUIDITY_60 = (12e3 + 83e3 / 2.0) * math.exp(-247.8 * LOG_10 / 193.15) / 2.414e-5

LAST_WATER = 0.002  # water at which what tissue can give has halved on its way to zero [kg/kg dry]


def poly(c: tuple[float, float, float] | Array, t: Any) -> Any:
    return c[0] + t * (c[1] + t * c[2])


def step(x: Any) -> tuple[Any, Any]:
    """Quintic from 0 at x = 0 to 1 at x = 1, and its slope."""
    u = np.minimum(np.maximum(x, 0.0), 1.0)
    return u * u * u * (10.0 - 15.0 * u + 6.0 * u * u), 30.0 * (u * (1.0 - u)) ** 2


def plus(x: Any, width: float) -> Any:
    """Integral of a linear rise from 0 at 0 to 1 at `width`."""
    over = np.maximum(x, 0.0)
    u = np.minimum(over, width)
    return u * u / (2.0 * width) + (over - u)


class Tissue:
    """`given`: the tissue of a plan in JSON."""

    def __init__(self, given: dict[str, Any]) -> None:
        share = {name: given["composition"][name] for name in CHOI_OKOS}
        total = sum(share.values())
        raw = total / sum(x / poly(CHOI_OKOS[name][1], 5.0) for name, x in share.items())
        self.mass = {name: raw * x / total for name, x in share.items()}  # [kg/m³ raw]
        self.solids = sum(self.mass[name] for name in SOLIDS)
        self.raw_water = self.mass["water"] / self.solids
        table = np.array(list(CHOI_OKOS.values()))  # component, property, power of t
        dry = sum(self.mass[name] * table[i, 2] for i, name in enumerate(CHOI_OKOS) if name != "water")
        self.polynomials = np.vstack((table[:, 0], table[:, 1], table[0, 2], dry))
        self.masses = np.array([1.0 if name == "water" else self.mass[name] for name in CHOI_OKOS])[:, None]
        self.holding, self.mobility = given["holding"], given["mobility"]
        self.sinks, self.sorption, self.exudation = given["sinks"], given["sorption"], given["exudation"]
        self.emissivity = given["emissivity"]
        # Conductivity lost per water let go by the proteins, as a share [kg dry/kg]
        released = self.raw_water * (1.0 - self.holding["final_share"])
        self.lost = (1.0 - given["cooked_conductivity"]) / released

    @staticmethod
    def water_heat(t: Any) -> Any:
        """Enthalpy of liquid water from 0 °C [J/kg]."""
        a, b, c = CHOI_OKOS["water"][2]
        return t * (a + t * (b / 2.0 + t * c / 3.0))

    def held_at(self, t: Any) -> Any:
        h = self.holding
        released = 1.0 / (1.0 + np.exp(-(t - h["midpoint"]) / h["width"]))
        return self.raw_water * (1.0 - (1.0 - h["final_share"]) * released)

    def denatured(self, t: Any) -> tuple[Any, Any]:
        """Heat of denaturation taken up on warming [J/m³] and its slope."""
        s = self.sinks
        span = s["denaturation_end"] - s["denaturation_start"]
        value, slope = step((t - s["denaturation_start"]) / span)
        scale = self.mass["protein"] * s["denaturation"]
        return scale * value, scale * slope / span

    def bulk(self, t: Array, x: Array, peak: Array) -> tuple[Array, Array, Array]:
        """Held water [kg/kg], heat capacity [J/(m³·K)] and conductivity [W/(m·K)]."""
        s = self.sinks
        span = s["fat_melt_end"] - s["fat_melt_start"]
        melting = step((t - s["fat_melt_start"]) / span)[1] / span
        denatured, denaturing = self.denatured(t)
        held = self.held_at(t)
        drop = 0.5 * (peak - t - 0.5)
        if drop.max() > 0.0:
            kept, keeping = step(drop)
            denaturing = denaturing * (1.0 - kept) - (self.denatured(peak)[0] - denatured) * 0.5 * keeping
            held = held + (self.held_at(peak) - held) * kept
        wet = self.solids * np.maximum(x, 0.0)
        # All polynomials at once: k and density of each component, c of water and of the dry part.
        rows = self.polynomials @ np.stack((np.ones_like(t), t, t * t))
        k, density = rows[: len(CHOI_OKOS)], rows[len(CHOI_OKOS) : 2 * len(CHOI_OKOS)]
        volume = self.masses / density
        volume[0] *= wet
        volume_fat, k_fat = volume[FAT], k[FAT]
        lean = volume.sum(axis=0) - volume_fat
        k_lean = ((k * volume).sum(axis=0) - k_fat * volume_fat) / lean
        f = volume_fat / (lean + volume_fat)
        base, change = 2.0 * k_lean + k_fat, f * (k_lean - k_fat)
        capacity = rows[-1] + self.mass["fat"] * s["fat_latent"] * melting + denaturing
        capacity += self.solids * x * rows[-2]
        cooked = 1.0 - self.lost * (self.raw_water - held)
        return held, capacity, cooked * k_lean * (base - 2.0 * change) / (base + change)

    def expressed_mobility(self, t: Any, exp: Any = np.exp) -> Any:
        """Modulus over viscosity, scaled to its value at 60 °C [m²/s]."""
        modulus = 12e3 + 83e3 / (1.0 + exp(-0.3 * (t - 60.0)))
        fluidity = exp(-247.8 * LOG_10 / (t + 133.15)) / 2.414e-5
        return self.mobility["expressed"] * modulus * fluidity / MODULUS_FLUIDITY_60

    def held_mobility(self, t: Any, x: Any, exp: Any = np.exp) -> Any:
        """Arrhenius in temperature, falling with the last water [m²/s]; `x` not below 0."""
        m = self.mobility
        arrhenius = exp(m["held_activation"] / GAS * (1.0 / 333.15 - 1.0 / (t + 273.15)))
        square = (x / m["dry_below"]) ** 2
        fourth = square * square
        wet = m["dry_floor"] + (1.0 - m["dry_floor"]) * fourth / (1.0 + fourth)
        return m["held"] * arrhenius * wet * x / (x + LAST_WATER)

    def activity(self, x: float) -> float:
        """Water activity: the root of the sorption isotherm in K a, a quadratic."""
        g = self.sorption
        if x <= 0.0:
            return 0.0
        square, line = (g["c"] - 1.0) * x, g["monolayer"] * g["c"] - (g["c"] - 2.0) * x
        root = 2.0 * x / (line + math.sqrt(line * line + 4.0 * square * x))
        return min(root / g["k"], 1.0)
