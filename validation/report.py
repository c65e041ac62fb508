"""Runs every case and writes the report; the exit status says whether a row fails.

    python validation/report.py [CASE ...]

With names of cases only those are run, and the Markdown pages are left as they are.
"""

from __future__ import annotations

import sys
from pathlib import Path

import catalogue
import parameter_table
import report_html
import report_markdown
import wording
from evidence import FAIL, Case

HERE = Path(__file__).resolve().parent


def tell(case: Case) -> None:
    """One line a case, and one a failing row, as they come."""
    print(f"{'pass' if wording.is_good(case) else 'FAIL':5} {case.title} ({len(case.rows)} rows)", flush=True)
    if case.crash:
        print(case.crash)
    for row in case.rows:
        if row.verdict == FAIL:
            print(
                f"{row.quantity}: {wording.number(row.ours)} {row.unit}, reference "
                f"{wording.reference(row.reference)}, "
                f"difference {wording.difference(row)}, tolerance {wording.tolerance(row)}"
            )


def main(wanted: list[str]) -> int:
    known = catalogue.names()
    unknown = sorted(set(wanted) - set(known))
    if unknown:
        print(f"no such case: {', '.join(unknown)}; there are {', '.join(known)}", file=sys.stderr)
        return 2
    cases = []
    for name in wanted or known:
        cases.append(catalogue.run(name, with_figures=True))
        tell(cases[-1])
    target = HERE / "report" / "index.html"
    target.parent.mkdir(exist_ok=True)
    target.write_text(report_html.page(cases), encoding="utf-8")
    if not wanted:
        (HERE / "SUMMARY.md").write_text(report_markdown.page(cases), encoding="utf-8")
        (HERE / "PARAMETERS.md").write_text(parameter_table.markdown(), encoding="utf-8")
    print(f"\n{wording.headline(cases)}\n{target}")
    return 0 if all(wording.is_good(case) for case in cases) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
