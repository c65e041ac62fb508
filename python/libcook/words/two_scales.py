"""Quantities of a report in its scale: °F, inches and pounds, or °C, millimetres and kilograms, or both.

What belongs to no log speaks both, as plans and outcomes do: "160 °F (71.1 °C)".
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Final

from libcook._core import format_degrees
from libcook.units import (
    KILOGRAMS_PER_POUND,
    celsius_to_fahrenheit,
    format_clock,
    format_difference,
    format_duration,
    format_mass,
    format_temperature,
)

METRES_PER_INCH = 0.0254  # exact: international yard and pound agreement, 1959
_HOUR = 3600.0


@dataclass(frozen=True)
class _Written:
    """How a quantity is written: the number times a factor, plus an offset."""

    unit: str
    factor: float = 1.0
    offset: float = 0.0

    def number(self, value: float) -> float:
        return self.factor * value + self.offset

    def __call__(self, *values: float, form: str = ".3g") -> str:
        unit = f" {self.unit}" if self.unit else ""
        return " to ".join(format(self.number(value), form) for value in values) + unit


_FREEZING = celsius_to_fahrenheit(0.0)
_PER_KELVIN = celsius_to_fahrenheit(1.0) - _FREEZING
_METRIC: Final = {
    "m": _Written("mm", 1e3),
    "Pa": _Written("kPa", 1e-3),
    "kg/s": _Written("g/s", 1e3),
    "-": _Written(""),
}
_IMPERIAL: Final = {
    "°C": _Written("°F", _PER_KELVIN, _FREEZING),
    "K": _Written("°F", _PER_KELVIN),
    "m": _Written("in", 1.0 / METRES_PER_INCH),
    "kg": _Written("lb", 1.0 / KILOGRAMS_PER_POUND),
    "kg/s": _Written("lb/h", _HOUR / KILOGRAMS_PER_POUND),
}


def quantity(value: float, unit: str, units: str | None = None, form: str = ".3g") -> str:
    """Write a number [unit, SI or °C] in ``"C"`` or ``"F"``, or in both."""
    return _written((value,), unit, units, form)


def span(interval: tuple[float, float], unit: str, units: str | None = None) -> str:
    """Write an interval [unit, SI or °C] in ``"C"`` or ``"F"``, or in both."""
    return _written(interval, unit, units, ".3g")


def _written(values: tuple[float, ...], unit: str, units: str | None, form: str) -> str:
    here = _METRIC.get(unit, _Written(unit))(*values, form=form)
    if unit not in _IMPERIAL or units == "C":
        return here
    there = _IMPERIAL[unit](*values, form=form)
    return there if units == "F" else f"{there} ({here})"


_NUMBERS = r"-?\d[\d.]*(?: to -?\d[\d.]*)?"
_F_UNITS, _C_UNITS = r"°F|in|lb/h|lb", r"°C|K|mm|g/s|kg"
_END = r"(?![\w/·²])"
# What stands in quotes is a name that somebody typed: it stays.
_QUOTED = r"(?<!\w)'[^'\n]*'"
_PAIR = re.compile(
    rf"(?P<quoted>{_QUOTED})"
    rf"|(?P<f1>{_NUMBERS} (?:{_F_UNITS})) \((?P<c1>{_NUMBERS} (?:{_C_UNITS}))\)"
    rf"|(?P<c2>{_NUMBERS} (?:{_C_UNITS})) \((?P<f2>{_NUMBERS} (?:{_F_UNITS}))\)"
)
_ALONE = re.compile(rf"(?P<quoted>{_QUOTED})|(?P<value>-?\d[\d.]*\d|-?\d) (?P<unit>°C|K|mm|kg){_END}")


def in_scale(text: str, units: str | None) -> str:
    """Write words that hold quantities in both scales in one of them.

    Parameters
    ----------
    text : str
        Such as "wrapped at 149 °F (65.1 °C)".
    units : str or None
        ``"C"``, ``"F"``, or None to leave both.

    Examples
    --------
    >>> in_scale("the pit 25 °F (14 °C) hotter", "F")
    'the pit 25 °F hotter'
    """
    if units is None:
        return text

    def chosen(found: re.Match[str]) -> str:
        if found["quoted"]:
            return found["quoted"]
        return (found["f1"] or found["f2"]) if units == "F" else (found["c1"] or found["c2"])

    def turned(found: re.Match[str]) -> str:
        if found["quoted"]:
            return found["quoted"]
        unit, value = found["unit"], float(found["value"])
        return _IMPERIAL["m" if unit == "mm" else unit](1e-3 * value if unit == "mm" else value)

    one = _PAIR.sub(chosen, text)
    return _ALONE.sub(turned, one) if units == "F" else one


@dataclass(frozen=True)
class Scale:
    """How a report writes quantities: in ``"C"``, in ``"F"`` with pounds, or in ``"both"``."""

    units: str

    def degrees(self, celsius: float, digits: int = 1) -> str:
        """Write a temperature [°C]."""
        if self.units != "both":
            return format_temperature(celsius, self.units, digits)
        if digits:
            return format_degrees(celsius)
        return f"{format_temperature(celsius, 'F', 0)} ({format_temperature(celsius, 'C', 0)})"

    def limit(self, celsius: float) -> str:
        """Write a temperature of a rule [°C]: as few digits as it has."""
        even = self.units == "F" or abs(celsius - round(celsius)) < 0.05
        return self.degrees(celsius, 0 if even else 1)

    def warmer(self, kelvin: float) -> str:
        """Write a difference of temperatures [K]."""
        if self.units == "both":
            return f"{format_difference(kelvin, 'F')} ({kelvin:.1f} K)"
        return format_difference(kelvin, self.units)

    def mass(self, kilograms: float) -> str:
        """Write a mass [kg]."""
        if self.units == "both":
            return f"{format_mass(kilograms, 'lb')} ({format_mass(kilograms)})"
        return format_mass(kilograms, "lb" if self.units == "F" else "kg")


BOTH: Final = Scale("both")


def join(low: str, high: str) -> str:
    """Write a range, with the unit once where both share it."""
    if low == high:
        return f"about {low}"
    number, _, unit = low.rpartition(" ")
    return f"{number if high.endswith(' ' + unit) and unit in ('%', '°C', '°F') else low} to {high}"


def moment(seconds: float | None, start: float | None = None, never: str = "never") -> str:
    """Write a time since the start [s], with the time of day where the start has one."""
    if seconds is None or not math.isfinite(seconds):
        return never
    return format_duration(seconds) + at_clock(seconds, start)


def at_clock(seconds: float, start: float | None) -> str:
    """Write the time of day behind a time since the start [s]; nothing where the start has none."""
    return "" if start is None else f" ({format_clock(start + seconds, days=True)})"
