"""Readings of a cook in a line, with units a cook reads: times since the start, both scales, both masses."""

from __future__ import annotations

from typing import Any

from libcook._core import format_degrees
from libcook.units import format_difference, format_duration, format_mass, format_percent
from libcook.words.safety_rows import HOT, warming_rows

HOUR = 3600.0


def weight(kilograms: float) -> str:
    """Write a mass in both units."""
    return f"{format_mass(kilograms, 'lb')} ({format_mass(kilograms)})"


def warmer(kelvin: float) -> str:
    """Write a difference of temperatures in both scales."""
    return f"{format_difference(kelvin, 'F')} ({kelvin:.1f} K)"


def stall_form(stall: Any) -> str:
    """Write when the core stalled and where."""
    return (
        f"Stall({format_duration(stall.start)} to {format_duration(stall.end)}"
        f"{'' if stall.over else ' and going on'}, near "
        f"{format_degrees(stall.plateau)}, at its slowest {warmer(stall.slowest * HOUR)} per hour)"
    )


def carryover_form(carry: Any) -> str:
    """Write how far the core climbed after the heat was off."""
    return (
        f"Carryover(pulled at {format_duration(carry.pulled_at)}, up {warmer(carry.rise)} to "
        f"{format_degrees(carry.peak)} at {format_duration(carry.peak_at)})"
    )


def parts_of_loss(loss: Any) -> str:
    """Write where the lost weight went."""
    return (
        f"{weight(loss.evaporated)} evaporated, {weight(loss.dripped + loss.in_wrap)} juice, "
        f"{weight(loss.fat)} fat (estimate)"
    )


def loss_form(loss: Any) -> str:
    """Write how much weight was lost, and where it went."""
    share = format_percent(loss.total / loss.raw)
    return f"Loss({weight(loss.total)} of {weight(loss.raw)}, {share}: {parts_of_loss(loss)})"


def _moment(seconds: float | None, never: str) -> str:
    return never if seconds is None else format_duration(seconds)


def bark_form(bark: Any) -> str:
    """Write how far the bark of a face has come."""
    return (
        f"Bark(index {bark.index:.2f}, set at {_moment(bark.set_at, 'no time')}, "
        f"driest {bark.driest:.2f} kg/kg dry)"
    )


def hold_form(hold: Any) -> str:
    """Write until when the piece stays hot, and when it may be sliced."""
    end = "the end of the plan"
    parts = [
        f"pulled at {format_duration(hold.pulled_at)}",
        f"coldest part hot until {_moment(hold.coldest_until, end)}",
        f"hottest until {_moment(hold.hottest_until, end)}",
        f"cooled to slicing at {_moment(hold.slice_at, 'no time in the plan')}",
    ]
    return f"HotHold({', '.join(parts)})"


def safety_form(safety: Any) -> str:
    """Write what was computed beside its limit, the warnings and the caution, one a line."""
    rows = [str(row) for row in warming_rows(safety, "both")]
    start = _moment(safety.cooling_start, "no time in the plan")
    rows.append(f"cooling: the core falls through {format_degrees(HOT)} at {start}")
    return "\n".join([*rows, *safety.warnings, safety.caution])
