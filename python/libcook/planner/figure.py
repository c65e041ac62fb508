"""A best plan drawn: the front with each plan by its name, and the day of the chosen one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from libcook.arguments.optional import need
from libcook.figures import style
from libcook.planner.limits import HOUR
from libcook.planner.measure import quantile
from libcook.planner.recipe import Recipe
from libcook.planner.words import cover
from libcook.units import format_clock, format_duration, format_temperature, temperature_unit
from libcook.units.clock import DAY

if TYPE_CHECKING:
    from matplotlib.axes import Axes

BANDS = ((0.05, 0.95, 0.25), (0.25, 0.75, 0.55))


def draw(best: Any, units: str | None, theme: str) -> Sequence[Axes]:
    """Draw both panels.

    Parameters
    ----------
    best : BestPlan
        What was found.
    units : str or None
        ``"C"`` or ``"F"``.
    theme : str
        ``"light"`` or ``"dark"``.
    """
    colours = style.theme_of(theme)
    unit = temperature_unit((best.units or "F") if units is None else units)
    pyplot = need("matplotlib.pyplot", "plots", "a figure")
    figure, (above, below) = pyplot.subplots(
        2, 1, figsize=(9.0, 8.2), layout="constrained", height_ratios=(1.1, 1.0)
    )
    figure.set_facecolor(colours.paper)
    _front(best, above, colours, unit)
    _day(best, below, colours, unit)
    return [above, below]


def _front(best: Any, ax: Axes, colours: style.Theme, unit: str) -> None:
    """Hours from the start to dinner against the weight left; the larger, the more bark."""
    style.dress(ax, colours, "", "raw weight left at dinner [%]")
    under_way = best.under_way
    beside = "going on as planned" if under_way else "the habit"
    _titled(ax, f"Plans to choose from, and {beside}", colours)
    name = (
        "off the heat in the middle of the possible cooks, hours from now"
        if under_way
        else ("from the start to dinner [h]")
    )
    ax.set_xlabel(name, color=colours.ink)
    ticker = need("matplotlib.ticker", "plots", "a figure")
    ax.xaxis.set_major_locator(ticker.MaxNLocator(integer=True))

    def hours(measured: Any) -> float:
        return float((measured.pulled50 - best.cooks.table.now if under_way else measured.room) / HOUR)

    points = [(one.name, one.measured, False) for one in best.options]
    habit = best.habit.same_start if under_way else best.habit.measured
    points.append(("as planned" if under_way else "the habit", habit, True))
    recipes = [_short(one.recipe, unit) for one in best.options] + [_short(best.habit.recipe, unit)]
    x = np.array([hours(m) for _, m, _ in points])
    y = np.array([100.0 * m.kept for _, m, _ in points])
    for k, (_, m, usual) in enumerate(points):
        colour = colours.faint if usual else colours.series[k % len(colours.series)]
        ax.scatter(
            x[k],
            y[k],
            s=_spot(m),
            color=colours.paper if usual else colour,
            edgecolor=colour,
            lw=1.6,
            alpha=1.0 if usual else 0.9,
            zorder=3,
        )
    pad_x, pad_y = max(0.5, 0.12 * float(np.ptp(x))), max(0.6, 0.16 * float(np.ptp(y)))
    ax.set_xlim(float(x.min()) - pad_x, float(x.max()) + 4.0 * pad_x)
    ax.set_ylim(float(y.min()) - pad_y, float(y.max()) + pad_y)
    order = np.argsort(y)
    low, high = ax.get_ylim()
    heights = style.spread(
        [float(v) for v in y], (high - low) / 6.5, low + 0.04 * (high - low), high - 0.06 * (high - low)
    )
    for k in order:
        label, m, usual = points[k]
        colour = colours.faint if usual else colours.series[k % len(colours.series)]
        words = f"{label}: on time {100.0 * m.on_time:.0f} %\n{recipes[k]}"
        ax.annotate(
            words,
            (x[k], y[k]),
            xytext=(x[k] + 0.3 * pad_x + 0.02, heights[k]),
            textcoords="data",
            va="center",
            fontsize=style.SMALL,
            color=colour,
            zorder=2,
            arrowprops={"arrowstyle": "-", "color": colours.faint, "lw": 0.5},
        )
    ax.annotate(
        "the larger the spot, the more bark",
        (0.0, 0.0),
        xycoords="axes fraction",
        xytext=(4, 4),
        textcoords="offset points",
        va="bottom",
        fontsize=style.SMALL,
        color=colours.faint,
    )


def _spot(m: Any) -> float:
    """Area of a spot [square points]: the larger, the more bark."""
    return 60.0 + 130.0 * float(min(m.bark, 3.0))


def _titled(ax: Axes, words: str, colours: style.Theme) -> None:
    ax.set_title(words, loc="left", fontsize=style.SMALL + 2.0, color=colours.ink)


def _short(recipe: Recipe, unit: str) -> str:
    """Write a recipe so that it fits beside a spot."""

    def warm(celsius: float) -> str:
        return format_temperature(celsius, unit, 0)

    pit = warm(recipe.pit)
    if recipe.wrap == "none":
        return f"pit {pit}, bare"
    if abs(recipe.wrapped_pit - recipe.pit) > 1.0:
        pit = f"{pit}, then {warm(recipe.wrapped_pit)}"
    kind, value = recipe.wrap_at
    at = {"core": f"at {warm(value)}", "bark": "once the bark is set", "now": "now"}[kind]
    return f"pit {pit}, {cover(recipe.wrap)} {at}"


def _day(best: Any, ax: Axes, colours: style.Theme, unit: str) -> None:
    """Bars from stage to stage, with bands of when each ends."""
    style.dress(ax, colours, "", "")
    way = "from now on" if best.under_way else "the day of it"
    _titled(ax, f"{best.options[0].name[0].upper()}{best.options[0].name[1:]}: {way}", colours)
    seen, room = best.chosen.cooks, best.measured.room
    begin = best.serve - room
    now = best.cooks.table.now
    stages = best.cooks.stages(best.chosen.recipe)[:-1]
    ends = [*(seen.actions[:, k] for k in range(len(stages) - 1)), seen.ready]
    from_, rows = now, []
    for stage, end in zip(stages, ends, strict=True):
        middle = quantile(end, seen.weight, 0.5)
        rows.append((stage, from_, middle, end))
        from_ = middle
    rows.append((None, from_, room, None))
    count = len(rows)
    for k, (stage, left, right, end) in enumerate(rows):
        level = count - 1 - k
        resting = stage is None or stage.name == "rest"
        colour = colours.surface if resting else colours.core
        ax.barh(
            level,
            max(right - left, 0.0) / HOUR,
            left=(begin + left) / HOUR,
            height=0.42,
            color=colour,
            alpha=0.85 if not resting else 0.55,
            lw=0.0,
        )
        if end is not None:
            for low, high, alpha in BANDS:
                a, b = (quantile(end, seen.weight, q) for q in (low, high))
                ax.plot(
                    [(begin + a) / HOUR, (begin + b) / HOUR],
                    [level - 0.32] * 2,
                    color=colours.ink,
                    alpha=alpha,
                    lw=4.0,
                    solid_capstyle="butt",
                )
        ax.annotate(
            _named(stage, best, begin + left, unit),
            ((begin + (right if stage is None else left)) / HOUR, level),
            xytext=(-4 if stage is None else 0, 12),
            textcoords="offset points",
            va="bottom",
            ha="right" if stage is None else "left",
            fontsize=style.SMALL,
            color=colours.ink,
        )
    ax.axvline(best.serve / HOUR, color=colours.ink, lw=1.2)
    ax.annotate(
        f"dinner {format_clock(best.serve)}",
        (best.serve / HOUR, 0.0),
        xycoords=("data", "axes fraction"),
        xytext=(-4, 4),
        textcoords="offset points",
        ha="right",
        fontsize=style.SMALL,
        color=colours.ink,
    )
    _nights(best, ax, colours, begin)
    _looks(best, ax, colours, count)
    latest = max(best.serve, begin + min(quantile(seen.ready, seen.weight, 0.97), room + 6 * HOUR))
    ax.set_xlim((begin + now) / HOUR - 0.3, latest / HOUR + 0.5)
    ax.set_ylim(-0.7, count - 0.05)
    ax.set_yticks([])
    ax.spines["left"].set_visible(False)
    step = 2 if (latest - begin - now) / HOUR < 20 else 3
    first = int(np.ceil((begin + now) / HOUR / step)) * step
    ticks = np.arange(first, latest / HOUR + 0.5, step)
    ax.set_xticks(ticks)
    ax.set_xticklabels([format_clock(t * HOUR) for t in ticks])
    ax.set_xlabel(
        "time of day; under each bar: when that stage ends, in half (strong) and in nine of ten (faint) "
        "of the possible cooks",
        color=colours.ink,
    )


def _named(stage: Any, best: Any, left: float, unit: str) -> str:
    if stage is None:
        m = best.measured
        return f"waits for dinner, held warm; up to {format_duration(m.wait95)} in 19 cooks of 20"
    if stage.name == "rest":
        return "rest"
    end = stage.until[0]
    air = format_temperature(float(stage.surroundings.air.at(left)), unit, 0)
    until = {
        "core": f"core at {format_temperature(end.value, unit, 0)}",
        "bark": "the bark has set",
        "tender": f"{100.0 * end.value:.0f} % tender",
    }[end.kind]
    return f"{stage.name}: pit {air}, {cover(stage.wrap.name)}, until {until}"


def _nights(best: Any, ax: Axes, colours: style.Theme, begin: float) -> None:
    """Shade the quiet hours."""
    sleep = best.cooks.wishes.sleep
    if sleep is None:
        return
    length = (sleep[1] - sleep[0]) % DAY
    for day in range(-3, 2):
        left = sleep[0] + day * DAY
        if left + length > begin and left < best.serve:
            ax.axvspan(left / HOUR, (left + length) / HOUR, color=colours.band, lw=0.0, zorder=0)


def _looks(best: Any, ax: Axes, colours: style.Theme, count: int) -> None:
    """Mark when the rules ask for a look at the thermometer."""
    if best.policy is None:
        return
    begin = best.serve - best.policy.measured.room
    for at in sorted({rule.at for rule in best.policy.rules}):
        ax.plot([(begin + at) / HOUR], [count - 0.25], marker="v", ms=6, color=colours.stall, clip_on=False)
        ax.annotate(
            "look",
            ((begin + at) / HOUR, count - 0.25),
            xytext=(6, -3),
            textcoords="offset points",
            fontsize=style.SMALL,
            color=colours.ink,
        )
