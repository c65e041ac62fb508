"""What people give to a fit, a forecast or a schedule, made ready for the core."""

from __future__ import annotations

import datetime as dt
import os
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from libcook import _core
from libcook._core import FreeParameter, ModelError, Plan, format_degrees
from libcook.arguments.plain import choice, close, number, refuse_type
from libcook.arguments.quantity import Quantity
from libcook.arguments.quote import came_as, quoted
from libcook.ends import HOTTEST_CORE
from libcook.errors import invalid
from libcook.logs import Event, Log
from libcook.units import KINDS, format_duration, in_fahrenheit, likely_hours, to_si
from libcook.units.clock import DAY

ERRORS = ("whole cut", "slab")
BESIDE_PIT = 15.0  # K that a pulled probe may read above the pit's own: a judgement
_KIND_OF_UNIT = {kind.symbol: name for name, kind in KINDS.items()}


def read_prior(name: str, median: Quantity | None, spread: Quantity | None, source: str) -> FreeParameter:
    """Make a free parameter, with units."""
    kind = _core.free_kind(name, "name")
    middle = None if median is None else _number(median, kind.unit, f"{name}.median")
    width = None
    if spread is not None:
        if kind.scale == "logarithmic":
            width = to_si(spread, "dimensionless", f"{name}.spread", low=1e-4, high=3.0)
        else:
            unit = "K" if kind.unit == "°C" else kind.unit
            width = _number(spread, unit, f"{name}.spread")
    return FreeParameter(name, middle, width, source)


def _number(value: Quantity, unit: str, field: str) -> float:
    if unit == "-":
        return to_si(value, "dimensionless", field)
    if unit == "K":
        return to_si(value, "temperature_difference", field)
    kind = _KIND_OF_UNIT.get(unit)
    if kind is not None:
        return to_si(value, kind, field)
    return number(value, field)


def read_free(free: Sequence[str | FreeParameter]) -> list[FreeParameter]:
    """Read the list of what to fit: names, or priors."""
    for i, item in enumerate(free):
        if isinstance(item, str):
            _core.free_kind(item, f"free[{i}]")
    return [FreeParameter(item) if isinstance(item, str) else item for item in free]


def read_model_error(value: Any) -> ModelError:
    """Read how far the model is trusted: a word, or a `ModelError`."""
    if value is None:
        return ModelError()
    if isinstance(value, ModelError):
        return value
    word = choice(value, ERRORS, "model_error")
    return ModelError() if word == "whole cut" else _core.slab_model_error()


def read_log(log: Any, plan: Plan, ended: Mapping[str, Quantity] | None, name: str = "log") -> _core.CookLog:
    """Make a log ready: readings of core and pit, counted from the start of the plan, and known stage ends.

    Parameters
    ----------
    log : Log
        With a column ``core``; ``pit`` drives the plan's heated stages where there is one.
    plan : Plan
        Its start time, if it has one, says where the log's clock times lie in it.
    ended : mapping of str to duration, optional
        When stages ended, by their names; otherwise from the log's events and the core.
    name : str
        How messages call the log.
    """
    if isinstance(log, (str, os.PathLike)):
        raise invalid(
            name, log, f"{quoted(log)} came", "a Log is accepted", f"libcook.read_log({quoted(str(log))})"
        )
    if not isinstance(log, Log):
        refuse_type(log, "Log", name)
    if "core" not in log.columns:
        raise invalid(
            f"{name}.core",
            None,
            f"this log has no core temperatures; it has: {', '.join(log.columns)}",
            "name the column of the meat thermometer, as in libcook.read_log(..., core='meat')",
        )
    shift = _shift(log, plan)
    core = np.isfinite(log.core)
    pit = np.isfinite(log.columns["pit"]) if "pit" in log.columns else np.zeros(len(log), bool)
    air = log.columns["pit"][pit] if pit.any() else np.zeros(0)
    _refuse_hot_core(log, air, name)
    return _core.CookLog(
        name,
        (log.time[core] + shift).tolist(),
        log.core[core].tolist(),
        (log.time[pit] + shift).tolist(),
        air.tolist(),
        _ended(log, plan, shift, ended, name),
        log.units == "F",
    )


