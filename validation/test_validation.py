"""Each row of the validation is a test of its own; known misses are expected failures."""

from __future__ import annotations

import catalogue
import pytest
import wording
from evidence import FAIL, KNOWN_MISS, Case, Row

CASES = [catalogue.run(name) for name in catalogue.names()]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_case_can_be_computed(case: Case) -> None:
    assert not case.crash, case.crash
    assert case.rows
    assert len({row.quantity + row.source.citation for row in case.rows}) == len(case.rows), (
        "a row comes twice"
    )


@pytest.mark.parametrize(
    "row", [pytest.param(row, id=f"{case.name}: {row.quantity}") for case in CASES for row in case.rows]
)
def test_row(row: Row) -> None:
    wanted = f"reference {wording.reference(row.reference)} ({row.source.citation})"
    told = f"{wording.number(row.ours)} {row.unit}, {wanted}"
    if row.verdict == KNOWN_MISS:
        pytest.xfail(f"{told}: {row.known_miss}")
    assert row.verdict != FAIL, f"{told}, tolerance {wording.tolerance(row)}: {row.why}"


def test_there_is_enough_evidence() -> None:
    assert sum(len(case.rows) for case in CASES) >= 60
    assert len(wording.used(CASES)) >= 12
