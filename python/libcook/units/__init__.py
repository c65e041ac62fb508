"""Quantities as people write them, in SI and °C; and written again for people."""

from libcook.units.clock import format_clock, parse_clock
from libcook.units.kinds import KINDS, Kind
from libcook.units.quantities import KILOGRAMS_PER_POUND as KILOGRAMS_PER_POUND
from libcook.units.quantities import (
    format_difference,
    format_duration,
    format_mass,
    format_percent,
    format_temperature,
    parse,
    temperature_unit,
    to_si,
)
from libcook.units.quantities import in_fahrenheit as in_fahrenheit
from libcook.units.quantities import likely_hours as likely_hours
from libcook.units.quantities import shown_in as shown_in
from libcook.units.scales import celsius_to_fahrenheit, fahrenheit_to_celsius, kelvin_to_celsius

__all__ = [
    "KINDS",
    "Kind",
    "celsius_to_fahrenheit",
    "fahrenheit_to_celsius",
    "format_clock",
    "format_difference",
    "format_duration",
    "format_mass",
    "format_percent",
    "format_temperature",
    "kelvin_to_celsius",
    "parse",
    "parse_clock",
    "temperature_unit",
    "to_si",
]
