"""One sweep at a time in a folder, and a folder that somebody changed."""

import json
import os
import shutil
import signal
import subprocess
import sys
import textwrap
import threading
import time

import pyarrow as pa
import pyarrow.parquet as pq
import pytest
from sweep_samples import plan

import libcook as lc

VALUES = {"pit.air": [100.0 + i for i in range(12)]}
HANG = 120  # s, after which something hangs
HELPERS = os.path.dirname(os.path.dirname(__file__))


def swept(folder, **options):
    return lc.sweep(plan(), VALUES, to=folder, chunk=3, workers=1, **options)


def slowly(folder, started, finish):
    """A sweep that waits in the middle: until `finish`, once `started` is set."""

    def tell(done, total):
        started.set()
        assert finish.wait(HANG)

    return swept(folder, progress=tell)


class Other(threading.Thread):
    """Another sweep into a folder, under way."""

    def __init__(self, folder):
        super().__init__(daemon=True)
        self.folder, self.started, self.finish = folder, threading.Event(), threading.Event()
        self.found = self.failed = None
        self.start()
        assert self.started.wait(HANG)

    def run(self):
        try:
            self.found = slowly(self.folder, self.started, self.finish)
        except BaseException as error:
            self.failed = error
            self.started.set()

    def end(self):
        self.finish.set()
        self.join(HANG)
        assert self.failed is None
        return self.found


def test_a_second_sweep_in_a_thread_is_refused_and_the_first_is_whole(tmp_path):
    other = Other(tmp_path / "cooks")
    for same in (True, False):
        with pytest.raises(
            lc.InvalidInput, match="to: another sweep of this process is writing into '.*cooks'"
        ):
            if same:
                swept(tmp_path / "cooks")
            else:
                lc.sweep(plan(), {"pit.air": [110.0]}, to=tmp_path / "cooks")
    link = tmp_path / "another name"
    link.symlink_to(tmp_path / "cooks")
    with pytest.raises(lc.InvalidInput, match="another sweep of this process"):
        swept(link)
    found = other.end()
    assert found.attrs["not_run"] == found.attrs["failed"] == 0
    assert swept(tmp_path / "cooks").identical(found)


def test_other_folders_and_readers_are_free_meanwhile(tmp_path):
    other = Other(tmp_path / "cooks")
    assert swept(tmp_path / "others").attrs["not_run"] == 0
    assert lc.read_sweep(tmp_path / "cooks").attrs["not_run"] > 0
    other.end()


def test_nothing_of_the_lock_is_left(tmp_path):
    swept(tmp_path / "cooks")
    assert {path.name.partition("-")[0] for path in (tmp_path / "cooks").iterdir()} == {"sweep.json", "part"}
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("dear")
    with pytest.raises(lc.InvalidInput, match="holds something else"):
        swept(tmp_path / "mine")
    assert [path.name for path in (tmp_path / "mine").iterdir()] == ["letter.txt"]


def test_the_folder_is_free_again_after_a_failure(tmp_path):
    def fail(done, total):
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        swept(tmp_path / "cooks", progress=fail)
    assert swept(tmp_path / "cooks").attrs["not_run"] == 0


PROCESS = """
import sys, time
sys.path.insert(0, {here!r})
from sweep_samples import plan
import libcook as lc

def tell(done, total):
    print("started", flush=True)
    time.sleep(600)

lc.sweep(plan(), {values!r}, to={folder!r}, chunk=3, workers=1, progress=tell)
"""


@pytest.fixture
def process(tmp_path):
    """Another process with a sweep into a folder, under way."""
    code = PROCESS.format(here=HELPERS, values=VALUES, folder=str(tmp_path / "cooks"))
    started = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True)
    assert started.stdout.readline() == "started\n"
    yield started
    started.kill()
    started.communicate()


def test_a_second_process_is_refused_and_told_of_the_first(tmp_path, process):
    said = rf"to: another sweep \(process {process.pid} on .*\) is writing into '.*cooks'; another folder is"
    with pytest.raises(lc.InvalidInput, match=said):
        swept(tmp_path / "cooks")


def test_the_lock_of_a_killed_process_is_taken_over(tmp_path, process):
    process.send_signal(signal.SIGKILL)
    process.wait()
    assert (tmp_path / "cooks" / ".sweep.lock").exists()
    found = swept(tmp_path / "cooks")
    assert found.attrs["not_run"] == 0
    assert not (tmp_path / "cooks" / ".sweep.lock").exists()


def test_two_sweeps_that_begin_at_once_never_mix(tmp_path):
    folder = tmp_path / "cooks"
    plans = [{"pit.air": [100.0 + i] * 1} for i in range(6)]
    answers = []

    def begin(values):
        try:
            answers.append(lc.sweep(plan(), values, to=folder, workers=1))
        except lc.InvalidInput as error:
            answers.append(error)

    threads = [threading.Thread(target=begin, args=(values,)) for values in plans]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(HANG)
    won = [answer for answer in answers if not isinstance(answer, Exception)]
    assert len(answers) == 6 and len(won) == 1
    assert lc.read_sweep(folder).identical(won[0])


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    folder = tmp_path_factory.mktemp("whole") / "cooks"
    swept(folder)
    return folder


@pytest.fixture
def folder(whole, tmp_path):
    shutil.copytree(whole, tmp_path / "cooks")
    return tmp_path / "cooks"


def alter(folder, change):
    path = folder / "sweep.json"
    content = json.loads(path.read_text())
    change(content)
    path.write_text(json.dumps(content))


