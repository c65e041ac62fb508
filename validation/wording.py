"""Numbers and verdicts in words, the same in every form of the report."""

from __future__ import annotations

import math
from collections.abc import Sequence

from evidence import FAIL, KNOWN_MISS, PASS, Case, Reference, Row, count
from sources import Source

# Said in both reports: what would test more than the rows do.
NOT_READ = (
    "Measured cores, losses and times of roasts stand in papers and theses of which only the abstract or "
    "the table of contents could be read: Bengtsson et al. 1976, Goñi & Salvadori 2010 and 2012, "
    "Rodas-González et al. 2015, Young 1972, Bayne 1968, and the theses on top round roasts of Ohata 1956 "
    "and Garner 1959. Only what the abstracts say is checked: no core temperature of a roast is compared "
    "over time. Not found at all: a measured vapour resistance of butcher paper, the sorption constants of "
    "beef as numbers, and rates at which collagen dissolves at 70 to 90 °C."
)


def number(value: float) -> str:
    """Five significant digits: enough to see a difference, few enough to stay the same on every machine."""
    if value == 0.0:
        return "0"
    if 1e-3 <= abs(value) < 1e5:
        return f"{value:.5g}"
    return f"{value:.4g}"


def reference(value: Reference) -> str:
    if isinstance(value, tuple):
        low, high = value
        return f"above {number(low)}" if math.isinf(high) else f"{number(low)} to {number(high)}"
    return number(value)


def difference(row: Row) -> str:
    """To two digits; what is below a thousandth of the tolerance is rounding."""
    if isinstance(row.reference, tuple):
        return "inside" if row.difference == 0.0 else f"{row.difference:+.2g}"
    if abs(row.difference) < 1e-3 * row.allowed:
        return "< 0.1 % of tol."
    if row.relative:
        return f"{100.0 * row.difference / abs(row.reference):+.2g} %"
    return f"{row.difference:+.2g}"


def tolerance(row: Row) -> str:
    if row.relative:
        return f"{number(100.0 * row.tolerance)} %"
    return number(row.tolerance)


def used(cases: Sequence[Case]) -> list[Source]:
    """Sources that back a row, in order of first use; common practice is none."""
    found: dict[Source, None] = {}
    for case in cases:
        for row in case.rows:
            if row.source.is_independent:
                found.setdefault(row.source)
    return list(found)


def headline(cases: Sequence[Case]) -> str:
    rows = [row for case in cases for row in case.rows]
    crashes = sum(bool(case.crash) for case in cases)
    text = (
        f"{len(rows)} rows in {len(cases)} cases against {len(used(cases))} independent sources: "
        f"{count(rows, PASS)} pass, {count(rows, KNOWN_MISS)} known misses, {count(rows, FAIL)} fail"
    )
    return text + (f", {crashes} cases could not be computed." if crashes else ".")


def is_good(case: Case) -> bool:
    return not case.crash and count(case.rows, FAIL) == 0


def closeness(row: Row) -> float:
    """Difference over tolerance; 0 for a row without either."""
    return (
        0.0 if row.difference == 0.0 else abs(row.difference) / row.allowed if row.allowed else float("inf")
    )
