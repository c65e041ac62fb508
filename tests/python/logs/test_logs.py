"""Logs: forms of the text, refusals, and the class.

All logs here are invented data: smooth curves with one defect put in by hand.
"""

import datetime as dt
import io
import pickle
import sys

import numpy as np
import pytest
from html_reader import Reader
from log_samples import (
    DATA,
    HEADER,
    assert_clean,
    cells,
    clock,
    lines,
    of_kind,
    refused,
    text_of,
    told,
    with_times,
)

from libcook.errors import InvalidInput
from libcook.logs import Event, Log, read_log

# ---- forms of the text


def test_plain_log_has_nothing_to_report() -> None:
    log = read_log(text_of(cells()))
    assert_clean(log)
    assert log.summary == ()
    assert log.start_clock is None


def test_file_overnight_in_fahrenheit() -> None:
    log = read_log(DATA / "overnight_fahrenheit.csv", date="2024-05-11")
    assert set(log.columns) == {"core", "pit", "flat"}
    assert log.core[0] == pytest.approx(4.0, abs=0.06)
    assert log.duration == 8 * 3600.0
    assert log.start_clock == dt.datetime(2024, 5, 11, 21, 0)
    assert log.events == (
        Event("meat on", 0.0, "file", "meat on"),
        Event("spritzed", 18000.0, "file", "spritz"),
        Event("wrapped", 25200.0, "file", "wrapped"),
    )
    assert of_kind(log, "comment").lines == (1,) and of_kind(log, "midnight").count == 1
    assert of_kind(log, "column").column == "Fan %"


def test_file_with_bom_semicolons_decimal_commas_and_unit_line() -> None:
    log = read_log(str(DATA / "decimal_comma.csv"))
    assert log.core[0] == 4.0
    assert log.time[1] == 300.0
    assert told(log) == [("ignored", "comment", 1, (1,)), ("found", "decimal comma", 2 * len(log), ())]


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_delimiter_is_guessed(delimiter: str) -> None:
    assert_clean(read_log(text_of(cells(), HEADER.replace(",", delimiter), delimiter)))


def test_open_files_and_bytes() -> None:
    text = text_of(cells())
    assert_clean(read_log(io.StringIO(text)))
    assert_clean(read_log(io.BytesIO(text.encode())))
    assert_clean(read_log(text.encode("utf-16")))
    assert_clean(read_log(text.replace("\n", "\r\n")))


def test_not_utf8_is_said() -> None:
    log = read_log(text_of(cells(), "time [s],core (°C),pit (°C)").encode("latin-1"))
    assert_clean(log)
    assert told(log) == [("found", "encoding", 1, ())] and "Latin-1" in lines(log)


def test_quoted_decimal_commas() -> None:
    rows = [
        [time, f'"{core}"'.replace(".", ","), f'"{pit}"'.replace(".", ",")] for time, core, pit in cells()
    ]
    log = read_log(text_of(rows))
    assert_clean(log)
    assert told(log) == [("found", "decimal comma", 600, ())]
    said = read_log(text_of(rows), decimal=",")
    assert_clean(said)
    assert said.summary == ()


def test_columns_guessed_by_words_of_the_trade_are_said() -> None:
    log = read_log(text_of(cells(), "time [s],meat (C),smoker (C)"))
    assert_clean(log)
    assert [(one.kind, one.column) for one in log.summary] == [("guess", "meat (C)"), ("guess", "smoker (C)")]


def test_comments_and_preamble_are_ignored_aloud() -> None:
    log = read_log("# one\nSaturday's cook\n" + text_of(cells()) + "# end\n")
    assert_clean(log)
    assert of_kind(log, "comment").lines == (1, 304) and of_kind(log, "title").lines == (2,)
    assert "'Saturday's cook'" in of_kind(log, "title").text


def test_a_quotation_mark_without_its_other_half_is_said() -> None:
    rows = [*cells(count=200), ["12000", '"44.0', "120"], *cells(201, 99)]
    one = of_kind(read_log(text_of(rows)), "long record")
    assert one.lines == tuple(range(202, 302)) and "quotation mark" in one.text


