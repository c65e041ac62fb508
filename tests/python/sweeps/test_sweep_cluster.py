"""Sweeps through a cluster of two processes: a worker that dies changes nothing."""

import os
import signal

import pytest
import xarray as xr
from sweep_samples import RANGES, plan

import libcook as lc

distributed = pytest.importorskip("distributed")

SAMPLE = lc.sample(RANGES, n=300, how="latin")
WANTED = ["finish_time", "stage_end", "stall_duration", {"late": lambda out: out.core_at("1 h")}]


@pytest.fixture
def client():
    options = {"n_workers": 2, "threads_per_worker": 1, "dashboard_address": ":0", "silence_logs": 50}
    with distributed.LocalCluster(**options) as cluster, distributed.Client(cluster) as made:
        yield made


@pytest.fixture(scope="module")
def serial():
    return lc.sweep(plan(), SAMPLE, readings=WANTED, traces="core", workers=1)


def test_a_client_stands_for_its_executor(client, serial):
    found = lc.sweep(plan(), SAMPLE, readings=WANTED, traces="core", workers=client)
    xr.testing.assert_identical(found, serial)


@pytest.mark.skipif(os.name != "posix", reason="needs POSIX signals")
@pytest.mark.parametrize("on_disk", [False, True])
def test_a_worker_that_is_killed_half_way_loses_nothing_and_counts_nothing_twice(
    client, serial, tmp_path, on_disk
):
    workers = set(client.run(os.getpid).values())
    told, killed = [], []

    def progress(done, total):
        told.append(done)
        if done >= total // 2 and not killed:
            killed.append(min(workers))
            os.kill(killed[0], signal.SIGKILL)

    found = lc.sweep(
        plan(), SAMPLE, readings=WANTED, traces="core", workers=client.get_executor(), progress=progress,
        to=tmp_path / "cooks" if on_disk else None,
    )  # fmt: skip
    assert killed
    client.wait_for_workers(2)
    assert killed[0] not in client.run(os.getpid).values()  # it did die; another one took its place
    xr.testing.assert_identical(found, serial)
    assert found.attrs["failed"] == found.attrs["not_run"] == 0
    assert told == sorted(set(told)) and told[-1] == 300


def test_what_a_cluster_left_is_finished_without_it(client, serial, tmp_path):
    class Gone(Exception):
        pass

    def progress(done, total):
        if done >= total // 2:
            raise Gone

    options = {"readings": WANTED, "traces": "core", "to": tmp_path}
    with pytest.raises(Gone) as stop:
        lc.sweep(plan(), SAMPLE, workers=client.get_executor(), progress=progress, **options)
    assert 0 < stop.value.partial.attrs["not_run"] < 300
    xr.testing.assert_identical(lc.sweep(plan(), SAMPLE, **options), serial)
