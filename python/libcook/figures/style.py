"""One look for all figures: colours, axes, direct labels, saving.

Colours are the eight of Okabe and Ito, chosen to be told apart with the common kinds of colour blindness:
M. Okabe and K. Ito, "Color Universal Design (CUD): how to make figures and presentations that are friendly to
colorblind people" (2002, revised 2008), jfly.uni-koeln.de/color; hex values as R's palette.colors gives them.
How far apart they stay for eyes without one kind of cone is computed in
tests/python/figures/test_plot_colours.py.
Meaning never rests on colour alone: every line carries its name.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from libcook.arguments.door import door
from libcook.arguments.files import whole_file
from libcook.arguments.optional import need
from libcook.arguments.plain import is_one_of
from libcook.arguments.quantity import PathName
from libcook.arguments.quote import came_as, quoted
from libcook.errors import invalid

if TYPE_CHECKING:
    from matplotlib.axes import Axes

BLUE, VERMILLION, GREEN, ORANGE = "#0072B2", "#D55E00", "#009E73", "#E69F00"
SKY, PURPLE, YELLOW, BLACK = "#56B4E9", "#CC79A7", "#F0E442", "#000000"


@dataclass(frozen=True)
class Theme:
    """Colours of one background. Names say what is drawn, not which colour it is."""

    paper: str
    ink: str
    faint: str  # axes, ticks, leaders
    band: str  # every other stage
    core: str
    surface: str
    air: str
    stall: str
    evaporation: str
    carried: str
    radiation: str
    convection: str
    series: tuple[str, ...]  # several cooks in one figure


THEMES = {
    "light": Theme(
        "#FFFFFF", "#1F2328", "#6A6F76", "#F1F2F4", VERMILLION, BLUE, "#6A6F76", ORANGE, SKY, GREEN, ORANGE,
        VERMILLION, (VERMILLION, BLUE, GREEN, PURPLE, ORANGE, SKY, BLACK),
    ),
    "dark": Theme(
        "#15181C", "#E8EAED", "#9AA0A8", "#20242A", ORANGE, SKY, "#B4BAC2", YELLOW, SKY, GREEN, YELLOW,
        VERMILLION, (ORANGE, SKY, GREEN, PURPLE, YELLOW, VERMILLION, "#FFFFFF"),
    ),
}  # fmt: skip
LINE_STYLES = ("-", (0, (5, 2)), (0, (1.5, 1.5)))  # a second and third round through the colours
BAND_ALPHA = 0.85  # of stacked bands; paler ones come too close to each other for some eyes
SMALL = 8.5  # points, for labels inside a figure


def theme_of(name: str) -> Theme:
    """Return the colours of ``"light"`` or ``"dark"``."""
    if not is_one_of(name, THEMES):
        raise invalid("theme", name, f"{quoted(name)} is not a theme", "'light' or 'dark' is accepted")
    return THEMES[name]


def new_axes(theme: Theme, panels: int = 1, size: tuple[float, float] = (8.0, 4.6)) -> list[Axes]:
    """Make a figure with `panels` axes side by side, `size` in inches."""
    pyplot = need("matplotlib.pyplot", "plots", "a figure")
    figure, axes = pyplot.subplots(1, panels, figsize=size, layout="constrained", squeeze=False)
    figure.set_facecolor(theme.paper)
    if panels > 1:
        figure.get_layout_engine().set(w_pad=0.12)  # inches; the right panel's axis name needs air
    return list(axes[0])


def dress(ax: Axes, theme: Theme, xlabel: str, ylabel: str) -> None:
    """Give axes the common look; axes of the user's own figure keep its background."""
    ax.set_facecolor(theme.paper)
    for side in ("top", "right"):
        ax.spines[side].set_visible(False)
    for side in ("left", "bottom"):
        ax.spines[side].set_color(theme.faint)
    ax.tick_params(colors=theme.faint, labelcolor=theme.ink, length=3, labelsize=SMALL + 0.5)
    ax.set_xlabel(xlabel, color=theme.ink)
    ax.set_ylabel(ylabel, color=theme.ink)


def spread(
    wanted: Sequence[float], gap: float, low: float = -math.inf, high: float = math.inf
) -> list[float]:
    """Move positions apart until neighbours are `gap` apart, as little as that takes.

    Parameters
    ----------
    wanted : sequence of float
        Where the labels would like to be.
    gap : float
        Smallest distance between two of them, same unit.
    low, high : float
        Where they must stay; `low` gives way first when there is no room.

    Returns
    -------
    list of float
        In the order of `wanted`; the order along the axis is kept.
    """
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    groups: list[tuple[float, int]] = []  # centre of a run of touching labels, and how many they are
    for i in order:
        centre, count = min(max(wanted[i], low), high), 1
        while groups and centre - groups[-1][0] < gap * (count + groups[-1][1]) / 2.0 - 1e-9:
            before, more = groups.pop()
            centre, count = (centre * count + before * more) / (count + more), count + more
        groups.append((centre, count))
    places = [centre + gap * (k - (count - 1) / 2.0) for centre, count in groups for k in range(count)]
    floor, ceiling = low, high
    for k in range(len(places)):  # push up from below, then down from above
        places[k] = max(places[k], floor)
        floor = places[k] + gap
    for k in reversed(range(len(places))):
        places[k] = min(places[k], ceiling)
        ceiling = places[k] - gap
    result = [0.0] * len(wanted)
    for k, i in enumerate(order):
        result[i] = places[k]
    return result


