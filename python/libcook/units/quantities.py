"""Units at the door: everything inside the package is SI, and °C for temperatures.

A quantity argument takes a plain number (SI, or °C: never °F), a text with its unit (``"160 °F"``, ``"14
lb"``, ``"1h30"``) or a pint quantity. This is the only Python file that converts, with the small files it
draws together.

The temperature scales are written out in `units/scales.py`; all other factors are pint's.
"""

from __future__ import annotations

import numbers
from typing import Any

import numpy as np

from libcook import _core
from libcook._core import format_degrees
from libcook.arguments.plain import choice, is_real, number, real, whole
from libcook.arguments.quantity import Quantity
from libcook.arguments.quote import came_as, quoted
from libcook.errors import InvalidInput, invalid
from libcook.units.kinds import KINDS, Kind, accepted
from libcook.units.scales import (
    ABSOLUTE_ZERO,
    celsius_to_fahrenheit,
)
from libcook.units.text import convert, read_quantity, read_text, read_unit, written_number

KILOGRAMS_PER_POUND = 0.45359237  # exactly (NIST SP 811, from memory)


def to_si(value: Any, kind: str, field: str, *, low: float | None = None, high: float | None = None) -> float:
    """Read one quantity into SI, or °C for a temperature.

    Parameters
    ----------
    value : float, int, str or pint.Quantity
        A plain number is taken as SI (°C for ``"temperature"``, K for ``"temperature_difference"``). Text
        needs a unit, unless the kind is ``"dimensionless"``. One comma with one or two digits behind it is a
        decimal comma.
    kind : str
        A key of `KINDS`, such as ``"temperature"``, ``"length"``, ``"mass"``, ``"duration"``,
        ``"film_coefficient"``.
    field : str
        The argument as the user wrote it; messages start with it.
    low, high : float, optional
        Accepted range in the unit of the result, ends included.

    Returns
    -------
    float
        Finite value in the unit ``KINDS[kind].unit``.

    Raises
    ------
    InvalidInput
        When the value is no such quantity, is not finite, or lies outside the range; names the likely slip.

    Examples
    --------
    >>> to_si("6400 g", "mass", "meat.mass")
    6.4
    >>> to_si("1h30", "duration", "stages[2].until")
    5400.0
    """
    if type(kind) is not str or kind not in KINDS:
        _kind(kind)
    result = value if type(value) is float else _read(value, kind, field)
    if result - result != 0.0:  # NaN and the infinities; quicker than two calls
        raise invalid(field, value, f"{value} is not a finite number", accepted(_kind(kind)))
    if kind == "temperature" and result < ABSOLUTE_ZERO:
        came = f"{_shown(value, kind)} is below absolute zero"
        raise invalid(field, value, came, f"{ABSOLUTE_ZERO} °C and above is accepted")
    if low is not None or high is not None:
        low, high = _limit(low, "low"), _limit(high, "high")
        if (low is not None and result < low) or (high is not None and result > high):
            raise _out_of_range(value, result, kind, field, low, high)
    return float(result)


def _limit(value: float | None, name: str) -> float | None:
    if value is None or (type(value) is float and value == value):  # quick, and infinite is no limit
        return value
    return number(value, name)


def likely_hours(value: Any) -> str:
    """Say what a plain number of seconds most likely meant, such as ``"'4 h'"``, or nothing."""
    return f"'{float(value):g} h'" if is_real(value) and 0 < value <= 24 else ""


def parse(value: Any, kind: str, field: str = "value") -> float:
    """Read one quantity into SI, or °C; `to_si` with a default field name.

    Examples
    --------
    >>> parse("65 mm", "length")
    0.065
    """
    return to_si(value, kind, field)


def _kind(name: Any) -> Kind:
    if isinstance(name, str) and name in KINDS:
        return KINDS[name]
    raise invalid("kind", name, f"{quoted(name)} is not a kind of quantity", f"accepted: {', '.join(KINDS)}")


def _read(value: Any, kind: str, field: str) -> float:
    what = _kind(kind)
    if isinstance(value, (bool, np.bool_)):
        raise invalid(field, value, f"{value} is a truth value", accepted(what))
    if isinstance(value, numbers.Real):
        return real(value, field, accepted(what))
    if isinstance(value, str):
        return read_text(value, what, field)
    if hasattr(value, "magnitude") and hasattr(value, "units"):
        return read_quantity(value, what, field)
    raise invalid(field, value, came_as(value), accepted(what))


def _shown(value: Any, kind: str) -> str:
    if isinstance(value, numbers.Real):
        symbol = KINDS[kind].symbol
        return f"{float(value):g}" + ("" if symbol == "1" else f" {symbol}")
    return quoted(value)


