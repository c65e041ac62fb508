"""What is marked on a time axis: stages, stall, events, pull and peak, time of day."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import numpy as np

from libcook.figures.place import put_clear, words_box
from libcook.figures.style import SMALL, Theme, halo, settle
from libcook.readings.facts import Facts
from libcook.readings.readable import Readable, wrap_name
from libcook.units import format_clock, format_duration

if TYPE_CHECKING:
    from matplotlib.axes import Axes

HOUR = 3600.0  # s


def hour_ticks(last: float) -> Any:
    """Choose full steps of the clock, at most a dozen, from 0 to `last` [h]."""
    step = next((s for s in (0.25, 0.5, 1.0, 2.0, 3.0, 6.0) if last / s <= 12.0), 12.0)
    return np.arange(0.0, last + 1e-9, step)


def hours_axis(ax: Axes, outcome: Readable, theme: Theme) -> None:
    """Set the time axis: elapsed hours and, where the plan has a start, the time of day below."""
    last = float(outcome.time[-1]) / HOUR
    ticks = hour_ticks(last)
    start = outcome.plan.start
    ax.set_xlim(0.0, last or 0.25)  # a cook of which every stage was skipped lasts no time
    if start is None:
        ax.set_xticks(ticks)
        ax.set_xlabel("time since the start [h]", color=theme.ink)
        return
    ax.set_xticks(ticks, [f"{tick:g}\n{format_clock(float(start) + float(tick) * HOUR)}" for tick in ticks])
    ax.set_xlabel("time since the start [h], and time of day", color=theme.ink)


def say_nothing_passes(ax: Axes, theme: Theme) -> None:
    """Say in the middle of empty axes why they are."""
    ax.text(
        0.5, 0.5, "no time passes: every stage was skipped", transform=ax.transAxes, ha="center", va="center",
        fontsize=SMALL, color=theme.ink,
    )  # fmt: skip


def stage_bands(ax: Axes, outcome: Readable, theme: Theme) -> None:
    """Shade every other stage and write each stage's name, with its wrap, above the axes."""
    settle(ax)
    edges = [0.0]  # right edge of the last label in each row, in pixels
    for i, end in enumerate(outcome.stage_ends):
        left, right = float(end.start) / HOUR, float(end.time) / HOUR
        if right <= left:
            continue  # skipped: it was over before it began
        if i % 2 == 1:
            ax.axvspan(left, right, color=theme.band, lw=0, zorder=0)
        if left > 0.0:
            ax.axvline(left, color=theme.faint, lw=0.6, zorder=0.5)
        wrap = wrap_name(outcome, i)
        text = ax.annotate(
            f"{end.name} ({wrap})" if wrap else str(end.name),
            xy=(left, 1.0), xycoords=("data", "axes fraction"), xytext=(2.0, 4.0), textcoords="offset points",
            ha="left", va="bottom", fontsize=SMALL, color=theme.ink, annotation_clip=False,
        )  # fmt: skip
        box = text.get_window_extent()
        row = next((k for k, edge in enumerate(edges) if box.x0 >= edge + 12.0), len(edges))
        if row == len(edges):
            edges.append(0.0)
        edges[row] = float(box.x1)
        if row:
            text.xyann = (2.0, 4.0 + row * SMALL * 1.3)


def shade_stall(ax: Axes, facts: Facts, x: Any, core: Any, theme: Theme, plateau: str) -> None:
    """Fill under the core while it stalls and say how long and where; `x` [h], `core` as plotted."""
    stall = facts.stall
    if stall is None:
        return
    start, end = float(stall.start) / HOUR, float(stall.end) / HOUR
    low = ax.get_ylim()[0]
    inside = (x > start) & (x < end)
    xs = np.concatenate([[start], x[inside], [end]])
    ys = np.interp(xs, x, core)
    ax.fill_between(xs, low, ys, color=theme.stall, alpha=0.22, lw=0, zorder=1)
    length = format_duration(facts.stall_length or 0.0)
    text = ax.text(
        0.5 * (start + end), low, f"stall\n{length}\nnear {plateau}",
        ha="center", va="center", fontsize=SMALL, color=theme.ink, linespacing=1.3,
    )  # fmt: skip
    # in the middle, else at one end of the shade, else beside it: no stage begins in the midst of the words
    box, pixel = words_box(text), (ax.get_xlim()[1] - ax.get_xlim()[0]) / ax.get_window_extent().width
    half = 0.5 * box.width * pixel + 4.0 * pixel
    across = [0.5 * (start + end), start + half, end - half, start - half, end + half]
    spots = [(at, low + share * (float(ys.min()) - low)) for share in (0.52, 0.35, 0.2, 0.7) for at in across]
    put_clear(ax, text, spots, text.set_position)


