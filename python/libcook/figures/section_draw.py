"""One panel of a cross-section: field, contours, outline, seam, fat cap, probes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from libcook.arguments.optional import need
from libcook.figures.style import SMALL, Theme, dress
from libcook.readings.readable import FloatArray
from libcook.readings.section_field import mesh_of, seam_edges, value_at
from libcook.units import shown_in

if TYPE_CHECKING:
    from matplotlib.axes import Axes

MM = 1000.0  # mm per m


@dataclass(frozen=True)
class Look:
    """How a field is shown: levels in the shown unit, colours, and words."""

    what: str
    unit: str  # of temperatures: C or F
    levels: FloatArray
    colours: Any
    name: str  # of the colour bar
    after: str  # unit behind a value

    def shown(self, values: Any) -> Any:
        """Turn the stored values into those that are drawn."""
        if self.what == "temperature":
            return shown_in(values, self.unit)
        if self.what == "change" and self.unit == "F":
            return 1.8 * np.asarray(values)
        return 100.0 * np.asarray(values) if self.what == "tenderness" else np.asarray(values)


def look_of(what: str, fields: Sequence[FloatArray], unit: str) -> Look:
    """Choose levels that hold all fields, in round steps."""
    matplotlib = need("matplotlib", "plots", "a figure")
    ticker = need("matplotlib.ticker", "plots", "a figure")
    names = {
        "temperature": (f"temperature [°{unit}]", f" °{unit}", "inferno"),
        "water": ("water [kg/kg dry solids]", "", "YlGnBu"),
        "tenderness": ("collagen converted [%]", " %", "cividis"),
        "change": (f"change of the reading [°{unit}]", f" °{unit}", "cividis"),
    }
    name, after, palette = names[what]
    bare = Look(what, unit, np.zeros(0), None, name, after)
    low = min(float(np.min(bare.shown(field))) for field in fields)
    high = max(float(np.max(bare.shown(field))) for field in fields)
    if what in ("tenderness", "change"):
        low = 0.0
    if what == "tenderness":
        levels = np.arange(0.0, 101.0, 10.0)
    else:
        steps = {"temperature": 16, "water": 11, "change": 9}[what]
        levels = ticker.MaxNLocator(steps, steps=[1, 2, 5, 10]).tick_values(low, max(high, low + 0.5))
    return Look(what, unit, np.asarray(levels, dtype=np.float64), matplotlib.colormaps[palette], name, after)


def draw_section(ax: Axes, outcome: Any, values: FloatArray, look: Look, theme: Theme) -> None:
    """Draw one field; `values` in SI and °C, shape (columns, rows)."""
    mesh = mesh_of(outcome)
    x, z, field = MM * mesh.x, MM * mesh.z, look.shown(values)
    dress(ax, theme, "", "height [mm]")
    ax.contourf(x, z, field, levels=look.levels, cmap=look.colours, extend="neither", zorder=1)
    spread = look.levels[-1] - look.levels[0]
    grey = [look.colours((level - look.levels[0]) / spread) for level in look.levels]
    light = [0.3 * r + 0.59 * g + 0.11 * b > 0.5 for r, g, b, _ in grey]  # of the ground under each line
    lines = ax.contour(
        x, z, field, levels=look.levels, colors=["#1F2328" if each else "#FFFFFF" for each in light],
        linewidths=0.5, alpha=0.7, zorder=1.5,
    )  # fmt: skip
    if look.what != "change":  # its islands are smaller than a number
        _label_lines(ax, lines, mesh, look)
    outline = [MM * part for part in mesh.outline]
    ax.plot(*outline, color=theme.ink, lw=1.1, zorder=3, solid_joinstyle="round")
    _draw_fat_cap(ax, outcome, x, z, theme)
    seam = seam_edges(outcome)
    patches = need("matplotlib.patches", "plots", "a figure")
    if seam is not None:
        for edge in seam[1:]:
            for colour, width, style in (("#FFFFFF", 1.8, "-"), ("#1F2328", 0.8, (0, (4, 2)))):
                (line,) = ax.plot(MM * seam[0], MM * edge, color=colour, lw=width, ls=style, zorder=2.5)
                line.set_clip_path(patches.Polygon(np.column_stack(outline), transform=ax.transData))
    _draw_probes(ax, outcome, mesh, field, look, theme)
    ax.set_aspect("equal")
    cap = MM * float(outcome.plan.meat.fat_cap.thickness) if outcome.plan.meat.fat_cap.side != "none" else 0.0
    ax.set_xlim(-4.0, x.max() + 4.0)
    ax.set_ylim(-cap - 3.0, z.max() + cap + 3.0)


def _label_lines(ax: Axes, lines: Any, mesh: Any, look: Look) -> None:
    """Write the values of every other line on it, where there is room for a number within the meat."""
    top = MM * mesh.z[:, -1]
    along = MM * mesh.x[:, -1]
    room = (9.0, 4.0)  # mm, beside and above the middle of a number
    for text in ax.clabel(lines, levels=look.levels[1:-1:2], fontsize=7.0, fmt="%g", inline=False):
        x, z = text.get_position()
        inside = room[0] <= x <= float(MM * mesh.x.max()) - room[0]
        if not inside or not room[1] <= z <= float(np.interp(x, along, top)) - room[1]:
            text.remove()
            continue
        spread = look.levels[-1] - look.levels[0]
        ground = look.colours((float(text.get_text()) - look.levels[0]) / spread)
        text.set_bbox(dict(fc=ground, ec="none", pad=0.6))


def _draw_fat_cap(ax: Axes, outcome: Any, x: FloatArray, z: FloatArray, theme: Theme) -> None:
    cap = outcome.plan.meat.fat_cap
    if cap.side == "none":
        return
    row, away = (0, -1.0) if cap.side == "down" else (-1, 1.0)
    edge = z[:, row]
    ax.fill_between(
        x[:, row], edge, edge + away * MM * float(cap.thickness), facecolor=theme.band,
        edgecolor=theme.faint, hatch="////", lw=0.4, zorder=2,
    )  # fmt: skip


def _draw_probes(ax: Axes, outcome: Any, mesh: Any, field: FloatArray, look: Look, theme: Theme) -> None:
    for trace in outcome.probes.values():
        value = value_at(mesh, field, trace.x, trace.z)
        digits = 2 if look.what == "water" else 1 if look.what == "change" else 0
        ax.plot(
            [MM * trace.x],
            [MM * trace.z],
            marker="o",
            ms=5.0,
            mfc="#FFFFFF",
            mec="#1F2328",
            mew=1.2,
            zorder=5,
        )
        ax.annotate(
            f"{trace.name}  {value:.{digits}f}{look.after}", xy=(MM * trace.x, MM * trace.z),
            xytext=(7.0, 0.0), textcoords="offset points", ha="left", va="center", fontsize=SMALL,
            color=theme.ink, zorder=6, bbox=dict(fc=theme.paper, ec="none", alpha=0.85, pad=1.2),
        )  # fmt: skip


def finish_panels(axes: Sequence[Axes], outcome: Any, look: Look, theme: Theme) -> None:
    """Name the common axis, add the colour bar, and say what the lines mean."""
    figure = axes[0].get_figure(root=True)
    if figure is None:
        return
    axes[-1].set_xlabel("distance from the flat end [mm]", color=theme.ink)
    cm = need("matplotlib.cm", "plots", "a figure")
    colors = need("matplotlib.colors", "plots", "a figure")
    norm = colors.BoundaryNorm(look.levels, look.colours.N)
    bar = figure.colorbar(
        cm.ScalarMappable(norm, look.colours),
        ax=list(axes),
        fraction=0.04,
        pad=0.015,
        aspect=9 * len(axes) + 6,
    )
    bar.set_ticks(list(look.levels[::2]) if len(look.levels) > 8 else list(look.levels))
    bar.set_label(look.name, color=theme.ink)
    bar.ax.tick_params(colors=theme.faint, labelcolor=theme.ink, length=3, labelsize=SMALL)
    bar.outline.set_edgecolor(theme.faint)  # type: ignore[operator]
    say_key(axes[0], outcome, theme)


def say_key(ax: Axes, outcome: Any, theme: Theme) -> None:
    """Say above the axes what dashes and hatching mean."""
    side = outcome.plan.meat.fat_cap.side
    key = ["dashed: fat seam"] if seam_edges(outcome) is not None else []
    key += [f"hatched: fat cap, {side}"] if side != "none" else []
    ax.set_title("; ".join(key), loc="right", fontsize=SMALL, color=theme.faint)
