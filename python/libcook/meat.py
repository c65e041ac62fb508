"""The piece on the table."""

from __future__ import annotations

import functools
from typing import Any

from libcook import _core
from libcook._core import (
    Composition,
    Cut,
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
from libcook.arguments.door import door
from libcook.arguments.plain import close, is_one_of, is_real
from libcook.arguments.quantity import Quantity, Word
from libcook.arguments.quote import listed, quoted
from libcook.errors import invalid
from libcook.units import to_si

__all__ = [
    "Composition",
    "Cut",
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
    "cut",
    "cuts",
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
    """Return a whole brisket.

    Its numbers, with range and source: ``libcook.parameters()``, rows ``brisket.*``, ``tissue.*`` and
    ``fat_cap.*``.

    Parameters
    ----------
    mass : float, str or pint.Quantity
        Raw mass with the fat cap, such as ``"14 lb"``; a plain number is in kg, 0.15 to 11.4 is accepted.
    thickness : float, str or pint.Quantity, optional
        Mean thickness of the lean part, such as ``"65 mm"``; a plain number is in m. By default 53 mm x (mass
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
    return _core.with_fat(cut("brisket", to_si(mass, "mass", "mass"), thickness, start), fat)


@door
def pork_shoulder(mass: Quantity = 3.6, thickness: Quantity | None = None, start: Quantity = 4.0) -> Meat:
    """Return a boneless pork shoulder.

    Its numbers, with range and source: ``libcook.parameters()``, rows ``pork_shoulder.*`` and ``tissue.*``.

    Parameters
    ----------
    mass : float, str or pint.Quantity
        Raw mass, such as ``"8 lb"``; a plain number is in kg.
    thickness : float, str or pint.Quantity, optional
        Such as ``"9 cm"``; a plain number is in m. By default that of its cut (`libcook.cuts`): measure
        yours.
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
    return cut("pork shoulder", to_si(mass, "mass", "mass"), thickness, start)


@functools.cache
def known_cuts() -> tuple[str, ...]:
    """Return the names of all cuts."""
    return tuple(one.name for one in _core.cuts())


def _plain(name: Any) -> Any:
    """Return the name of a cut as the list has it, whether capitals, underscores or hyphens came."""
    return name.lower().replace("_", " ").replace("-", " ") if isinstance(name, str) else name


@door
def cut(
    name: Word, mass: Quantity | None = None, thickness: Quantity | None = None, start: Quantity = 4.0
) -> Meat:
    """Return a piece of a cut, such as ``cut("beef chuck", mass="3 lb")``.

    A piece lighter than a whole one keeps its cross-section: a three-pound half of a shoulder is as thick as
    a whole one, and shorter.

    Parameters
    ----------
    name : str
        One of those that `libcook.cuts` lists.
    mass : float, str or pint.Quantity, optional
        Raw, trimmed, bone included; a plain number is in kg. By default that of a middling whole piece.
    thickness : float, str or pint.Quantity, optional
        Mean thickness of the lean part; a plain number is in m. By default that of the cut. Cooking time goes
        with more than its first power: measure yours.
    start : float, str or pint.Quantity
        Temperature throughout at the start; a plain number is in °C, up to 30.

    Returns
    -------
    Meat

    Raises
    ------
    InvalidInput
        For an unknown cut (lists what there is, and how to describe one's own), or a value out of range.

    Examples
    --------
    >>> round(cut("beef chuck", mass="3 lb").mass, 2)
    1.36
    """
    known = known_cuts()
    plain = _plain(name)
    if not is_one_of(plain, known):
        raise invalid(
            "name",
            name,
            f"{quoted(name)} is not a cut that is known",
            f"accepted: {listed(known)}; another one is described by its tissue and shape: libcook.Meat(...)",
            close(plain, known),
        )
    size = None if thickness is None else to_si(thickness, "length", "thickness", low=0.005, high=0.5)
    whole = None if mass is None else to_si(mass, "mass", "mass")
    return _core.cut(plain, whole, size, _raw(start))


def cuts() -> list[Cut]:
    """Return the cuts that are known, with composition, sizes and sources.

    Returns
    -------
    list of Cut
        The most usual first.

    Examples
    --------
    >>> cuts()[0].name
    'brisket'
    """
    return _core.cuts()