def event_rows(outcome: Readable) -> list[tuple[str, list[float]]]:
    """Sort the events by what they are: name and times [h], in order of first appearance."""
    rows: dict[str, list[float]] = {}
    for event in outcome.events:
        rows.setdefault(str(event[1]), []).append(float(event[0]) / HOUR)
    return list(rows.items())


def draw_events(ax: Axes, rows: list[tuple[str, list[float]]], row_height: float, theme: Theme) -> None:
    """Draw a row of ticks for each kind of event at the foot of the axes; `row_height` in axes fractions."""
    last = ax.get_xlim()[1]
    for k, (what, times) in enumerate(rows):
        y = (k + 0.5) * row_height
        ax.plot(
            times, [y] * len(times), ls="none", marker="|", ms=7, mew=1.1, color=theme.ink,
            transform=ax.get_xaxis_transform(), zorder=3, label=what,
        )  # fmt: skip
        at_left = times[-1] > 0.85 * last  # no room behind the last tick
        label = ax.annotate(
            what, xy=(times[0] if at_left else times[-1], y), xycoords=("data", "axes fraction"),
            xytext=(-5.0 if at_left else 5.0, 0.0), textcoords="offset points", fontsize=SMALL,
            ha="right" if at_left else "left", va="center", color=theme.ink, path_effects=halo(theme),
        )  # fmt: skip
        ends = [(times[-1], 1.0), (times[0], -1.0)]
        put_clear(ax, label, _beside(ends[::-1] if at_left else ends), _tick_mover(label, y))


def _beside(ends: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return spots beside the outer ticks, nearer and further: (time, points to the right of it)."""
    return [(at, side * far) for far in (5.0, 12.0, 24.0, 40.0) for at, side in ends]


def _tick_mover(label: Any, y: float) -> Callable[[tuple[float, float]], None]:
    def move(spot: tuple[float, float]) -> None:
        label.xy = (spot[0], y)
        label.xyann = (spot[1], 0.0)
        label.set_ha("left" if spot[1] > 0.0 else "right")

    return move


def mark_pull(
    ax: Axes, facts: Facts, pulled: float, peak: float | None, words: tuple[str, str], theme: Theme
) -> None:
    """Mark the end of the heat and the peak of the core; `words` are the two temperatures as text."""
    at = facts.pulled_at / HOUR
    ends_there = facts.peak is None
    ax.plot(
        [at], [pulled], marker="o", ms=5.5, mfc=theme.paper, mec=theme.core, mew=1.5, zorder=5, clip_on=False
    )
    arrow = dict(arrowstyle="-", color=theme.faint, lw=0.7, shrinkA=1, shrinkB=3)
    # the room below and left of the core belongs to no line before the pull
    pull = ax.annotate(
        f"{'end' if ends_there else 'pull'}  {words[0]}\n{format_duration(facts.pulled_at)}",
        xy=(at, pulled), xytext=(-12.0, -72.0), textcoords="offset points", ha="right", va="center",
        fontsize=SMALL, color=theme.ink, arrowprops=arrow, zorder=6,
    )  # fmt: skip
    below = [(x, y) for y in (-72.0, -100.0, -50.0, -130.0, -160.0) for x in (-12.0, -40.0, -80.0)]
    put_clear(ax, pull, below, _offset(pull), (at, pulled))
    if peak is None or facts.peak_after is None:
        return
    x = at + facts.peak_after / HOUR
    ax.plot([x], [peak], marker="^", ms=6, mfc=theme.paper, mec=theme.core, mew=1.5, zorder=5)
    label = ax.annotate(
        f"peak  {words[1]}\n{format_duration(facts.peak_after)} after the pull", xy=(x, peak),
        xytext=(10.0, 22.0), textcoords="offset points", ha="left", va="center",
        fontsize=SMALL, color=theme.ink, arrowprops=arrow, zorder=6,
    )  # fmt: skip
    beyond = words_box(label).x1 - ax.get_window_extent().x1 + 1.0
    # a short rest: keep the words off the names at the right
    near = 10.0 if beyond <= 0.0 else 10.0 - beyond * 72.0 / ax.figure.dpi
    width = words_box(label).width * 72.0 / ax.figure.dpi
    beside = [near, 10.0, 18.0, 30.0, -width - 10.0, -width - 30.0]
    above = [(x, y) for y in (22.0, 36.0, 50.0, 64.0, -50.0, -80.0, -110.0) for x in beside]
    put_clear(ax, label, above, _offset(label), (x, peak))


def _offset(note: Any) -> Callable[[tuple[float, float]], None]:
    """Return what moves an annotation [points from what it points at]."""

    def move(to: tuple[float, float]) -> None:
        note.xyann = to

    return move
