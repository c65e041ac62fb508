"""What crosses every bit of surface at once: `independent.face` for arrays, with derivatives.

The constants of a face (film coefficients, resistances, radiation) come from `independent.face.Face`, whose
docstring has the equations; a test holds the fluxes of both against each other.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from independent import water
from independent.air import VAPOUR_GAS
from independent.face import CALM, CORNER, FILM_HALF, RUN_OFF_WIDTH, SOAK_WIDTH, VENTING, VENTING_WIDTH, Face
from independent.tissue import Array, Tissue, plus, step

from brick.grid import Index

STEPS = (1e-4, 1e-6, 1e-7)  # K, kg/kg, kg/m², of the difference quotients
HEAT, VAPOUR, FROM_FILM, SEEP, RUN_OFF, LATENT = range(6)


def settings(meat: dict[str, Any], stage: dict[str, Any], tissue: Tissue, air: float) -> list[Face]:
    """Faces of a brick in a stage: bottom, top, lower and upper half of the upright sides.

    The sides stand beside the air that the top sees, which is always renewed there. They carry no fat cap,
    and the wrap of the face they are nearer to, unless the wrap has one for ends.
    """
    meat = {**meat, "shape": {**meat["shape"], "kind": "slab"}}
    bare = {**meat, "fat_cap": {**meat["fat_cap"], "side": "none"}}
    around = {**stage["surroundings"], "bottom": stage["surroundings"]["top"]}
    wrap = stage["wrap"]
    if "ends" in wrap:
        wrap = {**wrap, "bottom": wrap["ends"], "top": wrap["ends"]}
    upright = {**stage, "surroundings": around, "wrap": wrap}
    made = [Face(meat, stage, tissue, top, air) for top in (False, True)]
    for top in (False, True):
        side = Face(bare, upright, tissue, top, air)
        side.cold = side.hot = max(side.cold, side.hot)
        made.append(side)
    return made


def potential(x: Array) -> Array:
    inside = np.minimum(x, CORNER)
    return -np.log(1.0 - inside) + (x - inside) / (1.0 - CORNER)


class Faces:
    """`kind`: for each bit of surface the number of its setting."""

    def __init__(self, faces: list[Face], kind: Index, tissue: Tissue) -> None:
        def of(name: str) -> Array:
            return np.array([getattr(face, name) for face in faces])[kind]

        self.tissue = tissue
        self.given, self.cold, self.hot = of("given"), of("cold"), of("hot")
        self.mass_per_heat, self.pressure = of("mass_per_heat"), of("pressure")
        self.radiation, self.radiant = of("radiation"), of("radiant")
        self.heat_resistance, self.vapour_resistance = of("heat_resistance"), of("vapour_resistance")
        self.capacity, self.run_off_time, self.path = of("capacity"), of("run_off_time"), of("path")

    def coefficient(self, gap: Array) -> Array:
        side = step(0.5 * (gap + 1.0))[0]
        b = self.hot + (self.cold - self.hot) * side
        return np.asarray(self.given + b * (gap * gap + CALM * CALM) ** 0.125)

    def heat(self, air: float, t: Array) -> tuple[Array, Array]:
        """Heat from air and walls [W/m²], and the film coefficient."""
        walls = (air + self.radiant + 273.15) ** 4

        def at(outer: Array) -> tuple[Array, Array]:
            h = self.coefficient(air - outer)
            return h * (air - outer) + self.radiation * (walls - (outer + 273.15) ** 4), h

        q, h = at(t)
        if not self.heat_resistance.any():
            return q, h
        low, outer = t, t + self.heat_resistance * q / (1.0 + 8.0 * self.heat_resistance)
        off = -self.heat_resistance * q
        for _ in range(50):  # secant on the balance, which is nearly straight
            q, h = at(outer)
            now = outer - t - self.heat_resistance * q
            flat = now == off
            change = now * (outer - low) / np.where(flat, 1.0, now - off)
            change = np.where(flat | (np.abs(now) < 1e-11), 0.0, change)
            if not change.any():
                break
            low, outer, off = outer, outer - change, now
        return q, h

    def activity(self, x: Array) -> Array:
        """Water activity by the sorption isotherm; 0 below no water."""
        g = self.tissue.sorption
        x = np.maximum(x, 0.0)
        square, line = (g["c"] - 1.0) * x, g["monolayer"] * g["c"] - (g["c"] - 2.0) * x
        root = 2.0 * x / (line + np.sqrt(line * line + 4.0 * square * x))
        return np.asarray(np.minimum(root / g["k"], 1.0))

    def flux(self, air: float, vapour: float, t: Array, x: Array, held: Array, film: Array) -> Array:
        """One row for each of the names above, per m²; `HEAT` without the latent heat, which is the last."""
        tissue = self.tissue
        q, h = self.heat(air, t)
        mass = self.mass_per_heat * h
        density = self.pressure / (VAPOUR_GAS * (0.5 * (t + air) + 273.15))
        conductance = mass / (1.0 + self.vapour_resistance * mass) * density
        outside = potential(vapour / self.pressure)
        saturation, latent = water.saturation_and_latent(t, np)
        share = saturation / self.pressure

        def leaving(activity: Array | float) -> Array:
            ratio = activity * share
            return np.asarray(
                conductance * (potential(ratio) - outside) + VENTING * plus(ratio - 1.0, VENTING_WIDTH)
            )

        wet = film / (np.maximum(film, 0.0) + FILM_HALF)
        of_liquid, of_tissue = leaving(1.0), leaving(self.activity(x))
        total = wet * of_liquid + (1.0 - wet) * of_tissue
        from_film = wet * of_liquid + (1.0 - wet) * np.minimum(of_tissue, 0.0)  # dew joins the film
        seep = tissue.expressed_mobility(t) * plus(x - held, tissue.mobility["switch_width"])
        soaking = tissue.held_mobility(t, np.maximum(x, 0.0)) * plus(held - x, SOAK_WIDTH)
        seep = tissue.solids / self.path * (seep - wet * soaking)
        run_off = plus(film - self.capacity, RUN_OFF_WIDTH) / self.run_off_time
        return np.stack((q, total, from_film, seep, run_off, latent), axis=0)
