"""Balances of a brick in a stage, and the matrix of a step.

Unknowns: temperature and water of each cell, film of each face. What they hold, Q (heat and water of each
cell, film of each face), changes by F, what crosses edges and faces; a step solves

    a Q(y) - h F(y) = what the steps before left

so that heat and water are conserved whatever the step, to what is left of the residual. The fluxes are those
of `independent.solver`, mobilities, conductivities and carried heat averaged over both sides of an edge.
"""

from __future__ import annotations

import numpy as np
from independent.tissue import Array
from scipy import sparse

from brick import bulk as of
from brick import face as on
from brick.bulk import Bulk
from brick.face import Faces
from brick.grid import Brick, Index


class Pattern:
    """Where entries of a matrix go, found once; entries at one place add up."""

    def __init__(self, rows: Index, columns: Index, size: int) -> None:
        places, self.inverse = np.unique(columns * size + rows, return_inverse=True)
        self.indices = (places % size).astype(np.int32)
        self.starts = np.searchsorted(places, np.arange(size + 1) * size).astype(np.int32)
        self.size = size

    def matrix(self, values: Array) -> sparse.csc_matrix:
        data = np.bincount(self.inverse, weights=values, minlength=len(self.indices))
        return sparse.csc_matrix((data, self.indices, self.starts), shape=(self.size, self.size))


