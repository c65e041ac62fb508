"""Every default of libcook with its range, source and how sure it is: as Markdown and as HTML."""

from __future__ import annotations

from collections import Counter
from html import escape

import libcook as lc

HEADS = ("default", "value", "unit", "range", "how sure", "source")

INTRODUCTION = (
    "Every number that a simulation takes when you give none, read from the library itself. The range is "
    "what is physically reasonable or published. Left out are the coefficients of published correlations, "
    "which stand with their functions, and the settings of the solver."
)


def cells(row: lc._core.Parameter) -> tuple[str, ...]:
    def number(value: float) -> str:
        return f"{value:.7g}"

    span = f"{number(row.low)} to {number(row.high)}"
    return (row.name, number(row.value), row.unit, span, row.kind, row.source)


def tally() -> str:
    """How many defaults are how sure."""
    kinds = Counter(row.kind for row in lc.parameters())
    return f"{sum(kinds.values())} defaults: " + ", ".join(f"{n} {kind}" for kind, n in kinds.most_common())


def markdown() -> str:
    lines = [
        "# Every default, with its source",
        "",
        f"Written by `./validation/run` from `libcook.parameters()`. {INTRODUCTION}",
        "",
        f"{tally()}.",
        "",
        f"| {' | '.join(HEADS)} |",
        f"|{'---|' * len(HEADS)}",
    ]
    for row in lc.parameters():
        name, *rest = (cell.replace("|", "\\|").replace("\n", " ") for cell in cells(row))
        lines.append(f"| `{name}` | {' | '.join(rest)} |")
    return "\n".join(lines) + "\n"


def html() -> str:
    heads = "".join(f"<th>{head}</th>" for head in HEADS)
    lines = "\n".join(
        "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in cells(row)) + "</tr>"
        for row in lc.parameters()
    )
    table = f"<table><thead><tr>{heads}</tr></thead><tbody>{lines}</tbody></table>"
    return (
        f'<section id="defaults"><h2>Every default, with its source</h2><p>{escape(INTRODUCTION)}</p>'
        f"<p>{escape(tally())}.</p>"
        f'<div class="scroll">{table}</div></section>'
    )
