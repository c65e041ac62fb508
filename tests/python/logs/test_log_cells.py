"""Text in a log's CSV that a spreadsheet would take for a formula."""

import csv
import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import libcook as lc
from libcook.logs.cells import guarded, in_one_cell, unguarded

RUN = re.compile(r"[=+\-@\t\r]")
FORMULAS = [
    "=1+1",
    "+1",
    "-1",
    "@SUM(1)",
    "\t=1",
    "\r=1",
    "=cmd|' /C calc'!A0",
    "'=1",
    "''-1",
    "'tis done",
    "wrapped, =1+1",
    "x;=1",
    "wrapped",
]


def log(notes=(), **columns):
    events = [lc.Event("note", 60.0 * i, "call", note) for i, note in enumerate(notes)]
    readings = {"core": [20.0, -5.5, 30.0], **columns}
    return lc.Log([0.0, 600.0, 1200.0], events=events, **readings)


def cells_of(path, delimiter=","):
    """What a spreadsheet makes of the file, by any delimiter that it may take."""
    with open(path, encoding="utf-8", newline="") as file:
        return [cell for row in csv.reader(file, delimiter=delimiter) for cell in row]


@pytest.mark.parametrize("note", FORMULAS)
def test_notes_are_not_run_and_read_back_unchanged(note, tmp_path):
    path = log([note]).to_csv(tmp_path / "log.csv")
    assert not [cell for cell in cells_of(path) if RUN.match(cell) and not is_number(cell)]
    assert [event.note for event in lc.read_log(path).events] == [note]
    assert lc.read_log(path) == log([note])


def is_number(cell):
    try:
        float(cell)
    except ValueError:
        return False
    return True


def test_names_of_columns_are_not_run(tmp_path):
    made = log(**{"=evil": [1.0, 2.0, 3.0], "-flat": [1.0, 2.0, 3.0], "@point": [1.0, 2.0, 3.0]})
    path = made.to_csv(tmp_path / "log.csv")
    assert not [cell for cell in cells_of(path) if RUN.match(cell) and not is_number(cell)]
    assert lc.read_log(path) == made
    assert list(lc.read_log(path).columns) == list(made.columns)


def test_negative_numbers_stay_numbers(tmp_path):
    path = log().to_csv(tmp_path / "log.csv")
    assert "-5.5" in cells_of(path)
    with open(path, encoding="utf-8") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    assert [float(row["core [°C]"]) for row in rows] == [20.0, -5.5, 30.0]


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_what_a_file_said_is_not_run_from_the_first_line(delimiter, tmp_path):
    source = (
        'time [s],core [°C],pit [°C],note\n0,4,118,"x,=1+1;=2+2\t=3"\n60,5,118,"a ;@SUM(1),-1"\n120,6,118,\n'
    )
    read = lc.read_log(source)
    assert any("=1+1" in finding.text for finding in read.summary)
    path = read.to_csv(tmp_path / "log.csv")
    first = path.read_text(encoding="utf-8").splitlines()[0]
    assert not [cell for cell in next(csv.reader([first], delimiter=delimiter)) if RUN.match(cell.lstrip())]
    assert lc.read_log(path) == read


def test_files_of_before_are_read_as_they_were(tmp_path):
    made = log(["'-1 is no guard here"])
    path = made.to_csv(tmp_path / "log.csv")
    old = path.read_text(encoding="utf-8").replace('"guarded": true, ', "").replace("''-1", "'-1")
    path.write_text(old, encoding="utf-8", newline="")
    assert [event.note for event in lc.read_log(path).events] == ["'-1 is no guard here"]


@given(st.text())
def test_every_text_comes_back(text):
    safe = guarded(text)
    assert not RUN.match(safe)
    assert unguarded(safe) == text
    assert unguarded(text, was=False) == text


@given(st.text(alphabet="',\";|=+-@\\ab\t", max_size=12))
def test_json_in_one_cell_says_the_same(text):
    import json

    written = in_one_cell(json.dumps({"a": text, "b": [-1.5, text]}, ensure_ascii=False))
    assert json.loads(written) == {"a": text, "b": [-1.5, text]}
    for delimiter in ",;\t|":
        for cell in written.split(delimiter)[1:]:
            assert not RUN.match(cell)


def test_arrays_and_findings_come_back_too(tmp_path):
    made = log(["=1"], pit=[np.nan, 120.0, 121.0])
    assert lc.read_log(made.to_csv(tmp_path / "log.csv")) == made
