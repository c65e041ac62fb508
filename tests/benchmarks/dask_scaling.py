"""`libcook.sweep` over a local Dask cluster: one worker process of one thread, two of them, and none.

The cooks are those of full_sweep.py. The cluster is up before the clock runs, as it is for who sweeps more
than once. What a chunk costs beside its cooks (its way to the worker, its table's way back) is the difference
between one worker and this process's one thread.
"""

from __future__ import annotations

import importlib.util
import statistics
import time
from dataclasses import dataclass

import libcook as lc

COOKS = 65536  # half a minute of one worker: Dask itself takes a tenth of a core, mostly at the start
ROUNDS = 3
HOURS = 12.0


@dataclass
class DaskScaling:
    """Cooks a second."""

    here: float  # this process, one thread
    one: float  # one worker
    two: float

    def sentence(self) -> str:
        """What was reached."""
        beside = 100.0 * (self.here / self.one - 1.0)
        return (
            f"Through Dask (`lc.sweep(..., workers=client)`), worker processes of one thread: one "
            f"{self.one:,.0f} cooks a second, two {self.two:,.0f}, {self.two / self.one:.2f} times as many; "
            f"without it on one thread {self.here:,.0f}, so that a chunk costs {beside:.1f} % beside its "
            "cooks."
        )


def measure() -> DaskScaling | None:
    """Take turns; None where Dask is not installed."""
    if importlib.util.find_spec("distributed") is None:
        return None
    from distributed import Client, LocalCluster

    plan = lc.Plan(
        lc.brisket(), [lc.Stage("smoke", lc.pit("drum", air="237 °F"), until=lc.elapsed(HOURS * 3600.0))]
    )
    ranges = {"pit.air": ("225 °F", "250 °F"), "meat.mass": ("5 kg", "7 kg")}
    cooks = lc.sample(ranges, COOKS, seed=1)
    few = lc.sample(ranges, 64, seed=2)
    rates: dict[str, list[float]] = {"here": [], "one": [], "two": []}

    def turn(name: str, workers: object) -> None:
        begin = time.perf_counter()
        found = lc.sweep(plan, cooks, workers=workers, progress=False)
        rates[name].append(len(cooks) / (time.perf_counter() - begin))
        if found["finish_time"].isnull().any():
            raise RuntimeError("a cook of the sweep failed")

    for _ in range(ROUNDS):
        turn("here", 1)
        for name, count in (("one", 1), ("two", 2)):
            with (
                LocalCluster(
                    n_workers=count, threads_per_worker=1, dashboard_address=None, silence_logs=50
                ) as cluster,
                Client(cluster) as client,
            ):
                lc.sweep(plan, few, workers=client, progress=False)  # imports
                turn(name, client)
    return DaskScaling(**{name: statistics.median(of) for name, of in rates.items()})


if __name__ == "__main__":
    scaling = measure()
    print(scaling.sentence() if scaling else "Dask is not installed")
