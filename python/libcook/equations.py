"""The equations of a stage for any integrator of ordinary differential equations."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, overload

from libcook._core import Equations, Physics, Plan, SectionEquations
from libcook._solver_options import options_as_arguments, solver_options
from libcook.arguments.door import door
from libcook.arguments.quantity import Quantity, Word

__all__ = ["Equations", "SectionEquations", "equations"]


@overload
def equations(
    plan: Plan,
    *,
    grid: Literal["piece", "slab"] = ...,
    nodes: int | None = ...,
    physics: Physics | Mapping[str, bool] | None = ...,
    tolerance: Quantity | None = ...,
    water_tolerance: float | None = ...,
    output_every: Quantity = ...,
    keep_fields: bool = ...,
    face_spacing: Quantity | None = ...,
    max_steps: int | None = ...,
    **switches: bool,
) -> Equations: ...
@overload
def equations(
    plan: Plan,
    *,
    grid: Literal["cross-section"],
    columns: int | None = ...,
    rows: int | None = ...,
    physics: Physics | Mapping[str, bool] | None = ...,
    tolerance: Quantity | None = ...,
    water_tolerance: float | None = ...,
    output_every: Quantity = ...,
    keep_fields: bool = ...,
    face_spacing: Quantity | None = ...,
    end_spacing: Quantity | None = ...,
    max_steps: int | None = ...,
    **switches: bool,
) -> SectionEquations: ...
@door
def equations(
    plan: Plan,
    *,
    grid: Word = "piece",
    nodes: int | None = None,
    columns: int | None = None,
    rows: int | None = None,
    physics: Physics | Mapping[str, bool] | None = None,
    tolerance: Quantity | None = None,
    water_tolerance: float | None = None,
    output_every: Quantity = "60 s",
    keep_fields: bool = True,
    face_spacing: Quantity | None = None,
    end_spacing: Quantity | None = None,
    max_steps: int | None = None,
    **switches: bool,
) -> Equations | SectionEquations:
    """Return the equations of a plan's first stage, dy/dt = rhs(t, y), as `simulate` solves them.

    They are discrete in space. Events (spritz, lid, end) are left out, and so is the memory of denaturation:
    good for stages in which the meat warms.

    A slab's state is ordered so that the Jacobian is banded (`Equations.bandwidth`)::

        y = [film_bottom, e_0, X_0, ..., e_(n-1), X_(n-1), film_top]

    Of a whole piece, two lines side by side, each of these has its partner of the rim right behind it: both
    films below, then level by level e and X of the middle and of the rim, then both films above. Here e is
    the enthalpy per raw volume over a reference heat capacity [K], X the water [kg/kg dry] and the films the
    liquid on the faces [kg/m²]. A cross-section's state is ::

        y = [e_0, X_0, ..., e_(n-1), X_(n-1), film_0, ..., film_(b-1)]

    with the nodes column by column from the flat end on, each bottom to top (`SectionEquations.along`,
    `SectionEquations.height`), and the films once around the boundary. Its Jacobian is sparse
    (`SectionEquations.pattern`, compressed rows), with the exact entries from `SectionEquations.jacobian`.

    Parameters
    ----------
    plan : Plan
        What to cook; its first stage cannot be in an insulated box, nor in air with a balance
        (`libcook.breathing`): these have states of their own.
    grid, nodes, columns, rows, physics, face_spacing, end_spacing, **switches
        As in `simulate`.
    tolerance, water_tolerance, output_every, keep_fields, max_steps
        Taken so that the keywords of `simulate` can be handed on; an integrator of your own sets its own.

    Returns
    -------
    Equations or SectionEquations
        The latter for ``grid="cross-section"``.

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

        cut = lc.equations(plan, grid="cross-section")
        starts, columns = cut.pattern
        scipy.integrate.solve_ivp(
            cut.rhs, (0.0, 3600.0), cut.initial(), method="BDF",
            jac=lambda t, y: scipy.sparse.csr_matrix((cut.jacobian(t, y), columns, starts)),
        )
    """
    with options_as_arguments():
        options = solver_options(
            grid=grid,
            tolerance=tolerance,
            physics=physics,
            switches=switches,
            nodes=nodes,
            columns=columns,
            rows=rows,
            water_tolerance=water_tolerance,
            output_every=output_every,
            keep_fields=keep_fields,
            face_spacing=face_spacing,
            end_spacing=end_spacing,
            max_steps=max_steps,
        )
        return (SectionEquations if grid == "cross-section" else Equations)(plan, options)
