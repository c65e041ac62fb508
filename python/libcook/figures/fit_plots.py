"""Figures of fits and forecasts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from libcook.arguments.door import door
from libcook.arguments.optional import need
from libcook.arguments.quantity import Word
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.figures import style
from libcook.figures.place import put_clear
from libcook.readings.fit_facts import read_forecast
from libcook.units import format_clock, format_duration, shown_in, temperature_unit

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from libcook.fit.calibrate import Fit
    from libcook.fit.forecast import Forecast

__all__ = ["plot_fit", "plot_forecast"]


@door
def plot_fit(fit: Fit, log: int = -1, units: Word | None = None, theme: Word = "light") -> list[Axes]:
    """Draw a log with the fitted core; below it what is left, with the band that is expected.

    Parameters
    ----------
    fit : Fit
        What `libcook.calibrate` gave.
    log : int
        Which log, from 0; -1 is the last one.
    units : str, optional
        ``"C"`` or ``"F"``; the log's own by default.
    theme : str
        ``"light"`` or ``"dark"``.

    Returns
    -------
    list of matplotlib.axes.Axes
        Of the fit and of the residuals.
    """
    colours = style.theme_of(theme)
    if not -len(fit.series) <= log < len(fit.series):
        raise invalid("log", log, f"{quoted(log)} is out of range", f"0 to {len(fit.series) - 1} is accepted")
    series = fit.series[log]
    unit = temperature_unit(series.units if units is None else units)
    pyplot = need("matplotlib.pyplot", "plots", "a figure")
    figure, (upper, lower) = pyplot.subplots(
        2, 1, figsize=(8.0, 5.6), layout="constrained", sharex=True, height_ratios=(2.2, 1.0)
    )
    figure.set_facecolor(colours.paper)
    hours = series.time / 3600.0
    style.dress(upper, colours, "", f"core temperature [°{unit}]")
    upper.plot(
        hours, shown_in(series.observed, unit), ls="none", marker="o", ms=3.2, mfc="none",
        mec=colours.surface, label="log",
    )  # fmt: skip
    upper.plot(hours, shown_in(series.fitted, unit), color=colours.core, lw=1.8, label="tuned plan")
    odd = series.weight < 0.5
    if odd.any():
        upper.plot(
            hours[odd], shown_in(series.observed[odd], unit), ls="none", marker="x", ms=6, color=colours.ink,
            label="counts less",
        )  # fmt: skip
    upper.legend(frameon=False, labelcolor=colours.ink, fontsize=style.SMALL, loc="lower right")
    size = 1.8 if unit == "F" else 1.0
    style.dress(lower, colours, "time since the start [h]", f"log - plan [{'°F' if unit == 'F' else 'K'}]")
    band = size * 1.645 * series.deviation
    lower.fill_between(hours, -band, band, color=colours.band, lw=0.0)
    lower.axhline(0.0, color=colours.faint, lw=0.8)
    left = size * (series.observed - series.fitted)
    lower.plot(hours, left, color=colours.surface, lw=1.2)
    # The edge of the band is seen, unless the band is so wide that nothing else would be.
    line = 1.6 * float(np.percentile(np.abs(left), 98))
    reach = max(line, min(1.15 * float(np.percentile(band, 90)), 2.5 * line), 1.0)
    lower.set_ylim(-reach, reach)
    note = lower.annotate(
        "grey: how far model and thermometer may err, 9 times of 10", (1.0, 0.0), xycoords="axes fraction",
        xytext=(-4, 4), textcoords="offset points", ha="right", va="bottom", fontsize=style.SMALL,
        color=colours.faint,
    )  # fmt: skip
    corners = [((1.0, 0.0), "right", "bottom"), ((1.0, 1.0), "right", "top"), ((0.0, 0.0), "left", "bottom"),
               ((0.0, 1.0), "left", "top")]  # fmt: skip

    def corner(spot: tuple[tuple[float, float], str, str]) -> None:
        note.xy, across, up = spot
        note.set(ha=across, va=up)
        note.xyann = (-4 if across == "right" else 4, 4 if up == "bottom" else -4)

    style.settle(lower)
    put_clear(lower, note, corners, corner)
    return [upper, lower]


@door
def plot_forecast(
    ahead: Forecast, units: Word | None = None, theme: Word = "light", ax: Axes | None = None
) -> Axes:
    """Draw the core so far, the bands of what may come, and when it is done.

    Parameters
    ----------
    ahead : Forecast
        What `libcook.forecast` gave.
    units : str, optional
        ``"C"`` or ``"F"``; the log's own by default.
    theme : str
        ``"light"`` or ``"dark"``.
    ax : matplotlib.axes.Axes, optional
        Where to draw; a new figure by default.

    Returns
    -------
    matplotlib.axes.Axes
    """
    unit = temperature_unit((ahead.units or "C") if units is None else units)
    colours = style.theme_of(theme)
    axes = style.new_axes(colours)[0] if ax is None else ax
    style.dress(axes, colours, "time since the start [h]", f"core temperature [°{unit}]")
    time = ahead.time
    latest = ahead.finish_quantile(0.97)
    shown = time <= (latest if np.isfinite(latest) else time[-1]) + 1800.0
    coming = shown & (time >= ahead.now - (time[1] - time[0]))
    hours = time / 3600.0
    for low, high, alpha in ((0.05, 0.95, 0.22), (0.25, 0.75, 0.4)):
        axes.fill_between(
            hours[coming],
            shown_in(ahead.core_quantile(low)[coming], unit),
            shown_in(ahead.core_quantile(high)[coming], unit),
            color=colours.surface, alpha=alpha, lw=0.0,
            label=f"{100 * (high - low):.0f} % of the possible cooks",
        )  # fmt: skip
    middle = ahead.core_quantile(0.5)
    axes.plot(hours[coming], shown_in(middle[coming], unit), color=colours.surface, lw=1.4, label="median")
    past = shown & (time <= ahead.now)
    if ahead.now > 0.0:
        log = None if ahead._inputs is None else ahead._inputs["log"]
        if log is None or "core" not in log.columns:
            axes.plot(hours[past], shown_in(middle[past], unit), color=colours.core, lw=1.8)
        else:
            axes.plot(
                log.time / 3600.0, shown_in(log.core, unit), color=colours.core, lw=1.6, label="log so far"
            )
        axes.axvline(ahead.now / 3600.0, color=colours.faint, lw=0.8)
        axes.annotate(
            "now", (ahead.now / 3600.0, 1.0), xycoords=("data", "axes fraction"), xytext=(3, -3),
            textcoords="offset points", va="top", fontsize=style.SMALL, color=colours.faint,
        )  # fmt: skip
    _finish(ahead, axes, colours)
    axes.legend(frameon=False, labelcolor=colours.ink, fontsize=style.SMALL, loc="lower right")
    return axes


def _finish(ahead: Any, axes: Axes, colours: style.Theme) -> None:
    """Mark when it is done above the axes: a bar for nine of ten, a thicker one for half, the median."""
    facts = read_forecast(ahead)
    if not np.isfinite(facts.done).all():
        return
    low, lower, middle, upper, high = (t / 3600.0 for t in facts.done)
    top = axes.get_xaxis_transform()
    level = 1.035
    for left, right, width in ((low, high, 2.0), (lower, upper, 6.0)):
        axes.plot(
            [left, right], [level, level], transform=top, color=colours.surface, lw=width,
            solid_capstyle="butt", clip_on=False,
        )  # fmt: skip
    axes.plot([middle], [level], transform=top, marker="|", ms=11, mew=2.0, color=colours.ink, clip_on=False)
    done, start = facts.done[2], facts.clock_start
    clock = "" if start is None else f", {format_clock(start + done, days=True)}"
    axes.annotate(
        f"done: {format_duration(done)}{clock}", (middle, level), xycoords=top, xytext=(0, 11),
        textcoords="offset points", ha="center", va="bottom", fontsize=style.SMALL + 0.5, color=colours.ink,
        annotation_clip=False,
    )  # fmt: skip
