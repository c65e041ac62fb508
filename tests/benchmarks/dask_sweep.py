"""Ten thousand cooks through a local Dask cluster of two workers, one of which is killed half-way.

Prints whether the result is complete, without duplicates and equal to that of one thread, digit by digit, and
how long each took. Exits with 1 when it is not.

    python tests/benchmarks/dask_sweep.py [--cooks N]
"""

from __future__ import annotations

import argparse
import os
import platform
import signal
import sys
import tempfile
import time
from pathlib import Path

import numpy as np
import pyarrow.parquet as pq
import xarray as xr
from distributed import Client, LocalCluster

import libcook as lc

PIT = lc.pit("drum", air="250 °F")
PLAN = lc.Plan(
    lc.brisket(mass="14 lb"),
    [
        lc.Stage("smoke", PIT, until=lc.core("150 °F")),
        lc.Stage("wrapped", PIT, wrap="butcher paper", until=lc.core("200 °F")),
        lc.Stage("rest", lc.counter("70 °F"), wrap="foil", until=lc.cooled("140 °F")),
    ],
)
RANGES = {
    "pit.air": ("225 °F", "275 °F"),
    "meat.thickness": ("45 mm", "80 mm"),
    "meat.start": ("1 °C", "10 °C"),
    "stages.smoke.until": ("140 °F", "170 °F"),
    "stages.wrapped.wrap": ["butcher paper", "foil"],
}


def through_a_cluster(cooks: lc.Sample, folder: Path) -> tuple[xr.Dataset, int]:
    """Sweep into a folder, kill a worker at half of the cooks; returns the result and who was killed."""
    killed: list[int] = []
    with (
        LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None, silence_logs=50) as cluster,
        Client(cluster) as client,
    ):
        workers = sorted(client.run(os.getpid).values())

        def progress(done: int, total: int) -> None:
            if done >= total // 2 and not killed:
                killed.append(workers[0])
                os.kill(workers[0], signal.SIGKILL)

        found = lc.sweep(PLAN, cooks, workers=client, to=folder, progress=progress)
        client.wait_for_workers(2)
        if killed[0] in client.run(os.getpid).values():
            raise RuntimeError(f"worker {killed[0]} was not killed")
    return found, killed[0]


def main() -> int:
    """Run both, compare, print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--cooks", type=int, default=10_000)
    cooks = lc.sample(RANGES, n=parser.parse_args().cooks, how="latin")
    begin = time.perf_counter()
    serial = lc.sweep(PLAN, cooks, workers=1)
    middle = time.perf_counter()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "cooks"
        found, killed = through_a_cluster(cooks, folder)
        end = time.perf_counter()
        parts = sorted(folder.glob("part-*.parquet"))
        numbers = np.concatenate([pq.ParquetFile(path).read()["cook"].to_numpy() for path in parts])
    checks = {
        "complete": found.attrs["not_run"] == 0 and set(numbers) == set(range(len(cooks))),
        "no duplicates": len(numbers) == len(set(numbers)) == len(cooks),
        "equal to one thread": found.identical(serial),
    }
    print(f"{len(cooks):,} cooks on {platform.machine()}, {os.cpu_count()} cores, readings of each included")
    print(f"one thread: {middle - begin:.1f} s, {len(cooks) / (middle - begin):,.0f} cooks a second")
    print(
        f"two workers, start-up included, worker {killed} killed half-way: {end - middle:.1f} s, "
        f"{len(cooks) / (end - middle):,.0f} cooks a second, {len(parts)} parts, "
        f"{found.attrs['failed']} cooks failed"
    )
    for what, holds in checks.items():
        print(f"{what}: {'yes' if holds else 'NO'}")
    return 0 if all(checks.values()) else 1


if __name__ == "__main__":
    sys.exit(main())
