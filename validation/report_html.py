"""The report as one HTML page that needs nothing else: figures inline, no scripts."""

from __future__ import annotations

import base64
from collections.abc import Sequence
from html import escape

import parameter_table
import wording
from evidence import KNOWN_MISS, PASS, Case, Figure, Row

STYLE = """
:root { color-scheme: light; --line: #d9d9d9; --soft: #5a5a5a; }
body { font: 15px/1.5 system-ui, sans-serif; color: #1c1c1c; background: #fff; margin: 2rem auto;
  max-width: 74rem; padding: 0 1rem; }
h1 { font-size: 1.7rem; margin-bottom: .2rem; } h2 { margin-top: 2.6rem; font-size: 1.25rem; }
p.lead { font-size: 1.05rem; } p.note, figcaption, td small { color: var(--soft); }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: .86rem; font-variant-numeric: tabular-nums; }
th, td { border-bottom: 1px solid var(--line); padding: .35rem .5rem; text-align: left; vertical-align: top; }
th { border-bottom: 2px solid #999; } td.n, th.n { text-align: right; white-space: nowrap; }
td small { display: block; max-width: 34rem; }
.v { font-weight: 600; white-space: nowrap; }
.pass { color: #00693e; } .miss { color: #9a5b00; } .fail { color: #b00020; }
figure { margin: 1rem 1rem 1rem 0; display: inline-block; max-width: 100%; }
figure img { max-width: 100%; width: 36rem; height: auto; }
figcaption { font-size: .85rem; max-width: 42rem; }
pre { background: #f5f5f5; padding: .8rem; overflow-x: auto; font-size: .8rem; }
ol.sources li { margin-bottom: .2rem; }
"""

INTRODUCTION = (
    "Every row compares a number of libcook with one that libcook did not make: a standard, a textbook, a "
    "handbook, a "
    "general-purpose reference library, an exact solution or a published experiment. Each says where its "
    "tolerance comes "
    "from. Known misses stay in. Rows marked common practice have no source and prove nothing."
)
HEADS = (
    ("quantity", ""), ("source", ""), ("reference", "n"), ("libcook", "n"), ("unit", ""), ("difference", "n"),
    ("tolerance", "n"), ("verdict", ""),
)  # fmt: skip


def verdict(row: Row) -> str:
    style = {PASS: "pass", KNOWN_MISS: "miss"}.get(row.verdict, "fail")
    return f'<span class="v {style}">{escape(row.verdict)}</span>'


def table_row(row: Row, number_of: dict[object, int]) -> str:
    mark = f"[{number_of[row.source]}] " if row.source in number_of else ""
    source = (
        f"{mark}{escape(row.source.kind)}, {escape(row.source.read)}" if mark else escape(row.source.citation)
    )
    why = escape(row.why) + (f"<br>Known miss: {escape(row.known_miss)}" if row.known_miss else "")
    cells = (
        f"<td>{escape(row.quantity)}<small>{why}</small></td><td>{source}</td>"
        f'<td class="n">{escape(wording.reference(row.reference))}</td>'
        f'<td class="n">{wording.number(row.ours)}</td>'
        f'<td>{escape(row.unit)}</td><td class="n">{escape(wording.difference(row))}</td>'
        f'<td class="n">{escape(wording.tolerance(row))}</td><td>{verdict(row)}</td>'
    )
    return f"<tr>{cells}</tr>"


def figure(made: Figure) -> str:
    data = base64.b64encode(made.svg.encode()).decode()
    caption = escape(made.caption)
    image = f'<img alt="{caption}" src="data:image/svg+xml;base64,{data}">'
    return f"<figure>{image}<figcaption>{caption}</figcaption></figure>"


def section(case: Case, number_of: dict[object, int]) -> str:
    parts = [f'<section id="{case.name}"><h2>{escape(case.title)}</h2>']
    parts += [f"<p>{escape(text)}</p>" for text in case.statement.split("\n\n") if text.strip()]
    if case.crash:
        parts.append(f'<p class="v fail">This case could not be computed.</p><pre>{escape(case.crash)}</pre>')
    parts += [figure(made) for made in case.figures]
    if case.rows:
        heads = "".join(f'<th class="{style}">{name}</th>' for name, style in HEADS)
        lines = "\n".join(table_row(row, number_of) for row in case.rows)
        parts.append(
            f'<div class="scroll"><table><thead><tr>{heads}</tr></thead><tbody>{lines}</tbody></table></div>'
        )
    return "\n".join([*parts, "</section>"])


def contents(cases: Sequence[Case]) -> str:
    lines = []
    for case in cases:
        style, word = ("pass", "pass") if wording.is_good(case) else ("fail", "FAIL")
        misses = sum(row.verdict == KNOWN_MISS for row in case.rows)
        more = f', <span class="v miss">{misses} known</span>' if misses else ""
        lines.append(
            f'<tr><td><a href="#{case.name}">{escape(case.title)}</a></td><td class="n">{len(case.rows)}</td>'
            f'<td><span class="v {style}">{word}</span>{more}</td></tr>'
        )
    lines.append('<tr><td><a href="#defaults">Every default, with its source</a></td><td></td><td></td></tr>')
    body = "\n".join(lines)
    head = '<tr><th>case</th><th class="n">rows</th><th>verdict</th></tr>'
    return f"<table><thead>{head}</thead><tbody>{body}</tbody></table>"


def page(cases: Sequence[Case]) -> str:
    sources = wording.used(cases)
    number_of: dict[object, int] = {source: i + 1 for i, source in enumerate(sources)}
    listed = "\n".join(f"<li>{escape(s.citation)} ({escape(s.kind)}, {escape(s.read)})</li>" for s in sources)
    sections = "\n".join(section(case, number_of) for case in cases)
    return f"""<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>libcook: checks against the world outside</title><style>{STYLE}</style></head><body>
<h1>libcook: checks against the world outside</h1>
<p class="lead">{escape(wording.headline(cases))}</p>
<p class="note">{escape(INTRODUCTION)}</p>
{contents(cases)}
{sections}
<section id="unread"><h2>What could not be read</h2><p>{escape(wording.NOT_READ)}</p></section>
{parameter_table.html()}
<section id="sources"><h2>Sources</h2>
<p class="note">The last word says how the value reached us; "from memory" is yet to be confirmed.</p>
<ol class="sources">{listed}</ol></section>
</body></html>
"""
