"""Figures as SVG text: the small one of an outcome in a notebook, and that of the playground.

Written as text, for speed and without matplotlib: a new figure for every move of a slider. Ink is the page's
own colour, so that it reads on light and on dark ground; the other colours are those of `figures/style.py`.
"""

from __future__ import annotations

from html import escape
from typing import Any, NamedTuple

import numpy as np

from libcook.figures.style import BLUE, ORANGE, SKY, VERMILLION, spread
from libcook.readings.readable import Readable, wrap_name
from libcook.units import format_duration, format_temperature, shown_in

WIDE, LEFT, RIGHT = 780.0, 72.0, 88.0  # px: whole figure, margins for numbers and for names
UPPER, LOWER, GAP, FOOT = 250.0, 130.0, 26.0, 34.0  # px: heights of the panels, between and below them
SMALL_WIDE, SMALL_HIGH, SMALL_RIGHT = 490.0, 150.0, 116.0  # px: the small figure and its margin for names
LETTER, LINE = 6.5, 13.0  # px: widest usual letter, height of a line
POINTS = 240  # of a curve
HOUR = 3600.0  # s
SPANS = (6.0, 9.0, 12.0, 18.0, 24.0, 36.0, 48.0, 72.0, 120.0)  # h, of the time axis: it jumps, curves do not


class _Frame(NamedTuple):
    """Where one panel lies [px], and what it spans."""

    left: float
    right: float
    top: float
    height: float
    hours: float
    low: float
    high: float

    def x(self, hours: Any) -> Any:
        return self.left + (self.right - self.left) * np.asarray(hours) / self.hours

    def y(self, values: Any) -> Any:
        share = (np.clip(values, self.low, self.high) - self.low) / (self.high - self.low)
        return self.top + self.height * (1.0 - share)


class _Curve(NamedTuple):
    """A line with its name."""

    name: str
    values: Any
    colour: str
    width: float


def _curves(outcome: Readable, units: str, widths: tuple[float, float, float]) -> list[_Curve]:
    """Air, surface and core in the unit that is shown."""
    traces = (
        ("air", outcome.air, "currentColor"),
        ("surface", outcome.surface[:, -1], BLUE),
        ("core", outcome.core, VERMILLION),
    )
    return [
        _Curve(name, shown_in(values, units), colour, width)
        for (name, values, colour), width in zip(traces, widths, strict=True)
    ]


def _document(wide: float, high: float, shown: float, label: str, parts: list[str]) -> str:
    return (
        f'<svg role="img" aria-label="{escape(label)}" viewBox="0 0 {wide:.0f} {high:.0f}" '
        f'style="width:100%;max-width:{shown:.0f}px;height:auto;color:inherit;font-size:11px;'
        f'font-family:sans-serif"><title>{escape(label)}</title>{"".join(parts)}</svg>'
    )


def small_figure(outcome: Readable, units: str) -> str:
    """Draw air, surface and core as three lines with their names, and the stages as vertical rules."""
    time = np.asarray(outcome.time) / HOUR
    curves = _curves(outcome, units, (1.0, 1.4, 2.4))
    low = min(float(curve.values.min()) for curve in curves)
    high = max(float(curve.values.max()) for curve in curves)
    hours = float(time[-1]) or 1.0  # a cook of which every stage was skipped lasts no time
    frame = _Frame(0.0, SMALL_WIDE - SMALL_RIGHT, 16.0, SMALL_HIGH - 22.0, hours, low, max(high, low + 1.0))
    # a step of the air happens between two stored times: the stage ends stay in
    ends = [float(end.time) / HOUR for end in outcome.stage_ends]
    corners = np.clip([np.searchsorted(time, t) + k for t in ends for k in (0, 1)], 0, time.size - 1)
    keep = np.unique(np.concatenate([_kept(time.size), corners.astype(int)]))
    parts = []
    for end in outcome.stage_ends:
        left, right = (float(frame.x(float(t) / HOUR)) for t in (end.start, end.time))
        parts.append(_rule(left, 14.0, SMALL_HIGH))
        if right - left > LETTER * len(str(end.name)) + 4.0:  # the table below has all names
            parts.append(_text(left + 3.0, 10.0, str(end.name), ' opacity=".75"'))
    for curve in curves:
        parts.append(_line(frame, time, curve, keep, ' opacity=".6"' if curve.name == "air" else ""))
    named = [curve._replace(name=f"{curve.name} {float(curve.values[-1]):.0f} °{units}") for curve in curves]
    parts.append(_names(frame, named, frame.right, SMALL_HIGH - 2.0))
    peak = format_temperature(float(np.max(outcome.core)), units, 0)
    lasts = format_duration(float(outcome.time[-1]))
    label = f"Air, surface and core temperature over {lasts}; the core peaks at {peak}"
    return _document(SMALL_WIDE, SMALL_HIGH, SMALL_WIDE, label, parts)


