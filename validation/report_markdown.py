"""The report as a short Markdown page, kept in the repository."""

from __future__ import annotations

from collections.abc import Sequence

import wording
from evidence import KNOWN_MISS, PASS, Case, Row


def cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")


def summary_row(case: Case) -> str:
    if not case.rows:
        return f"| {cell(case.title)} | 0 | FAIL: could not be computed | |"
    verdicts = {row.verdict for row in case.rows}
    misses = sum(row.verdict == KNOWN_MISS for row in case.rows)
    word = "pass" if verdicts <= {PASS, KNOWN_MISS} and not case.crash else "FAIL"
    if misses:
        word += f", {misses} known miss" + ("es" if misses > 1 else "")
    scored = [row for row in case.rows if row.verdict != KNOWN_MISS and not isinstance(row.reference, tuple)]
    near = max(scored, key=wording.closeness, default=None)
    if near is None:
        return f"| {cell(case.title)} | {len(case.rows)} | {word} | bands only |"
    unit = "" if near.relative else near.unit.removeprefix("-")
    closest = f"{near.quantity}: {wording.difference(near)} of {wording.tolerance(near)} {unit}"
    return f"| {cell(case.title)} | {len(case.rows)} | {word} | {cell(closest.strip())} |"


def miss(case: Case, row: Row) -> str:
    unit = row.unit.removeprefix("-")  # a pure number has none
    values = f"{wording.reference(row.reference)} against {wording.number(row.ours)} {unit}".strip()
    return (
        f"| {cell(case.title)} | {cell(row.quantity)} | {cell(values)} | {cell(row.known_miss or row.why)} |"
    )


def page(cases: Sequence[Case]) -> str:
    lines = [
        "# Checks against the world outside",
        "",
        "Written by `./validation/run`, which also makes the page with figures, every row and every "
        "tolerance, "
        "`validation/report/index.html`.",
        "",
        wording.headline(cases),
        "",
        "| case | rows | verdict | closest to its tolerance |",
        "|---|---|---|---|",
        *[summary_row(case) for case in cases],
        "",
        "## Misses",
        "",
    ]
    missed = [miss(case, row) for case in cases for row in case.rows if row.verdict != PASS]
    if missed:
        lines += ["| case | quantity | reference against ours | why |", "|---|---|---|---|", *missed]
    else:
        lines.append("None.")
    lines += ["", "## What could not be read", "", wording.NOT_READ]
    lines += ["", "## Defaults", "", "Every default with its source: [PARAMETERS.md](PARAMETERS.md)."]
    lines += ["", "## Robustness and coverage", ""]
    lines += ["[ROBUSTNESS.md](ROBUSTNESS.md) and [COVERAGE.md](COVERAGE.md), written by hand."]
    lines += ["", "## Sources", ""]
    lines += [f"{i}. {s.citation} ({s.kind}, {s.read})" for i, s in enumerate(wording.used(cases), 1)]
    return "\n".join(lines) + "\n"
