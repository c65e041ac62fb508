"""Plans in which libcook has to solve plain heat conduction: a dry, inert solid with constant properties."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

import numpy as np

import libcook as lc


@dataclass(frozen=True)
class Solid:
    """A slab (thickness) or a long cylinder (diameter), its faces in air.

    The bottom face of a slab has its own film and, if given, its own air; a film of 0 insulates it.
    """

    size: float  # thickness or diameter [m]
    conductivity: float  # [W/(m·K)]
    heat_capacity: float  # [J/(m³·K)]
    film: float  # [W/(m²·K)]
    start: float  # [°C]
    air: float  # [°C]
    film_below: float | None = None
    air_below: float | None = None
    ripple: tuple[float, float] = (0.0, 600.0)  # amplitude [K] and period [s] of the air above
    is_cylinder: bool = False
    emissivity: float = 0.0
    radiant: float = 0.0  # what the top face sees, above the air [K]
    view: float = 1.0  # the share of its view that this fills

    def plan(self, seconds: float) -> lc.Plan:
        below = self.film if self.film_below is None else self.film_below
        place = lc.Surroundings(
            kind="bath",
            air=self.air,
            bottom=lc.Film("given", below),
            top=lc.Film("given", self.film),
            radiant_top=self.radiant,
            view=self.view,
            vapour_pressure=0.0,
        )
        shape = lc.Shape("cylinder" if self.is_cylinder else "slab", self.size, 1.0)
        cap = lc.FatCap(side="none", thickness=0.0)
        meat = lc.Meat(shape=shape, fat_cap=cap, start=self.start)
        stage = lc.Stage("bath", place, until=lc.elapsed(seconds), at_most=seconds + 10.0)
        plan = fixed(lc.Plan(meat, [stage]), self.conductivity, self.heat_capacity)
        plan["meat"]["tissue"]["emissivity"] = self.emissivity
        around = plan["stages"][0]["surroundings"]
        around["air"] = {
            "time": [0.0],
            "value": [self.air],
            "ripple_amplitude": self.ripple[0],
            "ripple_period": self.ripple[1],
        }
        if self.air_below is not None:
            around["air_below"] = self.air_below
        return lc.Plan.from_json(json.dumps(plan))

    def run(
        self,
        seconds: float,
        *,
        nodes: int = 161,
        tolerance: float = 1e-3,
        spacing: float | None = None,
        outputs: int = 40,
    ) -> lc.Outcome:
        """Simulate with a fine grid and a tight tolerance: what is checked is the equations."""
        return lc.simulate(
            self.plan(seconds),
            grid="slab",
            nodes=nodes,
            tolerance=tolerance,
            face_spacing=self.size / 2000.0 if spacing is None else spacing,
            output_every=seconds / outputs,
            evaporation=False,
            squeezing=False,
            sinks=False,
            radiation=self.emissivity > 0.0,
        )


@dataclass(frozen=True)
class Block:
    """A bar with a rectangular section, infinitely wide, all four faces in air with one film coefficient.

    The bottom face has its own film and its own air, if given.
    """

    length: float  # [m]
    thickness: float  # [m]
    conductivity: float  # [W/(m·K)]
    heat_capacity: float  # [J/(m³·K)]
    film: float  # [W/(m²·K)]
    start: float  # [°C]
    air: float  # [°C]
    film_below: float | None = None
    air_below: float | None = None

    def plan(self, seconds: float) -> lc.Plan:
        below = self.film if self.film_below is None else self.film_below
        place = lc.Surroundings(
            kind="bath",
            air=self.air,
            bottom=lc.Film("given", below),
            top=lc.Film("given", self.film),
            vapour_pressure=0.0,
        )
        section = lc.Section(
            length=self.length,
            width=1.0,
            at=[0.0, self.length],
            thickness=[self.thickness, self.thickness],
            side_share=0.0,
        )
        meat = lc.Meat(fat_cap=lc.FatCap(side="none", thickness=0.0), start=self.start)
        stage = lc.Stage("bath", place, until=lc.elapsed(seconds), at_most=seconds + 10.0)
        plan = fixed(lc.Plan(lc.with_section(meat, section), [stage]), self.conductivity, self.heat_capacity)
        if self.air_below is not None:
            plan["stages"][0]["surroundings"]["air_below"] = self.air_below
        return lc.Plan.from_json(json.dumps(plan))

    def run(
        self,
        seconds: float,
        *,
        columns: int,
        rows: int,
        spacing: float,
        tolerance: float = 1e-3,
        outputs: int = 8,
    ) -> lc.Outcome:
        """Simulate; `spacing` is that of the first nodes at every face [m]."""
        return lc.simulate(
            self.plan(seconds),
            grid="cross-section",
            columns=columns,
            rows=rows,
            tolerance=tolerance,
            face_spacing=spacing,
            end_spacing=spacing,
            output_every=seconds / outputs,
            evaporation=False,
            squeezing=False,
            sinks=False,
            radiation=False,
        )


def fixed(plan: lc.Plan, conductivity: float, heat_capacity: float) -> dict[str, Any]:
    """The plan's file form, which has every field there is, with constant thermal properties."""
    written = json.loads(plan.to_json())
    written["meat"]["tissue"]["fixed"] = {"conductivity": conductivity, "heat_capacity": heat_capacity}
    return dict(written)


def at(outcome: lc.Outcome, seconds: float, position: float) -> float:
    """Temperature at a stored time and a position [m] from the bottom face or the axis."""
    i = int(np.argmin(np.abs(outcome.time - seconds)))
    if abs(outcome.time[i] - seconds) > 1e-6 * max(seconds, 1.0):
        raise ValueError(f"{seconds} s is no stored time; the nearest is {outcome.time[i]} s")
    return float(np.interp(position, outcome.position, outcome.temperature[i]))