def playground_svg(
    outcome: Readable, units: str = "F", first: Any = None, named: str = "the core where you began"
) -> str:
    """Draw the figure.

    Parameters
    ----------
    outcome : Outcome
        The cook.
    units : str
        ``"C"`` or ``"F"``.
    first : tuple of numpy.ndarray, optional
        Time [s] and core [°C] of the cook to compare with, drawn thin and dashed.
    named : str
        What that is.

    Returns
    -------
    str
        An ``svg`` element.
    """
    time = np.asarray(outcome.time) / HOUR
    last = float(max(time[-1], 0.0 if first is None else first[0][-1] / HOUR))
    hours = next((span for span in SPANS if span >= last), last)
    curves = _curves(outcome, units, (1.0, 1.6, 2.6))
    low, high, step = (0.0, 350.0, 50.0) if units == "F" else (0.0, 180.0, 20.0)
    top = max(high, float(curves[0].values.max()))
    warm = _Frame(LEFT, WIDE - RIGHT, 18.0, UPPER, hours, low, top)
    height = warm.top + UPPER + GAP + LOWER + FOOT
    parts = [_grid(warm, np.arange(low, high + 1.0, step), "°" + units)]
    parts += [_stall(outcome, warm, time, curves[2].values), _stages(outcome, warm, height - FOOT)]
    if first is not None:
        before = _Curve("core", shown_in(first[1], units), "currentColor", 1.0)
        at = _kept(len(first[0]))
        parts.append(_line(warm, np.asarray(first[0]) / HOUR, before, at, ' stroke-dasharray="3 4"'))
        end = ' text-anchor="end" opacity=".75"'
        parts.append(_text(warm.right, warm.top - 4.0, f"dashed: {named}", end))
    parts += [_line(warm, time, curve, _kept(time.size)) for curve in curves]
    parts.append(_names(warm, curves, float(warm.x(time[-1])), warm.top + UPPER))
    parts += [_budget(outcome, warm.top + UPPER + GAP, hours), _hours(warm, height - FOOT)]
    lasts = format_duration(float(outcome.time[-1]))
    label = f"Core, surface and air over {lasts}, and the heat budget of the top face"
    return _document(WIDE, height, 900.0, label, parts)


def _points(x: Any, y: Any) -> str:
    return " ".join(f"{a:.1f},{b:.1f}" for a, b in zip(x, y, strict=True))


def _line(frame: _Frame, hours: Any, curve: _Curve, keep: Any, more: str = "") -> str:
    points = _points(frame.x(hours[keep]), frame.y(np.asarray(curve.values)[keep]))
    ink = f'stroke="{curve.colour}" stroke-width="{curve.width}"'
    return f'<polyline points="{points}" fill="none" {ink}{more}/>'


def _kept(count: int) -> Any:
    return np.unique(np.linspace(0, count - 1, min(POINTS, count)).round().astype(int))


def _text(x: float, y: float, words: str, more: str = "") -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" fill="currentColor"{more}>{escape(words)}</text>'


def _rule(x: float, top: float, bottom: float) -> str:
    ends = f'x1="{x:.1f}" y1="{top:.1f}" x2="{x:.1f}" y2="{bottom:.1f}"'
    return f'<line {ends} stroke="currentColor" opacity=".3"/>'


def _grid(frame: _Frame, levels: Any, unit: str) -> str:
    parts = []
    for i, level in enumerate(levels):
        y = float(frame.y(level))
        parts.append(
            f'<line x1="{frame.left}" y1="{y:.1f}" x2="{frame.right}" y2="{y:.1f}" stroke="currentColor" '
            'opacity=".12"/>'
        )
        words = f"{level:g} {unit}" if i == len(levels) - 1 else f"{level:g}".replace("-", "−")
        parts.append(_text(frame.left - 6.0, y + 4.0, words, ' text-anchor="end"'))
    return "".join(parts)


def _hours(frame: _Frame, y: float) -> str:
    step = next(s for s in (1.0, 2.0, 3.0, 6.0, 12.0) if frame.hours / s <= 10.0)
    middle = ' text-anchor="middle"'
    ticks = "".join(
        _text(float(frame.x(at)), y + 15.0, f"{at:g}", middle)
        for at in np.arange(0.0, frame.hours + 0.1, step)
    )
    return ticks + _text(0.5 * (frame.left + frame.right), y + 30.0, "time since the start [h]", middle)


def _stages(outcome: Readable, frame: _Frame, bottom: float) -> str:
    parts = []
    for i, end in enumerate(outcome.stage_ends):
        if float(end.time) > float(end.start):
            x = float(frame.x(float(end.start) / HOUR))
            parts += [
                _rule(x, frame.top - 10.0, bottom),
                _text(x + 4.0, frame.top - 4.0, wrap_name(outcome, i) or "bare"),
            ]
    return "".join(parts)


