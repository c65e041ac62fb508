"""When to start, so that dinner is on time."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from libcook import _core
from libcook._core import Alternative, FreeParameter, ModelError, Plan, Remedy, StageTime
from libcook.arguments.door import door
from libcook.arguments.plain import whole
from libcook.arguments.quantity import Quantity
from libcook.fit.forecast import Forecast
from libcook.fit.inputs import read_free, read_model_error
from libcook.fit.result import Fit
from libcook.readings.fit_facts import read_schedule
from libcook.units import parse_clock, to_si
from libcook.words.fit_forms import day_clock, schedule_words

__all__ = ["Alternative", "Remedy", "Schedule", "StageTime", "start_by"]


class Schedule(_core.Schedule):
    """A start time; made by `start_by`.

    Attributes
    ----------
    start, latest : float
        When to start, and the latest start that keeps the wanted chance [s after the midnight before dinner];
        negative: the day before. `start_clock` and `latest_clock` are the same as text.
    duration50 : float
        Of the whole plan, rest included: median of the possible cooks that end, nothing changed [s].
    duration, chance_late : float
        At the wanted confidence [s], and the chance to be late when started at `start` [0 to 1], nothing
        changed on the way.
    duration_with_remedies, chance_late_with_remedies : float
        The same with late cooks hurried as `remedies` say: these set the start.
    remedies : list of Remedy
        Looks at the thermometer, in the order of the cook: if the core is below ``core`` [°C] at ``by``
        [s after the start], do ``what``; ``late`` is the share of the possible cooks that it is for,
        ``sooner`` what it saves [s], ``plan`` the plan of such a cook. Empty where nothing helps or none is
        wanted.
    stages : list of StageTime
        When each stage ends, late cooks hurried: ``name``, ``median`` and ``sure``, which is at the wanted
        confidence [s after the start].
    never : float
        Share of the possible cooks that never end unless something is changed [0 to 1]; no other number here
        counts them, except the chances to be late.
    hold50, hold95 : float
        How long the meat waits for dinner, late cooks hurried: median, and the longest in 19 of 20 cooks [s].
    stays_hot : float or None
        How long after the plan's end its coldest part stays above the hold limit where the last stage leaves
        it [s]; None when that stage heats.
    alternatives : list of Alternative
        What would make it quicker, best first: ``what``, ``sooner`` [s], ``chance_late``, ``plan``.
    warnings : list of str
        In words.
    caution : str
        Shown with every schedule.
    units : str or None
        ``"C"`` or ``"F"``: the scale of the log that was fitted, in which the schedule speaks; None without a
        fit: it then speaks both.
    """

    _inputs: dict[str, Any] | None = None

    @property
    def start_clock(self) -> str:
        """When to start, such as ``"21:40 the day before"``."""
        return day_clock(self.start)

    @property
    def latest_clock(self) -> str:
        """The latest start that keeps the wanted chance, as a time of day."""
        return day_clock(self.latest)

    @property
    def units(self) -> str | None:
        """``"C"`` or ``"F"``, the scale of the log that was fitted; None without a fit."""
        fit = None if self._inputs is None else self._inputs["fit"]
        return None if fit is None else str(fit.series[-1].units)

    @property
    def forecast(self) -> Forecast:
        """The possible cooks behind it, from the start of the cook."""
        made = Forecast(self._forecast)
        made._units = self.units
        return made

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle what it was made from: the same numbers come out again."""
        return _again, (self._inputs,)

    def __repr__(self) -> str:
        """Return the start and what goes with it, a line each."""
        return "\n".join(schedule_words(read_schedule(self)).lines)

    def _repr_html_(self) -> str:
        return schedule_words(read_schedule(self)).html


def _again(inputs: dict[str, Any]) -> Schedule:
    return start_by(**inputs)


@door
def start_by(
    plan: Plan,
    serve: Any,
    confidence: Quantity = 0.9,
    *,
    fit: Fit | None = None,
    earliest: Any = None,
    hold_limit: Quantity = 57.0,
    alternatives: bool = True,
    remedies: bool = True,
    free: Sequence[str | FreeParameter] = (),
    model_error: ModelError | str | None = None,
    members: int = 200,
    seed: int = 1,
    threads: int = 0,
) -> Schedule:
    """Find the latest start that gets dinner on the table in time.

    Parameters
    ----------
    plan : Plan
        The whole plan, rest included; its own start time does not matter.
    serve : str or datetime.time
        When dinner is, such as ``"18:00"``.
    confidence : float
        Wanted chance to be on time [-], 0.5 to 0.99.
    fit : Fit, optional
        Of earlier cooks in the same cooker. A piece such as one of them cooked (same tissue, mass and
        thickness within 5 %) takes over what was found of its meat, widened by what single pieces differ by.
    earliest : str or datetime.time, optional
        Nobody starts before that; then the chance of being late is what it is, and
        `Schedule.alternatives` say what would help.
    hold_limit : float, str or pint.Quantity
        Hot holding: 57 °C (FDA Food Code 3-501.16); your local rules may ask for more.
    alternatives : bool
        Whether to run what would make it quicker from the beginning.
    remedies : bool
        Whether somebody watches: late cooks are hurried (pit hotter, foil), which allows a later start.
        Without, the start is early enough for a cook that nobody touches.
    free, model_error, members, seed, threads
        As of `libcook.forecast`.

    Returns
    -------
    Schedule

    Raises
    ------
    InvalidInput
        For options out of range, a plan with a clock end, or one that more than half of the possible cooks
        never finish.

    Notes
    -----
    The hold limit and the changes that are tried, with range and source: ``libcook.parameters()``, rows
    ``schedule.*``.
    """
    made = Schedule(
        _core.start_by(
            plan.replace(start=None) if plan.start is not None and not _has_clock_end(plan) else plan,
            parse_clock(serve, "serve"),
            to_si(confidence, "dimensionless", "confidence"),
            None if earliest is None else parse_clock(earliest, "earliest"),
            to_si(hold_limit, "temperature", "hold_limit"),
            bool(alternatives),
            bool(remedies),
            whole(members, "members", 50, 5000),
            whole(seed, "seed", 0, 2**63 - 1),
            read_model_error(model_error),
            read_free(free),
            whole(threads, "threads", 0, 1024),
            fit,
        )
    )
    made._inputs = {
        "plan": plan.__copy__(), "serve": serve, "confidence": confidence, "fit": fit, "earliest": earliest,
        "hold_limit": hold_limit, "alternatives": alternatives, "remedies": remedies, "free": free,
        "model_error": model_error, "members": members, "seed": seed, "threads": threads,
    }  # fmt: skip
    return made


def _has_clock_end(plan: Plan) -> bool:
    return any(end.kind == "clock" for stage in plan.stages for end in stage.until)
