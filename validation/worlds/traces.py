"""Measured traces warped: no physics but that a hotter pit runs the clock faster.

A trace is the course of a measured cook of brisket or pork with at least four readings, followed to HOT
or above, over its own length. Before its first reading the climb of H02, the cook that was read most
often there, is put in. A new cook takes one at random (a wrapped one if it is to be wrapped), stretches
it to a length drawn lognormally about the regression of `worlds.field`, bends its time and its level,
and runs through it by monotone cubics (PCHIP): the stall stays. Tuned: levels are factors on the
regression's median, the spread that of the length.

ln(time until done) of 200 cooks about the field's regression, by `python -m worlds.tune`: median +0.02,
scatter 0.26; measured cooks scatter by 0.25 (brisket) and 0.35 (pork).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from scipy.interpolate import PchipInterpolator

from . import field
from .cook import Array, Cook
from .setting import LONGEST, STEP, Scale, Setting, Truth, invent

NUMBER = 4
SCALE = Scale(brisket=1.0245, pork=1.0260, spread=0.244)
READINGS = 4
RISE_BY = "H02"
RISE_TO = 60.0  # °C: below, a trace without readings takes the climb of RISE_BY
RISE_KG = 1.0 / 3.0  # power of the mass in the time of the climb
BEND, LEVEL = 0.12, 2.0  # of ln(time) in mid-cook; K in mid-cook
USUAL = 12 * 60  # steps over which the pit is averaged for the length
IDLE = 60.0  # °C of a pit at which the clock stands still
MARGIN = 3.0  # K beyond the target that a trace is continued to
SLOWEST = 1.0  # K/h of that continuation at least, for a display to get there


@dataclass(frozen=True, eq=False)
class Trace:
    """Knots over the share of the cook, 1 at its last reading; a wrap as the share at which it was done."""

    name: str
    share: Array
    core: Array
    wrapped: float | None  # share at which it was wrapped
    kind: str


def _climb(mass: float, start: float) -> tuple[Array, Array]:
    """The first hours of RISE_BY for another mass and start [h, °C]."""
    donor = next(one for one in field.measured() if one.name == RISE_BY)
    time = np.concatenate([[0.0], donor.time[:5]])
    core = np.concatenate([[donor.start], donor.core[:5]])
    part = (core - core[0]) / (RISE_TO - core[0])
    keep = part <= 1.1
    return time[keep] * (mass / donor.mass) ** RISE_KG, start + part[keep] * (RISE_TO - start)


def _trace(one: field.Measured) -> Trace:
    time, core = np.concatenate([[0.0], one.time]), np.concatenate([[one.start], one.core])
    rise_time, rise_core = _climb(one.mass, one.start)
    late = 0.55 * one.time[0] / rise_time[-1]  # the climb is over well before a late first reading
    rise_time = rise_time * min(late, 1.0)
    new = (
        (rise_core < one.core[0] - 5.0) & (rise_core > one.start)
        if one.core[0] > RISE_TO
        else rise_core < -99.0
    )
    time, core = np.concatenate([time, rise_time[new]]), np.concatenate([core, rise_core[new]])
    order = np.argsort(time)
    time, core = time[order], np.maximum.accumulate(core[order])
    wraps = [wrap for wrap in one.wraps if 0.0 < wrap[0] < one.time[-1]]
    at, kind = (wraps[0][0] / one.time[-1], wraps[0][1]) if wraps else (None, "")
    return Trace(one.name, time / one.time[-1], core, at, "foil" if "foil" in kind else kind)


@cache
def traces() -> tuple[Trace, ...]:
    """The measured traces, in the order of the file."""
    return tuple(
        _trace(one) for one in field.measured() if one.time.size >= READINGS and one.core[-1] >= field.HOT
    )


def course(
    trace: Trace, target: float, start: float, bend: float, level: float
) -> tuple[Array, Array, float]:
    """Knots (time, core) of the warped trace, from the start to beyond the target.

    Times are shares of that at which the target is reached; last, the time of the wrap, infinite without one.
    """
    power = float(np.exp(bend))
    share = trace.share**power
    part = (trace.core - trace.core[0]) / (trace.core[-1] - trace.core[0])
    core = start + part * (trace.core[-1] - start) + level * 4.0 * part * (1.0 - part)
    last = max(float((core[-1] - core[-2]) / (share[-1] - share[-2])), 12.0 * SLOWEST)
    beyond = max(target, float(core[-1])) + MARGIN
    share, core = np.append(share, share[-1] + (beyond - core[-1]) / last), np.append(core, beyond)
    core = np.maximum.accumulate(core + 1e-3 * np.arange(core.size))
    reached = float(np.interp(target, core, share))
    return share / reached, core, np.inf if trace.wrapped is None else trace.wrapped**power / reached


def truth(setting: Setting, scale: Scale, dice: np.random.Generator) -> Truth:
    """The core, minute by minute."""
    those = [one for one in traces() if one.kind == setting.wrap_kind]
    trace = those[int(dice.integers(len(those)))]
    pick = dice.standard_normal(2)
    share, core, wrap = course(
        trace, setting.target - setting.bias, setting.start, BEND * pick[0], LEVEL * pick[1]
    )
    inside = max(1.0 - wrap, 0.0)
    foil, paper = (inside if trace.kind == kind else 0.0 for kind in ("foil", "butcher paper"))
    pit = float(setting.air[:USUAL].mean())
    hours = scale.draw(setting.cut, dice)
    hours *= field.pace().hours(setting.cut, setting.mass, pit, setting.target, foil, paper)
    clock = np.maximum(setting.air[:LONGEST] - IDLE, 0.0) / (pit - IDLE)
    run = np.concatenate([[0.0], np.cumsum(clock)]) * STEP / (3600.0 * hours)
    run = run[: int(np.searchsorted(run, share[-1])) + 1]
    out = np.asarray(PchipInterpolator(share, core)(np.minimum(run, share[-1])))
    return Truth(out, (int(np.searchsorted(run, wrap)),) if wrap < run[-1] else ())


def make(seed: int, scale: Scale = SCALE, cut: str | None = None) -> Cook:
    """The cook of this seed."""
    return invent(seed, NUMBER, truth, scale, cut)
