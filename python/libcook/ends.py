"""What ends a stage; join several with ``|`` or give a list: the first one reached counts."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import TypeAlias, Union

from libcook import _core
from libcook._coerce import FirstOf
from libcook._core import End
from libcook.arguments.door import door
from libcook.arguments.quantity import Quantity
from libcook.errors import invalid
from libcook.units import likely_hours, parse_clock, to_si

__all__ = ["Ends", "FirstOf", "bark", "clock", "cooled", "core", "elapsed", "tender"]

HOTTEST_CORE = 110.0  # °C: water keeps wet meat below 100 °C; only a crust gets hotter


Ends: TypeAlias = Union[End, Iterable[End]]  # noqa: UP007 - an alias is evaluated, and 3.10 cannot or a class of C++


@door
def core(temperature: Quantity, every: Quantity = 0.0) -> End:
    """End when the core has warmed to a temperature.

    Parameters
    ----------
    temperature : float, str or pint.Quantity
        Such as ``"160 °F"``; a plain number is in °C. Up to 110 °C.
    every : float, str or pint.Quantity
        How often it is looked at, from the start of the stage, such as ``"30 min"``; 0: all the time.

    Returns
    -------
    End

    Examples
    --------
    >>> core("160 °F").value
    71.11111111111111
    """
    wanted = to_si(temperature, "temperature", "core", low=-1.0, high=HOTTEST_CORE)
    return End("core", wanted, to_si(every, "duration", "core.every"))


@door
def cooled(temperature: Quantity) -> End:
    """End when the core has cooled to a temperature, such as ``"60 °C"``; a plain number is in °C."""
    return End("cooled", to_si(temperature, "temperature", "cooled"))


@door
def elapsed(duration: Quantity) -> End:
    """End after a duration in the stage, such as ``"90 min"``; a plain number is in s."""
    if meant := likely_hours(duration):
        came = f"a plain number is in s, and {duration:g} s is no time to cook"
        raise invalid("elapsed", duration, came, "text such as '90 min' is accepted", meant)
    return End("elapsed", to_si(duration, "duration", "elapsed"))


def clock(time_of_day: str | dt.time | dt.datetime) -> End:
    """End at a time of day, such as ``"18:00"``; the plan then needs its ``start``."""
    return End("clock", parse_clock(time_of_day, "clock"))


@door
def bark(index: float = 1.0) -> End:
    """End when the bark has set: by the index that `Outcome.bark` tells of the cook afterwards.

    The index grows while the bare face is hot, and faster once it is dry. It is a heuristic of ours, set so
    that the bark of a bare brisket sets 3 to 6 h after it went on, as common practice has it.

    Parameters
    ----------
    index : float
        0.05 to 20 [-]; it is set at 1. Darker bark has more, twice as much in an hour or two.

    Returns
    -------
    End
    """
    return End("bark", to_si(index, "dimensionless", "bark.index"))


@door
def tender(share: Quantity = 0.8, every: Quantity = 0.0) -> End:
    """End when a share of the collagen at the core has turned to gelatin, such as ``0.8`` or ``"80 %"``.

    With `every`, such as ``"30 min"``, it is probed only so often: not tender yet, check again later.
    """
    value = to_si(share, "dimensionless", "tender")
    if not 0.001 <= value <= 0.999:
        meant = f"{value / 100.0:g} or '{value:g} %'" if 1.0 < value < 100.0 else ""
        raise invalid("tender", share, f"{share} is no share", "0.001 to 0.999 is accepted", meant)
    return _core.End("tender", value, to_si(every, "duration", "tender.every"))
