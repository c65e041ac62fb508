"""The temperature scales.

t_C = (t_F - 32) / 1.8 and t_C = T_K - 273.15, both exact, as in NIST Special Publication 811 (2008), appendix
B.8 (from memory, not read there).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, overload

import numpy as np
import numpy.typing as npt

from libcook.arguments.plain import array, is_real, real

FloatArray = npt.NDArray[np.float64]

ABSOLUTE_ZERO = -273.15  # °C
_FREEZING_F = 32.0  # °F at 0 °C
_F_PER_C = 1.8  # Fahrenheit degrees in one Celsius degree


def _plain(value: Any, field: str) -> Any:
    return real(value, field) if is_real(value) else array(value, field)


@overload
def celsius_to_fahrenheit(celsius: float) -> float: ...
@overload
def celsius_to_fahrenheit(celsius: Sequence[float] | npt.NDArray[Any]) -> FloatArray: ...
def celsius_to_fahrenheit(celsius: Any) -> Any:
    """Convert temperatures from °C to °F; a float gives a float, anything else an array of the same shape."""
    return _plain(celsius, "celsius") * _F_PER_C + _FREEZING_F


@overload
def fahrenheit_to_celsius(fahrenheit: float) -> float: ...
@overload
def fahrenheit_to_celsius(fahrenheit: Sequence[float] | npt.NDArray[Any]) -> FloatArray: ...
def fahrenheit_to_celsius(fahrenheit: Any) -> Any:
    """Convert temperatures from °F to °C; a float gives a float, anything else an array of the same shape."""
    return (_plain(fahrenheit, "fahrenheit") - _FREEZING_F) / _F_PER_C


@overload
def kelvin_to_celsius(kelvin: float) -> float: ...
@overload
def kelvin_to_celsius(kelvin: Sequence[float] | npt.NDArray[Any]) -> FloatArray: ...
def kelvin_to_celsius(kelvin: Any) -> Any:
    """Convert temperatures from K to °C; a float gives a float, anything else an array of the same shape."""
    return _plain(kelvin, "kelvin") + ABSOLUTE_ZERO
