"""The facts of a fit, a forecast and a start time, read once for text, notebook, table and figure."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any, TypeVar

QUANTILES = (0.05, 0.25, 0.5, 0.75, 0.95)
_SOME = 0.005  # share of the possible cooks from which on a remedy is told
Facts = TypeVar("Facts")


@dataclass(frozen=True)
class EstimateFacts:
    """A fitted number, in its unit (SI or °C); its fields are the columns of `Fit.to_frame`."""

    name: str
    log: str | None  # name of the log that it belongs to; None: of all
    unit: str
    value: float
    low90: float
    low50: float
    high50: float
    high90: float
    prior: float
    learned: float  # how much narrower it became [share]
    source: str


@dataclass(frozen=True)
class FitFacts:
    """What a fit found."""

    estimates: list[EstimateFacts]
    logs: int
    rms: float  # of observed - fitted [K]
    notes: list[str]  # quantities in both scales
    units: str


@dataclass(frozen=True)
class ForecastFacts:
    """When it will be done; times in s since the start, infinite where a possible cook never gets there."""

    members: int
    clock_start: float | None  # time of day at the start [s after midnight]
    now: float
    stage: str  # the one whose end is called done
    done: list[float]  # by `QUANTILES` of the possible cooks
    last: str | None  # the stage in which it gets ready; None where it is ready when done
    ready: float | None  # median
    sooner: list[float] | None  # than what it is compared with, at 5, 50 and 95 % [s]
    notes: list[str]
    units: str | None


@dataclass(frozen=True)
class ScheduleFacts:
    """When to start, and what goes with it: what `Schedule` tells under these names."""

    start: float  # [s after the midnight before dinner]
    serve: float  # [s after midnight]
    confidence: float
    chance_late: float
    chance_late_with_remedies: float
    duration50: float  # [s]
    duration: float
    duration_with_remedies: float
    stages: list[Any]  # of StageTime
    remedies: list[Any]  # of Remedy, without those for next to nobody
    hold50: float  # [s]
    hold95: float
    last: str  # name of the last stage
    stays_hot: float | None  # [s] after the plan's end; None where the last stage heats
    alternatives: list[Any]  # of Alternative
    warnings: list[str]
    caution: str
    units: str | None


def _read(kind: type[Facts], thing: Any, **read: Any) -> Facts:
    """Make a record; what was not read goes by the same name in the thing."""
    names = [field.name for field in fields(kind)]  # type: ignore[arg-type]
    return kind(**{name: read[name] if name in read else getattr(thing, name) for name in names})


def read_estimate(e: Any, log: str | None = None) -> EstimateFacts:
    """Read an `Estimate`; alone it does not know the name of its log."""
    (low90, high90), (low50, high50) = e.interval90, e.interval50
    return _read(EstimateFacts, e, log=log, low90=low90, low50=low50, high50=high50, high90=high90)


def read_fit(fit: Any) -> FitFacts:
    """Read a `Fit`."""
    logs = [series.name for series in fit.series]
    estimates = [read_estimate(e, None if e.log < 0 else logs[e.log]) for e in fit.estimates]
    return _read(FitFacts, fit, estimates=estimates, logs=len(logs))


def read_forecast(ahead: Any) -> ForecastFacts:
    """Read a `Forecast`."""
    stages, done = [stage.name for stage in ahead.plan.stages], ahead.done
    last = stages[-1] if done + 1 < len(stages) else None
    return _read(
        ForecastFacts,
        ahead,
        members=len(ahead.weight),
        clock_start=ahead.plan.start,
        stage=stages[done],
        done=[ahead.finish_quantile(q) for q in QUANTILES],
        last=last,
        ready=None if last is None else ahead.finish_quantile(0.5, last),
        sooner=None if ahead.versus is None else [ahead.gain_quantile(q) for q in (0.05, 0.5, 0.95)],
    )


def read_schedule(schedule: Any) -> ScheduleFacts:
    """Read a `Schedule`."""
    remedies = [remedy for remedy in schedule.remedies if remedy.late >= _SOME]
    return _read(ScheduleFacts, schedule, remedies=remedies, last=schedule.plan.stages[-1].name)
