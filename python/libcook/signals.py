"""Quantities that change with time: schedules and controllers."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

import numpy.typing as npt

from libcook._coerce import signal
from libcook._core import Signal
from libcook.arguments.door import door
from libcook.arguments.plain import items, two
from libcook.arguments.quantity import Quantity, Word
from libcook.errors import invalid
from libcook.units import to_si

__all__ = ["Course", "Signal", "ripple", "schedule"]

# What a course in time may be given as; a log is anything with ``series(name)``.
Course: TypeAlias = Quantity | Signal | tuple[npt.ArrayLike, npt.ArrayLike]


@door
def schedule(
    points: Sequence[tuple[Quantity, Quantity]], ramp: Quantity = "10 min", kind: Word = "temperature"
) -> Signal:
    """Return a schedule of set points: each value holds until the next time, then the air moves to the next.

    Parameters
    ----------
    points : sequence of (duration, quantity)
        Times since the start of the cook, increasing, and values, such as ``[("0 h", "225 °F"), ("4 h", "275
        °F")]``.
    ramp : float, str or pint.Quantity
        How long a change takes [s]: a cooker does not jump. 10 min is common practice, no source. Cut short
        where the next change comes sooner.
    kind : str
        A key of `libcook.units.KINDS`: ``"temperature"``, or ``"pressure"`` for the vapour pressure.

    Returns
    -------
    Signal

    Raises
    ------
    InvalidInput
        When the points are no pairs, or times do not increase.

    Examples
    --------
    >>> air = schedule([("0 h", 110.0), ("4 h", 135.0)])
    >>> air.at("4 h"), air.at("4 h 10 min")
    (110.0, 135.0)
    """
    field = "schedule"
    length = to_si(ramp, "duration", f"{field}.ramp", low=1.0, high=86400.0)
    read: list[tuple[float, float]] = []
    pair = "a pair such as ('4 h', '275 °F') is accepted"
    for i, point in enumerate(items(points, field, "pairs such as [('0 h', '225 °F')] are accepted")):
        when, value = two(point, f"{field}[{i}]", pair)
        read.append(
            (to_si(when, "duration", f"{field}[{i}].time"), to_si(value, kind, f"{field}[{i}].value"))
        )
    if not read:
        raise invalid(field, points, "no points came", "at least one is accepted")
    times, values = [read[0][0]], [read[0][1]]
    for i in range(1, len(read)):
        when, value = read[i]
        if when <= read[i - 1][0]:
            came = f"{when:g} s does not come after {read[i - 1][0]:g} s"
            raise invalid(f"{field}[{i}].time", when, came, "increasing times are accepted")
        until = read[i + 1][0] if i + 1 < len(read) else when + length
        if when > times[-1]:
            times.append(when)
            values.append(values[-1])
        times.append(min(when + length, until))
        values.append(value)
    return Signal(times, values)


@door
def ripple(
    mean: Course, amplitude: Quantity, period: Quantity = "10 min", kind: Word = "temperature"
) -> Signal:
    """Return a course with the swing of a controller on it: mean + amplitude x sin(2 pi t / period).

    Parameters
    ----------
    mean : float, str, Signal or Log
        Such as ``"250 °F"``, or a `schedule`.
    amplitude : float, str or pint.Quantity
        Half of the swing from lowest to highest, such as ``"10 °F"``; a plain number is in K.
    period : float, str or pint.Quantity
        Of one swing; a plain number is in s.
    kind : str
        A key of `libcook.units.KINDS`.

    Returns
    -------
    Signal
    """
    course = signal(mean, kind, "ripple.mean")
    swing = "temperature_difference" if kind == "temperature" else kind
    return course.replace(
        ripple_amplitude=to_si(amplitude, swing, "ripple.amplitude", low=0.0),
        ripple_period=to_si(period, "duration", "ripple.period", low=10.0, high=1e6),
    )
