"""When will it be done: a forecast of a cook that is under way."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, ClassVar

import numpy as np
import numpy.typing as npt

from libcook import _core
from libcook._coerce import signal
from libcook._coerce import wrap as read_wrap
from libcook._core import FreeParameter, ModelError, PitOutlook, Plan, Stage
from libcook.arguments.door import door
from libcook.arguments.plain import close, whole
from libcook.arguments.quantity import Quantity, Word
from libcook.arguments.quote import quoted
from libcook.errors import InvalidInput, invalid
from libcook.fit.inputs import read_free, read_glances, read_log, read_model_error
from libcook.logs import Log
from libcook.readings.fit_facts import read_forecast
from libcook.units import to_si
from libcook.words.fit_forms import forecast_words

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from libcook.fit.result import Fit
    from libcook.planner.result import BestPlan

__all__ = ["Forecast", "PitOutlook", "forecast"]

FloatArray = npt.NDArray[np.float64]


class Forecast(_core.Forecast):
    """Possible cooks that agree with the log so far, run to the end; made by `forecast`.

    Times are in s since the start of the cook; infinite where a possible cook never gets there.

    Attributes
    ----------
    now : float
        The last reading [s].
    finish, ready : numpy.ndarray
        When each possible cook is done, and at the end of the plan [s], shape (members,).
    weight : numpy.ndarray
        How much each counts; they add up to 1, shape (members,).
    time, core : numpy.ndarray
        Shape (times,) [s] and (members, times) [°C]: what the thermometer will show until it is done; held
        from then on.
    stage_end : numpy.ndarray
        When each stage ends [s], shape (members, stages).
    outlook : PitOutlook
        What the pit may do from now on.
    notes : list of str
        In words.
    versus : Forecast or None
        Of a `what_if`: the forecast it is compared with, member by member.
    units : str or None
        ``"C"`` or ``"F"``: the scale of the log, or of the looks at the thermometer, in which the forecast
        speaks and is drawn; None without either: it then speaks both.
    """

    versus: Forecast | None = None
    _inputs: dict[str, Any] | None = None
    _units: str | None = None
    _planner: ClassVar[Callable[..., Any]]  # libcook.best_plan, which stands above, puts itself here

    @property
    def units(self) -> str | None:
        """``"C"`` or ``"F"``, the scale of the log; None where there was none."""
        if self.versus is not None:
            return self.versus.units
        if self._inputs is None:
            return self._units
        log = self._inputs["log"]
        return None if log is None else str(log.units)

    @property
    def finish(self) -> FloatArray:
        """When each possible cook is done [s], shape (members,)."""
        return self.stage_end[:, self.done]

    @property
    def ready(self) -> FloatArray:
        """When each possible cook has gone through the whole plan, rest included [s], shape (members,)."""
        return self.stage_end[:, -1]

    @door
    def finish_quantile(self, q: float, stage: str | None = None) -> float:
        """Time by which a share of the possible cooks is done [s since the start].

        Parameters
        ----------
        q : float
            Share, above 0 and below 1; 0.9: nine of ten.
        stage : str, optional
            Another stage whose end is asked for, by name; the rest's for when it can be served.

        Returns
        -------
        float
            Infinite when so many never get there.
        """
        return self._quantile(_share(q), self._stage(stage))

    @door
    def chance_after(self, time: Quantity, stage: str | None = None) -> float:
        """Chance that it is done later than a time since the start, such as ``"11 h"`` [0 to 1]."""
        return self._chance_after(to_si(time, "duration", "time"), self._stage(stage))

    @door
    def core_quantile(self, q: float) -> FloatArray:
        """Core temperature below which a share of the possible cooks lies [°C], shape (times,)."""
        return self._core_quantile(_share(q))

    @door
    def gain_quantile(self, q: float) -> float:
        """How much sooner it is done than the forecast it is compared with [s]; negative: later.

        The same possible cooks are compared with each other, so chance does not blur the difference.
        """
        if self.versus is None:
            raise invalid(
                "forecast", None, "it is no what_if", "gain_quantile belongs to what what_if() gives"
            )
        both = np.isfinite(self.versus.finish) & np.isfinite(self.finish)
        gain = np.where(both, self.versus.finish, 0.0) - np.where(both, self.finish, 0.0)
        return _core.weighted_quantile(gain[both].tolist(), self.weight[both].tolist(), _share(q))

    @door
    def what_if(
        self,
        plan: Plan | None = None,
        *,
        wrap: Any = None,
        air: Any = None,
        until: Any = None,
        stages: Sequence[Stage] | None = None,
    ) -> Forecast:
        """Run the same possible cooks with something else from now on.

        Parameters
        ----------
        plan : Plan, optional
            A whole plan: its stages from the one that is under way on.
        wrap : str or Wrap, optional
            Wrapped like this from now until it is done.
        air : float, str or signal, optional
            Pit temperature, such as ``"275 °F"``, from now until it is done.
        until : End or list of End, optional
            What the last stage before it is done waits for.
        stages : sequence of Stage, optional
            All that is left to do, from now on.

        Returns
        -------
        Forecast
            Its `versus` is this one.

        Examples
        --------
        ``ahead.what_if(wrap="foil").gain_quantile(0.5)``: how much foil now saves [s].
        """
        whole = sum(given is not None for given in (plan, stages))
        parts = [given for given in (wrap, air, until) if given is not None]
        if whole + bool(parts) != 1:
            raise InvalidInput(
                "what_if: say one thing: a plan, or stages, or changes such as wrap='foil' and air='275 °F'",
                "what_if",
            )
        if stages is not None:
            remaining = list(stages)
        elif plan is not None:
            remaining = list(plan.stages[self.current :])
        else:
            remaining = self._changed(wrap, air, until)
        if not remaining:
            raise invalid(
                "stages", stages, "no stage came", "the one under way, and what follows, is accepted"
            )
        made = Forecast(_core.what_if(self, remaining))
        made.versus = self
        return made

    def _changed(self, wrap: Any, air: Any, until: Any) -> list[Stage]:
        stages = [stage.__copy__() for stage in self.plan.stages[self.current :]]
        last = self.done - self.current
        if wrap is not None:
            # Wrapped now: what was to be done bare until then is left out.
            first = stages[0]
            kept = stages[last].__copy__()
            kept.surroundings = first.surroundings
            kept.name = stages[last].name if last > 0 else first.name
            kept.wrap = read_wrap(wrap, "wrap")
            stages = [kept, *stages[last + 1 :]]
            last = 0
        if air is not None:
            course = signal(air, "temperature", "air")
            for stage in stages[: last + 1]:
                stage.surroundings.air = course
        if until is not None:
            stages[last].until = until
        return stages

    @door
    def update(self, log: Log, **changes: Any) -> Forecast:
        """Forecast again with more readings; plan and options stay, unless given."""
        if self._inputs is None:
            raise invalid("forecast", None, "it is a what_if", "update the forecast it was made from")
        return forecast(**{**self._inputs, "log": log, **changes})

    def best_plan(self, serve: Any, **wishes: Any) -> BestPlan:
        """Search for what to do from now on, so that dinner is in time.

        Every plan is tried on the possible cooks of this forecast, which agree with the log so far.

        Parameters
        ----------
        serve : str or datetime.time
            When dinner is, such as ``"18:00"``, the next one after now; the plan needs its ``start``.
        choose, want, tries, rules, seed, progress
            As of `libcook.best_plan`. Of ``choose`` counts what is still to come: wrapped meat is not
            unwrapped, but foil may go round its paper.

        Returns
        -------
        BestPlan
            Its habit is going on as planned; ``better`` is the share of the possible cooks that are ready
            sooner by the new plan.

        Raises
        ------
        InvalidInput
            When the plan has no start, the meat is off the heat, or no safe plan is left.
        """
        made: BestPlan = self._planner(self, serve, **wishes)
        return made

    @door
    def plot(self, units: Word | None = None, theme: Word = "light", ax: Axes | None = None) -> Axes:
        """Draw the core so far, the bands that hold 50 and 90 % of what may come, and when it is done.

        In the log's own °C or °F, unless ``units`` says which.
        """
        from libcook.figures.fit_plots import plot_forecast

        return plot_forecast(self, units, theme, ax)

    def _stage(self, name: str | None) -> int:
        if name is None:
            return self.done
        names = [stage.name for stage in self.plan.stages]
        if name not in names:
            raise invalid(
                "stage", name, f"{quoted(name)} is no stage of the plan", f"it has: {', '.join(names)}",
                close(name, names),
            )  # fmt: skip
        return names.index(name)

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle what it was made from: the same numbers come out again."""
        if self._inputs is None:
            raise TypeError("a what_if is not pickled; pickle the forecast, and ask it again")
        return _again, (self._inputs,)

    def __repr__(self) -> str:
        """Return when it will be done, in a few lines."""
        return forecast_words(read_forecast(self)).text

    def _repr_html_(self) -> str:
        return forecast_words(read_forecast(self)).html


