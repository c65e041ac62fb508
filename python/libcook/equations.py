"""The equations of a stage for any integrator of ordinary differential equations."""

from __future__ import annotations

from collections.abc import Mapping

from libcook import _core
from libcook._coerce import choice, refuse_type
from libcook._core import Equations, Physics, Plan
from libcook._quantity import Quantity
from libcook._solver_options import _GRIDS, _options, _physics
from libcook.errors import InvalidInput

__all__ = ["Equations", "equations"]


def equations(
    plan: Plan,
    *,
    grid: str = "slab",
    nodes: int | None = None,
    physics: Physics | Mapping[str, bool] | None = None,
    tolerance: Quantity | None = None,
    water_tolerance: float | None = None,
    output_every: Quantity = "60 s",
    keep_fields: bool = True,
    face_spacing: Quantity | None = None,
    max_steps: int | None = None,
    **switches: bool,
) -> Equations:
    """Return the equations of a plan's first stage, dy/dt = rhs(t, y), as `simulate` solves them.

    They are discrete in space. Events (spritz, lid, end) are left out, and so is the memory of denaturation:
    good for stages in which the meat warms. The state is ordered so that the Jacobian is banded
    (`Equations.bandwidth`)::

        y = [film_bottom, e_0, X_0, ..., e_(n-1), X_(n-1), film_top]

    with e the enthalpy per raw volume over a reference heat capacity [K], X the water [kg/kg dry] and the
    films the liquid on the faces [kg/m²].

    Parameters
    ----------
    plan : Plan
        What to cook; an insulated box cannot be its first stage.
    grid, nodes, physics, face_spacing, **switches
        As in `simulate`.
    tolerance, water_tolerance, output_every, keep_fields, max_steps
        Taken so that the keywords of `simulate` can be handed on; an integrator of your own sets its own.

    Returns
    -------
    Equations

    Raises
    ------
    InvalidInput
        Naming the field that cannot be used.

    Examples
    --------
    ::

        eq = lc.equations(plan)
        scipy.integrate.solve_ivp(
            eq.rhs, (0.0, 3600.0), eq.initial(), method="LSODA", lband=eq.bandwidth, uband=eq.bandwidth
        )
    """
    choice(grid, _GRIDS, "grid")
    if not isinstance(plan, Plan):
        refuse_type(plan, "Plan", "plan")
    given = {
        "nodes": nodes,
        "water_tolerance": water_tolerance,
        "output_every": output_every,
        "keep_fields": keep_fields,
        "face_spacing": face_spacing,
        "max_steps": max_steps,
    }
    try:
        options = _options(tolerance, {name: value for name, value in given.items() if value is not None})
        options.physics = _physics(physics, switches)
        return _core.Equations(plan, options)
    except InvalidInput as error:
        message, field = (text.removeprefix("options.") for text in (str(error), error.field))
        raise InvalidInput(message, field, error.value) from None
