"""What crosses a face: heat from air and walls, vapour, juice onto the film and off it. Scalar.

    heat in     q = h (T_air - T_o) + eps sigma F (T_rad^4 - T_o^4),   T_o - T_s = R_heat q
    vapour out  m = h_m / (1 + R_vapour h_m) p / (R_v T_film) [phi(a p_s / p) - phi(p_env / p)],
                phi(x) = -ln(1 - x)
    seepage     s D_expressed P(phi_s) / path, less what dry tissue drinks from the film

phi goes on straight above x = 0.98, and above x = 1 vapour vents in bulk: boiling.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from independent import water
from independent.air import SIGMA, VAPOUR_GAS, Air, along_plate, cylinder_in_still_air, plate_in_still_air
from independent.tissue import CHOI_OKOS, Tissue, poly, step

NOMINAL_SURFACE = 65.0  # °C, for the properties of the air film over a whole stage
FILM_HALF = 0.01  # film that wets half of the face [kg/m²]
CORNER, VENTING, VENTING_WIDTH = 0.98, 0.05, 0.02
SOAK_WIDTH, RUN_OFF_WIDTH = 0.02, 0.01
CALM = 0.1  # K, in h = b (dT² + CALM²)^(1/8)


@dataclass(frozen=True)
class Flux:
    heat: float  # into the meat, latent heat taken off [W/m²]
    vapour: float  # [kg/(m²·s)]
    from_film: float  # part of it that the film gives
    seep: float  # tissue to film
    run_off: float


def potential(x: float) -> float:
    inside = min(x, CORNER)
    return -math.log(1.0 - inside) + (x - inside) / (1.0 - CORNER)


def rise(x: float, width: float) -> float:
    if x <= 0.0:
        return 0.0
    return 0.5 * x * x / width if x < width else x - 0.5 * width


def still_length(shape: dict[str, Any]) -> float:
    """Area over perimeter of the footprint [m], or that of a usual one."""
    width = shape.get("width")
    return 0.5 * shape["extent"] / (width + shape["extent"] / width) if width else 0.06


def stream_length(shape: dict[str, Any]) -> float:
    """Side of a square of the footprint's area [m], or that of a usual one."""
    return math.sqrt(shape["extent"]) if shape.get("width") else 0.3


class Face:
    """One face in a stage; `top` says which, `air` the mean temperature of its air."""

    def __init__(
        self, meat: dict[str, Any], stage: dict[str, Any], tissue: Tissue, top: bool, air: float
    ) -> None:
        around = stage["surroundings"]
        side = "top" if top else "bottom"
        cover, film, cap = stage["wrap"][side], around[side], meat["fat_cap"]
        mean = Air(0.5 * (air + NOMINAL_SURFACE), around["pressure"])
        still = Air(mean.celsius)  # natural convection is taken at one standard atmosphere
        self.given = self.cold = self.hot = 0.0
        shape, factor = meat["shape"], film["factor"]
        if film["kind"] == "given":
            self.given = factor * film["value"]
        elif shape["kind"] == "cylinder":
            gap = max(abs(air - NOMINAL_SURFACE), 10.0)
            self.cold = self.hot = factor * cylinder_in_still_air(shape["thickness"], still, gap)
        else:
            length = film["length"] or still_length(shape)
            self.cold = factor * plate_in_still_air(length, still, lively=not top)
            self.hot = factor * plate_in_still_air(length, still, lively=top)
        if film["kind"] == "forced":  # what rises by itself is beside the stream, at the nominal surface
            stream = factor * along_plate(film["value"], film["length"] or stream_length(shape), still)
            gap = air - NOMINAL_SURFACE
            beside = (self.cold if gap > 0.0 else self.hot) * abs(gap) ** 0.25
            self.given, self.cold, self.hot = (stream**3 + beside**3) ** (1 / 3), 0.0, 0.0
        self.mass_per_heat = mean.mass_per_heat()
        self.pressure = around["pressure"]
        self.radiation = cover.get("emissivity", tissue.emissivity) * around["view"] * SIGMA
        self.radiant = around["radiant_" + side]
        self.heat_resistance, self.vapour_resistance = cover["heat_resistance"], cover["vapour_resistance"]
        if cap["side"] == ("up" if top else "down"):
            self.heat_resistance += cap["thickness"] / poly(CHOI_OKOS["fat"][0], 40.0)
            self.vapour_resistance += cap["thickness"] * cap["vapour_resistivity"]
        self.capacity = cover.get("juice_capacity", tissue.exudation["bare_film"])
        self.run_off_time, self.path = tissue.exudation["run_off_time"], tissue.exudation["path"]
        self.tissue = tissue

    def coefficient(self, gap: float) -> float:
        b = self.cold if gap > 1.0 else self.hot
        if -1.0 < gap < 1.0:
            b = self.hot + (self.cold - self.hot) * float(step(0.5 * (gap + 1.0))[0])
        return self.given + b * (gap * gap + CALM * CALM) ** 0.125

    def heat(self, air: float, t: float) -> tuple[float, float]:
        """Heat from air and walls [W/m²] and the film coefficient; the wrap stores nothing."""
        walls = (air + self.radiant + 273.15) ** 4

        def at(outer: float) -> tuple[float, float]:
            h = self.coefficient(air - outer)
            return h * (air - outer) + self.radiation * (walls - (outer + 273.15) ** 4), h

        q, h = at(t)
        if self.heat_resistance <= 0.0:
            return q, h
        low, outer = t, t + self.heat_resistance * q / (1.0 + 8.0 * self.heat_resistance)
        off = -self.heat_resistance * q
        for _ in range(50):  # secant on the balance, which is nearly straight
            q, h = at(outer)
            now = outer - t - self.heat_resistance * q
            if abs(now) < 1e-10 or now == off:
                break
            low, outer, off = outer, outer - now * (outer - low) / (now - off), now
        return q, h

    def flux(self, air: float, vapour: float, t: float, x: float, held: float, film: float) -> Flux:
        tissue = self.tissue
        q, h = self.heat(air, t)
        mass = self.mass_per_heat * h
        density = self.pressure / (VAPOUR_GAS * (0.5 * (t + air) + 273.15))
        conductance = mass / (1.0 + self.vapour_resistance * mass) * density
        outside = potential(vapour / self.pressure)
        saturation, latent = water.saturation_and_latent(t)
        share = saturation / self.pressure

        def leaving(activity: float) -> float:
            ratio = activity * share
            vent = VENTING * rise(ratio - 1.0, VENTING_WIDTH)
            return conductance * (potential(ratio) - outside) + vent

        wet = film / (max(film, 0.0) + FILM_HALF)
        of_liquid, of_tissue = leaving(1.0), leaving(tissue.activity(x))
        total = wet * of_liquid + (1.0 - wet) * of_tissue
        from_film = wet * of_liquid + (1.0 - wet) * min(of_tissue, 0.0)  # dew joins the film
        juice = rise(x - held, tissue.mobility["switch_width"])
        seep = tissue.expressed_mobility(t, math.exp) * juice if juice else 0.0
        thirst = rise(held - x, SOAK_WIDTH)
        if thirst:
            seep -= wet * tissue.held_mobility(t, max(x, 0.0), math.exp) * thirst
        run_off = rise(film - self.capacity, RUN_OFF_WIDTH) / self.run_off_time
        return Flux(q - total * latent, total, from_film, tissue.solids / self.path * seep, run_off)
