"""Wide plans: what a cook could ask for at the edges of what is accepted, each made from a seed alone."""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from typing import Any

import libcook as lc

HOUR = 3600.0
PITS = ("kettle", "drum", "offset", "pellet", "ceramic", "cabinet")
PLACES = (*3 * ("pit",), *2 * ("breathing",), "oven", "holding", "counter", "fridge", "box", "box")


@dataclass
class Asked:
    """A plan, and how it is to be solved."""

    plan: lc.Plan
    options: dict[str, Any] = field(default_factory=dict)

    @property
    def whole(self) -> bool:
        """Whether it is solved on a cross-section, which a batch does not take."""
        return self.options.get("grid") == "cross-section"


def wide_plan(seed: str) -> Asked:
    """Make the plan of a seed: the same one wherever and whenever it is made."""
    return _Maker(random.Random(seed)).asked()


def reach(place: lc.Surroundings) -> tuple[float, float]:
    """Coldest and hottest [°C] that surroundings can make the meat."""
    airs = [place.air] + ([place.air_below] if place.air_below else [])
    radiant = (0.0, place.radiant_bottom, place.radiant_top)
    low = min(air.minimum for air in airs) + min(radiant)
    high = max(air.maximum for air in airs) + max(radiant)
    if place.box:
        return min(low, place.box.start), max(high, place.box.start)
    return low, high


