"""The kinds of quantity: the unit of each inside the package, and how cooks and data sheets write it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Kind:
    """What sort of quantity is wanted, its unit inside the package, and how it is usually written."""

    name: str
    unit: str  # pint's spelling of the unit used inside the package
    symbol: str  # the same as printed; a plain number is read in it
    usual: tuple[
        str, ...
    ]  # usual spellings, most likely first: examples in messages, and the words close matches come from


KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind("temperature", "degC", "°C", ("°F", "°C", "K", "fahrenheit", "celsius", "kelvin")),
        Kind("temperature_difference", "kelvin", "K", ("°F", "K", "°C", "fahrenheit", "celsius", "kelvin")),
        Kind("temperature_rate", "kelvin/second", "K/s", ("°C/h", "°F/h", "K/min", "K/s")),
        Kind(
            "length", "meter", "m", ("mm", "in", "cm", "m", "ft", "inch", "inches", "feet", "foot", "metre")
        ),
        Kind("area", "meter**2", "m²", ("cm²", "in²", "m²", "ft²", "mm²")),
        Kind("volume", "meter**3", "m³", ("L", "mL", "m³", "gal", "ft³", "cm³", "qt", "litre", "gallon")),
        Kind(
            "mass",
            "kilogram",
            "kg",
            ("lb", "kg", "g", "oz", "lbs", "pound", "pounds", "ounces", "gram", "kilogram"),
        ),
        Kind(
            "duration",
            "second",
            "s",
            ("min", "h", "s", "d", "hr", "hours", "minutes", "seconds", "sec", "days"),
        ),
        Kind("pressure", "pascal", "Pa", ("hPa", "kPa", "mbar", "Pa", "inHg", "mmHg", "psi", "bar", "atm")),
        Kind("velocity", "meter/second", "m/s", ("m/s", "cm/s", "ft/s", "ft/min", "km/h", "mph")),
        Kind("mass_flow", "kilogram/second", "kg/s", ("g/s", "g/h", "kg/s", "kg/h", "lb/h", "oz/h")),
        Kind("volume_flow", "meter**3/second", "m³/s", ("L/s", "L/min", "m³/h", "m³/s", "ft³/min", "cfm")),
        Kind("mass_flux", "kilogram/meter**2/second", "kg/(m²·s)", ("g/(m²·s)", "kg/(m²·s)", "g/(m²·h)")),
        Kind("areal_mass", "kilogram/meter**2", "kg/m²", ("g/m²", "kg/m²", "oz/ft²", "lb/ft²")),
        Kind("density", "kilogram/meter**3", "kg/m³", ("g/cm³", "kg/m³", "g/m³", "lb/ft³", "kg/L", "g/mL")),
        Kind("power", "watt", "W", ("W", "kW", "BTU/h", "mW")),
        Kind("energy", "joule", "J", ("kJ", "J", "MJ", "kWh", "Wh", "BTU", "kcal")),
        Kind("heat_flux", "watt/meter**2", "W/m²", ("W/m²", "kW/m²", "BTU/(h·ft²)")),
        Kind(
            "film_coefficient",
            "watt/meter**2/kelvin",
            "W/(m²·K)",
            ("W/(m²·K)", "BTU/(h·ft²·°F)", "W/(m²·°C)"),
        ),
        Kind("heat_resistance", "meter**2*kelvin/watt", "m²·K/W", ("m²·K/W", "h·ft²·°F/BTU")),
        Kind("conductivity", "watt/meter/kelvin", "W/(m·K)", ("W/(m·K)", "mW/(m·K)", "BTU/(h·ft·°F)")),
        Kind("specific_heat", "joule/kilogram/kelvin", "J/(kg·K)", ("kJ/(kg·K)", "J/(kg·K)", "BTU/(lb·°F)")),
        Kind("specific_energy", "joule/kilogram", "J/kg", ("kJ/kg", "J/kg", "BTU/lb")),
        Kind("diffusivity", "meter**2/second", "m²/s", ("mm²/s", "m²/s", "cm²/s")),
        Kind("mass_transfer_coefficient", "meter/second", "m/s", ("m/s", "mm/s", "cm/s")),
        Kind("vapour_resistance", "second/meter", "s/m", ("s/m", "s/cm")),
        Kind("dimensionless", "dimensionless", "1", ("%",)),
        Kind("water_content", "dimensionless", "kg/kg", ("kg/kg", "g/g", "g/kg", "%")),
        Kind("rate", "1/second", "1/s", ("1/s", "1/min", "1/h")),
        Kind("molar_energy", "joule/mole", "J/mol", ("kJ/mol", "J/mol", "kcal/mol")),
        Kind("heat_capacity", "joule/kelvin", "J/K", ("kJ/K", "J/K", "BTU/°F")),
        Kind(
            "volumetric_heat_capacity",
            "joule/meter**3/kelvin",
            "J/(m³·K)",
            ("MJ/(m³·K)", "kJ/(m³·K)", "J/(m³·K)"),
        ),
        Kind("conductance", "watt/kelvin", "W/K", ("W/K", "W/°C", "BTU/(h·°F)")),
        Kind("vapour_resistivity", "second/meter**2", "s/m²", ("s/m²", "s/cm²")),
    )
}


def accepted(kind: Kind) -> str:
    """Say in words what a kind accepts."""
    words = kind.name.replace("_", " ")
    if kind.name == "dimensionless":
        return "a plain number or a percentage such as '15 %' is accepted"
    examples = " or ".join(f"'{_EXAMPLE_NUMBER.get(unit, '1')} {unit}'" for unit in kind.usual[:2])
    article = "an" if words[0] in "aeiou" else "a"
    return f"{article} {words} is accepted: a plain number in {kind.symbol}, or text such as {examples}"


_EXAMPLE_NUMBER = {
    "°F": "160",
    "°C": "94",
    "mm": "65",
    "in": "2.5",
    "g": "6400",
    "lb": "14",
    "min": "90",
    "h": "5",
}
