"""A sweep on disk: each chunk whole or not there, and the same call goes on where one stopped."""

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import numpy as np
import pyarrow.parquet as pq
import pytest
import xarray as xr
from sweep_samples import RANGES, plan

import libcook as lc
import libcook.sweeps.run as sweep_run

HERE = Path(__file__).resolve().parents[1]
GRID = {"pit.air": [107.0, 121.0, 135.0], "stages.wrapped.wrap": ["foil", "none"], "meat.start": [2.0, 4.0]}
SAMPLE = lc.sample(RANGES, n=64)

# The start of another process that sweeps into the folder of its first argument.
CHILD = """
import os, signal, sys, time
import libcook as lc
from sweep_samples import RANGES, plan

signal.signal(signal.SIGINT, signal.default_int_handler)  # a job in the background has it ignored
folder = sys.argv[1] or None

def sweep(n, chunk, **options):
    options = {"traces": "core"} | options
    return lc.sweep(plan(), lc.sample(RANGES, n=n), to=folder, chunk=chunk, **options)
"""


def child(script, folder):
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join([str(HERE), os.environ.get("PYTHONPATH", "")])}
    return subprocess.Popen(
        [sys.executable, "-c", CHILD + script, str(folder)],
        env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip


@pytest.fixture
def ran(monkeypatch):
    """Which chunks are computed."""
    numbers = []
    run_chunk = sweep_run.run_chunk

    def counted(task, *rest):
        numbers.append(task.number)
        return run_chunk(task, *rest)

    monkeypatch.setattr(sweep_run, "run_chunk", counted)
    return numbers


def cooks_on_disk(folder):
    return sorted(np.concatenate([pq.ParquetFile(path).read()["cook"] for path in folder.glob("part-*")]))


@pytest.mark.parametrize("parameters", [GRID, SAMPLE], ids=["grid", "sample"])
def test_a_folder_gives_what_memory_gives(tmp_path, parameters, ran):
    options = {"traces": ["core", "mean_water"], "chunk": 5}
    memory = lc.sweep(plan(), parameters, **options)
    del ran[:]
    xr.testing.assert_identical(lc.sweep(plan(), parameters, to=tmp_path / "a", **options), memory)
    chunks = -(-memory.attrs["cooks"] // 5)
    assert ran == list(range(chunks))
    assert cooks_on_disk(tmp_path / "a") == list(range(memory.attrs["cooks"]))
    # once more: nothing is left to run, and a fresh look gives the same
    xr.testing.assert_identical(lc.sweep(plan(), parameters, to=tmp_path / "a", **options), memory)
    assert len(ran) == chunks
    xr.testing.assert_identical(lc.read_sweep(tmp_path / "a"), memory)
    some = lc.read_sweep(str(tmp_path / "a"), ["finish_time", "core_trace"])
    assert set(some.data_vars) == {"finish_time", "core_trace", "failure"}
    xr.testing.assert_identical(some["finish_time"], memory["finish_time"])


def test_a_part_can_be_read_by_itself(tmp_path):
    folder = lc.sweep(plan(), GRID, to=tmp_path / "a", load=False, readings=["yield", "stage_end"])
    assert folder == tmp_path / "a"
    frame = pq.ParquetFile(folder / "part-000000.parquet").read().to_pandas()
    assert list(frame) == ["cook", *GRID, "yield", "stage_end", "failure"]
    assert frame["stages.wrapped.wrap"].tolist() == 3 * ["foil", "foil", "none", "none"]
    assert frame["pit.air"].tolist() == 4 * [107.0] + 4 * [121.0] + 4 * [135.0]
    assert [len(row) for row in frame["stage_end"]] == 12 * [3]


def test_failures_are_kept_on_disk(tmp_path):
    bad = {"stages[0].until": [60.0, 200.0]}
    with pytest.warns(lc.SweepWarning, match="1 of 2"):
        found = lc.sweep(plan(), bad, to=tmp_path)
    again = lc.read_sweep(tmp_path)
    xr.testing.assert_identical(again, found)
    assert again.attrs["failed"] == 1 and "cannot be reached in" in str(again["failure"].values[1])


@pytest.mark.skipif(os.name != "posix", reason="needs POSIX signals")
def test_after_a_kill_half_way_the_rest_is_run_and_nothing_twice(tmp_path, ran):
    # the seventh part is being written when the process dies
    script = """
replace, count = os.replace, 0
def slow(*paths):
    global count
    count += 1
    if count == 8:
        print("writing", flush=True)
        time.sleep(600.0)
    replace(*paths)
os.replace = slow
sweep(64, 5)
"""
    with child(script, tmp_path) as process:
        try:
            assert process.stdout.readline() == "writing\n", process.stderr.read()
        finally:
            process.send_signal(signal.SIGKILL)
    left = [path.name for path in tmp_path.iterdir()]
    assert sum(name.startswith("part-") for name in left) == 6 and any(name.endswith(".tmp") for name in left)
    half = lc.read_sweep(tmp_path)
    assert half.attrs["not_run"] == 34 and (half["failure"] == "not run").sum() == 34
    assert np.isnan(half["finish_time"]).sum() == 34

    found = lc.sweep(plan(), SAMPLE, traces="core", to=tmp_path)
    assert ran == list(range(6, 13))  # in the chunks it was begun with
    assert cooks_on_disk(tmp_path) == list(range(64))
    xr.testing.assert_identical(found, lc.sweep(plan(), SAMPLE, traces="core"))
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        *(f"part-{i:06d}.parquet" for i in range(13)), "sweep.json"
    ]  # fmt: skip


@pytest.mark.skipif(os.name != "posix", reason="needs POSIX signals")
@pytest.mark.parametrize("on_disk", [True, False])
@pytest.mark.parametrize("traces", ["[]", "['core']"])  # read without, and with the interpreter's lock
def test_ctrl_c_keeps_what_is_done(tmp_path, on_disk, traces, ran):
    # far more cooks than there is patience for; the parent sends SIGINT once some are done
    script = """
def told(done, total):
    if done == 40:
        print("running", flush=True)

try:
    sweep(2**16, 16, progress=told, traces=TRACES)
except KeyboardInterrupt as stop:
    print(stop.partial.attrs["cooks"] - stop.partial.attrs["not_run"], flush=True)
    raise
"""
    with child(script.replace("TRACES", traces), tmp_path if on_disk else "") as process:
        try:
            assert process.stdout.readline() == "running\n", process.stderr.read()
            process.send_signal(signal.SIGINT)
            printed, complaint = process.communicate(timeout=120)  # generous: only a hang gets there
        finally:
            process.kill()
    assert complaint.rstrip().endswith("KeyboardInterrupt"), complaint
    kept = int(printed)
    assert 32 <= kept < 2**16 and kept % 16 == 0
    if on_disk:
        assert cooks_on_disk(tmp_path) == list(range(kept))
        assert not any(path.name.endswith(".tmp") for path in tmp_path.iterdir())


def test_a_part_that_was_damaged_is_run_again(tmp_path, ran):
    whole = lc.sweep(plan(), SAMPLE, to=tmp_path, chunk=16)
    del ran[:]
    cut, other, gone = (tmp_path / f"part-{i:06d}.parquet" for i in (0, 1, 2))
    cut.write_bytes(cut.read_bytes()[:-100])
    lc.sweep(plan(), lc.sample(RANGES, n=64, seed=9), to=tmp_path / "other", chunk=16)
    del ran[:]
    other.write_bytes((tmp_path / "other" / "part-000001.parquet").read_bytes())  # of another sweep
    gone.unlink()
    for path in (tmp_path / "other").iterdir():
        path.unlink()
    (tmp_path / "other").rmdir()
    xr.testing.assert_identical(lc.sweep(plan(), SAMPLE, to=tmp_path), whole)
    assert ran == [0, 1, 2]


@pytest.mark.parametrize(
    ("changes", "what"),
    [
        ({"plan": plan().replace(start="21:00")}, "plan differ"),
        ({"parameters": lc.sample(RANGES, n=64, seed=1)}, "parameters differ"),
        ({"parameters": lc.sample(RANGES | {"pit.air": ("107 °C", "134 °C")}, n=64)}, "parameters differ"),
        ({"readings": "yield"}, "readings differ"),
        ({"readings": {"late": lambda out: out.core_at("2 h")}}, "readings differ"),
        ({"hold": 65.0}, "options differ"),
        ({"traces": "core", "readings": "yield"}, "readings and options differ"),
    ],
)
def test_the_folder_of_another_sweep_is_refused_and_left_alone(tmp_path, changes, what, ran):
    first = {"plan": plan(), "parameters": SAMPLE, "readings": {"late": lambda out: out.core_at("1 h")}}
    lc.sweep(**first, to=tmp_path)
    del ran[:]
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    with pytest.raises(lc.InvalidInput, match=f"to: '.*' holds another sweep: {what}; a new folder"):
        lc.sweep(**(first | changes), to=tmp_path)
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before and ran == []


def test_other_folders_are_refused(tmp_path):
    (tmp_path / "letters.txt").write_text("dear")
    with pytest.raises(lc.InvalidInput, match="to: '.*' holds something else"):
        lc.sweep(plan(), GRID, to=tmp_path)
    with pytest.raises(lc.InvalidInput, match="to: '.*' holds something else"):
        lc.sweep(plan(), GRID, to=tmp_path / "letters.txt")
    with pytest.raises(lc.InvalidInput, match="is no folder of a sweep"):
        lc.read_sweep(tmp_path)
    (tmp_path / "sweep.json").write_text(json.dumps({"format": "libcook sweep", "version": 99}))
    with pytest.raises(lc.InvalidInput, match="is of version 99; version 1 is accepted"):
        lc.read_sweep(tmp_path)


def test_a_folder_keeps_its_chunks(tmp_path):
    lc.sweep(plan(), GRID, to=tmp_path, chunk=4, readings="yield")
    with pytest.raises(lc.InvalidInput, match="was begun with chunks of 4 cooks; 4 is accepted"):
        lc.sweep(plan(), GRID, to=tmp_path, chunk=3, readings="yield")
    with pytest.raises(lc.InvalidInput, match="readings: 'loss' is not known; accepted: yield"):
        lc.read_sweep(tmp_path, ["loss"])


def test_an_error_carries_what_was_done():
    def picky(out):
        if out.plan.meat.start > 5.0:
            raise ZeroDivisionError("a mistake")
        return 1.0

    with pytest.raises(ZeroDivisionError) as told:
        lc.sweep(plan(), {"meat.start": [2.0, 3.0, 4.0, 6.0]}, readings={"picky": picky}, chunk=2)
    partial = told.value.partial
    assert partial.attrs["not_run"] == 2 and partial["picky"].values[:2].tolist() == [1.0, 1.0]
