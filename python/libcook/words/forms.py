"""Plain-text forms of plans, signals and readings."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from libcook._core import format_degrees
from libcook.readings.facts import read_facts
from libcook.units import format_clock, format_duration
from libcook.words.phrases import rows
from libcook.words.safety_rows import safety_rows
from libcook.words.two_scales import BOTH, METRES_PER_INCH


def _value(value: Any) -> str:
    return f"{value:g}" if isinstance(value, float) else repr(value)


def short_form(name: str, told: Mapping[str, Any]) -> str:
    """Write a struct with the fields that differ from its defaults."""
    return f"{name}({', '.join(f'{key}={_value(value)}' for key, value in told.items())})"


def short_form_of(thing: Any) -> str:
    """Write a struct of the core with the fields that differ from its defaults: the rest is documented."""
    kind = type(thing)
    default = kind()
    plain = {name: getattr(default, name) for name in kind._fields}
    values = {name: getattr(thing, name) for name in kind._fields}
    return short_form(kind.__name__, {n: v for n, v in values.items() if v != plain[n]})


def meat_form(meat: Any) -> str:
    """Write a piece as a cook speaks of it: what, how heavy, how thick, the fat cap, how cold."""
    cylinder = meat.shape.kind == "cylinder"
    size = f"{_inches(meat.shape.thickness)} {'in diameter' if cylinder else 'thick'}"
    cap = meat.fat_cap
    bare = cylinder or cap.side == "none" or cap.thickness == 0.0
    fat = "no fat cap" if bare else f"fat cap {_inches(cap.thickness)} {cap.side}"
    cold = format_degrees(meat.start)
    return f"{meat.tissue.name}, {BOTH.mass(meat.mass)}, {size}, {fat}, starts at {cold}"


def _inches(metres: float) -> str:
    """Write a length as "2.1 in (5.4 cm)"; what is thin to a tenth more."""
    digits = 1 if metres >= 0.02 else 2
    return f"{metres / METRES_PER_INCH:.{digits}f} in ({100.0 * metres:.1f} cm)"


def section_form(section: Any) -> str:
    """Write a section: its size and thicknesses."""
    points = ", ".join(
        f"{1e3 * t:.0f} at {1e2 * x:.0f}" for x, t in zip(section.at, section.thickness, strict=True)
    )
    seam = ", seam" if section.seam is not None or section.point is not None else ""
    size = f"{1e2 * section.length:.0f} cm x {1e2 * section.width:.0f} cm"
    return f"Section({size}, mm thick at cm: {points}{seam})"


def parameter_form(p: Any) -> str:
    """Write a default in a line."""
    unit = "" if p.unit == "-" else f" {p.unit}"
    return f"{p.name} = {p.value:g}{unit} ({p.low:g} to {p.high:g}; {p.kind})"


def signal_form(signal: Any) -> str:
    """Write a signal: its value, or its points when there are few."""
    time, value = signal.time, signal.value
    if len(value) == 1:
        points = f"{value[0]:g}"
    elif len(value) <= 8:
        points = ", ".join(f"{v:g} at {format_duration(t)}" for t, v in zip(time, value, strict=True))
    else:
        points = f"{len(value)} points over {format_duration(time[-1] - time[0])}"
    amplitude = signal.ripple_amplitude
    ripple = f", ±{amplitude:g} every {format_duration(signal.ripple_period)}" if amplitude else ""
    return f"Signal({points}{ripple}{', measured' if signal.measured else ''})"


def course(signal: Any) -> str:
    """Write an air temperature as a cook reads it, in both scales."""
    low, high = signal.minimum, signal.maximum
    return format_degrees(low) if low == high else f"{format_degrees(low)} to {format_degrees(high)}"


def end_words(end: Any, degrees: Callable[[float], str] = format_degrees) -> str:
    """Write one end condition in words."""
    words: dict[str, Callable[[float], str]] = {
        "core": lambda v: f"core {degrees(v)}",
        "cooled": lambda v: f"core cooled to {degrees(v)}",
        "elapsed": format_duration,
        "clock": format_clock,
        "bark": lambda v: "bark set" if v == 1.0 else f"bark index at {v:g}",
        "tender": lambda v: f"tender {100.0 * v:g} %",
    }
    written = words.get(end.kind)
    return written(end.value) if written else f"{end.kind} {end.value:g}"


def end_form(end: Any) -> str:
    """Write one end condition as an object."""
    return f"End({end_words(end)})"


def stage_form(stage: Any) -> str:
    """Write one stage in a line."""
    until = " or ".join(end_words(end) for end in stage.until)
    wrap = "" if stage.wrap.name == "none" else f", {stage.wrap.name}"
    extras = ", spritz" if stage.spritz is not None else ""
    place = f"{stage.surroundings.kind} {course(stage.surroundings.air)}"
    return f"{stage.name}: {place}{wrap}{extras}, until {until}"


def plan_form(plan: Any) -> str:
    """Write a plan: the meat, then a line a stage."""
    start = "" if plan.start is None else f", start {format_clock(plan.start)}"
    lines = [f"Plan: {plan.meat.tissue.name} {BOTH.mass(plan.meat.mass)}{start}"]
    return "\n".join(lines + [f"  {stage_form(stage)}" for stage in plan.stages])


def outcome_form(outcome: Any) -> str:
    """Write what is known of a cook, a fact a line, with the safety panel and the caution."""
    facts, safety = read_facts(outcome), outcome.safety()
    name = outcome.plan.meat.tissue.name
    return "\n  ".join(
        [
            f"Outcome: {name} {BOTH.mass(facts.loss.raw)}, {format_duration(facts.end)}",
            *map(str, rows(facts, BOTH)),
            *(f"note: {note}" for note in outcome.notes),
            *(f"safety: {row}" for row in safety_rows(outcome, "both")),
            *(f"warning: {warning}" for warning in safety.warnings),
            safety.caution,
        ]
    )
