"""HTML for notebooks: tables, lists and boxes in the colours of the page; no script, no style sheet.

Plain functions: four shapes are all there is, and a template engine would be one more thing to install.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape


def table(rows: Sequence[Sequence[str]], head: Sequence[str] = (), numbers: bool = False) -> str:
    """Write a table; the first cell of each row names it. A line break in a heading breaks it.

    `numbers` sets all cells but the first flush right, under a line.
    """

    def row(cells: Sequence[str], heading: bool) -> str:
        written = []
        for i, text in enumerate(cells):
            side, pad = ("right", "2px 8px") if numbers and i else ("left", "2px 10px 2px 0")
            line = ";border-bottom:1px solid currentColor" if numbers and heading else ""
            tag, scope = ("th", ' scope="col"') if heading else ("td", "") if i else ("th", ' scope="row"')
            style = f"text-align:{side};vertical-align:top;padding:{pad}{line}"
            words = escape(text).replace("\n", "<br>")
            written.append(f'<{tag}{scope} style="{style}">{words}</{tag}>')
        return f"<tr>{''.join(written)}</tr>"

    top = f"<thead>{row(head, heading=True)}</thead>" if head else ""
    body = "".join(row(cells, heading=False) for cells in rows)
    return (
        '<table style="border-collapse:collapse;background:none;color:inherit;margin:6px 0">'
        f"{top}<tbody>{body}</tbody></table>"
    )


def listed(items: Sequence[str], title: str = "") -> str:
    """Write a list, folded under its title where it has one; nothing without items."""
    if not items:
        return ""
    body = "".join(f"<li>{escape(item)}</li>" for item in items)
    shown = f'<ul style="margin:4px 0;padding-left:1.3em">{body}</ul>'
    return f"<details><summary>{escape(title)} ({len(items)})</summary>{shown}</details>" if title else shown


def box(*parts: str, colour: str = "currentColor") -> str:
    """Write what must not be overlooked."""
    return (
        '<div role="note" style="border:1px solid currentColor;padding:6px 10px;margin:8px 0;'
        f'border-left:5px solid {colour}">{"".join(parts)}</div>'
    )


def page(*parts: str, title: str = "") -> str:
    """Put parts under a title."""
    head = f"<div><strong>{escape(title)}</strong></div>" if title else ""
    return f'<div style="max-width:46em;color:inherit;line-height:1.4">{head}{"".join(parts)}</div>'
