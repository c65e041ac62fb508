"""What fits, forecasts and schedules take: logs, names of free parameters, one or several of a kind."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from libcook import _core
from libcook._coerce import refuse_type
from libcook._core import FreeParameter, Plan
from libcook._quantity import Quantity
from libcook.errors import invalid
from libcook.logs import Log
from libcook.units import to_si


def free_names() -> list[str]:
    """Return the names of the quantities that a log can teach."""
    return list(_core.free_parameter_names())


def free_parameters(free: Any) -> list[FreeParameter]:
    """Read what is to be fitted: names and parameters."""
    if isinstance(free, (str, FreeParameter)):
        free = [free]
    return [one if isinstance(one, FreeParameter) else FreeParameter(str(one)) for one in free]


def cook_log(plan: Plan, log: Log, stage_ends: Sequence[Quantity] | None = None) -> _core.CookLog:
    """Turn a `Log` into what the core compares with.

    Parameters
    ----------
    plan : Plan
        What was cooked.
    log : Log
        With a column ``core``.
    stage_ends : sequence of durations, optional
        When the stages ended, as far as known; by default from the log's events.

    Returns
    -------
    CookLog
    """
    if not isinstance(log, Log):
        refuse_type(log, "Log", "log")
    core = log["core"]
    pit = log.columns.get("pit", np.empty(0))
    seen = np.isfinite(core)
    if not seen.any():
        raise invalid("log.core", None, "no core reading came", "at least one is needed")
    keep = log.time >= 0.0
    if keep.sum() < 2:
        raise invalid("log.time", None, "fewer than two readings after the start of the plan came")
    if pit.size and not np.isfinite(pit[keep]).any():
        pit = np.empty(0)
    if stage_ends is not None:
        ends = [to_si(end, "duration", f"stage_ends[{i}]") for i, end in enumerate(stage_ends)]
    else:
        ends = _ends_from_events(plan, log)
    return _core.CookLog(
        log.time[keep], core[keep], pit[keep] if pit.size else pit, np.asarray(ends, dtype=float)
    )


def _ends_from_events(plan: Plan, log: Log) -> list[float]:
    """Return stage ends by the events: "wrapped" ends the last bare stage, "pulled" the last hot one."""
    stages = list(plan.stages)
    marks: dict[int, float] = {}
    wrapped = next((i for i, one in enumerate(stages) if one.wrap.name != "none"), 0)
    for when, what in log.events:
        word = what.casefold()
        if "wrap" in word and "unwrap" not in word and wrapped > 0:
            marks.setdefault(wrapped - 1, when)
        elif "pull" in word:
            hot = [i for i, one in enumerate(stages) if _is_hot(one)]
            marks.setdefault(hot[-1] if hot else len(stages) - 1, when)
    ends: list[float] = []
    for i in range(len(stages)):
        if i in marks and marks[i] > (ends[-1] if ends else 0.0):
            ends.append(marks[i])
            continue
        if not any(later in marks for later in range(i, len(stages))):
            break
        # What happened before an event but has none of its own: as the core's readings show.
        shown = _core.observed_stage_ends(
            plan, _core.CookLog(log.time, log["core"], np.empty(0), np.asarray(ends))
        )
        if len(shown) <= i:
            break
        ends.append(shown[i])
    return ends


def _is_hot(stage: _core.Stage) -> bool:
    return stage.surroundings.box is None and max(np.atleast_1d(stage.surroundings.air.value)) >= 60.0


def several(value: Any, kind: type, field: str) -> list[Any]:
    many = [value] if isinstance(value, kind) else list(value) if isinstance(value, Sequence) else None
    if not many or not all(isinstance(one, kind) for one in many):
        refuse_type(value, kind.__name__, field)
    return many