def test_no_header() -> None:
    log = read_log("\n".join(",".join(row) for row in cells()), units="C")
    assert_clean(log)
    assert "'column 0'" in of_kind(log, "no header").text
    assert of_kind(log, "guess").count == 2 and log.pit.mean() > log.core.mean()


def test_columns_named_in_the_call() -> None:
    text = text_of(cells(), "when [s],a [C],b [C]")
    assert_clean(read_log(text, time="when", core="a", pit="b"))
    assert_clean(read_log(text, time=0, core=1, pit=2))


# ---- refused


@pytest.mark.parametrize(
    ("text", "part", "call"),
    [
        ("", "log: an empty text", {}),
        ("\n\n", "log: the log is empty", {}),
        ("# a\n# b\n", "nothing but comments", {}),
        ("nowhere.csv", "log: there is no file 'nowhere.csv'", {}),
        (HEADER + "\n", "but no rows", {}),
        (HEADER + "\n0,4,120\n", "at least two rows are accepted", {}),
        (HEADER + "\n5,4,120\n5,4,120\n", "all rows have the same time", {}),
        (
            "time [s] core pit\n0 4 120\n60 5 121\n",
            "delimiter: no delimiter divides the lines into columns",
            {},
        ),
        ("time [s],core,pit\n0,a,b\n60,c,d\n", "no column of numbers beside the time 'time [s]'", {}),
        (HEADER + "\n0,--,120\n60,--,121\n", "cannot", {"core": "heart"}),
        (
            "time [s],core,pit\n0,6,4,121,5\n60,6,6,121,0\n",
            "did you mean a decimal comma in a comma-delimited file",
            {},
        ),
        (
            "time [s];core;pit\n0;6,4;121.5\n60;6,6;121.0\n",
            "decimal: both a comma ('6,4') and a point ('121.5')",
            {},
        ),
        (
            "time [s],left,right\n0,4,5\n60,5,6\n",
            "the log has: 'time [s]', 'left', 'right'; say core='...'",
            {},
        ),
        (
            "x,core,pit\nq,4,120\nr,5,121\n",
            "cannot tell which column is the time; the log has: 'x', 'core', 'pit'",
            {},
        ),
        (
            "time [s],probe 1,probe 2\n0,4,5\n60,5,6\n",
            "2 columns could be the core: 'probe 1', 'probe 2'",
            {},
        ),
        (HEADER + "\n0,4,120\n60,5,121\n", "time: there is no column 7", {"time": 7}),
        (HEADER + "\n0,4,120\n60,5,121\n", "'core (C)' is also given as", {"core": "core", "pit": "core"}),
        (HEADER + "\n0,4,120\n60,5,121\n", "units: 'K' is not a temperature unit", {"units": "K"}),
        (HEADER + "\n0,4,120\n60,5,121\n", "date: '5/11/24' is not a date", {"date": "5/11/24"}),
        (HEADER + "\n0,4,120\n60,5,121\n", "delimiter: '::' is not one character", {"delimiter": "::"}),
        (HEADER + "\n0,4,120\n60,5,121\n", "decimal: '·' is not a decimal mark", {"decimal": "·"}),
        (
            HEADER + "\n0,-999,120\n60,-999,121\n",
            "core: column 'core (C)' holds no reading that can be used",
            {},
        ),
        (b"PK\x03\x04rest", "did you mean the spreadsheet saved as CSV?", {}),
        (42, "log: a int came", {}),
    ],
)
def test_refused_with_the_likely_slip(text: object, part: str, call: dict) -> None:
    if call.get("core") == "heart":
        part = "core: no column is called 'heart'; the log has: 'time [s]', 'core (C)', 'pit (C)'"
    refused(text, part, **call)


def test_folder_is_refused() -> None:
    refused(DATA, "is a folder")


# ---- the class