def _stall(outcome: Readable, frame: _Frame, time: Any, core: Any) -> str:
    stall = outcome.stall()
    if stall is None:
        return ""
    xs = np.linspace(float(stall.start) / HOUR, float(stall.end) / HOUR, 40)
    base = frame.top + frame.height
    area = _area(frame.x(xs), np.full(xs.size, base), frame.y(np.interp(xs, time, core)), ORANGE, ".28")
    words = f"stall {format_duration(float(stall.end) - float(stall.start))}"
    half = 0.5 * LETTER * len(words) + 3.0
    left, middle, right = (float(frame.x(at)) for at in (xs[0], xs.mean(), xs[-1]))
    spots = (middle, left + half, right - half, left - half, right + half)
    spot = next(
        (at for at in spots if at > frame.left + half and _free(at, half, _rules(outcome, frame))), middle
    )
    return area + _text(spot, base - 30.0, words, ' text-anchor="middle"')


def _rules(outcome: Readable, frame: _Frame) -> list[float]:
    """Where stages begin [px]."""
    return [float(frame.x(float(end.start) / HOUR)) for end in outcome.stage_ends if float(end.start) > 0.0]


def _free(at: float, half: float, rules: list[float]) -> bool:
    """Tell whether words around a place touch no rule."""
    return all(abs(rule - at) > half for rule in rules)


def _names(frame: _Frame, curves: list[_Curve], x: float, lowest: float) -> str:
    """Write names at the ends of curves, apart from each other."""
    wanted = [float(frame.y(curve.values[-1])) + 4.0 for curve in curves]
    places = spread(wanted, LINE, high=lowest)
    return "".join(
        f'<text x="{x + 6.0:.1f}" y="{y:.1f}" fill="currentColor">'
        f'<tspan fill="{curve.colour}">&#9632;</tspan> {curve.name}</text>'
        for curve, y in zip(curves, places, strict=True)
    )


def _budget(outcome: Readable, top: float, hours: float) -> str:
    budget = outcome.heat_budget("top")
    frame = _Frame(LEFT, WIDE - RIGHT, top, LOWER, hours, -1000.0, 1500.0)
    time = np.asarray(budget.time) / HOUR
    keep = _kept(len(time))
    up, down = np.zeros(len(keep)), np.zeros(len(keep))
    parts = [_grid(frame, (-1000.0, 0.0, 1000.0), "W/m²")]
    x = frame.x(time[keep])
    into = np.asarray(budget.into_meat)
    line, rules = frame.y(into[keep]), _rules(outcome, frame)
    for name, values, colour in (
        ("convection", np.asarray(budget.convection), VERMILLION),
        ("radiation", np.asarray(budget.radiation), ORANGE),
        ("evaporation", -np.asarray(budget.evaporation), SKY),
    ):
        high, low = up + np.maximum(values[keep], 0.0), down + np.minimum(values[keep], 0.0)
        for near, far in ((up, high), (down, low)):
            if np.abs(far - near).max() > 1.0:
                parts.append(_area(x, frame.y(near), frame.y(far), colour))
        edges = (frame.y(down), frame.y(low)) if name == "evaporation" else (frame.y(high), frame.y(up))
        if spot := _inside(x, *edges, line, rules, 0.5 * LETTER * len(name) + 3.0):
            parts.append(
                f'<text x="{spot[0]:.1f}" y="{spot[1] + 4.0:.1f}" fill="#1F2328" '
                f'text-anchor="middle">{name}</text>'
            )
        up, down = high, low
    parts.append(_line(frame, time, _Curve("into the meat", into, "currentColor", 1.6), keep))
    parts.append(_text(float(x[-1]) + 6.0, float(frame.y(into[-1])) + 4.0, "into the meat"))
    return "".join(parts)


def _inside(
    x: Any, top: Any, bottom: Any, line: Any, rules: list[float], half: float
) -> tuple[float, float] | None:
    """Return where in a band [px] its name has most room, off line and rules; None where it has none."""
    best, spot = LINE, None
    for at in np.linspace(x[0] + half, x[-1] - half, 60):
        under = (x > at - half) & (x < at + half)
        if not under.any() or not _free(float(at), half, rules):
            continue
        high, low = float(top[under].max()), float(bottom[under].min())
        lines = line[under]
        # between the band's edges, above the line or below it
        for above, below in (
            (high, min(low, float(lines.min()) - 2.0)),
            (max(high, float(lines.max()) + 2.0), low),
        ):
            if below - above > best:
                best, spot = below - above, (float(at), 0.5 * (above + below))
    return spot


def _area(x: Any, near: Any, far: Any, colour: str, opacity: str = ".85") -> str:
    points = f"{_points(x, far)} {_points(x[::-1], near[::-1])}"
    return f'<polygon points="{points}" fill="{colour}" opacity="{opacity}"/>'
