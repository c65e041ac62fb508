"""The reference rectangle in NumPy, vectorised over the nodes: as one would write it in a notebook."""

from __future__ import annotations

import numpy as np
from numpy_slab import CAPACITY, CONDUCTIVITY, DENSITY, NumpySlab
from scipy.sparse import csc_matrix, diags

ALONG, ACROSS = 60, 24  # intervals
LENGTH, HEIGHT = 0.15, 0.06  # m


class NumpyRectangle(NumpySlab):
    """State [all T, all C], a row along x after the other."""

    size = 2 * (ALONG + 1) * (ACROSS + 1)
    _shape = (2, ACROSS + 1, ALONG + 1)

    def start(self) -> np.ndarray:
        return np.repeat(super().start()[:2], self.size // 2)

    def rates(self, _t: float, y: np.ndarray) -> np.ndarray:
        t, c = y.reshape(self._shape)
        d = self.mobility(t, c)
        f = np.zeros(self._shape)
        for axis, spacing in ((1, LENGTH / ALONG), (0, HEIGHT / ACROSS)):
            ends = [0, -1]
            q, m = self.faces(np.take(t, ends, axis), np.take(c, ends, axis))
            sign = np.array([-1.0, 1.0]).reshape((2, 1) if axis == 0 else (1, 2))
            mean = 0.5 * (np.delete(d, 0, axis) + np.delete(d, -1, axis))
            heat = CONDUCTIVITY / (DENSITY * CAPACITY) * np.diff(t, axis=axis) / spacing
            water = mean * np.diff(c, axis=axis) / spacing
            outer_heat = np.split(sign * q / (DENSITY * CAPACITY), 2, axis)
            outer_water = np.split(-sign * m / DENSITY, 2, axis)
            change = np.stack(
                [
                    np.diff(np.concatenate([outer_heat[0], heat, outer_heat[1]], axis), axis=axis),
                    np.diff(np.concatenate([outer_water[0], water, outer_water[1]], axis), axis=axis),
                ]
            )
            halved = change if axis == 1 else change.swapaxes(1, 2)
            halved[:, :, ends] *= 2.0  # a view of the change
            f += change / spacing
        return f.ravel()

    def middle(self, y: np.ndarray) -> float:
        return float(y.reshape(self._shape)[0, ACROSS // 2, ALONG // 2])

    @classmethod
    def pattern(cls) -> csc_matrix:
        """Where the Jacobian may have entries: a node, its neighbours, both unknowns."""
        n = cls.size // 2
        offsets = [0, 1, -1, ALONG + 1, -ALONG - 1]
        offsets += [o + n for o in offsets] + [o - n for o in offsets]
        return diags([np.ones(cls.size)] * len(offsets), offsets, shape=(cls.size, cls.size), format="csc")
