"""Invented data for the tests of logs: smooth curves, into which a test puts one defect by hand."""

from pathlib import Path

import numpy as np
import pytest

from libcook.errors import InvalidInput
from libcook.logs import Finding, Log, read_log

DATA = Path(__file__).parent / "data" / "logs"
MINUTES = 300
HEADER = "time [s],core (C),pit (C)"


def core_at(minute: int) -> float:
    return round(4.0 + 0.2 * minute, 2)


def pit_at(minute: int) -> float:
    return round(120.0 + 0.6 * (minute % 10), 2)


def cells(start: int = 0, count: int = MINUTES) -> list[list[str]]:
    return [[str(60 * i), str(core_at(i)), str(pit_at(i))] for i in range(start, start + count)]


def clock(minute: int, seconds: bool = False) -> str:
    return f"{minute // 60 % 24:02d}:{minute % 60:02d}" + (":00" if seconds else "")


def text_of(rows: list[list[str]], header: str = HEADER, delimiter: str = ",") -> str:
    return "\n".join([header, *(delimiter.join(row) for row in rows)]) + "\n"


def with_times(times: list[str]) -> list[list[str]]:
    return [[time, *row[1:]] for time, row in zip(times, cells(count=len(times)), strict=True)]


def lines(log: Log) -> str:
    return "\n".join(map(str, log.summary))


def told(log: Log) -> list[tuple[str, str, int, tuple[int, ...]]]:
    """What was found, as facts: action, kind, how many, in which lines of the file."""
    return [(one.action, one.kind, one.count, one.lines) for one in log.summary]


def of_kind(log: Log, kind: str) -> Finding:
    (one,) = (one for one in log.summary if one.kind == kind)
    return one


def finding(log: Log, part: str) -> Finding:
    hits = [one for one in log.summary if part in str(one)]
    assert len(hits) == 1, f"'{part}' is in {len(hits)} lines of:\n{lines(log)}"
    return hits[0]


def refused(text: object, part: str, **call: object) -> str:
    with pytest.raises(InvalidInput) as caught:
        read_log(text, **call)
    assert part in str(caught.value)
    return str(caught.value)


def assert_clean(log: Log, count: int = MINUTES) -> None:
    np.testing.assert_allclose(log.time, 60.0 * np.arange(count))
    np.testing.assert_allclose(log.core, [core_at(i) for i in range(count)])
    np.testing.assert_allclose(log.pit, [pit_at(i) for i in range(count)])
