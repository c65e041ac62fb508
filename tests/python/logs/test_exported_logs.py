"""Sixty invented exports of logs: each is read as stated beside it, or refused with the argument to give.

And the same files spoilt: a log without a silent hole, or the library's own error, and never a hang.
"""

import io
import sys
import zipfile
from pathlib import Path
from random import Random

import numpy as np
import pytest
from exported_logs import ANSWERED, EXPORTS, READ, REFUSED, Case
from hypothesis import given
from hypothesis import strategies as st
from plan_strategies import examples

from libcook.errors import InvalidInput
from libcook.logs import Log, read_log
from libcook.logs.findings import line_list
from libcook.units import shown_in

FILES = sorted(path.name for path in EXPORTS.iterdir() if path.name != "README.md")


def said(log: Log) -> str:
    """The findings as `exported_logs` writes them."""
    return "; ".join(
        f"{one.action} {one.kind} {repr(one.column) if one.column else one.count}"
        + (f" {line_list(one.lines)}" if one.lines else "")
        for one in log.summary
    )


def test_every_file_is_stated_and_described() -> None:
    stated = [case.file for case in READ] + list(REFUSED)
    assert sorted(stated) == FILES and len(FILES) >= 40
    described = (EXPORTS / "README.md").read_text(encoding="utf-8")
    assert "invented" in described
    assert [name for name in FILES if f"`{name}`" not in described] == []


@pytest.mark.parametrize("case", READ + ANSWERED, ids=str)
def test_a_file_is_read_as_stated(case: Case) -> None:
    log = read_log(EXPORTS / case.file, **case.call)
    assert log.units == case.units
    assert str(log.start_clock) == case.start
    assert log.time[0] == 0.0
    assert log.duration == pytest.approx(60.0 * case.minutes, abs=0.5)
    assert list(log.columns) == list(case.values)
    for name, (first, last) in case.values.items():
        shown = shown_in(log[name], log.units)
        assert (shown[0], shown[-1]) == (pytest.approx(first, abs=0.06), pytest.approx(last, abs=0.06))
        assert np.count_nonzero(np.isnan(log[name])) == case.missing.get(name, 0)
    assert [(event.kind, event.time / 60.0) for event in log.events] == case.events
    assert said(log) == case.said


@pytest.mark.parametrize("file", REFUSED)
def test_a_file_is_refused_as_stated(file: str) -> None:
    with pytest.raises(InvalidInput) as caught:
        read_log(EXPORTS / file)
    assert REFUSED[file] in str(caught.value)


@pytest.mark.parametrize("case", READ + ANSWERED, ids=str)
def test_what_is_left_out_is_named_in_the_report(case: Case) -> None:
    log = read_log(EXPORTS / case.file, **case.call)
    report = log.report()
    for one in log.summary:
        assert str(one) in report
        if one.action == "ignored" and one.kind == "column":
            assert one.column in one.text and ("units={" in one.text or "events=" in one.text)
        elif one.action == "ignored":
            assert one.lines or "'" in one.text  # where it stands, or its words
    left_out = sum(one.action == "ignored" and one.kind == "column" for one in log.summary)
    assert ("left out" in repr(log)) == bool(left_out)


@pytest.mark.parametrize("case", READ, ids=str)
def test_bytes_and_open_files_are_read_alike(case: Case) -> None:
    log = read_log(EXPORTS / case.file)
    assert read_log((EXPORTS / case.file).read_bytes()) == log
    with open(EXPORTS / case.file, "rb") as file:
        assert read_log(file) == log


@pytest.mark.parametrize("case", READ + ANSWERED, ids=str)
def test_what_was_read_comes_back_from_a_file_of_ours(case: Case, tmp_path: Path) -> None:
    log = read_log(EXPORTS / case.file, **case.call)
    assert read_log(log.to_csv(tmp_path / "log.csv")) == log


def test_without_openpyxl_the_command_that_installs_it_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    with pytest.raises(ImportError, match=r"needs openpyxl.*pip install 'libcook\[excel\]'"):
        read_log(EXPORTS / "merged_titles.xlsx")
    assert read_log(EXPORTS / "titles_with_commas.csv").duration == 7800.0


# ---- spoilt files


def check(log: Log) -> None:
    """Every reading is finite or told missing."""
    assert np.isfinite(log.time).all() and (np.diff(log.time) > 0.0).all()
    assert not any(np.isinf(values).any() for values in log.columns.values())
    told = {"dropout", "spike", "short row", "series", "thinned"}
    missing = any(np.isnan(values).any() for values in log.columns.values())
    assert not missing or told & {one.kind for one in log.summary}
    assert log.report() and repr(log)


def read_or_refused(raw: bytes, **call: object) -> None:
    try:
        log = read_log(raw, **call)
    except InvalidInput as refusal:
        assert str(refusal)
        return
    check(log)


CALLS = [{}, {}, {"skip": 2}, {"units": "F"}, {"timezone": "America/Chicago"}, {"decimal": ","}, {"core": 1}]
PIECES = [
    *(b"", b"\0", b",", b";", b"\t", b'"', b"\n", b"{", b"}", b"[", b"]", b"[[[[", b'{"a":', b"null"),
    *(b"1e999", b"NaN", b"Infinity", b"-1,5", b"1,020", b"9" * 20, b"9" * 400, b" PM", b"\xff"),
    *(b"14.11.26", b"Nov 14, 2026", b"5 min", b" \xc2\xb0F", b"\xc2\xb0C", b"K", b"time", b"Kern"),
    *(b"unit", b"sep=", b"#", b"----"),
]


