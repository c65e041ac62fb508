"""Logs spoilt in any way: a Log that is finite and comes back from its own file, or InvalidInput."""

import tempfile
from functools import cache
from pathlib import Path
from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from log_samples import HEADER, cells, clock, text_of, with_times
from plan_strategies import examples

from libcook.errors import InvalidInput
from libcook.logs import Log, read_log

DATA = Path(__file__).parents[1] / "data" / "logs"
LINES = 16  # of each log: short ones find as much, sooner


def own(log: Log) -> bytes:
    """The bytes of the CSV that libcook writes."""
    with tempfile.TemporaryDirectory() as folder:
        return log.to_csv(Path(folder) / "cook.csv").read_bytes()


def stamped(form: str) -> str:
    """A log whose times are stamps, every ten minutes."""
    return text_of(with_times([form.format(clock(1320 + 10 * i)) for i in range(LINES)]))


SEEDS = [
    *(
        "\n".join(path.read_text(encoding="utf-8").splitlines()[:LINES]) + "\n"
        for path in sorted(DATA.glob("*.csv"))
    ),
    text_of(cells(count=LINES)),
    text_of(cells(count=LINES), "minutes;core (F);pit (F);note", ";"),
    text_of(cells(count=LINES), HEADER.replace(",", "\t"), "\t"),
    own(
        read_log(text_of(cells(count=LINES))).with_events([("5 min", "wrapped"), ("1 min", "windy, cold")])
    ).decode(),
    stamped("2024-10-27 {}"),
    stamped("5/12/2024 {}"),
    stamped("{}"),
    text_of(
        [[*row, "spritz" if i % 5 == 0 else ""] for i, row in enumerate(cells(count=LINES))],
        HEADER + ",notes",
    ),
]

# What a call can say besides; most logs are read without any.
CALLS = [
    {},
    {},
    {},
    {"timezone": "Europe/Berlin"},
    {"timezone": "America/Chicago", "date": "2024-11-02"},
    {"day_first": True},
    {"day_first": False, "timezone": "Australia/Lord_Howe"},
    {"events": [("1 min", "spritz")]},
    {"units": "C", "date": "2024-03-30"},
]

PIECES = [
    *(
        "",
        " ",
        "0",
        "-1",
        "1e308",
        "-1e308",
        "1e999",
        "nan",
        "inf",
        "-",
        "--",
        "999.9",
        "-40",
        "32",
        "NaN",
        "°F",
    ),
    *(
        ",",
        ";",
        "\t",
        '"',
        "'",
        "\n",
        "\r\n",
        "\r",
        "\x00",
        "\ufeff",
        "#",
        "\u2212",
        "12,5",
        "1,234.5",
        "1.234,5",
    ),
    *(
        "23:59",
        "00:00",
        "24:00",
        "12:61",
        "7:05 PM",
        "12:00 AM",
        "2024-02-30 10:00",
        "2024-05-11T10:00Z",
        "0001-01-01",
    ),
    *(
        "9999-12-31 23:59",
        "10:00+02:00",
        "13/14/2024",
        "1/2/24 3:04",
        "2024-10-27 02:30",
        "2024-03-31 02:30",
        "0001-01-01 00:00",
        "wrapped",
        "not wrapped?",
        "# libcook log ",
        '{"version": 1',
        "[°F]",
        "event",
        "summary",
        "time",
        "core",
        "pit",
        "core (F)",
        "minutes",
        "\u0661\u0662",
        "x" * 300,
    ),
]


def spoil(seed):
    """A log with one to six defects; a seed rather than many draws, because it is ten times faster."""
    random = Random(seed)
    text = random.choice(SEEDS)
    for _ in range(random.randint(1, 6)):
        piece = random.choice(PIECES) if random.random() < 0.7 else chr(random.randrange(0xD800))
        how = random.randrange(5)
        if how == 0:  # one character or more replaced
            at = random.randint(0, len(text))
            text = text[:at] + piece + text[at + random.randint(0, 12) :]
        elif how == 1:  # one cell replaced
            text = in_cell(text, random.randrange(10**6), piece)
        elif how == 2:  # a line moved, repeated or left out
            rows = text.split("\n")
            row = rows.pop(random.randrange(len(rows)))
            for _ in range(random.randint(0, 2)):
                rows.insert(random.randint(0, len(rows)), row)
            text = "\n".join(rows)
        elif how == 3 and random.random() < 0.3:  # cut off
            text = text[: random.randint(0, len(text))]
        else:  # one letter everywhere
            text = text.replace(random.choice(",;.:0125\n"), piece[:2], random.choice([1, 5, -1]))
    return text


def in_cell(text, which, piece):
    rows = text.split("\n")
    row = which % len(rows)
    mark = max(",;\t", key=rows[row].count)
    parts = rows[row].split(mark)
    parts[which // len(rows) % len(parts)] = piece
    rows[row] = mark.join(parts)
    return "\n".join(rows)


def check(log):
    assert (np.diff(log.time) > 0.0).all()
    assert np.isfinite(log.time).all()
    for name in log.columns:
        try:
            time, values = log.series(name)
        except InvalidInput:
            continue  # fewer than two readings
        assert time.size == values.size >= 2
        assert np.isfinite(values).all()
    assert repr(log) and log.report()
    for finding in log.summary:
        assert all(line >= 1 for line in finding.lines)
        assert np.isfinite(finding.times).all()
    assert all(event.source in ("file", "call") for event in log.events)
    assert all(event.source == "proposed" for event in log.propose_events())


@examples(5.0)
@given(st.integers(0, 2**32))
def test_a_spoilt_log_is_read_or_refused(seed):
    text = spoil(seed)
    try:
        log = read_log(text + "\n", **CALLS[seed % len(CALLS)])  # text, not a path: it holds a line break
    except InvalidInput as refusal:
        assert str(refusal)
        return
    check(log)
    assert read_log(own(log)) == log


@examples(2.0)
@given(st.integers(0, 2**32))
def test_a_spoilt_parquet_file_is_read_or_refused(seed):
    pytest.importorskip("pyarrow")
    random = Random(seed)
    raw = bytearray(parquet())
    for _ in range(random.randint(1, 4)):
        at = random.randrange(4, len(raw))
        if random.random() < 0.8:
            raw[at] = random.randrange(256)
        else:
            del raw[at : at + random.randint(1, 40)]
    try:
        log = read_log(bytes(raw))
    except InvalidInput as refusal:
        assert str(refusal)
        return
    check(log)


@cache
def parquet():
    with tempfile.TemporaryDirectory() as folder:
        log = read_log(text_of(cells(count=LINES)), events=[("5 min", "wrapped")])
        return log.to_parquet(Path(folder) / "cook.parquet").read_bytes()
