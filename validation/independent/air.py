"""Properties of air and film coefficients, scalar.

Conductivity and viscosity: U.S. Standard Atmosphere 1976. Specific heat: parabola 1007 + 0.01 x + 6e-4 x²,
x = T - 300 K. Diffusivity of vapour: Marrero & Mason 1972. Plates: McAdams, as in Incropera et al.;
flow along a plate: Pohlhausen; cylinder in still air: Churchill & Chu 1975.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

GAS, WATER_MOLAR, AIR_MOLAR = 8.314462618, 18.015268e-3, 28.966e-3
VAPOUR_GAS = GAS / WATER_MOLAR
GRAVITY, ATMOSPHERE, SIGMA = 9.80665, 101325.0, 5.670374419e-8


@dataclass(frozen=True)
class Air:
    """Dry air at a film temperature [°C] and a pressure [Pa]."""

    celsius: float
    pressure: float = ATMOSPHERE

    @property
    def kelvin(self) -> float:
        return self.celsius + 273.15

    @property
    def density(self) -> float:
        return self.pressure * AIR_MOLAR / (GAS * self.kelvin)

    @property
    def specific_heat(self) -> float:
        x = self.kelvin - 300.0
        return 1007.0 + 0.01 * x + 6e-4 * x * x

    @property
    def conductivity(self) -> float:
        return 2.64638e-3 * self.kelvin**1.5 / (self.kelvin + 245.4 * 10.0 ** (-12.0 / self.kelvin))

    @property
    def viscosity(self) -> float:
        return 1.458e-6 * self.kelvin**1.5 / (self.kelvin + 110.4)

    @property
    def prandtl(self) -> float:
        return self.specific_heat * self.viscosity / self.conductivity

    @property
    def diffusivity(self) -> float:
        return self.conductivity / (self.density * self.specific_heat)

    def rayleigh(self, gap: float, length: float) -> float:
        nu = self.viscosity / self.density
        return GRAVITY * gap * length**3 / (self.kelvin * nu * self.diffusivity)

    def mass_per_heat(self) -> float:
        """h_m / h by Chilton and Colburn [m³·K/J]."""
        vapour = 1.87e-10 * self.kelvin**2.072 * ATMOSPHERE / self.pressure
        lewis = self.diffusivity / vapour
        return 1.0 / (self.density * self.specific_heat * lewis ** (2.0 / 3.0))


def along_plate(velocity: float, length: float, air: Air) -> float:
    """Laminar film coefficient in a stream [W/(m²·K)]; Reynolds number below 5e5."""
    reynolds = air.density * velocity * length / air.viscosity
    if reynolds > 5e5:
        raise ValueError(f"Reynolds number {reynolds:g}: turbulent, which no plan here is")
    return 0.664 * math.sqrt(reynolds) * air.prandtl ** (1 / 3) * air.conductivity / length


def plate_in_still_air(length: float, air: Air, lively: bool) -> float:
    """The b of h = b |dT|^(1/4) [W m^-2 K^-5/4]."""
    return (0.54 if lively else 0.27) * air.rayleigh(1.0, length) ** 0.25 * air.conductivity / length


def cylinder_in_still_air(diameter: float, air: Air, gap: float) -> float:
    """The b that gives the Churchill-Chu coefficient at a temperature difference."""
    bracket = (1.0 + (0.559 / air.prandtl) ** (9 / 16)) ** (8 / 27)
    nusselt = (0.60 + 0.387 * air.rayleigh(gap, diameter) ** (1 / 6) / bracket) ** 2
    return nusselt * air.conductivity / diameter / gap**0.25
