"""Figures of one cook: the traces, the heat budget of a face, profiles through the meat."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from libcook.arguments.door import door
from libcook.arguments.plain import is_one_of, items
from libcook.arguments.quantity import Word
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.figures import marks
from libcook.figures.charts import contours, lines
from libcook.figures.place import hits, put_clear, strokes
from libcook.figures.style import (
    BAND_ALPHA,
    LINE_STYLES,
    SMALL,
    Theme,
    dress,
    halo,
    label_ends,
    new_axes,
    readable,
    savefig,
    settle,
    theme_of,
)
from libcook.readings.facts import read_facts
from libcook.readings.readable import Readable, faces, need_fields
from libcook.units import format_duration, format_temperature, shown_in, temperature_unit, to_si

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["contours", "lines", "plot_budget", "plot_outcome", "plot_profiles", "savefig"]

HOUR = marks.HOUR
EVENT_ROW = 0.055  # of the height of the axes


@door
def plot_outcome(outcome: Readable, units: Word = "C", ax: Axes | None = None, theme: Word = "light") -> Axes:
    """Draw core, surface and air over the cook, with stages, stall, events, pull and peak.

    Parameters
    ----------
    outcome : Outcome
        A simulated cook.
    units : str
        ``"C"`` or ``"F"``.
    ax : matplotlib.axes.Axes, optional
        Where to draw; a new figure by default.
    theme : str
        ``"light"`` or ``"dark"``.

    Returns
    -------
    matplotlib.axes.Axes
        With the three lines labelled ``core``, ``surface`` (the top face) and ``air``.
    """
    unit, colours = temperature_unit(units), theme_of(theme)
    ax = ax if ax is not None else new_axes(colours)[0]
    facts = read_facts(outcome)
    x = outcome.time / HOUR
    lines = [
        ("air", shown_in(outcome.air, unit), colours.air, 1.0),
        ("surface", shown_in(outcome.surface[:, -1], unit), colours.surface, 1.3),
        ("core", shown_in(outcome.core, unit), colours.core, 2.2),
    ]
    dress(ax, colours, "", f"temperature [°{unit}]")
    marks.hours_axis(ax, outcome, colours)
    rows = marks.event_rows(outcome)
    low = min(float(values.min()) for _, values, _, _ in lines)
    high = max(float(values.max()) for _, values, _, _ in lines)
    high = max(high, low + 1.0)
    margin = 0.04 * (high - low)
    foot = EVENT_ROW * len(rows)
    ax.set_ylim(low - margin - foot / (1.0 - foot) * (high - low + 2.0 * margin), high + margin)
    for name, values, colour, width in lines:
        ax.plot(x, values, color=colour, lw=width, label=name, zorder=2 + width)
    marks.stage_bands(ax, outcome, colours)
    label_ends(ax, [(x[-1], float(v[-1]), name, colour) for name, v, colour, _ in lines], colours)
    settle(ax)
    if facts.stall is not None:
        plateau = format_temperature(float(facts.stall.plateau), unit, 0)
        marks.shade_stall(ax, facts, x, lines[2][1], colours, plateau)
    marks.draw_events(ax, rows, EVENT_ROW, colours)
    words = (format_temperature(facts.pulled_core, unit), format_temperature(facts.peak or 0.0, unit))
    peak = None if facts.peak is None else float(shown_in(facts.peak, unit))
    marks.mark_pull(ax, facts, float(shown_in(facts.pulled_core, unit)), peak, words, colours)
    return ax


@door
def plot_budget(outcome: Readable, face: Word = "top", ax: Axes | None = None, theme: Word = "light") -> Axes:
    """Draw where the heat at a face goes: what arrives above zero, what evaporation takes below.

    Parameters
    ----------
    outcome : Outcome
        A simulated cook.
    face : str
        ``"top"`` or ``"bottom"`` of a slab; a cylinder has one face, which ``"top"`` stands for.
    ax : matplotlib.axes.Axes, optional
        Where to draw; a new figure by default.
    theme : str
        ``"light"`` or ``"dark"``.

    Returns
    -------
    matplotlib.axes.Axes
        Stacked mean fluxes [W/m²] over each interval of the time axis; the line is their sum, the heat that
        is left to warm the meat.

    Notes
    -----
    The first minutes, when cold meat meets hot air, can exceed the rest many times over. The axis ends at
    1.15 times what is exceeded for 2 % of the time; a figure that leaves something out says so.
    """
    if not is_one_of(face, ("top", *faces(outcome))):
        raise invalid(
            "face",
            face,
            f"{quoted(face)} is no face of this meat",
            "'top' or, for a slab, 'bottom' is accepted",
        )
    colours = theme_of(theme)
    ax = ax if ax is not None else new_axes(colours)[0]
    budget = outcome.heat_budget(face)
    x = np.asarray(budget.time) / HOUR
    parts = [
        ("convection", np.asarray(budget.convection), colours.convection),
        ("radiation", np.asarray(budget.radiation), colours.radiation),
        ("evaporation", -np.asarray(budget.evaporation), colours.evaporation),
    ]
    dress(ax, colours, "", f"heat to the {'surface' if len(faces(outcome)) == 1 else face + ' face'} [W/m²]")
    marks.hours_axis(ax, outcome, colours)
    up, down = np.zeros_like(x), np.zeros_like(x)
    bands = []
    for name, values, colour in parts:
        high, low = up + np.maximum(values, 0.0), down + np.minimum(values, 0.0)
        ax.fill_between(x, up, high, color=colour, alpha=BAND_ALPHA, lw=0, label=name)
        ax.fill_between(x, down, low, color=colour, alpha=BAND_ALPHA, lw=0)
        for edge in (high, low):  # a rim of paper between bands
            ax.plot(x, edge, color=colours.paper, lw=1.0, zorder=1.5)
        bands.append((name, up, high, down, low))
        up, down = high, low
    into = np.asarray(budget.into_meat)
    ax.plot(x, into, color=colours.ink, lw=1.6, label="into the meat")
    ax.axhline(0.0, color=colours.faint, lw=0.7)
    if not len(x):
        marks.say_nothing_passes(ax, colours)
        return ax
    weight = np.diff(np.asarray(outcome.time))
    top, bottom = _usual_range(np.maximum(up, into), weight), -_usual_range(-np.minimum(down, into), weight)
    ax.set_ylim(1.15 * bottom - 0.02 * top, 1.15 * top + 0.02 * abs(bottom))
    marks.stage_bands(ax, outcome, colours)
    label_ends(ax, [(x[-1], float(into[-1]), "into the\nmeat", colours.ink)], colours)
    _name_bands(ax, x, bands, colours)
    _say_left_out(ax, up, down, colours)
    return ax


@door
def plot_profiles(
    outcome: Readable, times: Sequence[Any], units: Word = "C", theme: Word = "light"
) -> tuple[Axes, Axes]:
    """Draw temperature and water through the meat at some times.

    Parameters
    ----------
    outcome : Outcome
        A simulated cook that kept its fields.
    times : sequence of float or str
        Such as ``["2 h", "6 h"]`` or seconds; straight lines between stored times.
    units : str
        ``"C"`` or ``"F"``.
    theme : str
        ``"light"`` or ``"dark"``.

    Returns
    -------
    tuple of matplotlib.axes.Axes
        Temperature and water, over the depth from the bottom face (or the distance from the axis) in mm; of a
        whole piece through its middle and, dashed, through its rim, where the sides and ends are.
    """
    need_fields(outcome)
    listed = items(times, "times", "a list of times such as ['2 h', '6 h'] is accepted")
    if not listed:
        raise invalid("times", times, "no times came", "such as ['2 h', '6 h'] is accepted")
    unit, colours = temperature_unit(units), theme_of(theme)
    last = float(outcome.time[-1])
    moments = [to_si(t, "duration", f"times[{i}]", low=0.0, high=last) for i, t in enumerate(listed)]
    left, right = new_axes(colours, 2, (9.0, 4.2))
    place = np.asarray(outcome.position) * 1000.0
    sides = max(1, int(getattr(outcome, "lines", 1)))
    place, rim = place[: len(place) // sides], place[len(place) // sides :]
    where = "distance from the axis [mm]" if len(faces(outcome)) == 1 else "depth from the bottom face [mm]"
    # one scale in the order of time, readable with any colour vision: cividis (Nuñez, Anderton and Renslow,
    # PLoS ONE 13 (2018) e0199239, from memory), without the end that would vanish into light or dark paper
    from matplotlib import colormaps
    from matplotlib.colors import to_hex

    shades = np.linspace(0.0, 0.8, len(moments)) if theme == "light" else np.linspace(0.45, 1.0, len(moments))
    for ax, field, ylabel in (
        (left, shown_in(outcome.temperature, unit), f"temperature [°{unit}]"),
        (right, np.asarray(outcome.water), "water [kg/kg dry solids]"),
    ):
        dress(ax, colours, where, ylabel)
        spots = np.linspace(0.15, 0.85, len(moments)) if len(moments) > 1 else [0.5]
        for moment, shade, spot in zip(moments, shades, spots, strict=True):
            profile = _at(outcome.time, field, moment)
            colour = to_hex(colormaps["cividis"](shade)).upper()
            name = format_duration(moment)
            profile, at_rim = profile[: len(place)], profile[len(place) :]
            ax.plot(place, profile, color=colour, lw=1.8, label=name)
            if len(rim):
                ax.plot(rim, at_rim, color=colour, lw=1.1, ls=LINE_STYLES[1], label=f"{name}, rim")
            x = float(place[0] + spot * (place[-1] - place[0]))
            # on the line, each further along: at the faces the lines run together
            ax.text(
                x, float(np.interp(x, place, profile)), name, ha="center", va="center", fontsize=SMALL,
                color=readable(colour, colours), zorder=4, bbox=dict(fc=colours.paper, ec="none", pad=1.0),
            )  # fmt: skip
        ax.set_xlim(float(place[0]), float(place[-1]))
        ax.margins(y=0.08)
        if len(rim):
            ax.set_title("through the middle; dashed: through the rim", fontsize=SMALL, color=colours.ink)
    return left, right


def _at(time: Any, field: Any, moment: float) -> Any:
    """Row of a field at a time, by straight lines between stored times."""
    if len(time) == 1:
        return field[0]
    i = int(np.clip(np.searchsorted(time, moment, side="right") - 1, 0, len(time) - 2))
    share = (moment - time[i]) / (time[i + 1] - time[i])
    return (1.0 - share) * field[i] + share * field[i + 1]


def _usual_range(values: Any, weight: Any) -> float:
    """Smallest value that is exceeded for at most 2 % of the time, at least 1."""
    order = np.argsort(values)
    share = np.cumsum(weight[order]) / weight.sum()
    return max(1.0, float(values[order][min(int(np.searchsorted(share, 0.98)), len(values) - 1)]))


def _say_left_out(ax: Axes, up: Any, down: Any, theme: Theme) -> None:
    low, high = ax.get_ylim()
    beyond = [f"up to {up.max():.0f}"] if up.max() > high else []
    beyond += [f"down to {down.min():.0f}".replace("-", "−")] if down.min() < low else []
    if beyond:
        text = ax.text(
            0.99, 0.98, f"short peaks {' and '.join(beyond)} W/m² not shown", transform=ax.transAxes,
            ha="right", va="top", fontsize=SMALL, color=theme.ink, path_effects=halo(theme),
        )  # fmt: skip
        across = (0.99, 0.9, 0.8, 0.7, 0.6)
        put_clear(ax, text, [(x, y) for y in (0.98, 0.92, 0.86, 0.06) for x in across], text.set_position)


def _name_bands(ax: Axes, x: Any, bands: Sequence[tuple[str, Any, Any, Any, Any]], theme: Theme) -> None:
    """Write each band's name inside it where it is thickest, unless it is too thin to hold one anywhere."""
    settle(ax)
    low, high = ax.get_ylim()
    height = ax.get_window_extent().height
    pieces = strokes(ax)
    for name, *edges in bands:
        best, spot = 0.0, (0.0, 0.0)
        text = ax.text(
            0.0, 0.0, name, fontsize=SMALL, color=theme.ink, ha="center", va="center",
            path_effects=halo(theme),
        )  # fmt: skip
        box = text.get_window_extent()
        half = 0.62 * box.width / ax.get_window_extent().width * (ax.get_xlim()[1] - ax.get_xlim()[0])
        for below, above in ((edges[0], edges[1]), (edges[3], edges[2])):
            floor, ceiling = np.clip(below, low, high), np.clip(above, low, high)
            for centre in np.linspace(half, x[-1] - half, 80) if x[-1] > 2.0 * half else ():
                under = (x >= centre - half) & (x <= centre + half)
                if not under.any():
                    continue
                room = float(ceiling[under].min() - floor[under].max())  # a box that fits under both edges
                middle = 0.5 * (ceiling[under].min() + floor[under].max())
                text.set_position((float(centre), float(middle)))
                # the heat into the meat is a line of its own that runs through the bands
                if room > best and not hits(text.get_window_extent(), pieces):
                    best, spot = (
                        room,
                        (float(centre), float(0.5 * (ceiling[under].min() + floor[under].max()))),
                    )
        if best / (high - low) * height > 1.05 * box.height:
            text.set_position(spot)
        else:
            text.remove()
