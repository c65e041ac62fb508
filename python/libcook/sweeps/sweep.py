"""One plan, many cooks: what changes when its numbers do."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import Executor
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, TypeAlias, overload

from libcook._core import Plan
from libcook._solver_options import options_as_arguments, solver_options
from libcook.arguments.door import door
from libcook.arguments.optional import need
from libcook.arguments.plain import choice, count, items
from libcook.arguments.quantity import PathName, Quantity, Word
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.sweeps.chunk import TRACES, Block, Options, Task
from libcook.sweeps.layout import Layout, clashing, make_layout
from libcook.sweeps.manifest import read_manifest
from libcook.sweeps.progress import Progress
from libcook.sweeps.readings import READINGS, chosen
from libcook.sweeps.result import SweepWarning, assemble, warn_of_failures
from libcook.sweeps.run import check_readings, run
from libcook.sweeps.sample import Sample, sample
from libcook.sweeps.size import Size
from libcook.sweeps.store import Store
from libcook.sweeps.table import Table, read_table
from libcook.units import to_si

if TYPE_CHECKING:
    import pandas as pd
    import xarray as xr

__all__ = ["Sample", "SweepWarning", "read_sweep", "sample", "sweep", "sweep_readings"]

Parameters: TypeAlias = "Mapping[str, Any] | Sample | pd.DataFrame"
# Cooks of a chunk, for each thread: seconds of work at most, and little to lose; but many times the eight
# lanes of its pack, which empty one by one at the end.
_FOR_EACH_THREAD = {"piece": 512, "slab": 512, "cross-section": 8}
_SHARES = 32  # chunks at least for an executor, so that a small sweep too keeps several workers busy


@overload
def sweep(
    plan: Plan,
    parameters: Parameters,
    *,
    readings: Any = ...,
    traces: str | Sequence[str] = ...,
    hold: Quantity = ...,
    grid: Word = ...,
    output_every: Quantity = ...,
    keep_fields: bool = ...,
    workers: int | Executor | Any | None = ...,
    to: str | os.PathLike[str] | None = ...,
    load: Literal[True] = ...,
    chunk: int | None = ...,
    progress: bool | Callable[[int, int], None] | None = ...,
) -> xr.Dataset: ...
@overload
def sweep(
    plan: Plan,
    parameters: Parameters,
    *,
    readings: Any = ...,
    traces: str | Sequence[str] = ...,
    hold: Quantity = ...,
    grid: Word = ...,
    output_every: Quantity = ...,
    keep_fields: bool = ...,
    workers: int | Executor | Any | None = ...,
    to: str | os.PathLike[str],
    load: Literal[False],
    chunk: int | None = ...,
    progress: bool | Callable[[int, int], None] | None = ...,
) -> Path: ...
@door
def sweep(
    plan: Plan,
    parameters: Parameters,
    *,
    readings: Any = None,
    traces: str | Sequence[str] = (),
    hold: Quantity = "60 °C",
    grid: Word = "piece",
    output_every: Quantity = "5 min",
    keep_fields: bool = False,
    workers: int | Executor | Any | None = None,
    to: PathName | None = None,
    load: bool = True,
    chunk: int | None = None,
    progress: bool | Callable[[int, int], None] | None = None,
) -> xr.Dataset | Path:
    """Cook a plan many times with other values, and read each cook; needs xarray.

    Cooks that fail, such as one whose end is never reached, are NaN, with the reason in ``failure``; a
    `SweepWarning` counts them.

    Parameters
    ----------
    plan : Plan
        What all cooks have in common; not changed.
    parameters : mapping of str to list, Sample or pandas.DataFrame
        What varies. A mapping of paths to lists makes the full grid. A `sample`, or a DataFrame with a column
        for each path, makes a row of cooks.

        A path names an attribute of the plan: ``"stages[0].until"``, ``"stages.wrapped.wrap"``,
        ``"stages['wrapped'].surroundings.air"``, ``"meat.tissue.mobility.expressed"``.
        Shortcuts: ``"pit.air"``, ``"pit.vapour_pressure"`` and so on, for the surroundings of every stage on
        the heat (not on a counter, in an insulated box or a holding oven); ``film`` for both faces, as in
        ``"pit.film"``; ``"meat.thickness"``, with the mass kept; and ``"meat.mass"``, of a piece of the same
        proportions.

        Values are what the attribute takes: ``"250 °F"``, ``lc.core("165 °F")``, ``"foil"``, a log. Where a
        stage has one end condition, a quantity is enough: ``"165 °F"``. Named ones are a mapping:
        ``{"calm": log, "windy": other}``.
    readings : None, str, mapping or sequence of these
        What is kept of each cook: all of `sweep_readings` by default, or the names of some of them, and
        callables of your own that take the outcome: ``["finish_time", {"core at 5 h": lambda out:
        out.core_at("5 h")}]``, or with units ``{"core at 5 h": (function, "degC")}``.
    traces : str or sequence of str
        Courses in time to keep as well, on a common time axis: ``"core"``, ``"coldest"``,
        ``"mean_temperature"``, ``"air"``, ``"mean_water"``, ``"tenderness"``. NaN after the end of a cook.
    hold : float, str or pint.Quantity
        Holding temperature of the reading ``held``: 60 °C is common practice, no source.
    grid, keep_fields
        As for `simulate`. Some callables, such as one that reads a probe in a slab, need the fields.
    output_every : float, str or pint.Quantity
        Spacing of the times that the readings see, and of the traces; a plain number is in s. Ends of stages
        are found exactly; the stall moves by a fraction of the spacing.
    workers : int, concurrent.futures.Executor, distributed.Client or None
        How many threads; None: all cores. Or an executor, which runs chunks: a thread or process pool, or
        a Dask client (or its ``get_executor()``). The result does not depend on it.
    to : str or path, optional
        Folder to write to, one Parquet file for each chunk (needs pyarrow), each whole or not there. A call
        with the same arguments goes on where another one stopped; another sweep's folder is refused, and so
        is one that another call, in this process or another, is writing into.
        Callables are told apart by their code, not by what it calls.
    load : bool
        With ``to``: whether to read all of it into memory in the end; False returns the folder, for
        `read_sweep`, and memory holds no more than a few chunks.
    chunk : int, optional
        Cooks that are run, sent and written together; by default 512 (8 in cross-sections) for each thread,
        for an executor 1024 (16), but at most a 32nd of all.
    progress : bool, callable or None
        None: a bar of tqdm in a terminal or a notebook, if it is installed. A callable is given (done, total)
        for each cook, in bursts many times a second; with an executor once for each chunk.

    Returns
    -------
    xarray.Dataset or pathlib.Path
        Dimensions are the paths of a grid, or ``cook``; ``stage`` and ``time`` where needed. Every variable
        has ``units`` (SI, degC) and ``long_name``. ``attrs`` counts cooks, and those that failed.

    Raises
    ------
    InvalidInput
        Before any work: for a path that does not exist (with the nearest), a value that cannot be there, an
        unknown reading, a folder of another sweep, or one that is in use; for more than 100,000,000 cooks, or
        more than fit into memory, with the size that the result would have.
    KeyboardInterrupt
        After a Ctrl-C. Its ``partial`` is the data set of the chunks that were done; with ``to`` they are on
        disk, and the same call goes on. Other errors during the run, such as a broken process pool, carry
        ``partial`` too.
    ImportError
        When a package is missing: ``pip install 'libcook[sweep]'`` brings all.

    Examples
    --------
    >>> import libcook as lc
    >>> pit = lc.pit("drum", air="250 °F")
    >>> plan = lc.Plan(lc.brisket(), [lc.Stage("smoke", pit, until=lc.core("165 °F"))])
    >>> found = lc.sweep(plan, {"pit.air": ["225 °F", "275 °F"], "stages.smoke.until": ["160 °F", "165 °F"]})
    >>> found.finish_time.shape
    (2, 2)
    """
    need("xarray", "sweep", "sweep")
    wanted = chosen(readings)
    with options_as_arguments():
        solved_on = solver_options(grid=grid).grid
    numbers = sum(len(plan.stages) if one.by_stage else 1 for one in wanted)
    table = read_table(plan, parameters, Size(numbers, solved_on, load))
    clash = clashing(table, wanted)
    if clash:
        raise invalid(f"readings[{quoted(clash)}]", clash, "that name is taken", "another name is accepted")
    options = Options(
        solved_on,
        keep_fields,
        to_si(output_every, "duration", "output_every", low=1.0, high=86400.0),
        to_si(hold, "temperature", "hold", low=0.0, high=100.0),
        wanted,
        tuple(choice(one, tuple(TRACES), "traces") for one in _several(traces, "traces")),
    )
    executor, threads = _workers(workers)
    if executor is not None:
        check_readings(wanted, executor)
    if not load and to is None:
        raise invalid("load", load, "load=False came without a folder", "it is accepted with to='folder'")
    layout = make_layout(plan, table, wanted, options, _chunk(chunk, table, options.grid, executor, threads))
    store = None if to is None else Store.begin(Path(to), layout, chunk is not None)
    with contextlib.nullcontext() if store is None else contextlib.closing(store):
        dataset = _swept(plan, table, layout, options, threads, executor, store, load, progress)
    if isinstance(dataset, Path):
        return dataset
    warn_of_failures(dataset)
    return dataset


def _swept(
    plan: Plan,
    table: Table,
    layout: Layout,
    options: Options,
    threads: int | None,
    executor: Executor | None,
    store: Store | None,
    load: bool,
    progress: Any,
) -> xr.Dataset | Path:
    layout = layout if store is None else store.layout
    blocks: dict[int, Block] = {}
    done = set() if store is None else store.done()

    def keep(block: Block) -> None:
        if not layout.is_grid or store is not None:
            first, stop = layout.span(block.number)
            block.shown = [table.shown(i, first, stop) for i in range(len(table.columns))]
        if store is None:
            blocks[block.number] = block
        else:
            store.write(block)

    def so_far() -> xr.Dataset:
        return assemble(layout, blocks.values() if store is None else _stored(store))

    there = sum(stop - first for first, stop in map(layout.span, done))
    try:
        with Progress(layout.cooks, there, progress) as shown:
            run(_tasks(plan, table, layout, options, threads, done), executor, shown, keep)
    except (KeyboardInterrupt, Exception) as error:
        error.partial = so_far() if load else store and store.folder  # type: ignore[union-attr]
        raise
    if store is not None:
        store.tidy()
        if not load:
            return store.folder
    return so_far()


@door
def read_sweep(folder: PathName, readings: Sequence[str] | str | None = None) -> xr.Dataset:
    """Read what `sweep` wrote to a folder, whole or not; needs xarray and pyarrow.

    Parameters
    ----------
    folder : str or path
        Given to `sweep` as ``to``.
    readings : str or sequence of str, optional
        Which readings (and traces, such as ``"core_trace"``) to read; all by default.

    Returns
    -------
    xarray.Dataset
        As from `sweep`. Cooks that were not run are NaN, and their ``failure`` says so.

    Raises
    ------
    InvalidInput
        When it is no such folder, a file in it was changed since (which it names), or a reading is not in it.
    """
    layout = read_manifest(Path(folder), "folder")
    numbers = sum(len(layout.stages) if one.by_stage else 1 for one in layout.readings)
    Size(numbers, "piece", True).check(layout.shape, "folder")
    there = [one.name for one in (*layout.readings, *layout.traces)]
    names = there if readings is None else _several(readings, "readings")
    for name in names:
        choice(name, there, "readings")
    return assemble(layout, _stored(Store(Path(folder), layout, "folder"), names), set(names))


def sweep_readings() -> dict[str, str]:
    """Return the readings of `sweep`, with what each one is and its units.

    Examples
    --------
    >>> sweep_readings()["finish_time"]
    'end of the last stage on the heat [s]'
    """
    return {name: f"{one.long_name} [{one.units}]" for name, one in READINGS.items()}


def _several(given: Any, field: str) -> list[Any]:
    return [given] if isinstance(given, str) else items(given, field, "names are accepted")


def _stored(store: Store, names: Sequence[str] | None = None) -> Iterator[Block]:
    for number in store.there():
        block = store.read(number, names)
        if block is not None:
            yield block


def _workers(given: Any) -> tuple[Executor | None, int | None]:
    """Tell executors from numbers of threads."""
    if given is None:
        return None, None
    if hasattr(given, "get_executor"):  # a Dask client, whose own submit() gives other futures
        return given.get_executor(pure=False), 1
    if hasattr(given, "submit") and hasattr(given, "shutdown"):
        return given, 1
    threads = count(given, "workers")
    if threads < 1:
        raise invalid("workers", given, f"{given} came", "1 thread and more, or an executor, is accepted")
    return None, threads


def _chunk(
    given: int | None, table: Table, grid: Word, executor: Executor | None, threads: int | None
) -> int:
    if given is None:
        if executor is not None:
            return min(2 * _FOR_EACH_THREAD[grid], -(-table.cooks // _SHARES))
        return min(max(2, threads or os.cpu_count() or 1) * _FOR_EACH_THREAD[grid], table.cooks)
    size = count(given, "chunk")
    if size < 1:
        raise invalid("chunk", given, f"{given} came", "1 cook and more is accepted")
    return size


def _tasks(
    plan: Plan, table: Table, layout: Layout, options: Options, threads: int | None, done: set[int]
) -> Iterator[Task]:
    for number in range(layout.chunks):
        if number not in done:
            first, stop = layout.span(number)
            yield Task(number, stop - first, plan, table.slices(first, stop), options, threads)
