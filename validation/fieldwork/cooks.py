"""The measured cooks of validation/field, and the plans that a user would write for them.

Only what a user would type is given: cut, mass, start where it is known, kind of cooker, course of the pit,
wraps.
"""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

import libcook as lc

HERE = Path(__file__).resolve().parent.parent / "field"
HOUR = 3600.0
LONGEST = (
    2.2  # times of the last reading that a cook is followed for; beyond, it counts as that much too slow
)
LATEST = 46.0  # h, for the same reason that plans end after two days
COLDEST, HOTTEST = -1.0, 29.0  # °C of meat put on
PIECES = ("flat", "point", "half", "neck", "picnic", "clod", "leg", "rib roast")

Array = np.ndarray[Any, np.dtype[np.float64]]


@dataclass(frozen=True, eq=False)
class Field:
    """One measured cook: readings and pit in hours and °C, wraps as (hours, name)."""

    name: str
    cut: str
    mass: float
    start: float
    start_known: bool
    cooker: str
    grade: str
    time: Array
    core: Array
    pit_time: Array
    pit: Array
    wraps: tuple[tuple[float, str], ...]
    note: str

    @property
    def kind(self) -> str:
        """Brisket, pork or other: what is scored together."""
        if "brisket" in self.cut and "cured" not in self.cut:
            return "brisket"
        return "pork" if "pork" in self.cut else "other"


def rows(name: str, folder: Path = HERE) -> list[dict[str, str]]:
    with (folder / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


@cache
def load(folder: Path = HERE) -> tuple[Field, ...]:
    """All cooks, in the order of the file."""
    core: dict[str, list[tuple[float, float]]] = {}
    pit: dict[str, list[tuple[float, float]]] = {}
    for row in rows("readings", folder):
        core.setdefault(row["id"], []).append((float(row["t_h"]), float(row["core_C"])))
    for row in rows("pit", folder):
        pit.setdefault(row["id"], []).append((float(row["t_h"]), float(row["pit_C"])))
    found = []
    for row in rows("cooks", folder):
        time, temperature = np.array(core[row["id"]]).T
        pit_time, air = np.array(pit[row["id"]]).T
        wraps = (text.split("h ", 1) for text in row["wraps"].split("; ") if text)
        found.append(
            Field(
                name=row["id"],
                cut=row["cut"],
                mass=float(row["mass_kg"]),
                start=float(np.clip(float(row["start_C"]), COLDEST, HOTTEST)),
                start_known=row["start_known"] == "yes",
                cooker=row["cooker"],
                grade=row["grade"],
                time=time,
                core=temperature,
                pit_time=pit_time,
                pit=air,
                wraps=tuple((float(at), what) for at, what in wraps),
                note=row["note"],
            )
        )
    return tuple(found)


def meat(cook: Field) -> lc.Meat:
    """The piece, as its cut is called: those that the table names, else a whole brisket or shoulder."""
    families = {"brisket": ("brisket",), "pork": ("pork",)}.get(cook.kind, ("beef", "lamb", "brisket"))
    known = {one.name for one in lc.cuts()}
    for name in (f"{family} {word}" for word in PIECES if word in cook.cut for family in families):
        if name in known:
            return lc.cut(name, mass=cook.mass, start=cook.start)
    name = {"brisket": "brisket", "pork": "pork shoulder"}.get(cook.kind, "beef chuck")
    return lc.cut(name, mass=cook.mass, start=cook.start)


def pit(cook: Field, end: float) -> lc.Surroundings:
    """The cooker with the course of its pit [h], followed to `end`; two readings at one time are a step."""
    time, air = cook.pit_time * HOUR, cook.pit.copy()
    if time[0] > 0.0:
        time, air = np.insert(time, 0, 0.0), np.insert(air, 0, air[0])
    if time[-1] < (end + 1.0) * HOUR:
        time, air = np.append(time, (end + 1.0) * HOUR), np.append(air, air[-1])
    time = time + 30.0 * np.concatenate([[0.0], np.cumsum(np.diff(time) <= 0.0)])
    if cook.cooker == "oven":
        return lc.oven((time, air))
    return lc.pit(cook.cooker, air=(time, air))


def plan(cook: Field) -> lc.Plan:
    """The whole cook, on to LONGEST times its last reading."""
    end = min(LONGEST * float(cook.time[-1]), LATEST)
    around = pit(cook, end)
    edges = [0.0, *(at for at, _ in cook.wraps), end]
    names = ["none", *(name for _, name in cook.wraps)]
    stages = [
        lc.Stage(
            f"part {i + 1}", around, wrap=name, until=lc.elapsed(max(60.0, (edges[i + 1] - edges[i]) * HOUR))
        )
        for i, name in enumerate(names)
    ]
    return lc.Plan(meat(cook), stages)


def slowness(cook: Field, time: Array, core: Array) -> float:
    """ln(time at which the model has the last reading's temperature / time at which it was read)."""
    last = float(cook.time[-1])
    at = int(np.argmax(core >= cook.core[-1]))
    reached = (
        float(np.interp(cook.core[-1], core[at - 1 : at + 1], time[at - 1 : at + 1])) if at else math.inf
    )
    return math.log(min(reached, LONGEST * last) / last)
