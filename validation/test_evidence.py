"""The judge itself: what passes, what fails, and what a known miss may do."""

from __future__ import annotations

from dataclasses import replace

import pytest
import report_html
import report_markdown
import sources
import wording
from evidence import FAIL, KNOWN_MISS, PASS, Case, Row, Worst

ROW = Row("length", "m", sources.nafems, 2.0, 2.1, 0.2, "because")


@pytest.mark.parametrize(
    ("row", "verdict"),
    [
        (ROW, PASS),
        (replace(ROW, ours=2.3), FAIL),
        (replace(ROW, ours=float("nan")), FAIL),
        (replace(ROW, ours=float("inf"), reference=(1.0, float("inf"))), FAIL),
        (replace(ROW, tolerance=0.06, relative=True), PASS),
        (replace(ROW, tolerance=0.04, relative=True), FAIL),
        (replace(ROW, reference=(2.05, 3.0), tolerance=0.0), PASS),
        (replace(ROW, reference=(2.2, 3.0), tolerance=0.0), FAIL),
        (replace(ROW, reference=(2.2, 3.0), tolerance=0.11), PASS),
        (replace(ROW, ours=2.3, known_miss="too long"), KNOWN_MISS),
        (replace(ROW, known_miss="a mark that has outlived its miss"), FAIL),
    ],
)
def test_verdict(row: Row, verdict: str) -> None:
    assert row.verdict == verdict


def test_a_sweep_shows_its_worst_point_and_a_nan_is_the_worst() -> None:
    worst = Worst()
    for ours, reference in ((1.0, 1.0), (2.5, 2.0), (3.1, 3.0)):
        worst.add(ours, reference, f"at {reference:g}")
    row = worst.row("length", "m", sources.nafems, 0.2, "because")
    assert (row.ours, row.reference, row.verdict) == (2.5, 2.0, FAIL)
    assert row.quantity == "length, worst of 3: at 2"
    worst.add(float("nan"), 4.0, "at 4")
    assert worst.row("length", "m", sources.nafems, 9.0, "because").verdict == FAIL


def test_reports_show_failures_crashes_and_misses() -> None:
    bad = Case("bad", "A <bad> case", "Stated.", (replace(ROW, ours=9.0),))
    crashed = Case("crashed", "Crashed", "", (), (), "Traceback: boom")
    missed = Case("missed", "Missed", "", (replace(ROW, ours=9.0, known_miss="known | why"),))
    cases = (bad, crashed, missed)
    assert [wording.is_good(case) for case in cases] == [False, False, True]
    html, markdown = report_html.page(cases), report_markdown.page(cases)
    assert "A &lt;bad&gt; case" in html and "<bad>" not in html
    assert "Traceback: boom" in html and "Known miss: known | why" in html
    assert "1 known misses, 1 fail, 1 cases could not be computed" in html
    assert markdown.count("FAIL") == 2 and "known \\| why" in markdown


def test_common_practice_is_no_source() -> None:
    case = Case("practice", "Practice", "", (replace(ROW, source=sources.practice),))
    assert wording.used([case]) == []
