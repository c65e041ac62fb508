"""Where the meat is: pits, ovens, a counter, an insulated box."""

from __future__ import annotations

from typing import Any

from libcook import _core
from libcook._coerce import cooker_kind, signal
from libcook._coerce import film as read_film
from libcook._core import Box, Film, Surroundings
from libcook.arguments.door import door, lists
from libcook.arguments.quantity import Quantity, Word
from libcook.signals import Course
from libcook.units import to_si

__all__ = ["Box", "Film", "Pit", "Surroundings", "counter", "holding_oven", "insulated_box", "oven", "pit"]


@door
@lists(kinds=_core.pit_kinds())
def pit(
    kind: Word,
    air: Course,
    *,
    vapour_pressure: Course | None = None,
    film: Any = None,
    radiant_bottom: Quantity | None = None,
    radiant_top: Quantity | None = None,
    view: Quantity | None = None,
    ambient: Quantity | None = None,
) -> Surroundings:
    """Return a generic kind of cooker.

    Its numbers, with range and source: ``libcook.parameters()``, rows ``pit.*`` and ``surroundings.*``.

    Parameters
    ----------
    kind : str
        {kinds}.
        What sets them apart (vapour pressure, air speed, coals below) is common practice, no source; give
        your own below.
    air : float, str, Signal, Log or pair of array_like
        Air temperature: ``"250 °F"``, a `schedule`, a `ripple`, a log (its pit temperatures), or logged times
        [s] and values [°C]. Lid openings are in a log already and are not applied again. Times count from the
        start of the cook.
    vapour_pressure : float, str, Signal or pair of array_like, optional
        Of water in the air; a plain number is in Pa. While the air is colder than its dew point, as in a pit
        that goes out, the rest condenses and the outcome's notes say so; more than the air ever holds is
        refused.
    film : float, str, Film or pair of them, optional
        Film coefficient of both faces, or of (bottom, top); a plain number is in W/(m²·K).
    radiant_bottom, radiant_top : float, str or pint.Quantity, optional
        How much hotter than the air what the face sees is, such as coals; a plain number is in K.
    view : float or str, optional
        Factor on the radiation exchange [-], 0 to 1, such as ``0.8`` or ``"80 %"``.
    ambient : float, str or pint.Quantity, optional
        Temperature outside, for lid openings; a plain number is in °C.

    Returns
    -------
    Surroundings

    Raises
    ------
    InvalidInput
        When a value cannot be used; the field is named like ``"pit.air"``.

    Examples
    --------
    >>> pit("drum", air="250 °F").air.value[0]
    121.11111111111111
    """
    known = cooker_kind(kind, _core.pit_kinds(), "pit.kind")
    made = _core.pit(known, signal(air, "temperature", "pit.air"))
    return _adjust(made, "pit", vapour_pressure, film, radiant_bottom, radiant_top, view, ambient)


@door
def Pit(  # noqa: N802 - it stands for the thing, beside the ready-made kinds that `pit` returns
    air: Course,
    *,
    film: Any = None,
    radiant: Any = None,
    vapour_pressure: Course | None = None,
    view: Quantity | None = None,
    ambient: Quantity | None = None,
    name: str = "pit",
) -> Surroundings:
    """Return a cooker described by its air, film, radiation and humidity alone.

    Parameters
    ----------
    air, vapour_pressure, view, ambient
        As for `pit`; the vapour pressure is 8 kPa by default.
    film : float, str, Film or pair of them, optional
        As for `pit`; a plain number is in W/(m²·K), still air by default.
    radiant : float, str, pint.Quantity or pair of them, optional
        How much hotter than the air what the faces see is, for both or for (bottom, top); a plain number is
        in K.
    name : str
        What to call it.

    Returns
    -------
    Surroundings

    Raises
    ------
    InvalidInput
        When a value cannot be used; the field is named like ``"pit.film"``.
    """
    made = Surroundings(kind=name)
    made.air = signal(air, "temperature", "pit.air")
    bottom, top = _pair(radiant)
    return _adjust(made, "pit", vapour_pressure, film, bottom, top, view, ambient)


