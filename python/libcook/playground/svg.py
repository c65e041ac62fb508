"""The playground's figure as SVG: temperatures above, the heat budget of the top face below, one time axis.

Written as text, for speed: a new figure for every move of a slider. Ink is the page's own colour, so that it
reads on light and on dark ground; the other colours are those of `figures/style.py`.
"""

from __future__ import annotations

from html import escape
from typing import Any, NamedTuple

import numpy as np

from libcook.figures.style import BLUE, ORANGE, SKY, VERMILLION
from libcook.readings.readable import Readable, wrap_name
from libcook.units import celsius_to_fahrenheit, format_duration

WIDE, LEFT, RIGHT = 780.0, 72.0, 88.0  # px: whole figure, margins for numbers and for names
UPPER, LOWER, GAP, FOOT = 250.0, 130.0, 26.0, 34.0  # px: heights of the panels, between and below them
POINTS = 200  # of a curve
HOUR = 3600.0  # s
SPANS = (6.0, 9.0, 12.0, 18.0, 24.0, 36.0, 48.0, 72.0, 120.0)  # h, of the time axis: it jumps, curves do not


class _Frame(NamedTuple):
    """Where one panel lies, and what it spans."""

    top: float
    height: float
    hours: float
    low: float
    high: float

    def x(self, hours: Any) -> Any:
        return LEFT + (WIDE - LEFT - RIGHT) * np.asarray(hours) / self.hours

    def y(self, values: Any) -> Any:
        share = (np.clip(values, self.low, self.high) - self.low) / (self.high - self.low)
        return self.top + self.height * (1.0 - share)


def playground_svg(outcome: Readable, units: str = "F", first: Any = None) -> str:
    """Draw the figure.

    Parameters
    ----------
    outcome : Outcome
        The cook, without a rest.
    units : str
        ``"C"`` or ``"F"``.
    first : tuple of numpy.ndarray, optional
        Time [s] and core [°C] of the cook to compare with, drawn thin and dashed.

    Returns
    -------
    str
        An ``svg`` element.
    """
    time = np.asarray(outcome.time) / HOUR
    last = float(max(time[-1], 0.0 if first is None else first[0][-1] / HOUR))
    hours = next((span for span in SPANS if span >= last), last)
    air = _shown(np.asarray(outcome.air), units)
    low, high, step = (0.0, 350.0, 50.0) if units == "F" else (0.0, 180.0, 20.0)
    warm = _Frame(18.0, UPPER, hours, low, max(high, float(air.max())))
    height = warm.top + UPPER + GAP + LOWER + FOOT
    parts = [_grid(warm, np.arange(low, high + 1.0, step), "°" + units)]
    parts += [_stall(outcome, warm, time, units), _stages(outcome, warm, height - FOOT)]
    if first is not None:
        dashes = ' stroke-dasharray="3 4"'
        parts.append(_line(warm, first[0] / HOUR, _shown(first[1], units), "currentColor", 1.0, dashes))
        end = ' text-anchor="end" opacity=".75"'
        parts.append(_text(WIDE - RIGHT, warm.top - 4.0, "dashed: the core where you began", end))
    names = []
    for name, values, colour, width in (
        ("air", air, "currentColor", 1.0),
        ("surface", _shown(np.asarray(outcome.surface)[:, -1], units), BLUE, 1.6),
        ("core", _shown(np.asarray(outcome.core), units), VERMILLION, 2.6),
    ):
        parts.append(_line(warm, time, values, colour, width))
        names.append((name, float(warm.y(values[-1])), colour))
    parts.append(_names(names, float(warm.x(time[-1]))))
    parts.append(_budget(outcome, warm.top + UPPER + GAP, hours))
    lasts = format_duration(float(outcome.time[-1]))
    label = f"Core, surface and air over {lasts}, and the heat budget of the top face"
    return (
        f'<svg role="img" aria-label="{escape(label)}" viewBox="0 0 {WIDE:.0f} {height:.0f}" '
        'style="width:100%;max-width:900px;height:auto;color:inherit;font-size:11px;font-family:sans-serif">'
        + "".join(parts)
        + _hours(hours, height - FOOT)
        + "</svg>"
    )


def _shown(celsius: Any, units: str) -> Any:
    return celsius_to_fahrenheit(celsius) if units == "F" else celsius


def _line(frame: _Frame, hours: Any, values: Any, colour: str, width: float, more: str = "") -> str:
    keep = _kept(len(hours))
    points = " ".join(
        f"{x:.1f},{y:.1f}" for x, y in zip(frame.x(hours[keep]), frame.y(values[keep]), strict=True)
    )
    return f'<polyline points="{points}" fill="none" stroke="{colour}" stroke-width="{width}"{more}/>'


def _kept(count: int) -> Any:
    return np.unique(np.linspace(0, count - 1, min(POINTS, count)).round().astype(int))


def _text(x: float, y: float, words: str, more: str = "") -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" fill="currentColor"{more}>{escape(words)}</text>'


