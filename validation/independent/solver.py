"""The equations on cells, and SciPy's LSODA through the stages of a plan.

    s dX/dt = -div j,   j = -s [D_expressed dP/dx + D_held d(phi - P)/dx],
    phi = X - X_hold,   P = its expressible part
    C(T, X) dT/dt = div(k dT/dx) - c_w j dT/dx

Unknowns, in an order that keeps the Jacobian in a band of three: film below, then T and X of each cell, film
above. A film shares its skin cell's temperature.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.integrate import LSODA
from scipy.optimize import brentq

from independent.face import Face
from independent.tissue import CHOI_OKOS, Array, Tissue, plus, poly

SKIN = 4e-6  # m
FIRST = 6e-5  # m, cell under the skin


@dataclass(frozen=True)
class Cook:
    """Core [°C] at times [s], ends of the stages [s], water that left [kg], start water [kg]."""

    time: Array
    core: Array
    ends: list[float]
    water_left: float
    water_start: float


class Line:
    """Cells of a slab per m² of face, or of a cylinder per m of length."""

    def __init__(self, shape: dict[str, Any], cells: int) -> None:
        self.is_slab = shape["kind"] == "slab"
        length = shape["thickness"] if self.is_slab else 0.5 * shape["thickness"]
        edges = self.graded(length, cells)
        if self.is_slab:
            area = np.ones_like(edges)
            self.volume = np.diff(edges)
        else:
            area = 2.0 * np.pi * edges
            self.volume = np.pi * np.diff(edges**2)
        self.centre = 0.5 * (edges[1:] + edges[:-1])
        self.per_spacing = area[1:-1] / np.diff(self.centre)
        self.area = (1.0 if self.is_slab else 0.0, float(area[-1]))
        self.extent = shape["extent"]

    def graded(self, length: float, cells: int) -> Array:
        """Edges: tanh towards each face, a skin cell on it; `cells` across a thickness, half to an axis."""
        span = length if self.is_slab else 2.0 * length
        inner = span - 2.0 * SKIN
        place = np.linspace(-1.0, 1.0, cells + 1)

        def first(stretch: float) -> float:
            return 0.5 * inner * (1.0 + np.tanh(stretch * place[1]) / np.tanh(stretch)) - FIRST

        stretch = brentq(first, 1e-3, 20.0)
        x = 0.5 * inner * (1.0 + np.tanh(stretch * place) / np.tanh(stretch)) + SKIN
        whole = np.concatenate(([0.0], x, [span]))
        if self.is_slab:
            return whole
        half = whole[whole >= 0.5 * span - 1e-12] - 0.5 * span
        half[0] = 0.0
        return half

    def core(self, t: Array) -> Any:
        """At the centre of the middle cell, or on the axis by a parabola through two centres."""
        if self.is_slab:
            return t[..., len(self.centre) // 2]
        a, b = self.centre[:2] ** 2
        return (b * t[..., 0] - a * t[..., 1]) / (b - a)


class Solver:
    def __init__(self, plan_json: str, cells: int, rtol: float) -> None:
        self.plan = json.loads(plan_json)
        meat = self.plan["meat"]
        self.tissue = Tissue(meat["tissue"])
        self.line = Line(meat["shape"], cells)
        self.n = len(self.line.centre)
        self.y = np.zeros(2 * self.n + 2)
        self.y[1:-1:2], self.y[2:-1:2] = meat["start"], self.tissue.raw_water
        self.peak = np.full(self.n, float(meat["start"]))
        self.rtol = rtol
        self.atol = np.full_like(self.y, 1e-6)
        self.atol[1:-1:2] = 1e-4
        self.atol[2:-1:2] = 1e-5
        self.evaluations = 0

    def begin(self, stage: dict[str, Any]) -> None:
        around = stage["surroundings"]
        self.air, self.vapour = signal(around["air"]), signal(around["vapour_pressure"])
        usual = mean(around["air"])
        self.faces = [Face(self.plan["meat"], stage, self.tissue, top, usual) for top in (False, True)]

    def rates(self, time: float, y: Array) -> Array:
        self.evaluations += 1
        line, tissue = self.line, self.tissue
        t, x = y[1:-1:2], y[2:-1:2]
        held, capacity, k = tissue.bulk(t, x, self.peak)
        phi = x - held
        juice = plus(phi, tissue.mobility["switch_width"])
        bound = phi - juice
        fast, slow = tissue.expressed_mobility(t), tissue.held_mobility(t, np.maximum(x, 0.0))
        g = 0.5 * line.per_spacing
        driven = (fast[1:] + fast[:-1]) * (juice[1:] - juice[:-1])
        driven += (slow[1:] + slow[:-1]) * (bound[1:] - bound[:-1])
        water = -tissue.solids * g * driven
        heat = g * (k[1:] + k[:-1]) * (t[:-1] - t[1:])
        liquid = tissue.water_heat(t)
        carried = 0.5 * water * (liquid[1:] - liquid[:-1])
        # Heat and water into each cell; water brings its enthalpy less that of the water already there.
        heat_in, water_in = np.zeros(self.n), np.zeros(self.n)
        heat_in[:-1] -= heat + carried
        heat_in[1:] += heat - carried
        water_in[:-1] -= water
        water_in[1:] += water
        capacity = capacity * line.volume
        out = np.zeros_like(y)
        for face, area, cell, film in zip(self.faces, line.area, (0, -1), (0, -1), strict=True):
            if area == 0.0:
                continue
            args = float(t[cell]), float(x[cell]), float(held[cell]), float(y[film])
            f = face.flux(self.air(time), self.vapour(time), *args)
            heat_in[cell] += area * f.heat
            water_in[cell] -= area * (f.vapour - f.from_film + f.seep)
            out[film] = f.seep - f.from_film - f.run_off
            capacity[cell] += area * args[3] * poly(CHOI_OKOS["water"][2], args[0])
        out[1:-1:2] = heat_in / capacity
        out[2:-1:2] = water_in / (tissue.solids * line.volume)
        return out

    def water(self) -> float:
        """In the meat and on its faces [kg]."""
        inside = self.tissue.solids * float(self.line.volume @ self.y[2:-1:2])
        films = self.line.area[0] * self.y[0] + self.line.area[1] * self.y[-1]
        return (inside + films) * self.line.extent

    def run(self, every: float = 60.0) -> Cook:
        start = self.water()
        time, ends = 0.0, []
        times, core = [0.0], [float(self.line.core(self.y[1:-1:2]))]
        for stage in self.plan["stages"]:
            self.begin(stage)
            time = self.stage(stage, time, every, times, core)
            ends.append(time)
        return Cook(np.array(times), np.array(core), ends, start - self.water(), start)

    def stage(
        self, stage: dict[str, Any], start: float, every: float, times: list[float], core: list[float]
    ) -> float:
        until = {kind: value for end in stage["until"] for kind, value in end.items()}
        limit = start + until.get("elapsed", stage["at_most"])

        def excess(y: Array) -> float:
            now = float(self.line.core(y[1:-1:2]))
            return max(now - until.get("core", np.inf), until.get("cooled", -np.inf) - now)

        solver = LSODA(
            self.rates,
            start,
            self.y,
            limit,
            rtol=self.rtol,
            atol=self.atol,
            lband=3,
            uband=3,
            first_step=0.01,
        )
        while True:
            message = solver.step()
            if solver.status == "failed":
                raise RuntimeError(f"{stage['name']} at {solver.t:.0f} s: {message}")
            met = excess(solver.y) >= 0.0
            within = solver.dense_output()
            end = solver.t
            if met:
                end = float(
                    brentq(lambda s, state=within: excess(state(s)), solver.t_old, solver.t, xtol=1e-3)
                )
            while (sample := every * (times[-1] // every + 1.0)) < end:
                times.append(sample)
                core.append(float(self.line.core(within(sample)[1:-1:2])))
            if met or solver.status == "finished":
                self.y = within(end) if met else solver.y.copy()
                self.peak = np.maximum(self.peak, self.y[1:-1:2])
                times.append(end)
                core.append(float(self.line.core(self.y[1:-1:2])))
                return end
            self.peak = np.maximum(self.peak, solver.y[1:-1:2])


def signal(given: Any) -> Any:
    """A number, or straight lines between points; ripple is no part of the plans here."""
    if not isinstance(given, dict):
        return lambda _: float(given)
    if given.get("ripple_amplitude", 0.0) != 0.0:
        raise ValueError("a rippling signal is not implemented")
    return lambda s: float(np.interp(s, given["time"], given["value"]))


def mean(given: Any) -> float:
    """Mean over the times that are given: what the properties of a film are taken at."""
    if not isinstance(given, dict) or len(given["value"]) == 1:
        return float(given["value"][0] if isinstance(given, dict) else given)
    time, value = np.asarray(given["time"]), np.asarray(given["value"])
    return float(np.sum(0.5 * (value[1:] + value[:-1]) * np.diff(time)) / (time[-1] - time[0]))
