"""Invented cooks for the study of honesty: hidden numbers, a wandering pit, a log with noise."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

import libcook as lc
from libcook import _core

EVERY = 60.0  # s between readings
NOISE = 0.3  # K of a reading
LEVEL, RIPPLE, RIPPLE_TIME = 3.0, 3.0, 1200.0  # K, K, s: how a pit keeps to its set point
PROBE_SHARE = 0.3  # of the length of a cross-section, from the flat end: where the probe is pushed in


@dataclass(frozen=True)
class Cook:
    """One invented cook."""

    plan: lc.Plan  # what the cook believes
    hidden: dict[str, float]  # what is really so; of a section: thickness where the probe is
    log: lc.Log
    wrapped: float  # s
    done: float  # s
    mass: float  # kg
    target: float  # °C


def _air(set_point: float, random: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """A pit: a level off its set point, and a first-order autoregression about it."""
    time = np.arange(0.0, 60 * 3600.0, 600.0)
    memory = np.exp(-600.0 / RIPPLE_TIME)
    off, air = 0.0, np.empty(time.size)
    level = LEVEL * random.standard_normal()
    for i in range(time.size):
        off = memory * off + RIPPLE * np.sqrt(1.0 - memory**2) * random.standard_normal()
        air[i] = set_point + level + off
    return time, air


def _plan(random: np.random.Generator) -> lc.Plan:
    place = lc.pit("drum", air=107.0 + 18.0 * random.random())
    wrap = "butcher paper" if random.random() < 0.7 else "foil"
    return lc.Plan(
        lc.brisket(mass=4.0 + 3.0 * random.random()),
        [
            lc.Stage("smoke", place, until=lc.core(66.0 + 8.0 * random.random())),
            lc.Stage("wrapped", place, wrap=wrap, until=lc.core(92.0 + 3.0 * random.random())),
        ],
    )


def _draw(plan: lc.Plan, seed: int) -> dict[str, float]:
    """Hidden numbers, from what the library believes of them beforehand, jointly."""
    drawn = lc.belief(plan).draw(1, seed=seed)
    return {name: float(value) for name, value in zip(drawn.names, drawn.values[0], strict=True)}


def make(seed: int, section: bool) -> Cook:
    """Invent a cook; of a section, its slab is as thick as the piece is where the probe is."""
    random = np.random.default_rng(seed)
    asked = _plan(random)
    hidden = _draw(asked, seed)
    truth = asked.__copy__()
    for name, value in hidden.items():
        if not (name == "pit_offset" or (section and name == "probe_distance")):
            truth = _core.with_value(truth, name, value)
    time, air = _air(float(asked.stages[0].surroundings.air.at(0.0)), random)
    for stage in truth.stages:
        stage.surroundings.air = (time, air + hidden["pit_offset"])
    if section:
        shape = lc.brisket_section(truth.meat)
        at = PROBE_SHARE * shape.length
        thick = shape.thickness_at(at)
        hidden["probe_distance"] = min(hidden["probe_distance"], 0.45 * thick)  # stays inside
        for stage in truth.stages:
            stage.probe = lc.Probe("tip", x=at, z=0.5 * thick + hidden["probe_distance"])
        share = thick / truth.meat.shape.thickness
        hidden["thickness"] *= share
        asked = _core.with_value(asked, "thickness", share * asked.meat.shape.thickness)
    out = lc.simulate(truth, grid="cross-section" if section else "piece", keep_fields=False)
    wrapped, done = (float(end.time) for end in out.stage_ends)
    readings = np.arange(0.0, done, EVERY)
    core = np.interp(readings, out.time, out.core) + NOISE * random.standard_normal(readings.size)
    pit = np.interp(readings, time, air) + NOISE * random.standard_normal(readings.size)
    log = lc.Log(time=readings, core=core, pit=pit)
    target = float(asked.stages[1].until[0].value)
    return Cook(asked, hidden, log, wrapped, done, float(truth.meat.mass), target)


def until(cook: Cook, time: float) -> tuple[lc.Log, dict[str, float]]:
    """The log as far as it had come, and the stages that had ended."""
    keep = cook.log.time <= time
    log = lc.Log(time=cook.log.time[keep], core=cook.log.core[keep], pit=cook.log.pit[keep])
    return log, {"smoke": cook.wrapped} if cook.wrapped <= time else {}


def straight_line(log: lc.Log, target: float) -> float:
    """What a cook does without a model: the last hour's slope goes on until it is done [s]."""
    last = log.time >= log.time[-1] - 3600.0
    slope, height = np.polyfit(log.time[last] - log.time[-1], log.core[last], 1)
    return float(log.time[-1] + (target - height) / slope) if slope > 0.0 else float("inf")