class _Maker:
    def __init__(self, chance: random.Random):
        self.chance = chance

    def share(self, probability: float) -> bool:
        return self.chance.random() < probability

    def number(self, low: float, high: float) -> float:
        """Evenly; now and then one of the limits themselves."""
        if self.share(0.05):
            return self.chance.choice((low, high))
        return float(f"{self.chance.uniform(low, high):.6g}")

    def scale(self, low: float, high: float) -> float:
        """Evenly in the logarithm."""
        return float(f"{low * (high / low) ** self.chance.random():.6g}")

    def asked(self) -> Asked:
        options: dict[str, Any] = {
            "nodes": self.chance.choice((9, 15, 15, 31, 31, 61)),
            "output_every": self.chance.choice((60.0, 300.0, 300.0, 7.0 * 60.0)),
        }
        if self.share(0.1):
            options["face_spacing"] = self.scale(3e-5, 1e-3)
        if self.share(0.05):
            off = self.chance.choice(("evaporation", "squeezing", "radiation", "sinks"))
            options["physics"] = {off: False}
        section = self.share(0.03)
        if section:
            options = {"grid": "cross-section", "columns": 11, "rows": 9, "output_every": 300.0}
        meat = self.section_meat() if section else self.meat()
        stages: list[lc.Stage] = []
        for i in range(self.chance.choice((1, 1, 2, 2, 3, 3, 4, 5, 6, 9, 14, 20)) if not section else 3):
            stages.append(self.stage(i, stages[-1] if stages else None))
        plan = lc.Plan(meat, stages, start=self.number(0.0, 86399.0))
        if self.share(0.1):
            plan.probes = [lc.Probe("second", z=0.4 * meat.shape.thickness)]
        return Asked(plan, options)

    # the meat

    def meat(self) -> lc.Meat:
        start = self.chance.choice((-1.0, 0.0, 4.0, self.number(-1.0, 40.0)))
        made = lc.pork_shoulder() if self.share(0.4) else lc.brisket(fat=self.fat_side())
        made.start = start
        made.shape.thickness = self.scale(0.005, 0.3)
        if made.shape.kind == "cylinder":
            made.shape.extent = self.scale(0.03, 0.6)
        else:
            made.shape.extent = self.scale(0.003, 0.3)
        if made.fat_cap.side != "none":
            made.fat_cap.thickness = self.number(0.0, 0.05)
        if self.share(0.2):
            made.tissue = lc.brisket_seam_tissue(made.tissue)
        elif self.share(0.2):
            made.tissue = lc.brisket_point_tissue(made.tissue)
        return made

    def section_meat(self) -> lc.Meat:
        return lc.brisket(self.number(2.0, 9.0), self.number(0.035, 0.075), self.number(-1.0, 20.0))

    def fat_side(self) -> str:
        return self.chance.choice(("down", "up", "none"))

    # where it is

    def course(self, low: float, high: float) -> Any:
        """Steady, rippled, scheduled or logged air."""
        kind = self.chance.choice(("steady", "steady", "ripple", "schedule", "log", "dips"))
        mean = self.number(low, high)
        if kind == "steady":
            return mean
        if kind == "ripple":
            most = min(15.0, high - mean, mean - low)
            return lc.ripple(mean, max(0.0, self.number(0.0, most)), self.scale(30.0, 7200.0))
        if kind == "schedule":
            return lc.schedule([(0.0, mean), (self.scale(60.0, 6 * HOUR), self.number(low, high))])
        times, values = [0.0], [mean]
        for _ in range(self.chance.choice((3, 10, 60))):
            times.append(times[-1] + self.chance.choice((1.0, 60.0, 60.0, self.scale(1.0, HOUR))))
            values.append(self.number(low, high) if kind == "log" else self.number(-5.0, high))
        return times, values

    def film(self) -> Any:
        if self.share(0.02):
            return self.scale(1e-3, 1e6)
        moving = lc.Film("forced", self.number(0.05, 20.0), self.number(0.05, 0.6))
        return self.chance.choice((None, None, self.scale(1.0, 80.0), moving))

    def cooker(self) -> lc.Surroundings:
        air = self.course(60.0, 230.0)
        made = lc.pit(
            self.chance.choice(PITS),
            air,
            film=self.film(),
            radiant_top=self.chance.choice((None, None, self.number(-20.0, 120.0))),
            radiant_bottom=self.chance.choice((None, None, self.number(-20.0, 120.0))),
            ambient=self.number(-20.0, 40.0),
        )
        if self.share(0.5):
            # Up to what the air holds when it is hottest: colder, it is saturated.
            most = min(55e3, float(lc.physics.saturation_pressure(made.air.maximum)))
            made.vapour_pressure = self.vapour(most)
        if self.share(0.15):
            made.air_below = self.number(20.0, 230.0)
        if self.share(0.1):
            made.pressure = self.number(6.5e4, 1.05e5)
        return made

    def vapour(self, most: float) -> Any:
        if self.share(0.5):
            return self.scale(50.0, most)
        if self.share(0.5):
            return lc.Signal([0.0], [0.5 * most], self.number(0.0, 0.5 * most), self.scale(30.0, 7200.0))
        return [0.0, self.scale(600.0, 4 * HOUR)], [self.scale(50.0, most), self.scale(50.0, most)]

    def breathing(self) -> lc.Surroundings:
        air = self.course(80.0, 230.0)
        made = lc.oven(air) if self.share(0.3) else lc.pit(self.chance.choice(PITS), air)
        how: dict[str, Any] = {"ambient": self.number(-10.0, 40.0), "humidity": self.number(0.05, 1.0)}
        if self.share(0.6):
            how["pan"] = lc.WaterPan(
                water=self.scale(0.02, 10.0), area=self.scale(0.005, 0.2), temperature=self.number(1.0, 99.0)
            )
        if self.share(0.4):
            how["air_flow"] = self.scale(1e-5, 5e-2)
        if self.share(0.3):
            how["pieces"] = self.number(0.0, 20.0)
        if self.share(0.3):
            how["wind"] = self.number(0.0, 15.0)
        return lc.breathing(made, **how)

    def place(self, last: lc.Stage | None) -> lc.Surroundings:
        if last is not None and self.share(0.35):
            return last.surroundings.replace()
        kind = self.chance.choice(PLACES)
        if kind == "pit":
            return self.cooker()
        if kind == "breathing":
            return self.breathing()
        if kind == "oven":
            return lc.oven(self.course(60.0, 260.0), self.share(0.5))
        if kind == "holding":
            return lc.holding_oven(self.number(45.0, 95.0), self.number(0.0, 1.0))
        if kind == "counter":
            return lc.counter(self.number(-15.0, 45.0))
        if kind == "fridge":
            return lc.counter(self.number(0.0, 7.0))
        return lc.insulated_box(
            self.number(-15.0, 45.0),
            start=self.number(-10.0, 100.0),
            heat_capacity=self.scale(200.0, 60e3),
            loss=self.number(0.0, 8.0),
        )

    # how it is wrapped, and until when

    def wrap(self, last: lc.Stage | None) -> Any:
        if last is not None and self.share(0.3):
            return last.wrap.replace()
        made = lc.wrap(self.chance.choice((*lc.wrap_names(), "none", "butcher paper")))
        if self.share(0.1):
            made.top = lc.Covering(
                vapour_resistance=self.scale(1.0, 1e7),
                heat_resistance=self.scale(1e-4, 1.0),
                emissivity=self.number(0.03, 1.0),
                juice_capacity=self.number(0.0, 5.0),
            )
        return made

    def lasting(self) -> float:
        """How long [s]; often a round number, as cooks have it, some of which are no exact binary ones."""
        if self.share(0.4):
            return lc.elapsed(f"{self.chance.randint(1, 800) / 100:.2f} h").value
        if self.share(0.3):
            return 60.0 * self.chance.randint(1, 300)
        return self.scale(0.5, 16 * HOUR)

    def ends(self, place: lc.Surroundings) -> list[lc.End]:
        made = []
        low, high = reach(place)
        kinds = ("core", "core", "elapsed", "elapsed", "cooled", "bark", "tender", "clock")
        for _ in range(self.chance.choice((1, 1, 1, 2, 3))):
            kind = self.chance.choice(kinds)
            every = self.chance.choice((0.0, 0.0, 0.0, self.scale(1.0, HOUR)))
            if kind == "core":
                most = 100.0 if place.box or high <= 60.0 else min(100.0, high - 0.5)
                made.append(lc.End("core", self.number(-1.0, most), every=every))
            elif kind == "cooled" and low < 98.0:
                made.append(lc.End("cooled", max(low + 0.5, self.number(40.0, 99.0)), every=every))
            elif kind == "bark":
                made.append(lc.End("bark", self.scale(0.05, 20.0), every=every))
            elif kind == "tender":
                made.append(lc.End("tender", self.number(0.01, 0.99), every=every))
            elif kind == "clock":
                made.append(lc.End("clock", 60.0 * self.chance.randint(0, 1439)))
            else:
                made.append(lc.End("elapsed", self.lasting()))
        if not any(end.kind in ("elapsed", "clock") for end in made) and self.share(0.9):
            made.append(lc.End("elapsed", self.lasting()))
        return made

    def stage(self, number: int, last: lc.Stage | None) -> lc.Stage:
        place = self.place(last)
        made = lc.Stage(
            f"stage {number + 1}",
            place,
            wrap=self.wrap(last),
            until=self.ends(place),
            at_most=16 * HOUR if self.share(0.9) else 30 * HOUR,
        )
        if self.share(0.3):
            every = self.chance.choice((60.0, 60.0, 300.0, 900.0, self.scale(60.0, 2 * HOUR)))
            made.spritz = lc.Spritz(
                every=every,
                first=self.chance.choice((0.0, every, self.number(0.0, 2 * HOUR))),
                amount=self.chance.choice((0.0, 0.02, 0.05, self.scale(1e-4, 2.0))),
                temperature=self.number(0.0, 95.0),
                lid_open=self.chance.choice((0.0, 20.0, 0.9 * every, self.number(0.0, 0.9 * every))),
            )
        if self.share(0.25):
            at, apart = self.number(0.0, 2 * HOUR), self.chance.choice((0.0, 1e-9, 1e-6, 60.0, 300.0))
            made.lid = [
                lc.LidOpening(at + k * apart, self.scale(1.0, HOUR))
                for k in range(self.chance.choice((1, 2, 4)))
            ]
        if self.share(0.05):
            made.probe = lc.Probe("moved", z=0.5 * 0.005)
        return made
