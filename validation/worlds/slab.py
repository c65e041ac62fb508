"""Half a slab of cells, its middle insulated: one implicit step of diffusion as a matrix made once a cook."""

from __future__ import annotations

import numpy as np

from .cook import Array


def smoother(cells: int, width: float, diffusivity: float, step: float) -> Array:
    """The inverse of (1 - step x diffusion) with no flux through either end; what is summed is kept."""
    number = diffusivity * step / width**2
    matrix = np.eye(cells)
    for i in range(cells - 1):
        matrix[i, i] += number
        matrix[i + 1, i + 1] += number
        matrix[i, i + 1] -= number
        matrix[i + 1, i] -= number
    return np.asarray(np.linalg.inv(matrix))
