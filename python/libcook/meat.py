"""The piece on the table."""

from __future__ import annotations

from libcook import _core
from libcook._arguments import door
from libcook._core import (
    Composition,
    Exudation,
    FatCap,
    FixedThermal,
    HeatSinks,
    Meat,
    Shape,
    Sorption,
    Tenderness,
    Tissue,
    WaterHolding,
    WaterMobility,
    brisket_tissue,
    pork_shoulder_tissue,
)
from libcook._plain import choice, is_real
from libcook._quantity import Quantity, Word
from libcook.units import to_si

__all__ = [
    "Composition",
    "Exudation",
    "FatCap",
    "FixedThermal",
    "HeatSinks",
    "Meat",
    "Shape",
    "Sorption",
    "Tenderness",
    "Tissue",
    "WaterHolding",
    "WaterMobility",
    "brisket",
    "brisket_tissue",
    "pork_shoulder",
    "pork_shoulder_tissue",
]


_HOTTEST_RAW = 30.0  # °C; a plain number above it is one in °F


def _raw(start: Quantity) -> float:
    """Read the temperature at the start [°C]; a plain 40 is °F, but text may start a rest with warm meat."""
    high = _HOTTEST_RAW if is_real(start) else _core.hottest_start
    return to_si(start, "temperature", "start", low=_core.coldest_start, high=high)


@door
def brisket(
    mass: Quantity = 6.0, thickness: Quantity | None = None, start: Quantity = 4.0, fat: Word = "down"
) -> Meat:
    """Return a whole brisket, solved as a slab with two faces.

    Its numbers, with range and source: ``libcook.parameters()``, rows ``brisket.*``, ``tissue.*`` and
    ``fat_cap.*``.

    Parameters
    ----------
    mass : float, str or pint.Quantity
        Raw mass with the fat cap, such as ``"14 lb"``; a plain number is in kg, 0.3 to 11 is accepted.
    thickness : float, str or pint.Quantity, optional
        Mean thickness of the lean part, such as ``"65 mm"``; a plain number is in m. By default 56 mm x (mass
        / 6 kg)^(1/3): common practice, no source. Cooking time goes with its square: measure yours.
    start : float, str or pint.Quantity
        Temperature throughout at the start, such as ``"38 °F"``; a plain number is in °C, up to 30.
    fat : str
        Where the fat cap is: ``"down"``, ``"up"`` or ``"none"``.

    Returns
    -------
    Meat

    Raises
    ------
    InvalidInput
        When a value is out of range; names the argument and the likely slip.

    Examples
    --------
    >>> round(brisket(mass="14 lb").mass, 2)
    6.35
    """
    size = None if thickness is None else to_si(thickness, "length", "thickness", low=0.005, high=0.5)
    made = _core.brisket(to_si(mass, "mass", "mass"), size, _raw(start))
    side = choice(fat, ("down", "up", "none"), "fat")
    if side != made.fat_cap.side:
        made.fat_cap.side = side
        if side == "none":  # the mass that the cap no longer has goes into the lean
            made.shape.extent *= to_si(mass, "mass", "mass") / made.mass
    return made


@door
def pork_shoulder(mass: Quantity = 3.5, diameter: Quantity | None = None, start: Quantity = 4.0) -> Meat:
    """Return a boneless pork shoulder, solved as a cylinder.

    Its numbers, with range and source: ``libcook.parameters()``, rows ``pork_shoulder.*`` and ``tissue.*``.

    Parameters
    ----------
    mass : float, str or pint.Quantity
        Raw mass, such as ``"8 lb"``; a plain number is in kg.
    diameter : float, str or pint.Quantity, optional
        Such as ``"13 cm"``; a plain number is in m. By default that of a cylinder 1.5 times as long as wide:
        common practice, no source. Measure yours.
    start : float, str or pint.Quantity
        Temperature throughout at the start; a plain number is in °C, up to 30.

    Returns
    -------
    Meat

    Raises
    ------
    InvalidInput
        When a value is out of range; names the argument and the likely slip.
    """
    size = None if diameter is None else to_si(diameter, "length", "diameter", low=0.005, high=0.5)
    return _core.pork_shoulder(to_si(mass, "mass", "mass"), size, _raw(start))
