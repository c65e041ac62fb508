"""Many plans in, their outcomes out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import overload

from libcook import _core
from libcook._core import Physics, Plan
from libcook._solver_options import options_as_arguments, solver_options
from libcook.arguments.door import door
from libcook.arguments.plain import whole
from libcook.arguments.quantity import Quantity, Word
from libcook.errors import SolverFailure
from libcook.outcome import Outcome

__all__ = ["simulate_many"]

Result = Outcome | Exception
Done = Callable[[int, Result], object]


@overload
def simulate_many(
    plans: Iterable[Plan],
    *,
    done: None = ...,
    threads: int | None = ...,
    grid: Word = ...,
    nodes: int | None = ...,
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
) -> list[Result]: ...
@overload
def simulate_many(
    plans: Iterable[Plan],
    *,
    done: Done,
    threads: int | None = ...,
    grid: Word = ...,
    nodes: int | None = ...,
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
) -> None: ...
@door
def simulate_many(
    plans: Iterable[Plan],
    *,
    done: Callable[[int, Result], object] | None = None,
    threads: int | None = None,
    grid: Word = "piece",
    nodes: int | None = None,
    columns: int | None = None,
    rows: int | None = None,
    physics: Physics | Mapping[str, bool] | None = None,
    tolerance: Quantity | None = None,
    water_tolerance: float | None = None,
    output_every: Quantity = "300 s",
    keep_fields: bool = False,
    face_spacing: Quantity | None = None,
    end_spacing: Quantity | None = None,
    max_steps: int | None = None,
    **switches: bool,
) -> list[Result] | None:
    """Run plans side by side, several times as fast as one after the other.

    Whole pieces and slabs go through the solver in packs, on the lanes of vector instructions: each outcome
    is that of `simulate` within the tolerances, and does not change with what else is in the batch.
    Cross-sections go one by one, on all threads.

    Parameters
    ----------
    plans : iterable of Plan
        What to cook and how.
    done : callable, optional
        Called as ``done(index, outcome or exception)`` for each plan as soon as it is over, in any order,
        from the working threads but never from two at once. Nothing is kept then, and nothing returned. What
        it raises stops the batch and is raised here.
    threads : int, optional
        One for each processor by default.
    output_every : float, str or pint.Quantity
        Spacing of the stored times; a plain number is in s.
    keep_fields : bool
        Store temperature and water of every node, not only of core and faces.
    grid, nodes, columns, rows, face_spacing, end_spacing
        As in `simulate`, for all plans.
    physics, tolerance, water_tolerance, max_steps, **switches
        As in `simulate`, for all plans.

    Returns
    -------
    list of Outcome or exception
        In the order of the plans. A plan that is bad, or that cannot be solved, has the exception that
        `simulate` would raise in its place; a `SolverFailure` carries what was computed. None with `done`.

    Raises
    ------
    InvalidInput
        For a bad option. A bad plan only fails itself.
    """
    batch = list(plans)
    workers = 0 if threads is None else whole(threads, "threads", 0, 1024)
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
        if done is None:
            results = _core.simulate_many(batch, options, workers)
            return [_wrapped(result, options.physics) for result in results]
        _core.simulate_many(
            batch, options, workers, lambda i, result: done(i, _wrapped(result, options.physics))
        )
        return None


def _wrapped(result: _core.Outcome | Exception, physics: Physics) -> Result:
    if isinstance(result, _core.Outcome):
        made = Outcome(result)
        made._physics = physics
        return made
    if isinstance(result, SolverFailure):
        result.outcome = Outcome(result.outcome)
        result.outcome._physics = physics
    return result
