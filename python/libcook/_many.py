"""Many plans through the solver at once: the one place where a sweep meets the engine."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from typing import TypeAlias

from libcook._core import Plan
from libcook.errors import InvalidInput, SolverFailure
from libcook.outcome import Outcome
from libcook.simulate import simulate

Result: TypeAlias = Outcome | InvalidInput | SolverFailure


def run_many(
    plans: Sequence[Plan],
    *,
    grid: str = "slab",
    keep_fields: bool = False,
    output_every: float = 300.0,
    threads: int | None = None,
    on_done: Callable[[int, Result], None] | None = None,
) -> list[Result]:
    """Run plans side by side; a plan that fails gives its exception in place of its outcome.

    Parameters
    ----------
    plans : sequence of Plan
        Each is run as `simulate` runs it.
    grid, keep_fields, output_every
        As for `simulate`; the last in s.
    threads : int, optional
        How many run at once; all cores by default, and 1 stays in the calling thread.
    on_done : callable, optional
        Called with the index of a plan and its result as soon as it is there, in any order and from any
        thread. What it raises ends the run.

    Returns
    -------
    list of Outcome, InvalidInput or SolverFailure
        In the order of the plans.

    Raises
    ------
    KeyboardInterrupt
        After a Ctrl-C; plans that had begun are finished first, no other is begun.
    """
    results: list[Result | None] = [None] * len(plans)

    def one(i: int) -> None:
        result: Result
        try:
            result = simulate(plans[i], grid=grid, keep_fields=keep_fields, output_every=output_every)
        except (InvalidInput, SolverFailure) as failure:
            result = failure
        results[i] = result
        if on_done is not None:
            on_done(i, result)

    count = threads if threads is not None else os.cpu_count() or 1
    if count == 1:
        for i in range(len(plans)):
            one(i)
    else:
        pool = ThreadPoolExecutor(count)
        try:
            for future in [pool.submit(one, i) for i in range(len(plans))]:
                future.result()
        finally:  # after an error or a Ctrl-C nothing new is begun
            pool.shutdown(wait=True, cancel_futures=True)
    return [result for result in results if result is not None]