def _out_of_range(
    value: Any, result: float, kind: str, field: str, low: float | None, high: float | None
) -> InvalidInput:
    what = _kind(kind)
    symbol = "" if what.symbol == "1" else f" {what.symbol}"
    if low is not None and high is not None and kind == "temperature":
        limits = f"{format_degrees(low)} to {format_degrees(high)} is accepted"
    elif low is not None and high is not None:
        limits = f"{low:g} to {high:g}{symbol} is accepted"
    else:
        limits = (
            f"{low:g}{symbol} and above is accepted"
            if low is not None
            else f"up to {high:g}{symbol} is accepted"
        )
    meant = ""
    # the slip: the same digits in a unit that is usual in the kitchen and would have been in range
    plain = isinstance(value, numbers.Real)
    digits = float(value) if plain else written_number(value, field) if isinstance(value, str) else result
    for unit in what.usual if plain or kind == "temperature" else ():
        other = convert(digits, read_unit(unit, what, field, unit), what, field, unit)
        if other != result and (low is None or other >= low) and (high is None or other <= high):
            meant = f"'{digits:g} {unit}'"
            break
    side = "below" if low is not None and result < low else "above"
    return invalid(field, value, f"{_shown(value, kind)} is {side} the range", limits, meant)


def temperature_unit(units: str, field: str = "units") -> str:
    """Return ``"C"`` or ``"F"`` for any usual spelling of the two scales.

    Raises
    ------
    InvalidInput
        For anything else.
    """
    given: Any = units  # what came may be anything
    word = given.strip().lower().lstrip("°").removeprefix("deg").strip() if isinstance(given, str) else ""
    if word in ("c", "celsius", "centigrade"):
        return "C"
    if word in ("f", "fahrenheit"):
        return "F"
    raise invalid(field, units, f"{quoted(units)} is not a temperature unit", "'C' or 'F' is accepted")


def in_fahrenheit(value: Quantity) -> bool:
    """Tell whether a temperature that was read came in °F, as text or as a pint quantity."""
    if isinstance(value, str):
        return value.strip().casefold().endswith(("f", "℉", "fahrenheit"))
    return "fahrenheit" in str(getattr(value, "units", "")).casefold()


def shown_in(celsius: Any, unit: str) -> Any:
    """Convert temperatures [°C], one or an array, to what is shown in ``"C"`` or ``"F"``."""
    return celsius_to_fahrenheit(celsius) if unit == "F" else np.asarray(celsius)


def format_temperature(celsius: float, units: str = "C", digits: int = 1) -> str:
    """Write a temperature [°C] in °C or °F, such as ``"93.3 °C"`` or ``"200.0 °F"``."""
    number, unit = _finite(celsius, "celsius"), temperature_unit(units)
    return f"{_fixed(celsius_to_fahrenheit(number) if unit == 'F' else number, digits)} °{unit}"


def format_difference(kelvin: float, units: str = "C", digits: int = 1) -> str:
    """Write a difference of temperatures [K] in °C or °F, such as ``"5.0 °C"`` or ``"9.0 °F"``."""
    size, unit = _finite(kelvin, "kelvin"), temperature_unit(units)
    if unit == "F":
        size = celsius_to_fahrenheit(size) - celsius_to_fahrenheit(0.0)
    return f"{_fixed(size, digits)} °{unit}"


def format_duration(seconds: float) -> str:
    """Write a duration [s] as ``"7 h 40 min"``: to the second below a minute, to the minute above."""
    return _core.format_duration(_finite(seconds, "seconds"))


def format_mass(kilograms: float, units: str = "kg") -> str:
    """Write a mass [kg] as ``"6.40 kg"`` or ``"14.1 lb"``."""
    kilograms = _finite(kilograms, "kilograms")
    if choice(units, ("kg", "lb"), "units") == "kg":
        return f"{_fixed(kilograms, 2)} kg"
    return f"{_fixed(kilograms / KILOGRAMS_PER_POUND, 1)} lb"


def format_percent(share: float) -> str:
    """Write a share [-] as ``"39 %"``."""
    return f"{_fixed(100.0 * _finite(share, 'share'), 0)} %"


def _fixed(value: float, digits: int) -> str:
    """Write a number with so many digits; what is nothing then has no sign."""
    text = f"{value:.{whole(digits, 'digits', 0, 15)}f}"
    return text.lstrip("-") if float(text) == 0.0 else text


def _finite(value: float, field: str) -> float:
    return number(value, field, "a finite number is accepted")
