"""Fields of a cross-section on its mesh, ready to draw or to search; lengths in m."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from libcook import _core
from libcook.errors import invalid
from libcook.readings.readable import FloatArray, need_fields
from libcook.units import format_duration, to_si

FIELDS = ("temperature", "water", "tenderness")


@dataclass(frozen=True)
class Mesh:
    """Places of the nodes, shape (columns, rows): columns from the flat end, rows from the bottom."""

    x: FloatArray
    z: FloatArray

    @property
    def outline(self) -> tuple[FloatArray, FloatArray]:
        """Walk along the bottom, up the point end, back over the top and down the flat end, closed."""
        walked = [
            np.concatenate([part[:, 0], part[-1, 1:], part[-2::-1, -1], part[0, -2::-1]])
            for part in (self.x, self.z)
        ]
        return walked[0], walked[1]


def mesh_of(outcome: Any) -> Mesh:
    """Return the mesh of an outcome; raises when it was not computed on a cross-section with its fields."""
    if not getattr(outcome, "columns", 0):
        raise invalid(
            "outcome", outcome, "it was computed in one dimension", "simulate(plan, grid='cross-section')"
        )
    need_fields(outcome)
    shape = (int(outcome.columns), -1)
    return Mesh(np.asarray(outcome.along).reshape(shape), np.asarray(outcome.position).reshape(shape))


def moment_of(outcome: Any, at: Any, field: str) -> float:
    """Read a time within the cook [s]."""
    last = float(outcome.time[-1])
    moment = to_si(at, "duration", field)
    if not 0.0 <= moment <= last:
        raise invalid(field, at, f"{at} lies outside the cook", f"0 to {format_duration(last)} is accepted")
    return moment


def values_at(outcome: Any, what: str, moment: float) -> FloatArray:
    """Return a field at a time, shape (columns, rows): [°C], [kg/kg dry] or share of the collagen [-]."""
    if what == "tenderness":
        row = outcome.tenderness_by_node(moment)
    else:
        time = np.asarray(outcome.time)
        i = int(np.clip(np.searchsorted(time, moment, side="right") - 1, 0, time.size - 2))
        share = (moment - time[i]) / (time[i + 1] - time[i])
        field = np.asarray(getattr(outcome, what))
        row = (1.0 - share) * field[i] + share * field[i + 1]
    return np.asarray(row, dtype=np.float64).reshape(int(outcome.columns), -1)


def section_of(outcome: Any) -> Any:
    """Return the section that was cooked."""
    meat = outcome.plan.meat
    return meat.section if meat.section is not None else _core.default_section(meat)


def seam_edges(outcome: Any, points: int = 120) -> tuple[FloatArray, FloatArray, FloatArray] | None:
    """Return where the seam runs, (x, lower edge, upper edge) [m], cut off at the top; None without one."""
    section = section_of(outcome)
    if section.point is None and section.seam is None:
        return None
    length = float(section.length)
    half = 0.5 * float(section.seam_thickness) if section.seam is not None else 0.0
    x = np.linspace(float(section.seam_from) * length, length, points)
    top = np.array([section.thickness_at(float(place)) for place in np.clip(x, 0.0, section.length)])
    fall = (x / length - section.seam_from) / (1.0 - section.seam_from)
    middle = top * (1.0 - (1.0 - section.seam_height_end) * fall)
    lower, upper = np.maximum(middle - half, 0.0), np.minimum(middle + half, top)
    return tuple(np.asarray(part, dtype=np.float64) for part in (x, lower, upper))  # type: ignore[return-value]


def refined(mesh: Mesh, values: FloatArray, spacing: float) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Fill the mesh with further points until they are `spacing` [m] apart: flat arrays x, z, values."""
    parts = [mesh.x, mesh.z, values]
    for axis in (0, 1):
        gap = np.hypot(np.diff(parts[0], axis=axis), np.diff(parts[1], axis=axis)).max(axis=1 - axis)
        pieces = np.maximum(1, np.ceil(gap / spacing)).astype(int)
        at = np.concatenate([[0.0], *(i + np.arange(1, n + 1) / n for i, n in enumerate(pieces))])
        low = np.minimum(at.astype(int), gap.size - 1)
        share = (at - low)[:, None] if axis == 0 else (at - low)[None, :]
        parts = [(1.0 - share) * part.take(low, axis) + share * part.take(low + 1, axis) for part in parts]
    return parts[0].ravel(), parts[1].ravel(), parts[2].ravel()


def value_at(mesh: Mesh, values: FloatArray, x: float, z: float) -> float:
    """Return the value at the closest point of the field filled up to half a millimetre around a place."""
    distance = (mesh.x - x) ** 2 + (mesh.z - z) ** 2
    i, k = np.unravel_index(int(np.argmin(distance)), distance.shape)
    part = (slice(max(int(i) - 1, 0), int(i) + 2), slice(max(int(k) - 1, 0), int(k) + 2))
    cloud_x, cloud_z, cloud = refined(Mesh(mesh.x[part], mesh.z[part]), values[part], 5e-4)
    return float(cloud[int(np.argmin((cloud_x - x) ** 2 + (cloud_z - z) ** 2))])


def largest_change(
    mesh: Mesh, values: FloatArray, x: FloatArray, z: FloatArray, here: FloatArray, within: float
) -> FloatArray:
    """Return the largest difference from `here` to any place in the meat within a distance.

    Parameters
    ----------
    mesh, values
        A field.
    x, z, here : numpy.ndarray
        Places [m] and the field there, shape (n,).
    within : float
        Distance [m].
    """
    cloud_x, cloud_z, cloud = refined(mesh, values, 0.1 * within)
    result = np.zeros(here.size)
    for i in range(here.size):
        near = np.flatnonzero(np.abs(cloud_x - x[i]) <= within)
        near = near[(cloud_x[near] - x[i]) ** 2 + (cloud_z[near] - z[i]) ** 2 <= within**2]
        if near.size:
            result[i] = float(np.abs(cloud[near] - here[i]).max())
    return result
