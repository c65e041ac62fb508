"""Runs the chunks of a sweep, here in threads or through an executor, each chunk counted once."""

from __future__ import annotations

import _thread
import pickle
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import (
    FIRST_COMPLETED,
    Executor,
    Future,
    ProcessPoolExecutor,
    wait,
)

from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.sweeps.chunk import Block, Plans, Task, make_plans, run_chunk
from libcook.sweeps.progress import Progress
from libcook.sweeps.readings import Reading

_AHEAD = (
    64  # chunks handed to an executor at a time: enough for any cluster of some dozen cores, little to hold
)


class _Ahead:
    """Work on a thread of its own.

    NOTE: none of the means of `threading` or `concurrent.futures` to wait: a KeyboardInterrupt that comes
    just as these have taken one of their locks leaves it locked, and the thread, and all that wait for it,
    hang. Here a lost or doubled wake-up costs a moment.
    """

    def __init__(self, begun: list[_Ahead], work: Callable[[], tuple[Task, Plans] | None]) -> None:
        self._work = work
        self._made: tuple[Task, Plans] | None = None
        self._error: BaseException | None = None
        self._over = False
        self._gate = _thread.allocate_lock()
        self._gate.acquire()
        begun.append(self)
        _thread.start_new_thread(self._run, ())

    def _run(self) -> None:
        try:
            self._made = self._work()
        except BaseException as error:
            self._error = error
        finally:
            self._over = True
            self._gate.release()

    def wait(self) -> None:
        """Return when it is over."""
        while not self._over:
            self._gate.acquire(timeout=0.05)

    def result(self) -> tuple[Task, Plans] | None:
        """Return what was made, or raise what was raised."""
        self.wait()
        if self._error is not None:
            raise self._error
        return self._made


def run_here(tasks: Iterable[Task], progress: Progress) -> Iterator[Block]:
    """Run chunks one after the other, the cooks of each in threads; one more makes the next chunk's plans."""
    waiting = iter(tasks)
    stopped: list[bool] = []
    begun: list[_Ahead] = []

    def following() -> tuple[Task, Plans] | None:
        task = next(waiting, None)
        return None if task is None else (task, make_plans(task, stopped))

    try:
        ahead = _Ahead(begun, following)
        while (made := ahead.result()) is not None:
            begun.clear()
            ahead = _Ahead(begun, following)
            yield run_chunk(made[0], progress.add_each, made[1])
    finally:
        stopped.append(True)
        for one in begun:
            one.wait()


def run_elsewhere(tasks: Iterable[Task], executor: Executor, progress: Progress) -> Iterator[Block]:
    """Run chunks through an executor; yields them as they come.

    A chunk that the executor runs again after it lost a worker comes once, because its future does. What is
    still to run is taken back when this ends early.
    """
    waiting = iter(tasks)
    running: dict[Future[Block], int] = {}
    try:
        for task in waiting:
            running[executor.submit(run_chunk, task)] = task.number
            if len(running) >= _AHEAD:
                yield from _ready(running, progress)
        while running:
            yield from _ready(running, progress)
    finally:
        for future in running:
            future.cancel()


def _ready(running: dict[Future[Block], int], progress: Progress) -> list[Block]:
    finished, _ = wait(running, return_when=FIRST_COMPLETED)
    blocks = []
    for future in sorted(finished, key=running.__getitem__):
        del running[future]
        block = future.result()
        blocks.append(block)
        progress.add(len(block.failures), sum(1 for why in block.failures if why))
    return blocks


def check_readings(readings: Iterable[Reading], executor: Executor) -> None:
    """Refuse callables that cannot be sent to another process, before any work.

    Raises
    ------
    InvalidInput
        Names the reading.
    """
    if not isinstance(executor, ProcessPoolExecutor):  # others have their own ways of sending
        return
    for reading in readings:
        if not isinstance(reading.taken, str):
            try:
                pickle.dumps(reading.taken)
            except (pickle.PicklingError, AttributeError, TypeError) as error:
                raise invalid(
                    f"readings[{quoted(reading.name)}]",
                    reading.taken,
                    f"it cannot be sent to another process ({error})",
                    "a function that a module defines with 'def' is accepted, and any callable in threads",
                ) from None


Keep = Callable[[Block], None]


def run(tasks: Iterable[Task], executor: Executor | None, progress: Progress, keep: Keep) -> None:
    """Run all chunks and hand each to `keep`."""
    ran = run_here(tasks, progress) if executor is None else run_elsewhere(tasks, executor, progress)
    try:
        for block in ran:
            keep(block)
    finally:
        ran.close()  # type: ignore[attr-defined]