MANIFESTS = {
    "a shape of 1e9": lambda c: c.update(shape=[10**9]),
    "a shape of 1e18": lambda c: c.update(shape=[10**9, 10**9]),
    "a negative shape": lambda c: c.update(shape=[-12]),
    "no shape": lambda c: c.update(shape=[]),
    "a shape in words": lambda c: c.update(shape="twelve"),
    "a shape of another length": lambda c: c.update(shape=[13]),
    "a share of a shape": lambda c: c.update(shape=[12.5]),
    "a chunk of 0": lambda c: c.update(chunk=0),
    "a chunk of -3": lambda c: c.update(chunk=-3),
    "a chunk of 1e30": lambda c: c.update(chunk=10**30),
    "a chunk in words": lambda c: c.update(chunk="3"),
    "no chunk": lambda c: c.pop("chunk"),
    "no parameters": lambda c: c.update(parameters=[]),
    "parameters in words": lambda c: c.update(parameters="pit.air"),
    "a parameter that is none": lambda c: c.update(parameters=[None]),
    "a parameter of numbers": lambda c: c["parameters"][0].update(name=7),
    "a parameter with more": lambda c: c["parameters"][0].update(more=7),
    "values that are none": lambda c: c["parameters"][0].update(values=[None] * 12),
    "a reading twice": lambda c: c["readings"].append(c["readings"][0]),
    "stages of numbers": lambda c: c.update(stages=[1, 2]),
    "no time": lambda c: c.update(trace_every=0.0),
    "a time of nan": lambda c: c.update(trace_every=float("nan")),
    "parts of numbers": lambda c: c.update(parts={"plan": 7}),
    "another format": lambda c: c.update(format="letters"),
    "a plan of numbers": lambda c: c.update(plan=7),
}


def refused(folder, name, part):
    """Both ways into a folder name the file."""
    for ask, field in ((lambda: lc.read_sweep(folder), "folder"), (lambda: swept(folder), "to")):
        with pytest.raises(lc.InvalidInput) as caught:
            ask()
        assert caught.value.field == field
        assert name in str(caught.value)
        assert part in str(caught.value)
        assert len(str(caught.value)) < 1000


@pytest.mark.parametrize("change", MANIFESTS.values(), ids=MANIFESTS)
def test_a_manifest_that_was_changed_is_named(folder, change):
    alter(folder, change)
    refused(folder, "sweep.json", "is not as a sweep wrote it")


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("[" * 200_000, "nested too deep"),
        ('{"a": ' * 100_000, "nested too deep"),
        ("", "Expecting value"),
        ("7", "another format"),
        ("{", "Expecting property name"),
        (b"\xff\xfe", "codec"),
    ],
    ids=["lists", "mappings", "empty", "a number", "half", "no text"],
)
def test_a_manifest_that_is_no_manifest_is_named(folder, text, part):
    (folder / "sweep.json").write_bytes(text if isinstance(text, bytes) else text.encode())
    refused(folder, "sweep.json", part)


def test_a_result_that_is_not_the_sweeps_is_refused(folder):
    alter(folder, lambda c: c["readings"].pop())
    with pytest.raises(lc.InvalidInput, match="sweep.json' is not as a sweep wrote it .*another result"):
        swept(folder)


def in_place_of(path, kind):
    path.unlink()
    if kind == "a pipe":
        os.mkfifo(path)
    elif kind == "a link":
        path.symlink_to("/etc/hostname")
    else:
        path.mkdir()


@pytest.mark.parametrize("kind", ["a pipe", "a link", "a folder"])
@pytest.mark.parametrize("name", ["sweep.json", "part-000001.parquet"])
def test_what_is_no_file_is_named_and_nothing_hangs(folder, name, kind):
    in_place_of(folder / name, kind)
    code = textwrap.dedent(
        f"""
        import sys
        sys.path[:0] = [{os.path.dirname(__file__)!r}, {HELPERS!r}]
        import test_sweep_lock
        test_sweep_lock.refused(test_sweep_lock.pathlib_path({str(folder)!r}), {name!r}, "it is {kind}")
        """
    )
    subprocess.run([sys.executable, "-c", code], check=True, timeout=HANG)


def pathlib_path(name):
    import pathlib

    return pathlib.Path(name)


def test_a_part_of_other_columns_is_named(folder):
    path = folder / "part-000002.parquet"
    table = pq.read_table(path)
    for other in (
        table.drop_columns(["finish_time"]),
        table.set_column(1, "finish_time", pa.array(["x"] * 3)),
    ):
        pq.write_table(other, path)
        with pytest.raises(
            lc.InvalidInput, match="folder: .*part-000002.parquet' is not as a sweep wrote it"
        ):
            lc.read_sweep(folder)


def test_a_part_cut_short_is_run_again(folder, whole):
    path = folder / "part-000002.parquet"
    path.write_bytes(path.read_bytes()[:-100])
    assert lc.read_sweep(folder).attrs["not_run"] == 3
    assert swept(folder).identical(lc.read_sweep(whole))


def test_parts_beyond_the_sweep_are_left_alone(folder, whole):
    shutil.copy(folder / "part-000001.parquet", folder / "part-000999.parquet")
    assert lc.read_sweep(folder).identical(lc.read_sweep(whole))


def test_reading_a_large_folder_does_not_look_for_every_part(folder):
    begun = time.monotonic()
    alter(folder, lambda c: c.update(is_grid=False, shape=[1_000_000], chunk=1))
    found = lc.read_sweep(folder, "finish_time")
    assert found.attrs["not_run"] == 1_000_000
    assert time.monotonic() - begun < HANG
