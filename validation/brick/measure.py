"""What is told of a brick: by the minute, every ten minutes, and by place at the end of a stage."""

from __future__ import annotations

from typing import Any

import numpy as np
from independent.tissue import Array

from brick.grid import ACROSS, ALONG, BOTTOM, TOP, UP, Brick
from brick.stepper import EVAPORATED, RUN_OFF, Point
from brick.system import System

QUARTERS = 4.0  # the solved quarter, to the whole
BAND = 0.010  # m: nearer than this to an edge counts as the edge
# Temperatures [°C]: core; mean of the whole; surface in the middle of bottom, top and long side; mean of the
# line through the middle, and of the rim, the meat within half a thickness of a side. Water [kg of the whole
# brick] that evaporated and ran off; water [kg/kg dry] of that line and that rim.
COLUMNS = (
    "core", "mean", "evaporated", "run_off",
    "bottom", "top", "side", "line", "rim", "line_water", "rim_water",
)  # fmt: skip


class Gauge:
    """Rows of `COLUMNS` from the state."""

    def __init__(self, system: System) -> None:
        self.system, self.brick = system, system.brick
        brick = self.brick
        number = np.arange(brick.cells).reshape(brick.shape)
        self.spots = [number[0, 0, 0], number[0, 0, -1], number[0, -1, brick.shape[2] // 2]]
        self.line = number[0, 0]
        near = np.minimum(brick.from_end, brick.from_side)
        self.rim = np.flatnonzero(near < 0.5 * brick.size[2])

    def mean(self, of_cells: Array, cells: Any = slice(None)) -> float:
        volume = self.brick.volume[cells]
        return float(of_cells[cells] @ volume) / float(volume.sum())

    def core(self, point: Point) -> float:
        return self.brick.core(self.system.split(point.y)[0])

    def row(self, point: Point) -> Array:
        t, x, _ = self.system.split(point.y)
        lost = QUARTERS * point.totals[[EVAPORATED, RUN_OFF]].sum(axis=1)
        inside = [
            self.mean(t, self.line),
            self.mean(t, self.rim),
            self.mean(x, self.line),
            self.mean(x, self.rim),
        ]
        return np.array([self.brick.core(t), self.mean(t), *lost, *t[self.spots], *inside])


def places(brick: Brick) -> dict[str, dict[str, Array]]:
    """Faces of each part of the surface, and of its middle and its edges (true where a face belongs)."""
    cell, kind, axis = brick.face_cell, brick.face_kind, brick.face_axis
    at_end, at_side = brick.from_end[cell] < BAND, brick.from_side[cell] < BAND
    low, high = brick.from_bottom[cell] < BAND, brick.from_top[cell] < BAND
    number = np.arange(brick.cells).reshape(brick.shape)
    half = brick.shape[2] // 2
    found = {}
    for name, which in (("bottom", BOTTOM), ("top", TOP)):
        part = kind == which
        found[name] = {
            "all": part,
            "middle": part & np.isin(cell, number[0, 0]),
            "edges": part & (at_end ^ at_side),
            "corners": part & at_end & at_side,
        }
    for name, which, corner, middle in (
        ("long sides", ACROSS, at_end, number[0, -1, half]),
        ("ends", ALONG, at_side, number[-1, 0, half]),
    ):
        part = axis == which
        found[name] = {
            "all": part,
            "middle": part & (cell == middle),
            "lower edge": part & low & ~corner,
            "upper edge": part & high & ~corner,
            "upright edges": part & corner & ~low & ~high,
            "corners": part & corner & (low | high),
        }
    found["sides"] = {"all": axis != UP}
    return found


def by_place(system: System, point: Point) -> dict[str, Any]:
    """Evaporated and run off so far per area [kg/m²], and lines of temperature and water in the meat."""
    brick = system.brick
    area, lost = brick.face_area, point.totals[[EVAPORATED, RUN_OFF]]
    table: dict[str, Any] = {}
    for part, groups in places(brick).items():
        table[part] = {"area": round(QUARTERS * float(area[groups["all"]].sum()), 5)}
        for name, chosen in groups.items():
            per_area = lost[:, chosen].sum(axis=1) / area[chosen].sum()
            table[part][name] = dict(zip(("evaporated", "run_off"), per_area.round(4).tolist(), strict=True))
    t, x, _ = system.split(point.y)
    number = np.arange(brick.cells).reshape(brick.shape)
    half = brick.shape[2] // 2
    lines = {"length": number[:, 0, half], "width": number[0, :, half], "thickness": number[0, 0]}
    profiles = {
        f"along the {name}": {
            "place": (1e3 * place).round(3).tolist(),  # mm, from the middle, or from the bottom
            "temperature": t[cells].round(2).tolist(),
            "water": x[cells].round(4).tolist(),
        }
        for (name, cells), place in zip(lines.items(), brick.centre, strict=True)
    }
    return {"per area": table, **profiles}