@door
def oven(air: Course, fan: bool = False) -> Surroundings:
    """Return a kitchen oven.

    Its numbers, with range and source: ``libcook.parameters()``, rows ``oven.*``.

    Parameters
    ----------
    air : float, str, Signal, Log or pair of array_like
        Air temperature; a plain number is in °C, see `pit`.
    fan : bool
        Whether the fan runs: air at 1.5 m/s, else still.

    Returns
    -------
    Surroundings
    """
    return _core.oven(signal(air, "temperature", "oven.air"), fan)


@door
def holding_oven(air: Quantity = 66.0, humidity: Quantity = 0.4) -> Surroundings:
    """Return an oven that holds finished meat at a set temperature.

    Air moves gently, as in an oven with its fan on. Regulators ask for the meat to stay at or above 57 °C
    (135 °F; FDA Food Code 3-501.16); follow your local rules.

    Its numbers, with range and source: ``libcook.parameters()``, rows ``holding_oven.*``.

    Parameters
    ----------
    air : float, str or pint.Quantity
        Set temperature; a plain number is in °C. 66 °C (150 °F) is common practice, no source.
    humidity : float or str
        Relative humidity in the oven [-], 0 to 1, such as ``"40 %"``: closed holding cabinets run
        humid; 0.4 is assumed.

    Returns
    -------
    Surroundings
    """
    return _core.holding_oven(
        to_si(air, "temperature", "holding_oven.air"),
        to_si(humidity, "dimensionless", "holding_oven.humidity"),
    )


@door
def counter(room: Quantity = 21.0) -> Surroundings:
    """Return a kitchen counter: still air and walls at room temperature [°C], half of saturation.

    Its numbers, with range and source: ``libcook.parameters()``, rows ``counter.*``.
    """
    return _core.counter(to_si(room, "temperature", "counter.room"))


@door
def insulated_box(
    room: Quantity = 21.0,
    *,
    start: Quantity = 30.0,
    heat_capacity: Quantity = 6000.0,
    loss: Quantity = 1.0,
) -> Surroundings:
    """Return a towel-lined insulated box (a cooler) standing in a room, for wrapped meat.

    The vapour in its air is given, up to what the air holds; it does not rise with what evaporates, so
    unwrapped meat would cool too fast in it, which the outcome's notes then say. A stage that follows in an
    equal box goes on in the same one, as warm as it has become.

    Its numbers, with range and source: ``libcook.parameters()``, rows ``box.*`` and ``insulated_box.*``.

    Parameters
    ----------
    room : float, str or pint.Quantity
        Room temperature; a plain number is in °C.
    start : float, str or pint.Quantity
        Temperature of the box when the meat goes in, a plain number is in °C: higher when it was warmed with
        hot water first.
    heat_capacity : float, str or pint.Quantity
        Of liner, towels and inner wall that warm up with it, such as ``"6 kJ/K"``; a plain number is in J/K.
    loss : float, str or pint.Quantity
        To the room, such as ``"1 W/K"``; a plain number is in W/K.

    Returns
    -------
    Surroundings
    """
    box = Box(
        heat_capacity=to_si(heat_capacity, "heat_capacity", "insulated_box.heat_capacity"),
        loss=to_si(loss, "conductance", "insulated_box.loss"),
        start=to_si(start, "temperature", "insulated_box.start"),
    )
    return _core.insulated_box(to_si(room, "temperature", "insulated_box.room"), box)


def _pair(value: Any) -> tuple[Any, Any]:
    return (value[0], value[1]) if isinstance(value, (tuple, list)) and len(value) == 2 else (value, value)


def _adjust(
    made: Surroundings,
    field: str,
    vapour_pressure: Course | None,
    film: Any,
    radiant_bottom: Quantity | None,
    radiant_top: Quantity | None,
    view: Quantity | None,
    ambient: Quantity | None,
) -> Surroundings:
    if vapour_pressure is not None:
        made.vapour_pressure = signal(vapour_pressure, "pressure", f"{field}.vapour_pressure")
    if film is not None:
        made.bottom, made.top = (read_film(one, f"{field}.film") for one in _pair(film))
    if radiant_bottom is not None:
        made.radiant_bottom = to_si(radiant_bottom, "temperature_difference", f"{field}.radiant_bottom")
    if radiant_top is not None:
        made.radiant_top = to_si(radiant_top, "temperature_difference", f"{field}.radiant_top")
    if view is not None:
        made.view = to_si(view, "dimensionless", f"{field}.view")
    if ambient is not None:
        made.ambient = to_si(ambient, "temperature", f"{field}.ambient")
    made.validate(field)
    return made
