"""What a cell holds and conducts, with derivatives: enthalpy, conductivity, water and its mobilities."""

from __future__ import annotations

from typing import Any

import numpy as np
from independent.tissue import Array, Tissue, plus, step

STEP_T, STEP_X = 1e-4, 1e-6  # K and kg/kg, of the difference quotients
ENTHALPY, CONDUCTIVITY, JUICE, BOUND, FAST, SLOW, LIQUID = range(7)


class Bulk:
    """Tissue of a plan. With the plan's fixed thermal numbers water carries no heat, as in the engine."""

    def __init__(self, given: dict[str, Any]) -> None:
        self.tissue = Tissue(given)
        self.fixed = given.get("fixed")

    def liquid(self, t: Array) -> Array:
        """Enthalpy of liquid water from 0 °C [J/kg]."""
        return np.zeros_like(t) if self.fixed else np.asarray(self.tissue.water_heat(t))

    def enthalpy(self, t: Array, x: Array, peak: Array) -> Array:
        """From 0 °C and raw [J/m³]: the integral of `Tissue.bulk`'s heat capacity, and of the water's."""
        if self.fixed:
            return np.asarray(self.fixed["heat_capacity"] * t)
        tissue, s = self.tissue, self.tissue.sinks
        a, b, c = tissue.polynomials[-1]
        melted = step((t - s["fat_melt_start"]) / (s["fat_melt_end"] - s["fat_melt_start"]))[0]
        denatured = tissue.denatured(t)[0]
        kept = step(0.5 * (peak - t - 0.5))[0]
        denatured = denatured + (tissue.denatured(peak)[0] - denatured) * kept
        dry = t * (a + t * (b / 2.0 + t * c / 3.0)) + tissue.mass["fat"] * s["fat_latent"] * melted
        return np.asarray(dry + denatured + tissue.solids * x * tissue.water_heat(t))

    def values(self, t: Array, x: Array, peak: Array) -> Array:
        """One row for each of the names above."""
        tissue = self.tissue
        held, _, k = tissue.bulk(t, x, peak)
        phi = x - held
        juice = plus(phi, tissue.mobility["switch_width"])
        if self.fixed:
            k = np.full_like(t, self.fixed["conductivity"])
        fast, slow = tissue.expressed_mobility(t), tissue.held_mobility(t, np.maximum(x, 0.0))
        return np.stack(
            (self.enthalpy(t, x, peak), k, juice, phi - juice, fast, slow, self.liquid(t)), axis=0
        )

    def slopes(self, t: Array, x: Array, peak: Array, at: Array) -> tuple[Array, Array]:
        """Derivatives of `values` by temperature and by water."""
        by_t = (self.values(t + STEP_T, x, peak) - at) / STEP_T
        return by_t, (self.values(t, x + STEP_X, peak) - at) / STEP_X