class System:
    """State y: temperatures [°C], then waters [kg/kg dry] of the cells, then films [kg/m²] of the faces."""

    def __init__(self, brick: Brick, bulk: Bulk) -> None:
        self.brick, self.bulk = brick, bulk
        n, f = brick.cells, brick.faces
        self.size = 2 * n + f
        edges = np.arange(brick.near.size)
        ones = np.ones(edges.size)
        both = (n, edges.size)
        self.spread = sparse.csr_matrix((ones, (brick.far, edges)), both) - sparse.csr_matrix(
            (ones, (brick.near, edges)), both
        )
        self.gather = sparse.csr_matrix((np.ones(f), (brick.face_cell, np.arange(f))), (n, f))
        # One unit of each unknown's balance: a cell's heat per K, its water per kg/kg, a face's film.
        solids = bulk.tissue.solids
        self.unit = np.concatenate((3.5e6 * brick.volume, solids * brick.volume, brick.face_area))
        rows, columns = self.places()
        self.pattern = Pattern(rows, columns, self.size)
        self.row_unit = self.unit[rows]
        self.faces: Faces
        self.air = self.vapour = 0.0
        self.peak: Array

    def split(self, y: Array) -> tuple[Array, Array, Array]:
        n = self.brick.cells
        return y[:n], y[n : 2 * n], y[2 * n :]

    def held_at(self, t: Array, x: Array) -> Array:
        """Held water at the faces [kg/kg]."""
        return np.asarray(self.bulk.tissue.bulk(t, x, self.peak[self.brick.face_cell])[0])

    def contents(self, y: Array) -> Array:
        """Q: heat [J] and water [kg] of each cell, with the films' heat, and the films [kg]."""
        t, x, m = self.split(y)
        brick, bulk = self.brick, self.bulk
        film = brick.face_area * m
        heat = bulk.enthalpy(t, x, self.peak) * brick.volume + (self.gather @ film) * bulk.liquid(t)
        return np.concatenate((heat, bulk.tissue.solids * x * brick.volume, film))

    def surface(self, t: Array, x: Array, m: Array) -> Array:
        """Fluxes of `face` at each bit of surface, from the temperature and water of its cell."""
        return self.faces.flux(self.air, self.vapour, t, x, self.held_at(t, x), m)

    def surface_rates(self, flux: Array, liquid: Array) -> tuple[Array, Array, Array]:
        """Heat into the cell, water into the cell, film gained, per m²."""
        leaving = flux[on.VAPOUR] + flux[on.RUN_OFF]
        heat = flux[on.HEAT] - flux[on.VAPOUR] * flux[on.LATENT] - leaving * liquid
        tissue = -(flux[on.VAPOUR] - flux[on.FROM_FILM] + flux[on.SEEP])
        return heat, tissue, flux[on.SEEP] - flux[on.FROM_FILM] - flux[on.RUN_OFF]

    def edge_fluxes(self, v: Array, t: Array) -> tuple[Array, Array]:
        """Heat and water from the near to the far cell of each edge."""
        a, b = v[:, self.brick.near], v[:, self.brick.far]
        g = 0.5 * self.brick.per_spacing
        water = (a[of.FAST] + b[of.FAST]) * (a[of.JUICE] - b[of.JUICE])
        water += (a[of.SLOW] + b[of.SLOW]) * (a[of.BOUND] - b[of.BOUND])
        water *= self.bulk.tissue.solids * g
        heat = g * (a[of.CONDUCTIVITY] + b[of.CONDUCTIVITY]) * (t[self.brick.near] - t[self.brick.far])
        return heat + 0.5 * water * (a[of.LIQUID] + b[of.LIQUID]), water

    def rates(self, y: Array) -> tuple[Array, Array]:
        """F, and the fluxes at the faces."""
        t, x, m = self.split(y)
        cell, area = self.brick.face_cell, self.brick.face_area
        v = self.bulk.values(t, x, self.peak)
        heat, water = self.edge_fluxes(v, t)
        flux = self.surface(t[cell], x[cell], m)
        into, tissue, film = self.surface_rates(flux, v[of.LIQUID][cell])
        return np.concatenate(
            (
                self.spread @ heat + self.gather @ (area * into),
                self.spread @ water + self.gather @ (area * tissue),
                area * film,
            )
        ), flux

    def places(self) -> tuple[Index, Index]:
        """Rows and columns of the entries that `matrix` gives, in its order."""
        brick, n = self.brick, self.brick.cells
        cells, films = np.arange(n), 2 * n + np.arange(brick.faces)
        near, far, at = brick.near, brick.far, brick.face_cell
        rows, columns = [cells, cells, n + cells], [cells, n + cells, n + cells]
        for variable in (near, far, n + near, n + far):  # by t of both cells, by x of both
            for row in (near, far, n + near, n + far):  # heat of both, water of both
                rows.append(row)
                columns.append(variable)
        for variable in (at, n + at, films):
            for row in (at, n + at, films):
                rows.append(row)
                columns.append(variable)
        return np.concatenate(rows), np.concatenate(columns)

    def matrix(self, y: Array, a: float, h: float) -> sparse.csc_matrix:
        """a dQ/dy - h dF/dy, rows in units of `unit`."""
        t, x, m = self.split(y)
        brick, bulk = self.brick, self.bulk
        v = bulk.values(t, x, self.peak)
        by_t, by_x = bulk.slopes(t, x, self.peak, v)
        film = self.gather @ (brick.face_area * m)
        entries = [
            a * (by_t[of.ENTHALPY] * brick.volume + film * by_t[of.LIQUID]),
            a * by_x[of.ENTHALPY] * brick.volume,
            np.full(brick.cells, a * bulk.tissue.solids) * brick.volume,
        ]
        for heat, water in self.edge_slopes(v, t, by_t, by_x):
            entries += [h * heat, -h * heat, h * water, -h * water]
        entries += self.face_entries(y, v, a, h)
        return self.pattern.matrix(np.concatenate(entries) / self.row_unit)

    def edge_slopes(self, v: Array, t: Array, by_t: Array, by_x: Array) -> list[tuple[Array, Array]]:
        """Of heat and water of each edge: by t near, t far, x near, x far."""
        near, far = self.brick.near, self.brick.far
        g = 0.5 * self.brick.per_spacing
        wet = self.bulk.tissue.solids * g
        a, b = v[:, near], v[:, far]
        drop, juice, bound = t[near] - t[far], a[of.JUICE] - b[of.JUICE], a[of.BOUND] - b[of.BOUND]
        k, fast, slow = (a[i] + b[i] for i in (of.CONDUCTIVITY, of.FAST, of.SLOW))
        liquid = 0.5 * (a[of.LIQUID] + b[of.LIQUID])
        flow = wet * (fast * juice + slow * bound)
        slopes = []
        for by, is_t in ((by_t, 1.0), (by_x, 0.0)):
            for cells, sign in ((near, 1.0), (far, -1.0)):
                d = by[:, cells]
                water = d[of.FAST] * juice + d[of.SLOW] * bound
                water = wet * (water + sign * (fast * d[of.JUICE] + slow * d[of.BOUND]))
                heat = g * (d[of.CONDUCTIVITY] * drop + is_t * sign * k)
                slopes.append((heat + water * liquid + 0.5 * flow * d[of.LIQUID], water))
        return slopes

    def face_entries(self, y: Array, v: Array, a: float, h: float) -> list[Array]:
        """Of each face: heat, water and film, by t, x and film, differences of the fluxes."""
        t, x, m = self.split(y)
        cell, area = self.brick.face_cell, self.brick.face_area
        at = [t[cell], x[cell], m]

        def rates(moved: list[Array]) -> Array:
            return np.stack(self.surface_rates(self.surface(*moved), self.bulk.liquid(moved[0])))

        base = rates(at)
        entries: list[Array] = []
        for variable, size in enumerate(on.STEPS):
            moved = list(at)
            moved[variable] = at[variable] + size
            entries += list(-h * area * (rates(moved) - base) / size)
        entries[6] = entries[6] + a * area * v[of.LIQUID][cell]  # a film has the heat of its cell
        entries[8] = entries[8] + a * area
        return entries
