"""Cells of a quarter brick: a tensor grid, graded towards each face, with a thin skin cell on it.

Axes: x along half of the length, y along half of the width, both from the middle to the face, z up through
the whole thickness.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from independent.tissue import Array
from numpy.typing import NDArray
from scipy.optimize import brentq

Index = NDArray[np.int64]
SKIN = 4e-6  # m
BOTTOM, TOP, LOW, HIGH = range(4)  # faces: below, above, lower and upper half of the upright sides
ALONG, ACROSS, UP = range(3)  # axes


@dataclass(frozen=True)
class Fineness:
    """Cells along half the length, half the width and the thickness (odd), and the one under the skin [m]."""

    length: int = 12
    width: int = 11
    thickness: int = 25
    first: float = 3e-4


def graded(span: float, cells: int, first: float) -> Array:
    """Edges over `span`: `cells` by a tanh, `first` the outermost, and a skin cell on each face."""
    inner = span - 2.0 * SKIN
    place = np.linspace(-1.0, 1.0, cells + 1)

    def off(stretch: float) -> float:
        return 0.5 * inner * (1.0 + float(np.tanh(stretch * place[1]) / np.tanh(stretch))) - first

    if inner / cells <= first:
        raise ValueError(f"{cells} cells over {span:g} m are finer than {first:g} m even if all are equal")
    stretch = brentq(off, 1e-3, 20.0)
    x = 0.5 * inner * (1.0 + np.tanh(stretch * place) / np.tanh(stretch)) + SKIN
    return np.concatenate(([0.0], x, [span]))


def half(span: float, cells: int, first: float) -> Array:
    """Edges from the middle of `span` to its face: the first cell is half of the one in the middle."""
    whole = graded(span, 2 * cells - 1, first) - 0.5 * span
    return np.concatenate(([0.0], whole[whole.size // 2 :]))


class Brick:
    """Geometry. Cells are numbered x slowest, z fastest; `faces` lists every bit of surface."""

    def __init__(self, length: float, width: float, thickness: float, fine: Fineness) -> None:
        if fine.thickness % 2 == 0:
            raise ValueError(f"{fine.thickness} cells across the thickness: take an odd number")
        self.size = length, width, thickness
        edges = (
            half(length, fine.length, fine.first),
            half(width, fine.width, fine.first),
            graded(thickness, fine.thickness, fine.first),
        )
        self.centre = [0.5 * (e[1:] + e[:-1]) for e in edges]
        self.centre[ALONG][0] = self.centre[ACROSS][0] = 0.0  # on the plane of symmetry
        width_of = [np.diff(e) for e in edges]
        self.shape = tuple(len(w) for w in width_of)
        number = np.arange(int(np.prod(self.shape)), dtype=np.int64).reshape(self.shape)
        area = [
            self.spread(np.ones(self.shape[0]), width_of[1], width_of[2]),
            self.spread(width_of[0], np.ones(self.shape[1]), width_of[2]),
            self.spread(width_of[0], width_of[1], np.ones(self.shape[2])),
        ]
        self.volume = self.spread(*width_of).ravel()
        self.cells = self.volume.size
        pairs = [self.pairs(number, area[axis], axis) for axis in range(3)]
        self.near, self.far, self.per_spacing = (np.concatenate(part) for part in zip(*pairs, strict=True))
        self.surface(number, area)

    @staticmethod
    def spread(x: Array, y: Array, z: Array) -> Array:
        return x[:, None, None] * y[None, :, None] * z[None, None, :]

    def pairs(self, number: Index, area: Array, axis: int) -> tuple[Index, Index, Array]:
        """Neighbours along an axis, and area over distance between their centres [m]."""
        last = number.shape[axis]
        near, far = number.take(range(last - 1), axis), number.take(range(1, last), axis)
        spacing = np.diff(self.centre[axis])
        spacing = spacing.reshape([-1 if a == axis else 1 for a in range(3)])
        return near.ravel(), far.ravel(), (area.take(range(last - 1), axis) / spacing).ravel()

    def surface(self, number: Index, area: list[Array]) -> None:
        """Faces: their cell, area [m²], kind, and the axis that they look along.

        The middle row of a side is half lower, half upper.
        """
        below = np.where(np.arange(self.shape[2]) < self.shape[2] // 2, 1.0, 0.0)
        below[self.shape[2] // 2] = 0.5
        parts = [
            (number[:, :, 0], area[UP][:, :, 0], BOTTOM, UP),
            (number[:, :, -1], area[UP][:, :, -1], TOP, UP),
        ]
        for axis, cells, side in (
            (ALONG, number[-1], area[ALONG][-1]),
            (ACROSS, number[:, -1], area[ACROSS][:, -1]),
        ):
            for kind, share in ((LOW, below), (HIGH, 1.0 - below)):
                has = share > 0.0
                parts.append((cells[:, has], (side * share)[:, has], kind, axis))
        self.face_cell = np.concatenate([part[0].ravel() for part in parts])
        self.face_area = np.concatenate([part[1].ravel() for part in parts])
        self.face_kind = np.concatenate([np.full(part[0].size, part[2]) for part in parts])
        self.face_axis = np.concatenate([np.full(part[0].size, part[3]) for part in parts])
        self.faces = self.face_cell.size
        # How far each cell's centre is from the nearest end, long side, bottom and top [m].
        x, y, z = (c.ravel() for c in np.meshgrid(*self.centre, indexing="ij"))
        self.from_end, self.from_side = 0.5 * self.size[0] - x, 0.5 * self.size[1] - y
        self.from_bottom, self.from_top = z, self.size[2] - z

    def core(self, of_cells: Array) -> float:
        """Value in the middle of the brick."""
        return float(of_cells[self.shape[UP] // 2])