def spoilt(raw: bytes, random: Random) -> bytes:
    """A file with one to five defects."""
    for _ in range(random.randint(1, 5)):
        at = random.randint(0, len(raw))
        how = random.randrange(5)
        if how == 0:
            raw = raw[:at] + random.choice(PIECES) + raw[at + random.randint(0, 8) :]
        elif how == 1:
            raw = raw[:at] + random.randbytes(random.randint(1, 4)) + raw[at + random.randint(0, 4) :]
        elif how == 2:
            lines = raw.split(b"\n")
            lines.insert(random.randrange(len(lines)), lines.pop(random.randrange(len(lines))))
            raw = b"\n".join(lines)
        elif how == 3 and random.random() < 0.3:
            raw = raw[:at]
        else:
            sign = random.choice((b",", b";", b":", b".", b"0", b"1"))
            raw = raw.replace(sign, random.choice(PIECES)[:3], 3)
    return raw


@examples(6.0)
@given(st.integers(0, 2**32))
def test_a_spoilt_export_is_read_or_refused(seed: int) -> None:
    random = Random(seed)
    raw = (EXPORTS / random.choice(FILES)).read_bytes()
    read_or_refused(spoilt(raw, random), **random.choice(CALLS))


JUNK = (
    *("", "-", "OFF", "999", "1e5", "12,5", "1.234", "1,234", "12.5 °C", "12.5 °F", "100 K", "44", "x"),
    *("19:30", "2026-11-14 19:30", "NaN", "0", "1e308", "½", "'", "=1", "F", "+5", "..", "1.2.3", "inf"),
)
TEXTS = [case for case in READ if case.file.endswith((".csv", ".tsv", ".txt"))]
TEXTS = [case for case in TEXTS if case.file != "unit_of_each_row.csv"]  # there a cell speaks for its row


ENCODINGS = {
    "utf16.txt": "utf-16",
    "utf16_without_mark.csv": "utf-16-le",
    "latin1_two_digit_year.csv": "latin-1",
}


@examples(5.0)
@given(st.integers(0, 2**32))
def test_a_damaged_cell_changes_no_other_reading(seed: int) -> None:
    """It must not turn the decimal mark, the scale or the order of dates of the whole file."""
    random = Random(seed)
    file = random.choice(TEXTS).file
    whole = (EXPORTS / file).read_text(encoding=ENCODINGS.get(file, "utf-8"))
    lines = whole.rstrip("\n").split("\n")
    at = random.randrange(len(lines) - 9, len(lines) - 1)
    mark = max(";\t|,", key=lines[at].count)
    lines[at] = lines[at].rpartition(mark)[0] + mark + '"' + random.choice(JUNK) + '"'
    before = read_log(whole)
    try:
        log = read_log("\n".join(lines) + "\n")
    except InvalidInput:
        return
    assert log.start_clock == before.start_clock
    changed = 0
    for name, values in before.columns.items():
        now = dict(zip(log.time, log[name], strict=True))
        assert all(time in now for time in before.time)
        same = np.isclose(values, [now[time] for time in before.time], rtol=0.0, atol=1e-9, equal_nan=True)
        changed += int(np.count_nonzero(~same))
    assert changed <= 1


@pytest.mark.parametrize("file", FILES)
def test_a_file_that_is_cut_short_is_read_or_refused(file: str) -> None:
    raw = (EXPORTS / file).read_bytes()
    for share in range(1, 20):
        read_or_refused(raw[: len(raw) * share // 20])


XML = (
    *((b"<v>", b"<v>-"), (b"<v>", b"<v>9e400"), (b't="n"', b't="d"'), (b't="n"', b't="s"')),
    *((b' r="B', b' r="ZZ'), (b"</row>", b""), (b"<c ", b"<c s='9' "), (b"mergeCell", b"merge")),
    (b'row r="6"', b'row r="60000"'),
)


@examples(2.0)
@given(st.integers(0, 2**32))
def test_a_workbook_whose_parts_are_spoilt_is_read_or_refused(seed: int) -> None:
    random = Random(seed)
    raw = (EXPORTS / random.choice([name for name in FILES if name.endswith(".xlsx")])).read_bytes()
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(raw)) as archive, zipfile.ZipFile(made, "w") as other:
        for name in archive.namelist():
            part = archive.read(name)
            if name.startswith("xl/worksheets/") and random.random() < 0.8:
                old, new = random.choice(XML)
                part = part.replace(old, new, random.choice((1, 3, -1)))
            elif random.random() < 0.05:
                part = spoilt(part, random)
            if random.random() > 0.02:
                other.writestr(name, part)
    read_or_refused(made.getvalue())


@examples(2.0)
@given(st.binary(max_size=600))
def test_noise_is_read_or_refused(raw: bytes) -> None:
    read_or_refused(raw)


@examples(2.0)
@given(st.text(alphabet='0123456789.,;:-/ "\n\t{}[]aAmMpPtcoreiFC°%', max_size=300))
def test_text_like_a_log_is_read_or_refused(text: str) -> None:
    read_or_refused(text.encode())
