"""The options of the solver, from the keyword arguments of `simulate` and `simulate_many`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from libcook import _core
from libcook._core import Physics
from libcook.arguments.plain import close, refuse_type
from libcook.arguments.quantity import Quantity
from libcook.arguments.quote import quoted
from libcook.errors import InvalidInput, invalid
from libcook.units import to_si


def solver_options(
    *,
    grid: str,
    tolerance: Quantity | None = None,
    physics: Physics | Mapping[str, bool] | None = None,
    switches: Mapping[str, bool] | None = None,
    **given: Any,
) -> _core.Options:
    """Options of the core; what is None in `given` stays at its default."""
    options = _core.Options(grid=grid)
    if tolerance is not None:
        usual = options.temperature_tolerance
        options.temperature_tolerance = to_si(
            tolerance, "temperature_difference", "tolerance", low=1e-9, high=5.0
        )
        options.water_tolerance *= options.temperature_tolerance / usual
    for name, value in given.items():
        if value is not None:
            setattr(options, name, value)
    options.physics = _physics(physics, switches or {})
    return options


@contextmanager
def options_as_arguments() -> Iterator[None]:
    """Name the options in errors as they were written: as arguments."""
    try:
        yield
    except InvalidInput as error:
        if not error.field.startswith("options."):
            raise
        message, field = (text.removeprefix("options.") for text in (str(error), error.field))
        raise InvalidInput(message, field, error.value) from None


def _physics(physics: Physics | Mapping[str, bool] | None, switches: Mapping[str, bool]) -> Physics:
    made = physics.replace() if isinstance(physics, Physics) else Physics()
    given: dict[str, Any] = dict(physics) if isinstance(physics, Mapping) else {}
    if physics is not None and not isinstance(physics, (Physics, Mapping)):
        refuse_type(physics, "Physics", "physics")
    for name, value in {**given, **switches}.items():
        if name not in Physics._fields:
            if name == "units":
                came = "a cook is computed in SI and °C; units belong where it is printed or drawn"
                raise invalid("units", value, came, "as in libcook.sentences(outcome, units='F')")
            raise invalid(
                f"physics.{name}",
                value,
                f"{quoted(name)} is no part of the physics that can be turned off",
                f"accepted: {', '.join(Physics._fields)}",
                close(name, Physics._fields),
            )
        setattr(made, name, value)
    return made
