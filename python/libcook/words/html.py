"""An outcome in a notebook: headline facts, a small figure, the safety panel. No scripts, no style sheet.

Colours are inherited from the page, so that it reads on light and on dark ground; the two lines of the small
figure use mid tones (Okabe and Ito, see `figures/style.py`) that stand out from both.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import Any

import numpy as np

from libcook.figures.style import BLUE, VERMILLION
from libcook.readings.facts import Facts, loss_words, read_facts
from libcook.readings.readable import Readable, wrap_name
from libcook.units import (
    celsius_to_fahrenheit,
    format_clock,
    format_duration,
    format_mass,
    format_percent,
    format_temperature,
    temperature_unit,
)
from libcook.words.forms import grid_words, probe_words
from libcook.words.safety_rows import LOCAL, safety_rows

__all__ = ["outcome_html"]

_WIDTH, _HEIGHT, _RIGHT = 490.0, 150.0, 116.0  # of the small figure and of its margin for names [px]
_POINTS = 240  # no more are drawn


def outcome_html(outcome: Readable, units: str = "C") -> str:
    """Write an HTML fragment that shows an outcome.

    Parameters
    ----------
    outcome : Outcome
        A simulated cook.
    units : str
        ``"C"`` or ``"F"``.

    Returns
    -------
    str
        A ``div`` with a small figure (inline SVG), a table of facts, the safety panel and the notes.
    """
    unit = temperature_unit(units)
    facts = read_facts(outcome)
    notes = _list("Notes", [str(note) for note in outcome.notes])
    return (
        '<div style="max-width:46em;color:inherit;line-height:1.4">'
        + _figure(outcome, unit)
        + _facts(outcome, facts, unit)
        + _safety(outcome, unit)
        + notes
        + "</div>"
    )


def _facts(outcome: Readable, facts: Facts, unit: str) -> str:
    def clock(seconds: float) -> str:
        return (
            "" if facts.clock_start is None else f" ({format_clock(facts.clock_start + seconds, days=True)})"
        )

    def rise(kelvin: float) -> float:
        return celsius_to_fahrenheit(kelvin) - celsius_to_fahrenheit(0.0) if unit == "F" else kelvin

    rows = []
    for i, end in enumerate(outcome.stage_ends):
        wrap = wrap_name(outcome, i)
        rows.append(
            (
                f"{end.name} ({wrap})" if wrap else str(end.name),
                f"until {format_duration(float(end.time))}{clock(float(end.time))}, "
                f"core {format_temperature(float(end.core), unit)}: {end.reason}",
            )
        )
    stall = facts.stall
    if stall is None:
        rows.append(("stall", "none"))
    else:
        length = format_duration(float(stall.end) - float(stall.start))
        start, plateau = (
            format_duration(float(stall.start)),
            format_temperature(float(stall.plateau), unit, 0),
        )
        rows.append(("stall", f"{length} from {start} on, near {plateau}"))
    if facts.rise is not None and facts.peak is not None and facts.peak_after is not None:
        rows.append(
            (
                "carryover",
                f"+{rise(facts.rise):.1f} °{unit} to {format_temperature(facts.peak, unit)}, "
                f"{format_duration(facts.peak_after)} after the pull",
            )
        )
    if grid_words(outcome):
        rows.append((grid_words(outcome), "at the pull " + "; ".join(probe_words(outcome, unit))))
    mass = "lb" if unit == "F" else "kg"
    rows.append(
        (
            "weight loss",
            f"{format_percent(facts.lost)} of {format_mass(facts.raw, mass)}: {loss_words(facts, mass)}",
        )
    )
    rows.append(("tenderness", f"{100.0 * facts.tenderness:.0f} % of the collagen converted at the core"))
    cell = "text-align:left;vertical-align:top;padding:2px 10px 2px 0"
    body = "".join(
        f'<tr><th scope="row" style="{cell};font-weight:600;white-space:nowrap">{escape(name)}</th>'
        f'<td style="{cell}">{escape(value)}</td></tr>'
        for name, value in rows
    )
    return (
        f'<table style="border-collapse:collapse;background:none;color:inherit;margin:6px 0">{body}</table>'
    )


def _safety(outcome: Readable, unit: str) -> str:
    safety = outcome.safety()
    cell = "text-align:left;vertical-align:top;padding:1px 10px 1px 0"
    head = "".join(
        f'<th scope="col" style="{cell}">{name}</th>' for name in ("", "computed", "limit", "whose limit")
    )
    body = "".join(
        f'<tr><th scope="row" style="{cell};font-weight:600">{escape(row.what)}</th>'
        + "".join(f'<td style="{cell}">{escape(text)}</td>' for text in row[1:])
        + "</tr>"
        for row in safety_rows(outcome, unit)
    )
    table = (
        '<table style="border-collapse:collapse;background:none;color:inherit;margin:4px 0;font-size:.93em">'
        f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
    )
    warnings = "".join(f"<li>{escape(str(warning))}</li>" for warning in safety.warnings)
    listed = f'<ul style="margin:4px 0;padding-left:1.3em">{warnings}</ul>' if warnings else ""
    return (
        '<div role="note" style="border:1px solid currentColor;padding:6px 10px;margin:8px 0;'
        f'border-left:5px solid {VERMILLION}"><strong>Safety</strong>{listed}{table}'
        f"<div>{escape(str(safety.caution))} {escape(LOCAL)}</div></div>"
    )


def _list(title: str, items: Sequence[str]) -> str:
    if not items:
        return ""
    body = "".join(f"<li>{escape(item)}</li>" for item in items)
    return (
        f"<details><summary>{escape(title)} ({len(items)})</summary>"
        f'<ul style="margin:4px 0;padding-left:1.3em">{body}</ul></details>'
    )


def _figure(outcome: Readable, unit: str) -> str:
    """Draw air, surface and core as three lines with their names, and the stages as vertical rules."""
    time = np.asarray(outcome.time)
    traces = [
        ("air", np.asarray(outcome.air), "currentColor", 1.0, 0.6),
        ("surface", np.asarray(outcome.surface)[:, -1], BLUE, 1.4, 1.0),
        ("core", np.asarray(outcome.core), VERMILLION, 2.4, 1.0),
    ]
    low = min(float(values.min()) for _, values, *_ in traces)
    high = max(float(values.max()) for _, values, *_ in traces)
    span, wide = max(high - low, 1.0), _WIDTH - _RIGHT
    whole = float(time[-1]) or 1.0  # a cook of which every stage was skipped lasts no time

    def x(seconds: float) -> float:
        return wide * seconds / whole

    def y(celsius: float) -> float:
        return 16.0 + (_HEIGHT - 22.0) * (1.0 - (celsius - low) / span)

    keep = np.unique(np.linspace(0, time.size - 1, min(_POINTS, time.size)).round().astype(int))
    # a step of the air happens between two stored times: the stage ends stay in
    ends = [float(end.time) for end in outcome.stage_ends]
    corners = [int(np.clip(np.searchsorted(time, t) + k, 0, time.size - 1)) for t in ends for k in (0, 1)]
    keep = np.unique(np.concatenate([keep, np.array(corners, dtype=keep.dtype)]))
    parts = []
    for end in outcome.stage_ends:
        left = x(float(end.start))
        parts.append(
            f'<line x1="{left:.1f}" y1="14" x2="{left:.1f}" y2="{_HEIGHT:.0f}" stroke="currentColor" '
            'stroke-width="1" opacity=".25"/>'
        )
    parts.append(_stage_names(outcome, x, wide))
    for _, values, colour, width, opacity in traces:
        points = " ".join(f"{x(float(time[i])):.1f},{y(float(values[i])):.1f}" for i in keep)
        parts.append(
            f'<polyline points="{points}" fill="none" stroke="{colour}" stroke-width="{width}" '
            f'opacity="{opacity}"/>'
        )
    order = sorted(traces, key=lambda trace: -float(trace[1][-1]))
    at = -100.0
    for _, values, _, _, _ in order:
        at = max(y(float(values[-1])) + 4.0, at + 13.0)
    at = min(0.0, _HEIGHT - 2.0 - at)  # lift all names when the lowest would leave the figure
    lift, at = at, -100.0
    for name, values, colour, _, _ in order:
        at = max(y(float(values[-1])) + 4.0 + lift, at + 13.0)
        value = format_temperature(float(values[-1]), unit, 0)
        parts.append(
            f'<text x="{wide + 6:.0f}" y="{at:.1f}" font-size="11" fill="currentColor">'
            f'<tspan fill="{colour}">&#9632;</tspan> {name} {value}</text>'
        )
    lasts = format_duration(float(time[-1]))
    label = f"Air, surface and core temperature over {lasts}; the core peaks at " + format_temperature(
        float(np.max(outcome.core)), unit, 0
    )
    return (
        f'<svg role="img" aria-label="{escape(label)}" viewBox="0 0 {_WIDTH:.0f} {_HEIGHT:.0f}" '
        f'style="width:100%;max-width:{_WIDTH:.0f}px;height:auto;color:inherit"><title>{escape(label)}</title>'
        + "".join(parts)
        + "</svg>"
    )


def _stage_names(outcome: Readable, x: Any, wide: float) -> str:
    """Write the names that fit between their rules; the table below has all of them."""
    parts = []
    for end in outcome.stage_ends:
        left, right = x(float(end.start)), min(x(float(end.time)), wide)
        if right - left > 6.5 * len(str(end.name)) + 4.0:  # px; a usual letter at this size is under 6.5 wide
            parts.append(
                f'<text x="{left + 3:.1f}" y="10" font-size="11" fill="currentColor" opacity=".75">'
                f"{escape(str(end.name))}</text>"
            )
    return "".join(parts)
