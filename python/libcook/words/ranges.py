"""A range of two quantities in words."""

from __future__ import annotations


def join(low: str, high: str) -> str:
    """Write a range, with the unit once where both share it."""
    if low == high:
        return f"about {low}"
    number, _, unit = low.rpartition(" ")
    return f"{number if high.endswith(' ' + unit) and unit in ('%', '°C', '°F') else low} to {high}"