def _grid(frame: _Frame, levels: Any, unit: str) -> str:
    parts = []
    for i, level in enumerate(levels):
        y = float(frame.y(level))
        parts.append(
            f'<line x1="{LEFT}" y1="{y:.1f}" x2="{WIDE - RIGHT}" y2="{y:.1f}" stroke="currentColor" '
            'opacity=".12"/>'
        )
        words = f"{level:g} {unit}" if i == len(levels) - 1 else f"{level:g}".replace("-", "−")
        parts.append(_text(LEFT - 6.0, y + 4.0, words, ' text-anchor="end"'))
    return "".join(parts)


def _hours(hours: float, y: float) -> str:
    step = next(s for s in (1.0, 2.0, 3.0, 6.0, 12.0) if hours / s <= 10.0)
    frame = _Frame(0.0, 1.0, hours, 0.0, 1.0)
    ticks = "".join(
        _text(float(frame.x(at)), y + 15.0, f"{at:g}", ' text-anchor="middle"')
        for at in np.arange(0.0, hours + 0.1, step)
    )
    return ticks + _text(
        0.5 * (LEFT + WIDE - RIGHT), y + 30.0, "time since the start [h]", ' text-anchor="middle"'
    )


def _stages(outcome: Readable, frame: _Frame, bottom: float) -> str:
    parts, ends = [], list(outcome.stage_ends)
    for i, end in enumerate(ends):
        x = float(frame.x(float(end.start) / HOUR))
        if float(end.time) <= float(end.start):
            continue
        parts.append(
            f'<line x1="{x:.1f}" y1="{frame.top - 10:.1f}" x2="{x:.1f}" y2="{bottom:.1f}" '
            'stroke="currentColor" opacity=".3"/>'
        )
        parts.append(_text(x + 4.0, frame.top - 4.0, wrap_name(outcome, i) or "bare"))
    return "".join(parts)


def _stall(outcome: Readable, frame: _Frame, time: Any, units: str) -> str:
    stall = outcome.stall()
    if stall is None:
        return ""
    start, end = float(stall.start) / HOUR, float(stall.end) / HOUR
    xs = np.linspace(start, end, 40)
    ys = frame.y(np.interp(xs, time, _shown(np.asarray(outcome.core), units)))
    base = frame.top + frame.height
    points = " ".join(f"{x:.1f},{y:.1f}" for x, y in zip(frame.x(xs), ys, strict=True))
    area = f"{float(frame.x(start)):.1f},{base:.1f} {points} {float(frame.x(end)):.1f},{base:.1f}"
    words = f"stall {format_duration(float(stall.end) - float(stall.start))}"
    middle = float(frame.x(0.5 * (start + end)))
    return f'<polygon points="{area}" fill="{ORANGE}" opacity=".28"/>' + _text(
        middle, base - 30.0, words, ' text-anchor="middle"'
    )


def _names(names: list[tuple[str, float, str]], x: float) -> str:
    parts, last = [], -100.0
    for name, y, colour in sorted(names, key=lambda each: each[1]):
        last = max(y + 4.0, last + 13.0)
        parts.append(
            f'<text x="{x + 6.0:.1f}" y="{last:.1f}" fill="currentColor">'
            f'<tspan fill="{colour}">&#9632;</tspan> {name}</text>'
        )
    return "".join(parts)


def _budget(outcome: Readable, top: float, hours: float) -> str:
    budget = outcome.heat_budget("top")
    frame = _Frame(top, LOWER, hours, -1000.0, 1500.0)
    time = np.asarray(budget.time) / HOUR
    keep = _kept(len(time))
    up, down = np.zeros(len(keep)), np.zeros(len(keep))
    parts = [_grid(frame, (-1000.0, 0.0, 1000.0), "W/m²")]
    x = frame.x(time[keep])
    for name, values, colour in (
        ("convection", np.asarray(budget.convection), VERMILLION),
        ("radiation", np.asarray(budget.radiation), ORANGE),
        ("evaporation", -np.asarray(budget.evaporation), SKY),
    ):
        high, low = up + np.maximum(values[keep], 0.0), down + np.minimum(values[keep], 0.0)
        for near, far in ((up, high), (down, low)):
            if np.abs(far - near).max() > 1.0:
                parts.append(_area(x, frame.y(near), frame.y(far), colour))
        at = len(keep) // 3
        middle = 0.5 * ((low if name == "evaporation" else high) + (down if name == "evaporation" else up))
        if abs(float(frame.y((high - up + low - down)[at])) - float(frame.y(0.0))) > 14.0:
            parts.append(
                f'<text x="{float(x[at]):.1f}" y="{float(frame.y(middle[at])) + 4.0:.1f}" fill="#1F2328" '
                f'text-anchor="middle">{name}</text>'
            )
        up, down = high, low
    into = np.asarray(budget.into_meat)
    parts.append(_line(frame, time, into, "currentColor", 1.6))
    parts.append(_text(float(x[-1]) + 6.0, float(frame.y(into[-1])) + 4.0, "into the meat"))
    return "".join(parts)


def _area(x: Any, near: Any, far: Any, colour: str) -> str:
    there = [f"{a:.1f},{b:.1f}" for a, b in zip(x, far, strict=True)]
    back = [f"{a:.1f},{b:.1f}" for a, b in zip(x[::-1], near[::-1], strict=True)]
    return f'<polygon points="{" ".join(there + back)}" fill="{colour}" opacity=".85"/>'