def label_ends(ax: Axes, ends: Sequence[tuple[float, float, str, str]], theme: Theme) -> None:
    """Write names at the right of the axes beside the ends of lines, apart from each other.

    Parameters
    ----------
    ax : matplotlib.axes.Axes
        With its limits already set.
    ends : sequence of (x, y, text, colour)
        Where each line ends, in data units.
    theme : Theme
        Colours of the leaders.
    """
    settle(ax)
    to_points = 72.0 / ax.figure.dpi
    right = ax.get_xlim()[1]
    low, high = sorted(float(ax.transData.transform((right, y))[1]) * to_points for y in ax.get_ylim())
    # a line that leaves the axes is labelled at the edge
    heights = [
        min(max(float(ax.transData.transform((right, y))[1]) * to_points, low), high) for _, y, _, _ in ends
    ]
    gap = SMALL * 1.35
    lines = [text.count("\n") + 1 for _, _, text, _ in ends]
    places = spread(heights, gap * max(lines, default=1), low, high)
    for (x, y, text, colour), height, place in zip(ends, heights, places, strict=True):
        shifted = abs(place - height) > 2.0 or x < right
        leader = dict(arrowstyle="-", color=colour, lw=0.8, ls=":", alpha=0.8, shrinkA=1, shrinkB=0)
        ax.annotate(
            text, xy=(x, y), xycoords="data", xytext=(14.0, place - low),
            textcoords=_Corner(ax), va="center", ha="left", color=readable(colour, theme), fontsize=SMALL,
            annotation_clip=False, arrowprops=leader if shifted else None,
        )  # fmt: skip


class _Corner:
    """Offset in points from the lower right corner of axes; follows them in a new layout."""

    def __init__(self, ax: Axes) -> None:
        self._ax = ax

    def __call__(self, _renderer: Any) -> Any:
        transforms = need("matplotlib.transforms", "plots", "a figure")
        scale = self._ax.figure.dpi / 72.0
        corner = self._ax.transAxes.transform((1.0, 0.0))
        return transforms.Affine2D().scale(scale).translate(*corner)


def halo(theme: Theme) -> list[Any]:
    """Make a rim of paper for words that lie on lines or bands."""
    effects = need("matplotlib.patheffects", "plots", "a figure")
    return [effects.withStroke(linewidth=2.5, foreground=theme.paper + "C0")]


def settle(ax: Axes) -> None:
    """Lay the figure out, so that widths of text and axes can be measured."""
    figure = ax.get_figure(root=True)
    if figure is not None:
        figure.draw_without_rendering()


def readable(colour: str, theme: Theme) -> str:
    """Darken (or, on dark paper, lighten) a line's colour towards the ink for text of the same name."""
    share = 0.45  # makes every text stand out 4.5 to 1 from the paper
    line, ink = (_rgb(text) for text in (colour, theme.ink))
    mixed = (round(a + share * (b - a)) for a, b in zip(line, ink, strict=True))
    return "#" + "".join(f"{v:02X}" for v in mixed)


def _rgb(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


@door
def savefig(figure: Any, path: PathName) -> Path:
    """Write a figure as PNG or SVG, by the ending of the path.

    Parameters
    ----------
    figure : matplotlib.figure.Figure or matplotlib.axes.Axes
        What a plotting function returned; of a sequence of axes, the first one's figure is written.
    path : str or pathlib.Path
        Ends in ``.png`` or ``.svg``. Missing folders are made.

    Returns
    -------
    pathlib.Path
        Where it was written. Writing the same figure twice gives the same bytes.
    """
    target = Path(path)
    kind = target.suffix.lower().lstrip(".")
    if kind not in ("png", "svg"):
        raise invalid("path", str(path), f"{quoted(path)} ends in neither", "'.png' or '.svg' is accepted")
    first = figure[0] if isinstance(figure, (list, tuple)) and figure else figure
    whole = first.get_figure(root=True) if hasattr(first, "get_figure") else first
    if not hasattr(whole, "savefig") or isinstance(whole, type):
        raise invalid("figure", figure, came_as(figure), "a figure or axes of matplotlib is accepted")
    matplotlib = need("matplotlib", "plots", "savefig")
    with matplotlib.rc_context({"svg.hashsalt": "libcook"}), whole_file(target) as file:
        whole.savefig(
            file, format=kind, dpi=150, bbox_inches="tight", pad_inches=0.12,
            facecolor=whole.get_facecolor(), metadata={"Date": None} if kind == "svg" else None,
        )  # fmt: skip
    return target