def test_log_from_arrays() -> None:
    log = Log(time=[0, 60, 120], core=[4, np.nan, 6], pit=[120, 121, 122], flat=[5, 6, 7])
    assert log.duration == 120.0
    assert len(log) == 3
    assert log["flat"].dtype == np.float64
    time, values = log.series("core")
    assert time.tolist() == [0.0, 120.0]
    assert values.tolist() == [4.0, 6.0]


def test_log_does_not_change() -> None:
    source = np.array([0.0, 60.0])
    log = Log(time=source, core=[4.0, 5.0])
    source[0] = -1.0
    assert log.time[0] == 0.0
    with pytest.raises(ValueError, match="read-only"):
        log.core[0] = 3.0
    with pytest.raises(AttributeError, match="a Log does not change"):
        log.time = source
    with pytest.raises(AttributeError, match="cannot be deleted"):
        del log.time
    with pytest.raises(TypeError):
        log.columns["pit"] = source


@pytest.mark.parametrize(
    ("call", "part"),
    [
        ({"time": [0, 1]}, "log: neither core nor pit came"),
        ({"time": [0], "core": [4]}, "time: 1 reading came"),
        ({"time": [0, 0], "core": [4, 5]}, "time[1] = 0 s does not come after time[0] = 0 s"),
        ({"time": [0, np.nan], "core": [4, 5]}, "time[1] is nan"),
        ({"time": [0, 1], "core": [4]}, "core: 1 values came for 2 times"),
        ({"time": [0, 1], "core": [[4, 5]]}, "core: an array with 2 dimensions came"),
        ({"time": [0, 1], "core": ["a", "b"]}, "core: ['a', 'b'] came; numbers are accepted"),
        ({"time": [0, 1], "pit": [np.nan, np.nan]}, "pit: not one finite reading"),
        ({"time": [0, 1], "pit": [120, -999]}, "pit: -999 °C is no reading; -40 to 600 °C is accepted"),
        ({"time": [0, 1], "core": [160, 165]}, "core: half of the readings are above 162 °C"),
    ],
)
def test_log_refuses(call: dict, part: str) -> None:
    with pytest.raises(InvalidInput) as caught:
        Log(**call)
    assert part in str(caught.value)


def test_missing_column() -> None:
    log = Log(time=[0, 60, 120], core=[4, np.nan, np.nan])
    with pytest.raises(InvalidInput, match="pit: this log has no such column; it has: core"):
        _ = log.pit
    with pytest.raises(InvalidInput, match="core: 1 reading left in this column"):
        log.series("core")


def test_pickle_and_equality() -> None:
    log = read_log(DATA / "overnight_fahrenheit.csv")
    again = pickle.loads(pickle.dumps(log))
    assert again == log
    assert not again.time.flags.writeable
    assert log != read_log(DATA / "decimal_comma.csv")
    assert log != 3


def test_reprs_carry_the_facts() -> None:
    log = Log([0, 3600], core=[4, 21.5], pit=[118, 121], start_clock=dt.time(18), events=[(0, "<on>")])
    assert repr(log) == (
        "Log(2 readings over 1 h from 18:00; core 4.0 °C to 21.5 °C; pit 118.0 °C to 121.0 °C; 1 event)"
    )
    page = Reader.of(log._repr_html_())
    assert page.open == [] and "core204.0 °C21.5 °C21.5 °C" in page.text and "(<on>)" in page.text
    assert "2 findings in .summary" in repr(
        read_log(text_of(with_times([clock(1380 + i) for i in range(99)])))
    )


def test_to_frame() -> None:
    pytest.importorskip("pandas")
    frame = Log([0, 60], core=[0, 100], pit=[118, 121]).to_frame(units="F")
    assert frame.index.name == "time"
    assert frame["core"].tolist() == [32.0, 212.0]
    assert frame.attrs["units"] == {"time": "s", "core": "°F", "pit": "°F"}


def test_without_pandas(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pandas", None)
    assert_clean(read_log(text_of(cells())))
    with pytest.raises(ImportError, match="Log.to_frame needs pandas"):
        Log([0, 60], core=[4, 5]).to_frame()
