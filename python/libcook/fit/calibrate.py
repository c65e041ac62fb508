"""A plan's numbers from the logs of a cooker: calibration."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from libcook import _core
from libcook._core import Estimate, FitSeries, FreeKind, FreeParameter, ModelError, Plan
from libcook.arguments.door import door
from libcook.arguments.plain import items, whole
from libcook.arguments.quantity import Quantity
from libcook.errors import invalid
from libcook.fit.inputs import (
    as_list,
    read_free,
    read_log,
    read_model_error,
    read_prior,
)
from libcook.fit.result import Fit
from libcook.fit.result import _rebuild as _rebuild  # by this name in pickles of the version before
from libcook.logs import Log

__all__ = [
    "Estimate",
    "Fit",
    "FitSeries",
    "FreeKind",
    "FreeParameter",
    "ModelError",
    "calibrate",
    "free_names",
    "prior",
]


def free_names() -> list[str]:
    """Names of all numbers that may be fitted; `prior` takes each, and says more of it."""
    return [kind.name for kind in _core.free_kinds()]


@door
def prior(
    name: str, median: Quantity | None = None, spread: Quantity | None = None, source: str = ""
) -> FreeParameter:
    """Say what is believed of a number before a fit.

    Parameters
    ----------
    name : str
        One of `free_names`.
    median : float, str or pint.Quantity, optional
        Middle of what is believed, such as ``"55 mm"``; what the plan says by default.
    spread : float, str or pint.Quantity, optional
        Standard deviation: a share for positive numbers, such as 0.2 for about ±20 %, else in the number's
        unit.
    source : str
        Where both come from, in words: kept with the estimate.

    Returns
    -------
    FreeParameter

    Notes
    -----
    Medians and spreads that are not given, with range and source: ``libcook.parameters()``, rows ``free.*``.
    """
    return read_prior(name, median, spread, source)


@door
def calibrate(
    plan: Plan | Sequence[Plan],
    log: Log | Sequence[Log],
    free: Sequence[str | FreeParameter],
    *,
    model_error: ModelError | str | None = None,
    robust: bool = True,
    ended: Mapping[str, Quantity] | Sequence[Mapping[str, Quantity]] | None = None,
    max_iterations: int = 15,
    threads: int = 0,
) -> Fit:
    """Tune a plan to what was logged.

    Parameters
    ----------
    plan : Plan or sequence of Plan
        What was cooked and how: one for all logs, or one for each.
    log : Log or sequence of Log
        With core temperatures; pit temperatures, where there are any, drive the plan.
    free : sequence of str or FreeParameter
        What to fit: names of `free_names`, or `prior` where something better than the default is known. What
        is not free is taken as known: intervals are as wide as they should be where all that may differ is
        free, as ``lc.belief(plan).names`` lists it.
    model_error : ModelError or str, optional
        How far the model is trusted. ``"whole cut"``, the default: as far as the model resembles a whole
        piece of meat. ``"slab"``: the meat is just what the model is made of, and only the solver errs.
    robust : bool
        Whether readings that stand out count less.
    ended : mapping of str to duration, optional
        When stages ended, by name, such as ``{"smoke": "5 h"}``. Otherwise from the log's events ("wrapped",
        "pulled"), or when the log first shows the core that the stage waits for. One mapping for each log.
    max_iterations, threads : int
        Of the search; 0 threads: as many as the machine has.

    Returns
    -------
    Fit

    Raises
    ------
    InvalidInput
        For an unknown or unsuitable name, a log without core readings, with fewer readings than numbers to
        fit, hotter than its pit, or outside the plan.
    SolverFailure
        When the plan cannot be simulated along the log.

    Notes
    -----
    How far the model is trusted, and from where on words say that numbers cannot be told apart, with range
    and source: ``libcook.parameters()``, rows ``model_error.*``, ``slab_model_error.*`` and ``fit.*``.
    """
    plans = as_list(plan, Plan)
    logs = as_list(log, Log)
    if not logs:
        raise invalid("log", log, "no log came", "one or several are accepted")
    if not plans:
        raise invalid("plan", plan, "no plan came", "one for all logs, or one for each, is accepted")
    marks: list[Mapping[str, Quantity] | None]
    if ended is None or isinstance(ended, Mapping):
        marks = [ended] * len(logs)
    else:
        marks = items(ended, "ended", "a mapping such as {'smoke': '5 h'}, or one for each log, is accepted")
    if len(marks) != len(logs):
        raise invalid(
            "ended", ended, f"{len(marks)} mappings for {len(logs)} logs", "one for each is accepted"
        )
    several = len(logs) > 1
    ready = [
        read_log(one, plans[min(i, len(plans) - 1)], marks[i], f"log[{i}]" if several else "log")
        for i, one in enumerate(logs)
    ]
    wanted = read_free(free)
    error = read_model_error(model_error)
    iterations = whole(max_iterations, "max_iterations", 1, 200)
    made = Fit(
        _core.calibrate(
            plans, ready, wanted, error, bool(robust), iterations, whole(threads, "threads", 0, 1024)
        )
    )
    made._inputs = (plans, ready, wanted)
    return made