def _again(inputs: dict[str, Any]) -> Forecast:
    return forecast(**inputs)


def _share(q: float) -> float:
    if not 0.0 < q < 1.0:
        meant = f"{q / 100:g}" if 1.0 < q < 100.0 else ""
        raise invalid("q", q, f"{q} is out of range", "a share above 0 and below 1 is accepted", meant)
    return q


@door
def forecast(
    plan: Plan,
    log: Log | Mapping[Quantity, Quantity] | None = None,
    *,
    fit: Fit | None = None,
    free: Sequence[str | FreeParameter] = (),
    model_error: ModelError | str | None = None,
    ended: Mapping[str, Quantity] | None = None,
    members: int = 200,
    seed: int = 1,
    threads: int = 0,
    join_rules: bool = True,
) -> Forecast:
    """Forecast a cook from its plan and the readings so far.

    Parameters
    ----------
    plan : Plan
        The whole plan.
    log : Log or mapping of duration to temperature, optional
        The readings so far: core, and best the pit's too. Or a few looks at the thermometer, by the time
        since the start: ``{"4 h": "145 °F"}``. None: not begun yet.
    fit : Fit, optional
        Of earlier cooks in the same cooker; see `Fit.forecast`.
    free : sequence of str or FreeParameter
        What is not known of cooker and meat; by default all that this plan has and a cook rarely knows.
    model_error : ModelError or str, optional
        How far the model is trusted; see `calibrate`.
    ended : mapping of str to duration, optional
        When stages ended, by name; see `calibrate`.
    members : int
        Possible cooks, 50 to 5000.
    seed : int
        Of the random numbers: the same one gives the same forecast.
    threads : int
        0: as many as the machine has.
    join_rules : bool
        Whether rules that need no model have their say in the middle: the rate of the last hour, and what
        measured cooks took, by weights learned on cooks that were held out. Never
        with ``model_error="slab"``, which says that the model is right.

    Returns
    -------
    Forecast

    Raises
    ------
    InvalidInput
        As `calibrate`; and when the log shows the end of the plan, or most possible cooks never get done.

    Notes
    -----
    What a pit may do that was not logged, with range and source: ``libcook.parameters()``, rows
    ``pit_outlook.*``.
    """
    readings = None if log is None else read_glances(log, plan)
    if readings is None and ended is not None:
        raise invalid(
            "ended", ended, "no log came", "without readings nothing has ended yet; give the log too"
        )
    made = Forecast(
        _core.forecast(
            plan,
            _core.CookLog("log", [], [], [], [], [], False)
            if readings is None
            else read_log(readings, plan, ended),
            whole(members, "members", 50, 5000),
            whole(seed, "seed", 0, 2**63 - 1),
            read_model_error(model_error),
            read_free(free),
            whole(threads, "threads", 0, 1024),
            fit,
            bool(join_rules),
        )
    )
    made._inputs = {
        "plan": plan.__copy__(), "log": readings, "fit": fit, "free": free,
        "model_error": model_error, "ended": ended, "members": members, "seed": seed, "threads": threads,
        "join_rules": join_rules,
    }  # fmt: skip
    return made
