"""What else was measured of cooked meat: joints cooling, rests, losses, rates under wraps, a published pair.

Each is a plan that the library cooks and one number read off it, beside what was measured.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

import libcook as lc
from fieldwork.cooks import HOUR, rows

BAG = lc.Covering(vapour_resistance=1e7, emissivity=0.9, juice_capacity=20.0)
WATER_FILM = 500.0  # W/m²K in water: next to no resistance beside the meat's own
STILL = 0.15  # m/s in a room called still
CHILL_VAPOUR = 500.0  # Pa


@dataclass(frozen=True)
class Other:
    """One measured number. `log`: compared by its logarithm, `sd` then a share."""

    kind: str
    name: str
    unit: str
    measured: float
    sd: float
    log: bool
    source: str
    plan: Callable[[], lc.Plan]
    read: Callable[[lc.Outcome], float]
    why: str = ""

    def miss(self, out: lc.Outcome) -> float:
        value = self.read(out)
        return math.log(value / self.measured) if self.log else value - self.measured


def film_in_air(speed: float, size: float, start: float, air: float) -> float:
    """Coefficient of a cylinder across a stream, natural convection beside it [W/m²K]."""
    stream = 0.26 * (speed * size / 1.45e-5) ** 0.6 * 0.88 * 0.0248 / size  # Zukauskas, from memory
    natural = 1.32 * (max(0.36 * (start - air), 5.0) / size) ** 0.25  # McAdams, from memory
    return float((stream**3 + natural**3) ** (1.0 / 3.0))


def cooling() -> list[Other]:
    """Cooked joints: brought to their temperature in a bag, then cooled as told."""
    found = []
    for row in rows("cooling"):
        name, size = row["case"], float(row["mm"]) / 1000.0
        start, end, first, last = (float(row[k]) for k in ("start_C", "end_C", "air_C_from", "air_C_to"))
        hours, water = float(row["time_h"]), row["air_m_s"] == "water"
        pork = any(word in name for word in ("pork", "ham", "bacon"))
        still = row["air_m_s"] == "0"

        def plan(row=row, size=size, start=start, end=end, first=first, last=last, hours=hours, water=water,
                 pork=pork, still=still) -> lc.Plan:  # fmt: skip
            tissue = lc.cut("pork shoulder" if pork else "beef chuck").tissue
            tissue.name = "cooked joint"
            tissue.composition = lc.cut("pork shoulder" if pork else "brisket").tissue.composition
            volume = float(row["kg"]) / tissue.raw_density
            if row["shape"] == "slab":
                area = volume / size
                shape = lc.Shape(kind="slab", thickness=size, extent=area, width=area**0.5)
            else:
                shape = lc.Shape(kind="cylinder", thickness=size, extent=volume / (0.25 * math.pi * size**2))
            meat = lc.Meat(
                tissue=tissue, shape=shape, fat_cap=lc.FatCap(side="none"), start=start, build="even"
            )
            if water:
                film = lc.Film(kind="given", value=WATER_FILM)
            else:
                speed = STILL if still else float(row["air_m_s"])
                film = lc.Film(kind="given", value=film_in_air(speed, size, start, first))
            air = first if first == last else ([0.0, hours * HOUR, 60 * HOUR], [first, last, last])
            around = lc.Surroundings(kind="chill", air=air, bottom=film, top=film,
                                     vapour_pressure=CHILL_VAPOUR,
                                     view=0.0 if water else 1.0)  # fmt: skip
            wrap = lc.Wrap(name="bag", bottom=BAG, top=BAG) if row["wrap"] == "bag" else "none"
            return lc.Plan(meat, [lc.Stage("cools", around, wrap=wrap, until=lc.cooled(end))])

        survey = row["kg"] not in ("0.94", "2.7")
        found.append(
            Other("cooling", name, "h", hours, 0.2 if survey else 0.12, True,
                  "book tables after Burfoot et al. 1990 and a survey of factories", plan,
                  lambda out: out.stage_ends[0].time / HOUR,
                  "size and air of a survey" if survey else "")
        )  # fmt: skip
    return found


def smoked(
    cut: str, mass: str, air: str, wrapped: float, end: float, wrap: str, after: list[lc.Stage]
) -> lc.Plan:
    pit = lc.pit("drum", air=air)
    stages = [
        lc.Stage("smoke", pit, until=lc.core(wrapped)),
        lc.Stage("wrapped", pit, wrap=wrap, until=lc.core(end)),
    ]
    return lc.Plan(lc.cut(cut, mass=mass), stages + after)


def rests() -> list[Other]:
    """Rests in coolers. `blankets`: more layers than two towels."""
    listed = [
        ("brisket 2 h", "brisket", "5 kg", 90.0, 2.0, 78.9, "towels", 3.0),
        ("brisket 2 h, ice chest", "brisket", "5.78 kg", 87.8, 2.0, 73.9, "towels", 3.0),
        ("butt 4 h, blankets", "pork shoulder", "3.5 kg", 96.1, 4.0, 82.2, "blankets", 3.0),
        ("butt 7 h, blankets", "pork shoulder", "3.5 kg", 91.7, 7.0, 68.3, "blankets", 3.0),
        ("brisket 6 h, a general statement", "brisket", "5 kg", 93.3, 6.0, 60.0, "towels", 5.0),
        ("two butts 5 h", "pork shoulder", "3.5 kg", 87.8, 5.0, 62.8, "towels", 5.0),
    ]
    found = []
    for name, cut, mass, start, hours, end, how, sd in listed:

        def plan(cut=cut, mass=mass, start=start, hours=hours, how=how) -> lc.Plan:
            wrap = lc.wrap("towels")
            if how == "blankets":
                for side in (wrap.bottom, wrap.top):
                    side.heat_resistance *= 2.0
            rest = lc.Stage("rest", lc.insulated_box("21 °C"), wrap=wrap, until=lc.elapsed(f"{hours} h"))
            return smoked(cut, mass, "121 °C", 68.0, start, "foil", [rest])

        found.append(
            Other("rest", name, "°C", end, sd, False, "posts listed in rests.csv and cooler_rests.csv", plan,
                  lambda out: float(out.core[-1]))
        )  # fmt: skip
    return found


def losses() -> list[Other]:
    """Weighed losses, in points of the raw mass."""

    def lost(out: lc.Outcome) -> float:
        return 100.0 * out.loss.total / out.loss.raw

    def held() -> lc.Plan:
        return smoked("brisket", "5.5 kg", "110 °C", 71.0, 90.0, "none",
                      [lc.Stage("held", lc.holding_oven("71 °C"), until=lc.elapsed("3 h"))])  # fmt: skip

    def point() -> lc.Plan:
        return smoked("brisket point", "4.13 kg", "121 °C", 71.0, 91.7, "none", [])

    def neck() -> lc.Plan:
        return smoked("pork neck", "2.1 kg", "120 °C", 71.0, 88.0, "none",
                      [lc.Stage("rest", lc.counter(21.0), wrap="foil", until=lc.elapsed("1 h"))])  # fmt: skip

    of = "losses.csv"
    return [
        Other("loss", "briskets to 90 °C, held 3 h", "%", 44.0, 4.0, False, of, held, lost),
        Other("loss", "brisket point, drum", "%", 27.5, 5.0, False, of, point, lost),
        Other("loss", "pork neck, kettle", "%", 35.7, 4.0, False, of, neck, lost),
    ]


def rates() -> list[Other]:
    """How fast the core climbs under a wrap that was put on at 71 °C."""

    def climb(hours: float) -> Callable[[lc.Outcome], float]:
        def read(out: lc.Outcome) -> float:
            begin = out.stage_ends[0]
            end = min(begin.time + hours * HOUR, float(out.time[-1]))
            rise = float(np.interp(end, out.time, out.core)) - begin.core
            return max(rise, 0.05) / ((end - begin.time) / HOUR)

        return read

    of = "other.csv: {} rates of cooks of 107 to 130 °C, mostly unknown masses"
    return [
        Other("wrap", "core in foil, from 71 °C on", "K/h", 9.8, 0.12, True, of.format(7),
              lambda: smoked("brisket", "5.5 kg", "118 °C", 71.0, 90.0, "foil", []), climb(2.0)),
        Other("wrap", "core in paper, from 71 °C on, 3 h", "K/h", 3.2, 0.35, True, of.format(4),
              lambda: smoked("brisket", "5.5 kg", "118 °C", 71.0, 92.0, "butcher paper", []), climb(3.0)),
    ]  # fmt: skip


def pair() -> list[Other]:
    """The published pair: one pit, one foiled at 4 h; the thickness, which is not told, is that of 5.5 kg."""

    def cook(foil: bool) -> lc.Plan:
        pit = lc.pit("offset", air="114 °C")
        meat = lc.cut("brisket", mass="5.5 kg")
        if not foil:
            return lc.Plan(meat, [lc.Stage("smoke", pit, until=lc.core("195 °F"))])
        return lc.Plan(meat, [lc.Stage("smoke", pit, until=lc.elapsed("4 h")),
                              lc.Stage("foil", pit, wrap="foil", until=lc.core("195 °F"))])  # fmt: skip

    of = "Texas A&M University meat science extension, Brisket Stall Demonstrated, 2013"

    def end(out: lc.Outcome) -> float:
        return out.stage_ends[-1].time / HOUR

    return [
        Other(
            "pair",
            "foiled at 4 h, to 195 °F",
            "h",
            9.0,
            0.15,
            True,
            of,
            lambda: cook(True),
            end,
            "thickness not told",
        ),
        Other("pair", "bare, to 195 °F", "h", 13.5, 0.15, True, of, lambda: cook(False), end, "13 h or more"),
    ]


def everything() -> list[Other]:
    return [*cooling(), *rests(), *losses(), *rates(), *pair()]
