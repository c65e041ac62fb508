"""One forecast to make: what a user would know at a moment of a cook, and when it was really done."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from fieldwork import cooks as field_cooks
from fieldwork.cooks import HOUR, Field

import libcook as lc

SHARES = (0.25, 0.5, 0.75)  # of a cook at which it is forecast
NEAR_THE_END = 0.97  # of a cook: there is nothing left to forecast
WARMER = 1.0  # K below the target at which a cook counts as done


@dataclass(frozen=True)
class Case:
    """A forecast to make."""

    cook: str
    share: float  # of the cook's length that has passed at the last reading allowed; 0: before any reading
    plan: lc.Plan
    log: lc.Log | Mapping[str, str] | None
    now: float  # the last reading [h]
    done: float  # [h]
    core: float  # at the last reading [°C]
    target: float  # [°C]

    @property
    def left(self) -> float:
        """Time left [h]."""
        return self.done - self.now


def of_field(cook: Field, share: float) -> Case | None:
    """A measured cook's readings up to a share of its length; None where there are none, or it was done.

    Its pit is known to the end, as a set point is; the last reading is the target.
    """
    done, target = float(cook.time[-1]), float(cook.core[-1])
    count = int(np.sum(cook.time[:-1] <= share * done + 1e-9))
    if share > 0.0 and (count == 0 or cook.core[:-1].max() >= target - WARMER):
        return None
    plan = field_cooks.plan(cook)
    stages = list(plan.stages)
    stages[-1] = stages[-1].replace(until=lc.core(target))
    plan = lc.Plan(plan.meat, stages)
    seen = list(zip(cook.time[:count], cook.core[:count], strict=True)) if share > 0.0 else []
    log: Any = None
    if seen and cook.start_known:
        at = np.array([0.0, *(t for t, _ in seen)])
        log = lc.Log(
            time=at * HOUR,
            core=np.array([cook.start, *(c for _, c in seen)]),
            pit=np.interp(at, cook.pit_time, cook.pit),
        )
    elif seen:
        log = {f"{t:.6g} h": f"{c:.6g} °C" for t, c in seen}
    now, core = (float(v) for v in seen[-1]) if seen else (0.0, cook.start)
    return Case(cook.name, share, plan, log, now, done, core, target)


def at_shares(cooks: Sequence[Field], shares: Sequence[float] = SHARES) -> list[Case]:
    """Every cook at each share of its length."""
    found = (of_field(cook, share) for share in shares for cook in cooks)
    return [case for case in found if case is not None]


def at_readings(cooks: Sequence[Field]) -> list[Case]:
    """Every cook at each of its readings but the last."""
    found = []
    for cook in cooks:
        for k in range(1, len(cook.time)):
            seen = replace(
                cook,
                time=np.append(cook.time[:k], cook.time[-1]),
                core=np.append(cook.core[:k], cook.core[-1]),
            )
            share = float(cook.time[k - 1] / cook.time[-1])
            case = of_field(seen, share) if share < NEAR_THE_END else None
            if case is not None:
                found.append(case)
    return found


def of_world(name: str, cook: Any, share: float) -> Case | None:
    """A cook of another world at a share of its length, as its cook knows it.

    Known are cut, mass, cooker, set point (the middle of what the pit showed), the wraps that were planned,
    and the thermometers so far.
    """
    now = share * cook.done
    place = (
        lc.oven(float(np.median(cook.pit_C)))
        if cook.cooker == "oven"
        else lc.pit(cook.cooker, air=float(np.median(cook.pit_C)))
    )
    stages, begun, wrap = [], 0.0, "none"
    for k, one in enumerate(cook.wraps):
        until = lc.elapsed(one.at - begun) if one.core_C is None else lc.core(one.core_C)
        stages.append(lc.Stage(f"part {k + 1}", place, wrap=wrap, until=until))
        begun, wrap = one.at, one.kind
    stages.append(lc.Stage("last part", place, wrap=wrap, until=lc.core(cook.target_C)))
    make = lc.brisket if cook.cut == "brisket" else lc.pork_shoulder
    plan = lc.Plan(make(mass=cook.mass_kg, start=float(np.clip(cook.start_C, -1.0, 29.0))), stages)
    if share == 0.0:
        return Case(name, share, plan, None, 0.0, cook.done / HOUR, cook.start_C, cook.target_C)
    core = (cook.core_time <= now) & np.isfinite(cook.core_C)
    pit = (cook.pit_time <= now) & np.isfinite(cook.pit_C)
    if core.sum() < 2 or cook.core_C[core].max() >= cook.target_C:
        return None
    at = cook.core_time[core]
    log = lc.Log(
        time=at, core=cook.core_C[core], pit=np.interp(at, cook.pit_time[pit], cook.pit_C[pit])
    )  # gaps of the pit's thermometer are joined
    return Case(
        name,
        share,
        plan,
        log,
        float(at[-1]) / HOUR,
        cook.done / HOUR,
        float(cook.core_C[core][-1]),
        cook.target_C,
    )
