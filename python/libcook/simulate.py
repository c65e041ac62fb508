"""Plan in, outcome out."""

from __future__ import annotations

from collections.abc import Mapping

from libcook import _core
from libcook._core import Physics, Plan
from libcook._solver_options import options_as_arguments, solver_options
from libcook.arguments.door import door
from libcook.arguments.quantity import Quantity, Word
from libcook.errors import SolverFailure
from libcook.outcome import Outcome

__all__ = ["Physics", "simulate"]


@door
def simulate(
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
) -> Outcome:
    """Run a plan.

    Other Python threads run meanwhile, and Ctrl-C stops it. The defaults are converged to well under 1 % in
    finish time.

    Parameters
    ----------
    plan : Plan
        What to cook and how.
    grid : str
        What the equations are solved on. ``"piece"``: the whole piece, as a line through its middle beside
        one through its rim, where sides and ends are; leaves out that one end may be thicker than the other.
        ``"slab"``: one line, across the thickness of a slab or along the radius of a cylinder; leaves out
        sides and ends, so that a whole cut takes a quarter to a third too long. ``"cross-section"``: two
        dimensions, a lengthwise section from the flat to the point (`Meat.section`, or one of the same
        volume); leaves out how the width differs along it, and takes some fifty times as long.
    nodes : int, optional
        Across the thickness (odd, 9 to 2001; 31 by default); half of them along a radius.
    columns, rows : int, optional
        Of a cross-section: nodes along the length (61) and across the thickness (odd; 25).
    physics : Physics or mapping of str to bool, optional
        Parts of the physics to turn off, such as ``{"evaporation": False}``.
    tolerance : float, str or pint.Quantity, optional
        Local error of the temperature per step [K], 0.04 by default. The water tolerance goes with it, unless
        given.
    water_tolerance : float, optional
        Local error of the water content per step [kg/kg dry].
    output_every : float, str or pint.Quantity
        Spacing of the stored times; a plain number is in s.
    keep_fields : bool
        Store temperature and water of every node, not only of core and faces.
    face_spacing : float, str or pint.Quantity, optional
        Distance of the first node from a face; a plain number is in m. 0.15 mm by default, 0.4 mm in a
        cross-section.
    end_spacing : float, str or pint.Quantity, optional
        Of a cross-section: distance of the first column from an end face; a plain number is in m. 3 mm by
        default.
    max_steps : int, optional
        Steps from one moment of the plan (stage, spray, lid, row of a log) to the next, and within a day,
        after which a cook that does not get on is given up; 200,000 by default.
    **switches : bool
        The fields of `physics` as keywords: ``evaporation``, ``squeezing``, ``radiation``, ``sinks``.

    Returns
    -------
    Outcome

    Raises
    ------
    InvalidInput
        Before any work: names the field, what came, what is accepted and the likely slip.
    Unreachable
        When a stage's end condition was not met within its ``at_most``; the message says where the core
        levels off.
    SolverFailure
        When no step can be made. This and `Unreachable` carry what was computed in ``outcome``, and so does
        the KeyboardInterrupt of a Ctrl-C.
    """
    try:
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
            made = Outcome(_core.simulate(plan, options))
        made._physics = options.physics
        return made
    except SolverFailure as failure:
        failure.outcome = Outcome(failure.outcome)
        failure.outcome._physics = options.physics
        raise
    except BaseException as interrupt:  # a signal's own exception; the core gives it the partial outcome
        partial = getattr(interrupt, "outcome", None)
        if isinstance(partial, _core.Outcome):
            interrupt.outcome = Outcome(partial)  # type: ignore[attr-defined]
        raise
