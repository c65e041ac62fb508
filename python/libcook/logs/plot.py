"""The figure of a log: its temperatures, with gaps shaded and events marked."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import numpy as np

from libcook.figures import marks
from libcook.figures.style import SMALL, Theme, dress, label_ends, new_axes, settle, theme_of
from libcook.logs.reading.cleaning import gap_limit
from libcook.units import format_clock, format_duration, shown_in, temperature_unit
from libcook.units.clock import parse_clock

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from libcook.logs.log import Log

HOUR = marks.HOUR
EVENT_ROW = 0.055  # of the height of the axes


def plot_log(log: Log, units: str, ax: Axes | None, theme: str, proposed: bool) -> Axes:
    """Draw a log; see `libcook.logs.Log.plot`."""
    unit, colours = temperature_unit(units), theme_of(theme)
    ax = ax if ax is not None else new_axes(colours)[0]
    x = (log.time - log.time[0]) / HOUR
    last = float(x[-1])
    dress(ax, colours, "", f"temperature [°{unit}]")
    _hours_axis(ax, log, last, colours)
    shown = {name: shown_in(values, unit) for name, values in log.columns.items()}
    rows = _event_rows(log, proposed)
    low = min(float(np.nanmin(values)) for values in shown.values())
    high = max(float(np.nanmax(values)) for values in shown.values())
    margin = 0.04 * (high - low) or 1.0
    foot = EVENT_ROW * len(rows)
    ax.set_ylim(low - margin - foot / (1.0 - foot) * (high - low + 2.0 * margin), high + margin)
    bottom, top = ax.get_ylim()
    ax.set_yticks([tick for tick in ax.get_yticks() if low - margin <= tick <= top])  # none beside the events
    ax.set_ylim(bottom, top)
    limit = gap_limit(log.time, any(finding.kind == "thinned" for finding in log.summary))
    _shade_gaps(ax, log, limit, colours)
    others = iter([colour for colour in colours.series if colour not in (colours.core, colours.air)] * 8)
    ends = []
    for name, values in shown.items():
        colour = {"core": colours.core, "pit": colours.air}.get(name) or next(others, colours.ink)
        seen = np.isfinite(values)
        # a line through single missing readings, none through a gap
        steps = np.flatnonzero(np.diff(log.time[seen]) > limit) + 1
        xs, ys = np.insert(x[seen], steps, np.nan), np.insert(values[seen], steps, np.nan)
        width = {"core": 2.2, "pit": 1.0}.get(name, 1.4)
        ax.plot(xs, ys, color=colour, lw=width, label=name, zorder=2.0 + width)
        ends.append((float(x[seen][-1]), float(values[seen][-1]), name.replace("_", " "), colour))
    label_ends(ax, ends, colours)
    settle(ax)
    marks.draw_events(ax, rows, EVENT_ROW, colours)
    return ax


def _hours_axis(ax: Axes, log: Log, last: float, theme: Theme) -> None:
    """Hours since the first reading and, where the log knows it, the time of day below."""
    first = min([0.0, *((event.time - log.time[0]) / HOUR for event in log.events)])
    end = max([last, *((event.time - log.time[0]) / HOUR for event in log.events)])
    ax.set_xlim(first, end)
    ticks = marks.hour_ticks(last)
    if log.start_clock is None:
        ax.set_xticks(ticks)
        ax.set_xlabel("time since the first reading [h]", color=theme.ink)
        return
    start = log.start_clock

    def clock(hours: float) -> str:
        if isinstance(start, dt.datetime) and start.tzinfo is not None:  # the clock on the wall may change
            moment = start.astimezone(dt.timezone.utc) + dt.timedelta(hours=hours)
            return moment.astimezone(start.tzinfo).strftime("%H:%M")
        return format_clock(parse_clock(start) + hours * HOUR)

    ax.set_xticks(ticks, [f"{tick:g}\n{clock(float(tick))}" for tick in ticks])
    ax.set_xlabel("time since the first reading [h], and time of day", color=theme.ink)


def _event_rows(log: Log, proposed: bool) -> list[tuple[str, list[float]]]:
    """Names and times [h] of the events, kind by kind; proposed ones with a question mark."""
    rows: dict[str, list[float]] = {}
    for event in log.events:
        name = event.note if event.kind == "note" else event.kind
        name = name if len(name) <= 24 else f"{name[:23]}…"
        rows.setdefault(name.replace("$", r"\$"), []).append((event.time - float(log.time[0])) / HOUR)
    for event in log.propose_events() if proposed else ():
        rows.setdefault(f"{event.kind}?", []).append((event.time - float(log.time[0])) / HOUR)
    return list(rows.items())[:10]


def _shade_gaps(ax: Axes, log: Log, limit: float, theme: Theme) -> None:
    """Shade where no column has a reading for longer than the limit [s], and say how long."""
    any_seen = np.any([np.isfinite(values) for values in log.columns.values()], axis=0)
    seen = log.time[any_seen]
    for i in np.flatnonzero(np.diff(seen) > limit):
        left, right = ((float(t) - float(log.time[0])) / HOUR for t in (seen[i], seen[i + 1]))
        ax.axvspan(
            left, right, facecolor=theme.band, edgecolor=f"{theme.faint}59", lw=0.4, hatch="///", zorder=0
        )
        ax.annotate(
            f"gap {format_duration(float(seen[i + 1] - seen[i]))}", xy=(0.5 * (left + right), 1.0),
            xycoords=("data", "axes fraction"), xytext=(0.0, 3.0), textcoords="offset points",
            ha="center", va="bottom", fontsize=SMALL, color=theme.ink,
        )  # fmt: skip
