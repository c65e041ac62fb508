"""The reference slab in NumPy, vectorised over the nodes: as one would write it in a notebook."""

from __future__ import annotations

import numpy as np

DENSITY, CAPACITY, CONDUCTIVITY = 1060.0, 3500.0, 0.45  # SI
LATENT, VAPOUR_GAS, AIR_VAPOUR, GAS, ACTIVATION = 2.4e6, 461.5, 6000.0, 8.314462618, 25000.0  # SI
ZERO = 273.15  # K
START, WATER = 4.0, 0.70  # °C, kg/kg
UNTIL = (68.0, 95.0)  # °C in the middle: wrap, then rest
REST, LONGEST, MINUTE = 7200.0, 43200.0, 60.0  # s
INTERVALS = 60


class NumpySlab:
    """State [T_0, C_0, T_1, C_1, ...] of one cook; nominal, or with what varies from the library."""

    size = 2 * (INTERVALS + 1)

    def __init__(self, varied: np.ndarray) -> None:
        self.length, film, vapour_film, air, self.mobility_60 = (float(v) for v in varied)
        self.phases = ((film, vapour_film, air), (12.0, 1e-4, air), (6.0, 0.0, 21.0))
        self.phase = 0

    def start(self) -> np.ndarray:
        return np.tile([START, WATER], INTERVALS + 1)

    def mobility(self, t: np.ndarray, c: np.ndarray) -> np.ndarray:
        """Mobility of the water [m²/s]."""
        hot = self.mobility_60 * np.exp(ACTIVATION / GAS * (1.0 / (60.0 + ZERO) - 1.0 / (t + ZERO)))
        return hot * (0.01 + 0.99 / (1.0 + np.exp(-(c - 0.2) / 0.03)))

    def faces(self, t: np.ndarray, c: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Heat into and water out of the faces [W/m², kg m⁻² s⁻¹]."""
        film, vapour_film, air = self.phases[self.phase]
        bound = 1.0 - np.exp(-((np.maximum(c, 0.0) / 0.15) ** 2))
        pressure = bound * 610.94 * np.exp(17.625 * t / (t + 243.04))
        density = pressure / (VAPOUR_GAS * (t + ZERO)) - AIR_VAPOUR / (VAPOUR_GAS * (air + ZERO))
        water = vapour_film * density
        return film * (air - t) - water * LATENT, water

    def rates(self, _t: float, y: np.ndarray) -> np.ndarray:
        dx = self.length / INTERVALS
        t, c = y[0::2], y[1::2]
        d = self.mobility(t, c)
        heat, water = np.empty(t.size + 1), np.empty(t.size + 1)
        heat[1:-1] = CONDUCTIVITY / (DENSITY * CAPACITY * dx) * np.diff(t)
        water[1:-1] = 0.5 * (d[1:] + d[:-1]) / dx * np.diff(c)
        q, m = self.faces(t[[0, -1]], c[[0, -1]])
        heat[[0, -1]] = np.array([-q[0], q[1]]) / (DENSITY * CAPACITY)
        water[[0, -1]] = np.array([m[0], -m[1]]) / DENSITY
        f = np.empty_like(y)
        f[0::2] = np.diff(heat) / dx
        f[1::2] = np.diff(water) / dx
        f[[0, 1, -2, -1]] *= 2.0
        return f

    def middle(self, y: np.ndarray) -> float:
        return float(y[2 * (INTERVALS // 2)])
