"""Files are written whole or not at all: a full disk leaves what was there before."""

import contextlib
import os
import resource
import threading

import matplotlib
import numpy as np
import pytest
from cook_samples import short_plan
from section_samples import section_outcome

import libcook as lc
from libcook import plots, section_plots

matplotlib.use("Agg")

ROOM = 4096  # bytes that a file may have


@contextlib.contextmanager
def full_disk():
    """No file can grow beyond `ROOM`: writing further fails, as it does on a full disk."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (ROOM, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


def log(size=5000):
    time = np.arange(float(size))
    return lc.Log(time, core=20.0 + np.sin(time), pit=120.0 + np.cos(1.7 * time))


def figure():
    return lc.charts.lines([0.0, 1.0], {"a": [0.0, 1.0]}, "x", "y")


WRITERS = {
    "log.csv": lambda path: log().to_csv(path),
    "log.parquet": lambda path: log().to_parquet(path),
    "figure.png": lambda path: plots.savefig(figure(), path),
    "figure.svg": lambda path: plots.savefig(figure(), path),
    "film.gif": lambda path: section_plots.animate(section_outcome(), path, frames=3),
    "film.html": lambda path: section_plots.animate(section_outcome(), path, frames=3),
}


@pytest.mark.parametrize("name", WRITERS)
def test_a_full_disk_leaves_nothing_behind(tmp_path, name):
    with full_disk(), pytest.raises(OSError):
        WRITERS[name](tmp_path / name)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", WRITERS)
def test_a_full_disk_leaves_the_file_that_was_there(tmp_path, name):
    path = tmp_path / name
    WRITERS[name](path)
    before = path.read_bytes()
    assert len(before) > ROOM
    with full_disk(), pytest.raises(OSError):
        WRITERS[name](path)
    assert path.read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("name", WRITERS)
def test_what_is_written_twice_is_the_same(tmp_path, name):
    path = tmp_path / "new folder" / name
    assert WRITERS[name](path) == path
    first = path.read_bytes()
    path.chmod(0o640)
    WRITERS[name](path)
    assert path.read_bytes() == first
    assert path.stat().st_mode & 0o777 == 0o640  # as before


def test_new_files_have_the_usual_permissions(tmp_path):
    plain = tmp_path / "plain"
    plain.touch()
    assert log().to_csv(tmp_path / "log.csv").stat().st_mode == plain.stat().st_mode


def test_a_sweep_on_a_full_disk_goes_on_later(tmp_path):
    plan = short_plan(minutes=20.0)
    values = {"pit.air": [100.0 + i for i in range(12)]}
    with full_disk(), pytest.raises(OSError):
        lc.sweep(plan, values, to=tmp_path / "cooks", chunk=4, workers=1)
    left = {path.name for path in (tmp_path / "cooks").iterdir()} if (tmp_path / "cooks").exists() else set()
    assert not [name for name in left if name.endswith(".tmp") or name.startswith(".")]
    found = lc.sweep(plan, values, to=tmp_path / "cooks", chunk=4, workers=1)
    assert found.attrs["not_run"] == 0


def test_a_link_still_points_to_what_was_written(tmp_path):
    (tmp_path / "real.csv").write_text("old")
    (tmp_path / "link.csv").symlink_to("real.csv")
    log(10).to_csv(tmp_path / "link.csv")
    assert (tmp_path / "link.csv").is_symlink()
    assert lc.read_log(tmp_path / "real.csv") == log(10)


def test_a_pipe_is_written_to(tmp_path):
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    read = []
    reader = threading.Thread(target=lambda: read.append(pipe.read_bytes()))
    reader.start()
    log(10).to_csv(pipe)
    reader.join(20.0)
    assert lc.read_log(read[0]) == log(10)


def test_a_folder_is_no_file(tmp_path):
    with pytest.raises(OSError):
        log(10).to_csv(tmp_path)
    with pytest.raises(lc.InvalidInput, match="path: an empty text came"):
        log(10).to_csv("")
    assert list(tmp_path.iterdir()) == []


def test_missing_and_damaged_files_are_told_by_the_argument(tmp_path):
    with pytest.raises(lc.InvalidInput, match="text: there is no file"):
        lc.Outcome.from_json(tmp_path / "none.json")
    (tmp_path / "odd.json").write_bytes(b"\xff\xfe\x00")
    for read in (lc.Outcome.from_json, lc.Fit.from_json):
        with pytest.raises(lc.InvalidInput, match="text: .* cannot be read"):
            read(tmp_path / "odd.json")
