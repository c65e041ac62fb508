"""The arrays of a log, checked: times that increase, temperatures that meat and pits can have."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import numpy.typing as npt

from libcook.arguments.plain import array
from libcook.ends import HOTTEST_CORE
from libcook.errors import invalid
from libcook.logs.reading.cleaning import READABLE

FloatArray = npt.NDArray[np.float64]


def checked(
    time: npt.ArrayLike, columns: Mapping[str, npt.ArrayLike | None]
) -> tuple[FloatArray, dict[str, FloatArray]]:
    """Return read-only copies of times [s] and temperatures [°C]; columns that are None are left out."""
    if columns.get("core") is None and columns.get("pit") is None:
        raise invalid("log", None, "neither core nor pit came", "at least one of the two is accepted")
    seconds = _array("time", time)
    if seconds.size < 2:
        raise invalid("time", time, f"{seconds.size} reading came", "at least two readings are accepted")
    if not np.isfinite(seconds).all():
        at = int(np.argmin(np.isfinite(seconds)))
        raise invalid("time", time, f"time[{at}] is {seconds[at]}", "finite seconds are accepted")
    steps = np.diff(seconds)
    if not (steps > 0.0).all():
        at = int(np.argmin(steps > 0.0))
        came = f"time[{at + 1}] = {seconds[at + 1]:g} s does not come after time[{at}] = {seconds[at]:g} s"
        raise invalid("time", time, came, "strictly increasing times are accepted")
    named = {
        str(name): _temperatures(str(name), values, seconds.size)
        for name, values in columns.items()
        if values is not None
    }
    return seconds, named


def _array(name: str, values: npt.ArrayLike) -> FloatArray:
    found = array(values, name, "one number for each reading is accepted")
    if found.ndim != 1:
        raise invalid(
            name, values, f"an array with {found.ndim} dimensions came", "one dimension is accepted"
        )
    own = found.copy()
    own.flags.writeable = False
    return own


def _temperatures(name: str, values: npt.ArrayLike, size: int) -> FloatArray:
    found = _array(name, values)
    if found.size != size:
        raise invalid(
            name, values, f"{found.size} values came for {size} times", "one for each time is accepted"
        )
    finite = found[np.isfinite(found)]
    if finite.size == 0:
        raise invalid(name, values, "not one finite reading", "leave the column out where there is none")
    low, high = READABLE
    if finite.min() < low or finite.max() > high:
        worst = finite.min() if finite.min() < low else finite.max()
        meant = "kelvin or a stand-in for no reading" if worst > high else "a stand-in for no reading"
        raise invalid(
            name, values, f"{worst:g} °C is no reading", f"{low:g} to {high:g} °C is accepted", meant
        )
    if name == "core" and float(np.median(finite)) > HOTTEST_CORE:  # half of the time: it is in °F
        middle = float(np.median(finite))
        came = f"half of the readings are above {middle:.0f} °C, and wet meat stays below 100 °C"
        raise invalid(
            name, values, came, "°C is accepted", "°F (units='F', or libcook.units.fahrenheit_to_celsius)"
        )
    if finite.size < found.size:
        found = np.where(np.isfinite(found), found, np.nan)  # an infinity is no reading either
        found.flags.writeable = False
    return found
