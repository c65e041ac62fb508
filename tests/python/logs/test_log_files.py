"""Logs written as CSV and Parquet, and read back equal.

All logs here are invented data.
"""

import datetime as dt
import sys
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from log_samples import DATA, HEADER, cells, clock, finding, of_kind, text_of, with_times

from libcook.errors import InvalidInput
from libcook.logs import Event, Finding, Log, read_log


def full_log() -> Log:
    """A log with everything: a zone, gaps, dropouts, a spike, events of each source, further columns."""
    times = [f"2024-10-{26 + (1380 + i) // 1440} {clock(1380 + i)}" for i in range(300)]
    rows = [[*row, str(float(row[1]) + 2.0), ""] for row in with_times(times)]
    rows[20][1], rows[30][1], rows[40][2], rows[60][4], rows[61][4] = (
        "",
        "90",
        "--",
        'said "hot",\nthen',
        "spritz",
    )
    rows = [
        [f'"{cell}"'.replace('"said "hot"', '"said ""hot""') if "\n" in cell else cell for cell in row]
        for row in rows
    ]
    del rows[100:150]
    log = read_log(text_of(rows, HEADER + ",thin end (C),notes"), timezone="Europe/Berlin")
    return log.mark("wrapped", at="2 h 0.5 min", note="Papier, weiß").with_events(log.propose_events())


KINDS = ["csv", "parquet"]


def written(log: Log, path: Path, **call: object) -> Path:
    if path.suffix == ".parquet":
        pytest.importorskip("pyarrow")
        return log.to_parquet(path, **call)
    return log.to_csv(path, **call)


@pytest.mark.parametrize("kind", KINDS)
def test_a_full_log_comes_back_equal(tmp_path: Path, kind: str) -> None:
    log = full_log()
    assert {event.source for event in log.events} == {"file", "call", "accepted"}
    assert {one.action for one in log.summary} == {"found", "mended"}
    path = written(log, tmp_path / "deep" / f"cook.{kind}")
    again = read_log(path)
    assert again == log and str(again.start_clock.tzinfo) == "Europe/Berlin"
    assert again.report() == log.report()
    assert again.propose_events() == log.propose_events()
    with path.open("rb") as file:
        assert read_log(file) == log
    assert read_log(path.read_bytes()) == log


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(
    "start",
    [
        None,
        dt.time(23, 59, 1, 5),
        dt.datetime(2024, 5, 11, 21),
        dt.datetime(2024, 10, 27, 2, 30, tzinfo=ZoneInfo("Europe/Berlin"), fold=1),
        dt.datetime(2024, 5, 11, tzinfo=dt.timezone(dt.timedelta(hours=-5))),
    ],
)
def test_every_kind_of_start_comes_back(tmp_path: Path, kind: str, start: object) -> None:
    log = Log([0.1, 1e6 + 1.0 / 3.0], core=[4.0, np.nan], pit=[np.nan, 1.0 / 3.0], start_clock=start)
    again = read_log(written(log, tmp_path / f"cook.{kind}"))
    assert again == log and again.start_clock == start
    assert getattr(again.start_clock, "fold", 0) == getattr(start, "fold", 0)


@pytest.mark.parametrize("kind", KINDS)
def test_fahrenheit_comes_back_but_for_rounding(tmp_path: Path, kind: str) -> None:
    log = full_log()
    again = read_log(written(log, tmp_path / f"cook.{kind}", units="F"))
    for name, values in log.columns.items():
        np.testing.assert_allclose(again[name], values, rtol=0.0, atol=1e-10)
    assert (again.events, again.summary) == (log.events, log.summary)


NUMBERS = st.floats(-40.0, 600.0)
WORDS = st.text(st.characters(codec="utf-8", exclude_characters="\0"), max_size=12)


@settings(deadline=None, max_examples=60)  # tests assert no times
@given(st.data())
def test_any_log_comes_back_equal(tmp_path_factory: pytest.TempPathFactory, data: st.DataObject) -> None:
    steps = data.draw(st.lists(st.floats(1e-3, 1e5), min_size=2, max_size=6))
    time = np.cumsum(steps)
    column = st.lists(NUMBERS | st.just(np.nan), min_size=time.size, max_size=time.size).filter(
        lambda values: np.isfinite(values).any()
    )
    names = data.draw(st.lists(WORDS.filter(lambda w: w not in ("core", "pit", "")), unique=True, max_size=2))
    columns = {"pit": data.draw(column), **{name: data.draw(column) for name in names}}
    when = st.floats(float(time[0]), float(time[-1]))
    events = [
        Event(kind, data.draw(when), "call", data.draw(WORDS))
        for kind in data.draw(st.lists(st.sampled_from(["wrapped", "note"]), max_size=3))
    ]
    summary = [Finding("found", data.draw(WORDS), 2, (1.5,), (3, 4), "gap", "pit")]
    log = Log.__new__(Log)
    log._fill(time, columns, None, summary, events, "C")  # names that no keyword can have
    folder = tmp_path_factory.mktemp("logs")
    assert read_log(log.to_csv(folder / "a.csv")) == log
    pytest.importorskip("pyarrow")
    assert read_log(log.to_parquet(folder / "a.parquet")) == log


