"""The lengthwise cross-section: its shape, its tissues, and probes in it."""

from __future__ import annotations

from libcook import _core
from libcook._core import Meat, Probe, Section, Tissue
from libcook.arguments.door import door
from libcook.arguments.quantity import Quantity
from libcook.units import to_si

__all__ = [
    "Probe",
    "Section",
    "brisket_point_tissue",
    "brisket_seam_tissue",
    "brisket_section",
    "stem_error",
    "with_section",
]


@door
def brisket_section(meat: Meat) -> Section:
    """Return the default cross-section of a brisket: volume and mean thickness are those of the meat's shape.

    Proportions are common practice, no source: measure yours. Its numbers, with range and source:
    ``libcook.parameters()``, rows ``brisket_section.*`` and ``section.*``.
    """
    return _core.brisket_section(meat)


@door
def with_section(meat: Meat, section: Section) -> Meat:
    """Return the same meat in a measured section; its shape takes the section's mean thickness and footprint.

    Parameters
    ----------
    meat : Meat
        Not changed.
    section : Section
        Distances from the flat end and thicknesses there, length and width.

    Examples
    --------
    >>> import libcook as lc
    >>> mine = lc.Section(length="45 cm", width="28 cm", at=["0 cm", "20 cm", "45 cm"],
    ...                   thickness=["35 mm", "45 mm", "80 mm"])
    >>> round(lc.with_section(lc.brisket(), mine).shape.thickness, 4)
    0.0508
    """
    return _core.with_section(meat, section)


@door
def brisket_point_tissue(meat: Tissue | None = None) -> Tissue:
    """Return the tissue of a brisket's point: the meat's own with the composition of the point half."""
    return _core.brisket_point_tissue(_core.brisket_tissue() if meat is None else meat)


@door
def brisket_seam_tissue(meat: Tissue | None = None) -> Tissue:
    """Return the tissue of the seam: the meat's own with the composition of separable fat."""
    return _core.brisket_seam_tissue(_core.brisket_tissue() if meat is None else meat)


@door
def stem_error(
    immersion: Quantity,
    diameter: Quantity = 4e-3,
    wall: Quantity = 0.3e-3,
    conductivity: Quantity = 16.0,
    contact: Quantity = 200.0,
) -> float:
    """Return the share of (air - meat) that a probe reads too much because its stem conducts heat [-].

    1 / cosh(m L) with m^2 = h P / (k A): the tip of a fin whose base has the air's temperature (Incropera et
    al., Fundamentals of Heat and Mass Transfer, ch. 3.6; from memory).

    Parameters
    ----------
    immersion : float, str or pint.Quantity
        How deep the tip is in the meat; a plain number is in m.
    diameter, wall : float, str or pint.Quantity
        Of the stem, a tube; wall 0: solid; plain numbers are in m.
    conductivity : float, str or pint.Quantity
        Of the stem; a plain number is in W/(m·K), and 16 is stainless steel.
    contact : float, str or pint.Quantity
        Heat transfer from meat to stem; a plain number is in W/(m²·K). Assumed.

    Examples
    --------
    >>> stem_error("60 mm") < 0.01 < stem_error("20 mm")
    True
    """
    return _core.stem_error(
        to_si(immersion, "length", "stem_error.immersion"),
        to_si(diameter, "length", "stem_error.diameter"),
        to_si(wall, "length", "stem_error.wall"),
        to_si(conductivity, "conductivity", "stem_error.conductivity"),
        to_si(contact, "film_coefficient", "stem_error.contact"),
    )
