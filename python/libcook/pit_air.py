"""The cooker's own air: what humidifies it, and how fast it is renewed."""

from __future__ import annotations

import inspect
import numbers
from typing import Any

from libcook import _core
from libcook._coerce import cooker_kind
from libcook._core import PitAir, Surroundings, WaterPan
from libcook.arguments.door import door, lists, refuse_unknown
from libcook.arguments.plain import choice, number, refuse_type
from libcook.arguments.quantity import Quantity, Word
from libcook.units import to_si

__all__ = ["PitAir", "WaterPan", "breathing", "pit_air"]


@door
@lists(kinds=_core.chamber_kinds())
def pit_air(
    kind: Word,
    air: Quantity,
    *,
    ambient: Quantity = 20.0,
    humidity: Quantity = 0.5,
    wind: Quantity = 0.0,
    pan: WaterPan | Quantity | None = None,
    pieces: float = 1,
    air_flow: Quantity | None = None,
) -> PitAir:
    """Return the vapour balance of a generic kind of cooker.

    Air flow and fuel follow from what holds the cooker at its temperature: heat through its walls, the fuel's
    stoichiometry, and the air that such cookers draw (common practice, no source, within a factor of two).
    Its numbers, with range and source: ``libcook.parameters()``, rows ``chamber.*``, ``fuel.*`` and
    ``water_pan.*``.

    Parameters
    ----------
    kind : str
        {kinds}.
    air : float, str or pint.Quantity
        Air temperature in the cooker; a plain number is in °C.
    ambient : float, str or pint.Quantity
        Outside temperature; a plain number is in °C.
    humidity : float or str
        Relative humidity outside [-], 0 to 1, such as ``0.5`` or ``"50 %"``.
    wind : float, str or pint.Quantity
        Wind beside the cooker, such as ``"10 mph"``; a plain number is in m/s, up to 20. It
        raises the heat loss, thereby fuel and air.
    pan : WaterPan, float, str or pint.Quantity, optional
        A water pan, or how much water a default one holds, such as ``"2 kg"``; a plain number is in kg.
    pieces : float
        How many such pieces of meat share the cooker [-].
    air_flow : float, str or pint.Quantity, optional
        Dry air through the cooker, such as ``"1 g/s"``, where it is known: replaces the estimate. A plain
        number is in kg/s.

    Returns
    -------
    PitAir

    Raises
    ------
    InvalidInput
        When a value is out of range; names the argument and the likely slip.
    """
    known = cooker_kind(kind, _core.chamber_kinds(), "pit_air.kind")
    made = _core.pit_air(
        known,
        to_si(air, "temperature", "pit_air.air"),
        to_si(ambient, "temperature", "pit_air.ambient"),
        to_si(humidity, "dimensionless", "pit_air.humidity"),
        to_si(wind, "velocity", "pit_air.wind"),
        101325.0,
    )
    if pan is not None:
        made.pan = _pan(pan)
    made.meat_count = number(pieces, "pit_air.pieces")
    if air_flow is not None:
        made.air_flow = to_si(air_flow, "mass_flow", "pit_air.air_flow")
    return made.replace()


@door
def breathing(cooker: Surroundings, **how: Any) -> Surroundings:
    """Return a cooker whose humidity follows from its air flow, fuel, water pan and the meat in it.

    Without it a cooker's vapour pressure is what its kind is given. With it the meat's own evaporation feeds
    back: a tight cooker runs humid. Its air goes on from stage to stage in the same kind of cooker, and so
    does its water pan where it is equal in every field; one that is not has been filled anew.

    Parameters
    ----------
    cooker : Surroundings
        As `pit` or `oven` return it; not changed.
    **how
        Arguments of `pit_air` other than kind and air: ``pan``, ``pieces``, ``wind``, ``air_flow``,
        ``ambient``, ``humidity``.

    Returns
    -------
    Surroundings

    Examples
    --------
    >>> import libcook as lc
    >>> wet = lc.breathing(lc.pit("drum", air="250 °F"), pan="3 kg")
    >>> wet.pit_air.pan.water
    3.0
    """
    choice(cooker.kind, _core.chamber_kinds(), "breathing.kind")
    refuse_unknown("breathing", how, tuple(inspect.signature(pit_air).parameters)[2:])
    mean = 0.5 * (cooker.air.minimum + cooker.air.maximum)
    how.setdefault("ambient", cooker.ambient)
    made = cooker.replace()
    made.pit_air = pit_air(cooker.kind, mean, **how)
    return made


def _pan(pan: WaterPan | Quantity) -> WaterPan:
    if isinstance(pan, WaterPan):
        return pan
    if isinstance(pan, (str, numbers.Real)) or hasattr(pan, "magnitude"):
        return WaterPan(water=to_si(pan, "mass", "pit_air.pan"))
    refuse_type(pan, "WaterPan", "pit_air.pan")
