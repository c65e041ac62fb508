"""Figures of a cook on a cross-section: maps at chosen times, an animation, where a probe reads what.

Drawn to scale, flat end at the left. Temperatures are coloured with inferno, water with YlGnBu and tenderness
with cividis: their lightness only rises, so that they are read in order with any colour vision; contour lines
carry their values.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from libcook.arguments.door import door
from libcook.arguments.optional import need
from libcook.arguments.plain import choice, is_real, items, two
from libcook.arguments.quantity import Word
from libcook.errors import invalid
from libcook.figures.section_draw import MM, draw_section, finish_panels, look_of
from libcook.figures.section_movie import animate
from libcook.figures.style import SMALL, savefig, theme_of
from libcook.readings.readable import stage_labels
from libcook.readings.section_field import FIELDS, largest_change, mesh_of, moment_of, values_at
from libcook.units import format_duration, temperature_unit, to_si

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from libcook.outcome import Outcome

__all__ = ["animate", "probe_map", "probe_shift", "savefig", "section_map"]


@door
def section_map(
    outcome: Outcome,
    what: Word = "temperature",
    at: Sequence[Any] | str | float | None = None,
    units: Word = "C",
    theme: Word = "light",
) -> list[Axes]:
    """Draw the cross-section at some times, one under another, to scale.

    Parameters
    ----------
    outcome : Outcome
        Simulated with ``grid="cross-section"``, with its fields.
    what : str
        ``"temperature"``, ``"water"`` [kg/kg dry solids] or ``"tenderness"`` (share of the collagen
        converted).
    at : sequence of float or str, optional
        Up to eight times, such as ``("2 h", "6 h")`` or seconds; the ends of the stages by default.
    units : str
        ``"C"`` or ``"F"``.
    theme : str
        ``"light"`` or ``"dark"``.

    Returns
    -------
    list of matplotlib.axes.Axes
        One for each time. The seam is outlined, circles are the probes, and what they read stands beside.
    """
    choice(what, FIELDS, "what")
    if at is None:
        at = [end.time for end in outcome.stage_ends if end.time > 0.0]
    one = is_real(at) or isinstance(at, str) or hasattr(at, "magnitude")
    listed = [at] if one else items(at, "at", "times such as ('2 h', '6 h') are accepted")
    if not 1 <= len(listed) <= 8:
        raise invalid("at", at, f"{len(listed)} times came", "1 to 8 are accepted, such as ('2 h', '6 h')")
    moments = [moment_of(outcome, each, f"at[{i}]") for i, each in enumerate(listed)]
    unit, colours, mesh = temperature_unit(units), theme_of(theme), mesh_of(outcome)
    fields = [values_at(outcome, what, moment) for moment in moments]
    look = look_of(what, fields, unit)
    pyplot = need("matplotlib.pyplot", "plots", "section_map")
    tall = 6.3 * float(mesh.z.max() / mesh.x.max()) + 0.42  # inches: a panel and its title
    figure, grid = pyplot.subplots(
        len(moments), 1, figsize=(8.0, tall * len(moments) + 0.75), layout="constrained", squeeze=False,
        sharex=True, sharey=True,
    )  # fmt: skip
    figure.set_facecolor(colours.paper)
    axes = list(grid[:, 0])
    for ax, moment, field in zip(axes, moments, fields, strict=True):
        draw_section(ax, outcome, field, look, colours)
        stage = stage_labels(outcome)[min(int(np.searchsorted(outcome.time, moment)), len(outcome.time) - 1)]
        ax.set_title(f"{format_duration(moment)}, {stage}", loc="left", fontsize=SMALL + 1, color=colours.ink)
    finish_panels(axes, outcome, look, colours)
    return axes


@door
def probe_shift(outcome: Outcome, place: Any, at: Any, within: Any = "10 mm") -> float:
    """Return how much a probe's reading can change when it sits a little off [K].

    Parameters
    ----------
    outcome : Outcome
        Simulated with ``grid="cross-section"``, with its fields.
    place : pair of float or str
        Distance from the flat end and height above the bottom face, such as ``("12 cm", "3 cm")``.
    at : float or str
        When, such as ``"6 h"``.
    within : float or str
        How far off; a plain number is in m.

    Returns
    -------
    float
        Largest difference between the temperature at the place and at any place in the meat within that
        distance, in the plane of the section.
    """
    mesh, moment = mesh_of(outcome), moment_of(outcome, at, "at")
    pair = two(place, "place", "a pair such as ('12 cm', '3 cm') is accepted")
    x, z = (to_si(part, "length", f"place[{i}]") for i, part in enumerate(pair))
    here = float(np.interp(moment, outcome.time, outcome.probe((x, z))))
    field = values_at(outcome, "temperature", moment)
    found = largest_change(mesh, field, np.array([x]), np.array([z]), np.array([here]), _distance(within))
    return float(found[0])


@door
def probe_map(
    outcome: Outcome,
    at: Any = None,
    within: Any = "10 mm",
    units: Word = "C",
    ax: Axes | None = None,
    theme: Word = "light",
) -> Axes:
    """Draw how much a probe's reading can change when it sits a little off.

    Parameters
    ----------
    outcome : Outcome
        Simulated with ``grid="cross-section"``, with its fields.
    at : float or str, optional
        When, such as ``"6 h"``; by default when the first stage ended.
    within : float or str
        How far off, 1 to 50 mm; a plain number is in m.
    units : str
        ``"C"`` or ``"F"``: unit of the differences.
    ax : matplotlib.axes.Axes, optional
        Where to draw; a new figure by default.
    theme : str
        ``"light"`` or ``"dark"``.

    Returns
    -------
    matplotlib.axes.Axes
        Contours of the largest difference to any place within that distance; see `probe_shift`.
    """
    unit, colours, mesh = temperature_unit(units), theme_of(theme), mesh_of(outcome)
    moment = moment_of(outcome, outcome.stage_ends[0].time if at is None else at, "at")
    field = values_at(outcome, "temperature", moment)
    off = _distance(within)
    change = largest_change(mesh, field, mesh.x.ravel(), mesh.z.ravel(), field.ravel(), off)
    kelvin = change.reshape(field.shape)
    look = look_of("change", [kelvin], unit)
    if ax is None:
        pyplot = need("matplotlib.pyplot", "plots", "probe_map")
        tall = 6.3 * float(mesh.z.max() / mesh.x.max()) + 1.3
        figure, ax = pyplot.subplots(figsize=(8.0, tall), layout="constrained")
        figure.set_facecolor(colours.paper)
    draw_section(ax, outcome, kelvin, look, colours)
    title = f"{format_duration(moment)}: what a probe {off * MM:g} mm off can read more or less"
    ax.set_title(title, loc="left", fontsize=SMALL + 1, color=colours.ink)
    finish_panels([ax], outcome, look, colours)
    return ax


def _distance(within: Any) -> float:
    return to_si(within, "length", "within", low=0.001, high=0.05)
