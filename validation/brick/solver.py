"""A plan on a brick: stages, traces by the minute, and the balances of heat and water."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from independent.solver import signal
from independent.tissue import Array
from scipy.optimize import brentq

from brick.bulk import Bulk
from brick.face import Faces, settings
from brick.grid import HIGH, TOP, Brick, Fineness
from brick.measure import QUARTERS, Gauge, by_place
from brick.stepper import EVAPORATED, FROM_AIR, RUN_OFF, WITH_WATER, Point, Stepper
from brick.system import System

MINUTE = 60.0
ENDS = ("core", "cooled", "elapsed")


@dataclass(frozen=True)
class StageEnd:
    name: str
    start: float  # s
    end: float
    core: float  # °C
    by_place: dict[str, Any]  # see `measure.by_place`


class Solver:
    """`size`: length, width and thickness [m], in place of the plan's shape."""

    def __init__(
        self,
        plan_json: str,
        size: tuple[float, float, float],
        fine: Fineness | None = None,
        tolerance: float = 1.0,
    ) -> None:
        self.plan = json.loads(plan_json)
        for stage in self.plan["stages"]:
            refuse_what_is_not_here(stage)
        meat = self.plan["meat"]
        self.fine = fine or Fineness()
        self.brick = brick = Brick(*size, self.fine)
        self.bulk = Bulk(meat["tissue"])
        self.system = System(brick, self.bulk)
        start = float(meat["start"])
        self.system.peak = np.full(brick.cells, start)
        water = np.full(brick.cells, self.bulk.tissue.raw_water)
        y = np.concatenate((np.full(brick.cells, start), water, np.zeros(brick.faces)))
        self.stepper = Stepper(self.system, y, tolerance)
        self.begun_with = self.content()
        self.sprayed = np.zeros(2)  # heat [J] and water [kg], of the whole brick
        self.gauge = Gauge(self.system)
        self.minutes, self.rows = [0.0], [self.gauge.row(self.stepper.now)]
        self.ends: list[StageEnd] = []

    def content(self) -> Array:
        """Heat [J] and water [kg] in the meat and on its faces."""
        q = self.system.contents(self.stepper.now.y)
        n = self.brick.cells
        return QUARTERS * np.array([q[:n].sum(), q[n:].sum()])

    def ledger(self) -> dict[str, float]:
        """Heat [J] and water [kg] of the whole brick, and what is left unexplained."""
        totals = QUARTERS * self.stepper.now.totals.sum(axis=1)
        heat, water = self.content() - self.begun_with - self.sprayed
        return {
            "water_start": float(self.begun_with[1]),
            "water_end": float(self.content()[1]),
            "evaporated": float(totals[EVAPORATED]),
            "run_off": float(totals[RUN_OFF]),
            "water_residual": float(water + totals[EVAPORATED] + totals[RUN_OFF]),
            "heat_from_air": float(totals[FROM_AIR]),
            "heat_with_water": float(totals[WITH_WATER]),
            "heat_gained": float(heat),
            "heat_residual": float(heat - totals[FROM_AIR] + totals[WITH_WATER]),
        }

    def run(self) -> None:
        for stage in self.plan["stages"]:
            start = self.stepper.now.time
            self.stage(stage, start)
            now = self.stepper.now
            told = by_place(self.system, now)
            self.ends.append(StageEnd(stage["name"], start, now.time, self.gauge.core(now), told))

    def stage(self, stage: dict[str, Any], start: float) -> None:
        around = stage["surroundings"]
        air, vapour = signal(around["air"]), signal(around["vapour_pressure"])
        until = {kind: value for end in stage["until"] for kind, value in end.items()}
        last = start + until.get("elapsed", stage["at_most"])
        sprays = [s for s in spray_times(stage, start) if s < last]
        corners = [*corners_of(around["air"]), *corners_of(around["vapour_pressure"]), *sprays, last]
        faces = settings(self.plan["meat"], stage, self.bulk.tissue, air(start))
        self.system.faces = Faces(faces, self.brick.face_kind, self.bulk.tissue)
        self.stepper.drive = lambda s: (air(s), vapour(s))
        self.stepper.restart()

        def excess(point: Point) -> float:
            core = self.gauge.core(point)
            return max(core - until.get("core", np.inf), until.get("cooled", -np.inf) - core)

        if excess(self.stepper.now) >= 0.0:
            return
        for moment in sorted({c for c in corners if c > start}):
            if self.segment(moment, excess):
                return
            if moment >= last:
                break
            if moment in sprays:
                self.spray(stage["spritz"])
            self.stepper.restart()
        if "elapsed" not in until:
            raise RuntimeError(f"{stage['name']}: its end was not reached in {stage['at_most'] / 3600.0:g} h")

    def segment(self, moment: float, excess: Callable[[Point], float]) -> bool:
        """Go on to a moment, or to where the stage's end is met: then true."""
        while self.stepper.now.time < moment:
            point = self.stepper.take(moment)
            if excess(point) >= 0.0:
                self.accept(self.landing(point, excess))
                return True
            self.accept(point)
        return False

    def landing(self, beyond: Point, excess: Callable[[Point], float]) -> Point:
        """The point at which the end is met, by steps that begin where the one beyond began."""
        last = self.stepper.now
        tried = {0.0: last, beyond.time - last.time: beyond}

        def off(h: float) -> float:
            if h not in tried:
                found = self.stepper.attempt(h)
                if found is None:
                    raise RuntimeError(f"no step of {h:g} s could be made at {last.time:.1f} s")
                tried[h] = found[0]
            return excess(tried[h])

        return tried[brentq(off, 0.0, beyond.time - last.time, xtol=0.01)]

    def accept(self, point: Point) -> None:
        """Take the step and note the minutes in it, on a parabola through the last points."""
        known = [*self.stepper.points[-2:], point]
        rows = [self.gauge.row(p) for p in known]
        while (minute := self.minutes[-1] + MINUTE) <= point.time:
            weights = lagrange(minute, [p.time for p in known])
            self.minutes.append(minute)
            self.rows.append(sum(w * r for w, r in zip(weights, rows, strict=True)))
        self.stepper.accept(point)

    def spray(self, spritz: dict[str, Any]) -> None:
        """Liquid onto the top and the upper half of the sides; it mixes with what it meets."""
        brick, system, last = self.brick, self.system, self.stepper.now
        wetted = np.isin(brick.face_kind, (TOP, HIGH))
        y = last.y.copy()
        t, _, m = system.split(y)
        film = np.where(wetted, spritz["amount"], 0.0) * brick.face_area
        liquid = float(self.bulk.liquid(np.array(spritz["temperature"])))
        wanted = last.q[: brick.cells] + system.gather @ film * liquid
        self.sprayed += QUARTERS * np.array([film.sum() * liquid, film.sum()])
        m += np.where(wetted, spritz["amount"], 0.0)
        for _ in range(20):
            off = wanted - system.contents(y)[: brick.cells]
            capacity = 3.5e6 * brick.volume + 4180.0 * (system.gather @ (brick.face_area * m))
            t += off / capacity
        self.stepper.points = [Point(last.time, y, system.contents(y), last.totals)]


def lagrange(x: float, at: list[float]) -> list[float]:
    """Weights of the values at some places, for the polynomial through them."""
    return [float(np.prod([(x - b) / (a - b) for b in at if b != a])) for a in at]


def corners_of(given: Any) -> list[float]:
    return list(given["time"]) if isinstance(given, dict) else []


def spray_times(stage: dict[str, Any], start: float) -> list[float]:
    if "spritz" not in stage:
        return []
    given = stage["spritz"]
    count = int((stage["at_most"] - given["first"]) / given["every"]) + 1
    return [start + given["first"] + k * given["every"] for k in range(count)]


def refuse_what_is_not_here(stage: dict[str, Any]) -> None:
    """Name what the plan asks for and the brick does not do."""
    around, name = stage["surroundings"], stage["name"]
    missing = [f"surroundings.{key}" for key in ("box", "pit_air", "air_below") if key in around]
    missing += [f"until {kind}" for end in stage["until"] for kind in end if kind not in ENDS]
    if stage.get("lid") or stage.get("spritz", {}).get("lid_open", 0.0) > 0.0:
        missing.append("an opened lid")
    if missing:
        raise ValueError(f"stage {name!r}: {', '.join(missing)}: not implemented for the brick")
