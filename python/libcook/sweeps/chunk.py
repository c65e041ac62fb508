"""A part of a sweep: a pure function of its task, so that it can run anywhere, and again."""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import numpy.typing as npt

from libcook._core import Plan, PlanBatch, PlanNumber, Reader, read_many, restore
from libcook._solver_options import solver_options
from libcook.errors import InvalidInput
from libcook.outcome import Outcome
from libcook.simulate_many import Result, simulate_many
from libcook.sweeps.paths import Mass, Thickness
from libcook.sweeps.readings import Reading, read_own
from libcook.sweeps.table import Slice

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

    grid: str = "piece"
    keep_fields: bool = False
    output_every: float = 300.0  # s
    hold: float = 60.0  # °C
    readings: tuple[Reading, ...] = ()
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


def ordered(slices: tuple[Slice, ...]) -> tuple[Slice, ...]:
    """Reshape the piece last: its mass, then its thickness at that mass."""
    ranks = {Mass: 1, Thickness: 2}
    return tuple(sorted(slices, key=lambda part: ranks.get(type(part.slot.targets[0]), 0)))


@dataclass(frozen=True)
class Plans:
    """The plans of a chunk."""

    batch: PlanBatch
    places: list[int]  # which cook of the chunk each is
    failures: list[str]  # of every cook: why its values do not go together, or nothing


def make_plans(task: Task, stopped: Sequence[bool] = ()) -> Plans:
    """Make the plans of a chunk: C++ sets the numbers, Python the rest, once for each combination of it.

    Parameters
    ----------
    task : Task
        Which cooks.
    stopped : sequence of bool
        No longer empty once nobody wants them: then some are left out.
    """
    made = Plans(PlanBatch(), [], [""] * task.count)
    numbers: list[PlanNumber] = []
    columns: list[FloatArray] = []
    others: list[Slice] = []
    for part in ordered(task.slices):
        found = part.slot.in_core(task.plan) if all(type(one) is float for one in part.values) else None
        if found is None:
            others.append(part)
            continue
        given = np.asarray(part.values)
        numbers += found
        columns += [given if part.codes is None else given[list(part.codes)]] * len(found)
    table = np.column_stack(columns) if columns else np.empty((task.count, 0))
    plan = copy.copy(task.plan)
    puts = [part.slot.bound(plan) for part in others]
    for values, cooks in _combinations(others, task.count):
        if stopped:
            break
        restore(plan, task.plan)
        try:
            for put, value in zip(puts, values, strict=True):
                put(value)
        except InvalidInput as error:
            for i in cooks:
                made.failures[i] = f"InvalidInput: {error}"
            continue
        added, refused = made.batch.vary(plan, numbers, table[cooks])
        made.places.extend(cooks[row] for row in added)
        for row, why in refused:
            made.failures[cooks[row]] = why
    return made


def _combinations(others: list[Slice], count: int) -> Iterator[tuple[list[Any], list[int]]]:
    """Yield the values that are no numbers, and the cooks that have them."""
    if not others:
        yield [], list(range(count))
        return
    codes = [range(count) if part.codes is None else part.codes for part in others]
    cooks_of: dict[tuple[int, ...], list[int]] = {}
    for i, code in enumerate(zip(*codes, strict=True)):
        cooks_of.setdefault(code, []).append(i)
    for code, cooks in cooks_of.items():
        yield [part.values[k] for part, k in zip(others, code, strict=True)], cooks


def run_chunk(task: Task, tick: Tick | None = None, plans: Plans | None = None) -> Block:
    """Run the cooks of a chunk and read them; outcomes are dropped as soon as they are read.

    Parameters
    ----------
    task : Task
        Which cooks.
    tick : callable, optional
        Told now and then how many more are done.
    plans : Plans, optional
        Of the task, where they are made already.
    """
    plans = make_plans(task) if plans is None else plans
    failures = list(plans.failures)
    bad = task.count - len(plans.places)
    if tick is not None and bad:
        tick(bad, bad)
    options = task.options
    ours = [one for one in options.readings if isinstance(one.taken, str)]
    reader = Reader([str(one.taken) for one in ours], len(task.plan.stages), options.hold)
    numbers = np.full((task.count, reader.width), np.nan)
    own: dict[str, FloatArray] = {
        one.name: np.full(task.count, np.nan) for one in options.readings if not isinstance(one.taken, str)
    }
    traces: dict[str, list[FloatArray]] = {name: [np.empty(0)] * task.count for name in options.traces}
    block = Block(task.number, {}, traces, failures)
    if own or traces:
        _run_and_look(task, plans, reader, numbers, own, block, tick)
    else:
        solver = solver_options(
            grid=options.grid, keep_fields=options.keep_fields, output_every=options.output_every
        )
        read, reasons = read_many(plans.batch, solver, reader, task.threads or 0, tick)
        numbers[plans.places] = read
        for i, why in zip(plans.places, reasons, strict=True):
            failures[i] = why
    at = 0
    for reading in options.readings:
        if reading.name in own:
            block.values[reading.name] = own[reading.name]
            continue
        width = len(task.plan.stages) if reading.by_stage else 1
        part = numbers[:, at : at + width] if reading.by_stage else numbers[:, at]
        block.values[reading.name] = np.ascontiguousarray(part)
        at += width
    return block


def _run_and_look(
    task: Task,
    plans: Plans,
    reader: Reader,
    numbers: FloatArray,
    own: dict[str, FloatArray],
    block: Block,
    tick: Tick | None,
) -> None:
    """Run cooks whose outcomes Python looks at: for callables of the user's own, and for traces."""
    options = task.options
    callables = [(one.name, one.taken) for one in options.readings if not isinstance(one.taken, str)]

    def done(k: int, result: Result) -> None:
        i = plans.places[k]
        if isinstance(result, Outcome):
            numbers[i] = reader.read(result)
            for name, read in callables:
                own[name][i], why = read_own(name, read, result)
                block.failures[i] = block.failures[i] or why
            for name in options.traces:
                block.traces[name][i] = _trace(result, name, options.output_every)
        else:
            block.failures[i] = f"{type(result).__name__}: {result}"
        if tick is not None:
            tick(1, bool(block.failures[i]))

    simulate_many(
        [plans.batch[k] for k in range(len(plans.batch))],
        grid=options.grid,
        keep_fields=options.keep_fields,
        output_every=options.output_every,
        threads=task.threads,
        done=done,
    )


def _trace(outcome: Outcome, name: str, every: float) -> FloatArray:
    time: Any = outcome.time
    at = np.arange(0.0, np.floor(time[-1] / every) + 1.0) * every
    return np.asarray(np.interp(at, time, getattr(outcome, name)), dtype=np.float64)
