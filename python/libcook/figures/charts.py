"""Figures of your own what-ifs in the look of the others: lines with their names at the end, and maps."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from libcook.arguments.door import door
from libcook.arguments.optional import need
from libcook.arguments.plain import array, mapping, number, row, two
from libcook.arguments.quantity import Word
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.figures.place import hits, strokes, words_box
from libcook.figures.style import (
    LINE_STYLES,
    SMALL,
    Theme,
    dress,
    halo,
    label_ends,
    new_axes,
    readable,
    settle,
    theme_of,
)

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["contours", "lines"]

EDGE = 0.04  # of the width: ends that count as being at the right edge


@door
def lines(
    x: Any,
    curves: Mapping[str, Any],
    xlabel: str,
    ylabel: str,
    ax: Axes | None = None,
    theme: Word = "light",
    marker: str = "",
    xlim: tuple[float, float] | None = None,
    ylim: tuple[float, float] | None = None,
) -> Axes:
    """Draw curves over one quantity, each with its name at its end.

    Parameters
    ----------
    x : array_like
        Shape (n,); not used for a curve that brings its own.
    curves : mapping of str to array_like
        Name and values, shape (n,), or a pair ``(x, values)`` of one length. Values that are not finite
        leave a gap.
    xlabel, ylabel : str
        With the unit in brackets, such as ``"time [h]"``.
    ax : matplotlib.axes.Axes, optional
        Where to draw; a new figure by default.
    theme : str
        ``"light"`` or ``"dark"``.
    marker : str
        Of matplotlib, such as ``"o"``, to show the points that were computed.
    xlim, ylim : pair of float, optional
        Limits of the axes; what the curves need, by default. Names stand where a curve leaves them.

    Returns
    -------
    matplotlib.axes.Axes
    """
    mapping(curves, "curves", "a mapping such as {'bare': values} is accepted")
    _check_marker(marker)
    colours = theme_of(theme)
    ax = ax if ax is not None else new_axes(colours)[0]
    dress(ax, colours, xlabel, ylabel)
    drawn: list[tuple[Any, Any, str, str]] = []
    for i, (name, values) in enumerate(curves.items()):
        rounds, place = divmod(i, len(colours.series))
        at, value = _pair(x, values, f"curves[{quoted(name)}]")
        colour = colours.series[place]
        ax.plot(
            at, value, color=colour, lw=1.8, ls=LINE_STYLES[rounds % len(LINE_STYLES)], marker=marker, ms=4.5,
            label=name,
        )  # fmt: skip
        drawn.append((at, value, name, colour))
    ax.margins(x=0.0, y=0.06)
    if xlim is not None:
        ax.set_xlim(*_limits(xlim, "xlim"))
    if ylim is not None:
        ax.set_ylim(*_limits(ylim, "ylim"))
    ends = [end for each in drawn if (end := _last_seen(ax, *each)) is not None]
    left, right = ax.get_xlim()
    at_edge = [end for end in ends if end[0] > right - EDGE * (right - left)]
    label_ends(ax, at_edge, colours)
    _label_inside(ax, [end for end in ends if end not in at_edge], colours)
    return ax


@door
def contours(
    x: Any,
    y: Any,
    values: Any,
    xlabel: str,
    ylabel: str,
    title: str,
    ax: Axes | None = None,
    theme: Word = "light",
    levels: Any = None,
) -> Axes:
    """Draw a quantity over two others as filled contours with their values written on the lines.

    Parameters
    ----------
    x, y : array_like
        Shapes (n,) and (m,).
    values : array_like
        Shape (m, n); what is not finite stays blank.
    xlabel, ylabel : str
        With the unit in brackets.
    title : str
        What is drawn, with its unit in brackets.
    ax : matplotlib.axes.Axes, optional
        Where to draw; a new figure by default.
    theme : str
        ``"light"`` or ``"dark"``.
    levels : sequence of float, optional
        Values of the lines; round ones by default.

    Returns
    -------
    matplotlib.axes.Axes
        Coloured with cividis, which only gets lighter and is read in order with any colour vision (Nuñez,
        Anderton and Renslow, PLoS ONE 13 (2018) e0199239, from memory).
    """
    across, up, field = row(x, "x"), row(y, "y"), array(values, "values")
    if field.shape != (up.size, across.size):
        raise invalid(
            "values", values, f"shape {field.shape} came", f"({up.size}, {across.size}) is accepted: y by x"
        )
    colours = theme_of(theme)
    ax = ax if ax is not None else new_axes(colours, size=(6.4, 4.6))[0]
    dress(ax, colours, xlabel, ylabel)
    if levels is not None:
        levels = row(levels, "levels")
        if levels.size < 2 or not (np.diff(levels) > 0.0).all():
            came = f"{quoted(levels)} came"
            raise invalid("levels", levels, came, "two and more that increase are accepted")
    else:
        ticker = need("matplotlib.ticker", "plots", "contours")
        low, high = float(np.nanmin(field)), float(np.nanmax(field))
        levels = ticker.MaxNLocator(9, steps=[1, 2, 2.5, 5, 10]).tick_values(low, max(high, low + 1e-9))
    ax.contourf(across, up, field, levels=levels, cmap="cividis", extend="both", alpha=0.85)
    drawn = ax.contour(across, up, field, levels=levels, colors=colours.paper, linewidths=0.9)
    for text in ax.clabel(drawn, fmt="%g", fontsize=SMALL, colors=colours.ink, inline_spacing=2):
        text.set_path_effects(halo(colours))
    ax.set_title(title, loc="left", fontsize=SMALL + 1.5, color=colours.ink)
    return ax


def _last_seen(ax: Axes, x: Any, y: Any, name: str, colour: str) -> tuple[float, float, str, str] | None:
    """Return where a curve is last seen within the axes, with its name and colour."""
    (left, right), (low, high) = ax.get_xlim(), sorted(ax.get_ylim())
    with np.errstate(invalid="ignore"):
        seen = np.flatnonzero((x >= left) & (x <= right) & (y >= low) & (y <= high))
    if not seen.size:
        return None
    i = int(seen[-1])
    return float(x[i]), float(y[i]), name, colour


def _label_inside(ax: Axes, ends: Sequence[tuple[float, float, str, str]], theme: Theme) -> None:
    """Write names right of the ends of curves that end within the axes.

    Where a name would run into the next end, the names of those ends are stacked above them instead, the
    leftmost highest, so that no leader crosses a name.
    """
    settle(ax)
    scale = 72.0 / ax.figure.dpi
    pieces = strokes(ax)
    texts = []
    for x, y, name, colour in sorted(ends):
        text = ax.annotate(
            name, xy=(x, y), xytext=(7.0, 0.0), textcoords="offset points", ha="left", va="center",
            color=readable(colour, theme), fontsize=SMALL, path_effects=halo(theme), zorder=6,
        )  # fmt: skip
        texts.append((text, ax.transData.transform((x, y)) * scale, colour))
    groups: list[list[int]] = []
    for i, (_, place, _) in enumerate(texts):
        if groups:
            last, spot, _ = texts[groups[-1][-1]]
            box = last.get_window_extent()
            close = place[0] < box.x1 * scale + 4.0 and abs(place[1] - spot[1]) < 2.0 * SMALL
            if close:
                groups[-1].append(i)
                continue
        groups.append([i])
    over = {i for i, (text, _, _) in enumerate(texts) if hits(words_box(text), pieces)}
    for group in (g for g in groups if len(g) > 1 or g[0] in over):
        floor = max(texts[i][1][1] for i in group)
        for line, i in enumerate(reversed(group)):
            text, place, colour = texts[i]
            text.set_verticalalignment("bottom")
            text.xyann = (4.0, floor - place[1] + 5.0 + 1.35 * SMALL * line)
            ax.annotate(
                "", xy=(0.0, 0.0), xycoords=text, xytext=text.xy, textcoords="data",
                arrowprops=dict(arrowstyle="-", color=colour, lw=0.7, alpha=0.6, shrinkA=1, shrinkB=0),
            )  # fmt: skip


def _check_marker(marker: str) -> None:
    try:
        need("matplotlib.markers", "plots", "lines").MarkerStyle(marker)
    except ValueError:
        raise invalid(
            "marker", marker, f"{quoted(marker)} is no marker", "one of matplotlib is accepted"
        ) from None


def _limits(given: Any, field: str) -> tuple[float, float]:
    low, high = two(given, field, "a pair such as (0.0, 12.0) is accepted")
    return number(low, f"{field}[0]"), number(high, f"{field}[1]")


def _pair(x: Any, values: Any, field: str) -> tuple[Any, Any]:
    own = isinstance(values, tuple) and len(values) == 2
    at = row(values[0], field) if own else row(x, "x")
    value = row(values[1] if own else values, field)
    if at.shape != value.shape:
        came = f"{value.size} values came for {at.size} of {'its own x' if own else 'x'}"
        raise invalid(field, values, came, "one for each is accepted")
    return at, value
