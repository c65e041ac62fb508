"""What measured cooks say of how long a cook takes: the yardstick of the other worlds.

ln(h until done) = level of the cut + mass ln(kg / 4) + pit (°C - 115) + core (°C - 93) + foil + paper,
fitted to the last readings of validation/field that lie above HOT, by least squares with Huber's
weights: a last reading that is not yet or more than done counts at its own core. The slopes are shared
by the two cuts, for some thirty cooks of each cut say little of them; levels and scatters are of each
cut. Wraps count by the share of the time spent in them.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

HERE = Path(__file__).resolve().parent.parent / "field"
HOT = 82.0  # °C: last readings below it are of cooks that were not followed to the end
HUBER = 1.345  # scatters: the usual tuning, 95 % as efficient as least squares on a normal scatter
CUTS = ("brisket", "pork")

Array = np.ndarray[Any, np.dtype[np.float64]]


@dataclass(frozen=True, eq=False)
class Measured:
    """One measured cook; h and °C."""

    name: str
    cut: str
    mass: float
    start: float
    cooker: str
    time: Array
    core: Array
    pit: float
    foil: float
    paper: float
    wraps: tuple[tuple[float, str], ...]


def _rows(name: str) -> list[dict[str, str]]:
    with (HERE / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def _wraps(text: str) -> tuple[tuple[float, str], ...]:
    pairs = (one.split("h ", 1) for one in text.split("; ") if one)
    return tuple((float(at), what) for at, what in pairs)


def _share(wraps: tuple[tuple[float, str], ...], what: str, end: float) -> float:
    """The share of the cook that it was wrapped in this."""
    times = [*(min(at, end) for at, _ in wraps), end]
    return sum(times[i + 1] - times[i] for i, (_, name) in enumerate(wraps) if name.startswith(what)) / end


@cache
def measured() -> tuple[Measured, ...]:
    """All measured cooks of brisket and pork."""
    core: dict[str, list[tuple[float, float]]] = {}
    pit: dict[str, list[tuple[float, float]]] = {}
    for row in _rows("readings"):
        core.setdefault(row["id"], []).append((float(row["t_h"]), float(row["core_C"])))
    for row in _rows("pit"):
        pit.setdefault(row["id"], []).append((float(row["t_h"]), float(row["pit_C"])))
    found = []
    for row in _rows("cooks"):
        cut = next((name for name in CUTS if name in row["cut"] and "cured" not in row["cut"]), None)
        if cut is None:
            continue
        time, temperature = np.array(core[row["id"]]).T
        at, air = np.array(pit[row["id"]]).T
        steps = np.linspace(0.0, time[-1], 500)
        wraps = _wraps(row["wraps"])
        found.append(
            Measured(
                row["id"],
                cut,
                float(row["mass_kg"]),
                float(row["start_C"]),
                row["cooker"],
                time,
                temperature,
                float(np.interp(steps, at, air).mean()),
                _share(wraps, "foil", time[-1]),
                _share(wraps, "butcher paper", time[-1]),
                wraps,
            )
        )
    return tuple(found)


@dataclass(frozen=True)
class Pace:
    """The regression: levels and robust scatters of each cut, shared slopes."""

    level: dict[str, float]
    scatter: dict[str, float]
    slopes: tuple[float, ...]  # of ln(kg / 4), K of pit, K of core, share in foil, share in paper
    count: dict[str, int]

    def hours(self, cut: str, mass: float, pit: float, core: float, foil: float, paper: float) -> float:
        """The population's median time until a core is reached [h]."""
        x = _terms(mass, pit, core, foil, paper)
        return float(np.exp(self.level[cut] + np.dot(self.slopes, x)))


def _terms(mass: float, pit: float, core: float, foil: float, paper: float) -> list[float]:
    return [float(np.log(mass / 4.0)), pit - 115.0, core - 93.0, foil, paper]


def robust(values: Array) -> float:
    """A standard deviation by the median distance from the median."""
    return float(1.4826 * np.median(np.abs(values - np.median(values))))


def fit(cooks: list[Measured], cuts: tuple[str, ...] = CUTS) -> Pace:
    """The regression over these cooks."""
    x = np.array(
        [
            [
                *(float(one.cut == cut) for cut in cuts),
                *_terms(one.mass, one.pit, one.core[-1], one.foil, one.paper),
            ]
            for one in cooks
        ]
    )
    y = np.log([one.time[-1] for one in cooks])
    weight = np.ones(y.size)
    for _ in range(200):
        root = np.sqrt(weight)
        found = np.linalg.lstsq(x * root[:, None], y * root, rcond=None)[0]
        left = y - x @ found
        weight = np.minimum(1.0, HUBER * robust(left) / np.maximum(np.abs(left), 1e-9))
    level, slopes = found[: len(cuts)], found[len(cuts) :]
    of = {cut: left[np.array([one.cut == cut for one in cooks])] for cut in cuts}
    return Pace(
        {cut: float(level[i] + np.median(of[cut])) for i, cut in enumerate(cuts)},
        {cut: robust(of[cut]) for cut in cuts},
        tuple(float(one) for one in slopes),
        {cut: of[cut].size for cut in cuts},
    )


@cache
def pace() -> Pace:
    """The regression over all measured cooks that were followed to the end."""
    return fit([one for one in measured() if one.core[-1] >= HOT])
