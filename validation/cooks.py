"""Default cooks that several cases run, and how slowly their core creeps."""

from __future__ import annotations

from functools import cache

import numpy as np

import libcook as lc


@cache
def drum(pit: float, wrap: str = "none", wrap_core: float = 68.0, finish: float = 93.0) -> lc.Outcome:
    """A 6 kg brisket with default parameters in a drum, wrapped at a core temperature if at all."""
    place = lc.pit("drum", air=pit)
    stages = [lc.Stage("smoke", place, until=lc.core(finish if wrap == "none" else wrap_core))]
    if wrap != "none":
        stages.append(lc.Stage("wrapped", place, wrap=wrap, until=lc.core(finish)))
    return lc.simulate(lc.Plan(lc.brisket(mass=6.0), stages))


def hours(out: lc.Outcome) -> float:
    return float(out.stage_ends[-1].time / 3600.0)


def slow_hours(out: lc.Outcome, low: float, high: float, limit: float = 3.0) -> float:
    """Time [h] that the core, between two temperatures, warms by less than `limit` [K/h], over half hours."""
    time, core = np.asarray(out.time), np.asarray(out.core)
    rate = (np.interp(time + 900.0, time, core) - np.interp(time - 900.0, time, core)) / 0.5
    slow = (rate < limit) & (core > low) & (core < high) & (time > 900.0) & (time < time[-1] - 900.0)
    return float(np.sum(np.diff(time)[slow[1:]]) / 3600.0)
