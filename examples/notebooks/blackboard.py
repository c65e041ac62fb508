"""What the notebooks share: sentences with computed numbers, tables, and degrees and hours in words."""

from __future__ import annotations

from collections.abc import Sequence

import matplotlib.pyplot as plt
from IPython.display import Markdown

import libcook as lc
from libcook.units import celsius_to_fahrenheit
from libcook.words.safety_rows import safety_rows

CAUTION = (
    "**Before you cook:** these numbers are computed for one invented piece of meat, not measured in yours. "
    "Check the coldest part with a probe, and follow your local food-safety rules; they come first."
)
HOUR = 3600.0  # s
plt.rcParams["figure.dpi"] = 100


def tell(text: str) -> Markdown:
    """Show a paragraph with computed numbers as part of the page."""
    return Markdown(text)


def table(heads: Sequence[str], rows: Sequence[Sequence[object]], rest: str = "---:") -> Markdown:
    """Show a table; numbers are given as text, so that each has the digits it deserves.

    The first column is flush left, the others are flush right, or as `rest` has it.
    """
    lines = ["| " + " | ".join(heads) + " |", "|" + "|".join(["---", *[rest] * (len(heads) - 1)]) + "|"]
    lines += ["| " + " | ".join(str(cell) for cell in row) + " |" for row in rows]
    return Markdown("\n".join(lines))


def panel(out: lc.Outcome) -> Markdown:
    """Show the safety panel of a cook in °F, with its warnings and its caution."""
    shown = table(["what", "computed", "limit", "whose"], safety_rows(out, "F"), "---").data
    safety = out.safety()
    warnings = "\n".join(f"- {warning}" for warning in safety.warnings)
    return Markdown(f"{shown}\n\n{warnings}\n\n**{safety.caution}**")


def degrees(celsius: float) -> str:
    """Write a temperature in both scales."""
    return f"{celsius_to_fahrenheit(float(celsius)):.0f} °F ({celsius:.0f} °C)"


def fahrenheit(celsius: object) -> object:
    """Convert for an axis."""
    return celsius_to_fahrenheit(celsius)  # type: ignore[call-overload]


def hours(seconds: float) -> str:
    """Write a duration."""
    minutes = round(abs(seconds) / 60.0)
    return f"{minutes} min" if minutes < 60 else f"{minutes // 60} h {minutes % 60:02d} min"


def sooner(seconds: float) -> str:
    """Write how much sooner, or later."""
    return f"{hours(seconds)} {'sooner' if seconds > 0.0 else 'later'}"


def pulled(out: lc.Outcome) -> float:
    """When the meat came off the heat [s]."""
    carry = out.carryover()
    return float(out.time[-1]) if carry is None else carry.pulled_at
