"""Readings of a cook in a line, with units a cook reads: times since the start, both scales, both masses."""

from __future__ import annotations

from typing import Any

from libcook.readings.safety import limits, read_safety
from libcook.units import format_duration, format_percent
from libcook.words import phrases
from libcook.words.safety_rows import warming_rows
from libcook.words.two_scales import BOTH, moment


def stall_form(stall: Any) -> str:
    """Write when the core stalled and where."""
    return f"Stall({phrases.stall_span(stall, BOTH)}; {phrases.slowest(stall, BOTH)})"


def carryover_form(carry: Any) -> str:
    """Write how far the core climbed after the heat was off."""
    climb = phrases.climb(carry.rise, carry.peak, carry.peak_at - carry.pulled_at, BOTH)
    return f"Carryover(pulled at {format_duration(carry.pulled_at)}, {climb})"


def loss_form(loss: Any) -> str:
    """Write how much weight was lost, and where it went."""
    share = format_percent(loss.total / loss.raw)
    parts = phrases.parts_of_loss(loss, BOTH)
    return f"Loss({BOTH.mass(loss.total)} of {BOTH.mass(loss.raw)}, {share}: {parts})"


def bark_form(bark: Any) -> str:
    """Write how far the bark of a face has come."""
    return (
        f"Bark(index {bark.index:.2f}, set at {moment(bark.set_at, never='no time')}, "
        f"driest {bark.driest:.2f} kg/kg dry)"
    )


def hold_form(hold: Any) -> str:
    """Write until when the piece stays hot, and when it may be sliced."""
    end = "the end of the plan"
    parts = [
        f"pulled at {format_duration(hold.pulled_at)}",
        f"coldest part hot until {moment(hold.coldest_until, never=end)}",
        f"hottest until {moment(hold.hottest_until, never=end)}",
        f"cooled to slicing at {moment(hold.slice_at, never='no time in the plan')}",
    ]
    return f"HotHold({', '.join(parts)})"


def safety_form(safety: Any) -> str:
    """Write what was computed beside its limit, the warnings and the caution, one a line."""
    facts = read_safety(safety)
    rows = [str(row) for row in warming_rows(facts, BOTH)]
    start = moment(facts.cooling_from, never="no time in the plan")
    rows.append(f"cooling: the core falls through {BOTH.degrees(limits().hot_holding)} at {start}")
    return "\n".join([*rows, *facts.warnings, facts.caution])
