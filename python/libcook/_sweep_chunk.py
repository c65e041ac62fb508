"""A part of a sweep: a pure function of its task, so that it can run anywhere, and again."""

from __future__ import annotations

import copy
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import numpy.typing as npt

from libcook._core import Plan
from libcook._sweep_paths import Mass, Thickness
from libcook._sweep_readings import READINGS, Facts, Reading, read
from libcook._sweep_table import Slice
from libcook.errors import InvalidInput
from libcook.outcome import Outcome
from libcook.simulate_many import Result, simulate_many

FloatArray = npt.NDArray[np.float64]
TRACES = {
    "core": ("degC", "core temperature"),
    "coldest": ("degC", "lowest temperature in the meat"),
    "mean_temperature": ("degC", "volume mean temperature"),
    "air": ("degC", "air temperature around the meat"),
    "mean_water": ("kg/kg", "mean water per dry solids"),
    "tenderness": ("1", "share of collagen converted at the core"),
}


@dataclass(frozen=True)
class Options:
    """How each cook is run and read."""

    grid: str = "slab"
    keep_fields: bool = False
    output_every: float = 300.0  # s
    hold: float = 60.0  # °C
    readings: tuple[
        str | Reading, ...
    ] = ()  # ours by name: their functions are found again on the other side
    traces: tuple[str, ...] = ()


@dataclass(frozen=True)
class Task:
    """Everything that a chunk needs: the plan once, and the values that its cooks differ by."""

    number: int
    count: int
    plan: Plan
    slices: tuple[Slice, ...]
    options: Options
    threads: int | None = 1


@dataclass
class Block:
    """What a chunk computed.

    Attributes
    ----------
    number : int
        Of the chunk; a chunk that ran twice counts once.
    values : dict of str to numpy.ndarray
        Shape (cooks,), or (cooks, stages) for readings of each stage. NaN where there is nothing.
    traces : dict of str to list of numpy.ndarray
        One for each cook, at multiples of the output interval; empty where it failed.
    failures : list of str
        Why there is no result; empty where there is one.
    shown : list of list
        Values of the parameters, for tables without axes.
    """

    number: int
    values: dict[str, FloatArray]
    traces: dict[str, list[FloatArray]]
    failures: list[str]
    shown: list[list[float | str]] = field(default_factory=list)


Tick = Callable[[int, int], None]  # cooks done, and failed of them


def varied(plan: Plan, slices: tuple[Slice, ...], i: int) -> Plan:
    """Make the plan of one cook.

    Raises
    ------
    InvalidInput
        When its values do not go together.
    """
    made = copy.copy(plan)
    for part in slices:
        part.slot.put(made, part.values[i if part.codes is None else part.codes[i]])
    return made


def ordered(slices: tuple[Slice, ...]) -> tuple[Slice, ...]:
    """Reshape the piece last: its mass, then its thickness at that mass."""
    ranks = {Mass: 1, Thickness: 2}
    return tuple(sorted(slices, key=lambda part: ranks.get(type(part.slot.targets[0]), 0)))


def run_chunk(task: Task, tick: Tick | None = None) -> Block:
    """Run the cooks of a chunk and read them; outcomes are dropped as soon as they are read."""
    options = task.options
    readings = [READINGS[one] if isinstance(one, str) else one for one in options.readings]
    stages = len(task.plan.stages)
    block = Block(
        task.number,
        {r.name: np.full((task.count, stages) if r.by_stage else task.count, np.nan) for r in readings},
        {name: [np.empty(0)] * task.count for name in options.traces},
        [""] * task.count,
    )

    def note(i: int, why: str) -> None:
        block.failures[i] = why
        if tick is not None:
            tick(1, 1)

    def done(k: int, result: Result) -> None:
        i = places[k]
        if not isinstance(result, Outcome):
            note(i, f"{type(result).__name__}: {result}")
            return
        facts = Facts(result, options.hold)
        for reading in readings:
            value, why = read(reading, facts)
            block.values[reading.name][i] = value
            block.failures[i] = block.failures[i] or why
        for name in options.traces:
            block.traces[name][i] = _trace(result, name, options.output_every)
        if tick is not None:
            tick(1, bool(block.failures[i]))

    plans: list[Plan] = []
    places: list[int] = []
    slices = ordered(task.slices)
    for i in range(task.count):
        try:
            plans.append(varied(task.plan, slices, i))
        except InvalidInput as error:
            note(i, f"InvalidInput: {error}")
        else:
            places.append(i)
    simulate_many(
        plans,
        grid=options.grid,
        keep_fields=options.keep_fields,
        output_every=options.output_every,
        threads=task.threads,
        done=done,
    )
    return block


def _trace(outcome: Outcome, name: str, every: float) -> FloatArray:
    time: Any = outcome.time
    at = np.arange(0.0, np.floor(time[-1] / every) + 1.0) * every
    return np.asarray(np.interp(at, time, getattr(outcome, name)), dtype=np.float64)