def read_glances(log: Any, plan: Plan) -> Any:
    """Make a log of a few looks at the thermometer, such as ``{"4 h": "145 °F"}``; a log stays as it is.

    The meat's temperature when it went in is the plan's. The log speaks °F where a look was written in °F.
    """
    if not isinstance(log, Mapping):
        return log
    if not log:
        raise invalid("log", log, "no reading came", "time and core such as {'4 h': '145 °F'} are accepted")
    looks, fahrenheit = {}, False
    for moment, core in log.items():
        at = to_si(moment, "duration", "log: time")
        meant = likely_hours(moment)
        if at <= 0.0 or meant:
            came = f"a look after {quoted(moment)} tells nothing: plain numbers are in s"
            raise invalid("log", log, came, "times since the start such as '4 h' are accepted", meant)
        looks[at] = to_si(core, "temperature", f"log[{quoted(moment)}]", low=-5.0, high=HOTTEST_CORE)
        fahrenheit |= in_fahrenheit(core)
    times = sorted(looks)
    readings = [float(plan.meat.start), *(looks[at] for at in times)]
    return Log([0.0, *times], core=readings, units="F" if fahrenheit else "C")


def _refuse_hot_core(log: Log, air: Any, name: str) -> None:
    """Refuse a core that no meat can have, unless the pit is as hot: then the probe had been pulled."""
    if not np.isfinite(log.core).any():
        return
    at = int(np.nanargmax(log.core))
    hottest, since = float(log.core[at]), format_duration(float(log.time[at] - log.time[0]))
    if hottest > max(HOTTEST_CORE, float(air.max()) + BESIDE_PIT if air.size else 0.0):
        raise invalid(
            f"{name}.core",
            hottest,
            f"{format_degrees(hottest)} after {since} is no core of meat",
            f"readings in °C, up to {HOTTEST_CORE:g} (or the pit's: a pulled probe), are accepted",
            "libcook.units.fahrenheit_to_celsius(...) of readings in °F",
        )


def _shift(log: Log, plan: Plan) -> float:
    """Time of the log's first clock reading in the plan, less its own [s]."""
    start = log.start_clock
    if start is None or plan.start is None:
        return 0.0
    clock = start.time() if isinstance(start, dt.datetime) else start
    seconds = clock.hour * 3600.0 + clock.minute * 60.0 + clock.second + clock.microsecond * 1e-6
    away = (seconds - float(plan.start)) % DAY
    # A log that begins shortly before the meat went in lies before it, not a day after.
    return (away - DAY if away > DAY / 2 else away) - float(log.time[0])


def _ended(
    log: Log, plan: Plan, shift: float, ended: Mapping[str, Quantity] | None, name: str
) -> list[tuple[int, float]]:
    stages = [stage.name for stage in plan.stages]
    marks: dict[int, float] = {}
    for event in log.events:
        index = _stage_ended_by(event, plan)
        if index is not None and 0.0 < event.time + shift <= log.time[-1] + shift and index not in marks:
            marks[index] = event.time + shift
    for stage, moment in _marks(ended).items():
        if stage not in stages:
            raise invalid(
                "ended",
                stage,
                f"{quoted(stage)} is no stage of the plan",
                f"it has: {', '.join(stages)}",
                close(stage, stages),
            )
        marks[stages.index(stage)] = to_si(moment, "duration", f"ended[{quoted(stage)}]", low=1.0)
    return sorted(marks.items())


def _marks(ended: Any) -> Mapping[str, Quantity]:
    if ended is None or isinstance(ended, Mapping):
        return ended or {}
    raise invalid("ended", ended, came_as(ended), "a mapping such as {'smoke': '5 h'} is accepted")


def _stage_ended_by(event: Event, plan: Plan) -> int | None:
    """Say which stage an event brought to its end; one that is only proposed ended none."""
    stages = plan.stages
    words = event.note.casefold().strip()
    if event.source == "proposed":
        return None
    if event.kind == "wrapped":
        for i in range(1, len(stages)):
            if stages[i].wrap.name != "none" and stages[i - 1].wrap.name == "none":
                return i - 1
        return None
    if event.kind == "pulled" or words == "done":
        return int(_core.done_stage(plan))
    for i in range(1, len(stages)):
        if stages[i].name.casefold() == words:
            return i - 1
    return None


def as_list(value: Any, kind: type) -> list[Any]:
    """One of a kind, or several, as a list."""
    return [value] if isinstance(value, kind) or not isinstance(value, Sequence) else list(value)