def test_the_csv_says_its_units_and_can_be_read_by_others(tmp_path: Path) -> None:
    pandas = pytest.importorskip("pandas")
    log = Log([0.0, 60.0], core=[4.0, np.nan], pit=[120.0, 121.5], events=[(30.0, "spritz")])
    path = log.to_csv(tmp_path / "cook.csv")
    assert path.read_text(encoding="utf-8").splitlines()[1:] == [
        "time [s],core [°C],pit [°C],event,event source,event note",
        "0.0,4.0,120.0,,,",
        "30.0,,,spritzed,call,spritz",
        "60.0,,121.5,,,",
    ]
    frame = pandas.read_csv(path, comment="#")
    assert frame["pit [°C]"].dropna().tolist() == [120.0, 121.5]
    assert (
        log.to_csv(tmp_path / "f.csv", units="F")
        .read_text(encoding="utf-8")
        .splitlines()[1]
        .startswith("time [s],core [°F],pit [°F]")
    )


def test_an_edited_event_is_taken_and_a_spoilt_file_is_read_like_any_other(tmp_path: Path) -> None:
    log = read_log(text_of(cells())).mark("wrapped", at="2 h")
    text = log.to_csv(tmp_path / "cook.csv").read_text(encoding="utf-8")
    assert read_log(text.replace("7200.0,,,wrapped", "7200.0,,,moved")).events == (Event("moved", 7200.0),)
    spoilt = read_log(text.replace("3600.0,16.0", "3600.0,hot"))
    finding(
        spoilt,
        "found: the file was changed after libcook wrote it (could not convert string to float: 'hot')",
    )
    finding(spoilt, "'core [°C]': 1 reading not a number ('hot'), at 1 h; marked missing")
    assert [event.kind for event in spoilt.events] == ["wrapped"]
    later = read_log(text.replace('{"version": 1', '{"version": 2'))
    finding(later, "changed after libcook wrote it (version 2 is not known)")
    np.testing.assert_array_equal(later.time, log.time)


@pytest.mark.parametrize(
    "call", [{"units": "F"}, {"core": "core"}, {"date": "2024-05-11"}, {"timezone": "UTC"}]
)
def test_what_a_written_log_says_itself_cannot_be_said_again(tmp_path: Path, call: dict) -> None:
    path = read_log(text_of(cells())).to_csv(tmp_path / "cook.csv")
    with pytest.raises(InvalidInput, match="the file is a log that libcook wrote, which says this itself"):
        read_log(path, **call)
    assert read_log(path, events=[("1 h", "spritz")]).events == (Event("spritzed", 3600.0, "call", "spritz"),)


def test_a_nul_is_refused_before_it_is_written(tmp_path: Path) -> None:
    log = Log([0.0, 60.0], core=[4.0, 5.0]).mark("wrapped", at=30.0, note="a\0b")
    with pytest.raises(InvalidInput, match="log: a name or a note holds a NUL character"):
        log.to_csv(tmp_path / "cook.csv")
    assert not (tmp_path / "cook.csv").exists()


# ---- Parquet of others


def test_parquet_of_others_is_read_like_a_csv(tmp_path: Path) -> None:
    pandas = pytest.importorskip("pandas")
    pytest.importorskip("pyarrow")
    frame = pandas.DataFrame(
        {
            "Time": pandas.date_range("2024-05-11 21:00", periods=300, freq="min", tz="UTC"),
            "Core (F)": [None if i == 50 else 40.0 + 0.3 * i for i in range(300)],
            "Pit (F)": [250.0 + i % 7 for i in range(300)],
            "fan": range(300),
            "Notes": ["wrapped" if i == 200 else None for i in range(300)],
        }
    )
    frame.to_parquet(tmp_path / "theirs.parquet")
    log = read_log(tmp_path / "theirs.parquet")
    assert log.start_clock == dt.datetime(2024, 5, 11, 21, tzinfo=dt.timezone.utc)
    np.testing.assert_allclose(log.time, 60.0 * np.arange(300))
    assert log.core[0] == pytest.approx((40.0 - 32.0) / 1.8)
    assert log.events == (Event("wrapped", 12000.0, "file", "wrapped"),)
    assert of_kind(log, "dropout").lines == (51,) and of_kind(log, "dropout").column == "Core (F)"
    assert of_kind(log, "column").column == "fan"
    frame["Time"] = pandas.to_timedelta(range(300), unit="min")
    frame.to_parquet(tmp_path / "elapsed.parquet")
    np.testing.assert_allclose(read_log(tmp_path / "elapsed.parquet").time, 60.0 * np.arange(300))


def test_broken_and_empty_parquet_are_refused(tmp_path: Path) -> None:
    pytest.importorskip("pyarrow")
    whole = read_log(text_of(cells())).to_parquet(tmp_path / "cook.parquet").read_bytes()
    for raw in (whole[:1000], b"PAR1", whole[:-9] + b"PAR1"):
        with pytest.raises(InvalidInput, match="log: the Parquet file cannot be read"):
            read_log(raw)
    pandas = pytest.importorskip("pandas")
    pandas.DataFrame({"time": [], "core": []}).to_parquet(tmp_path / "empty.parquet")
    with pytest.raises(InvalidInput, match=r"the log has columns \(time, core\) but no rows"):
        read_log(tmp_path / "empty.parquet")


def test_without_pyarrow(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    log = read_log(DATA / "overnight_fahrenheit.csv")
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    assert read_log(log.to_csv(tmp_path / "cook.csv")) == log
    with pytest.raises(ImportError, match=r"Log.to_parquet needs pyarrow.*pip install 'libcook\[parquet\]'"):
        log.to_parquet(tmp_path / "cook.parquet")
    assert not (tmp_path / "cook.parquet").exists()
    with pytest.raises(ImportError, match="reading a Parquet file needs pyarrow"):
        read_log(b"PAR1" + bytes(20) + b"PAR1")
