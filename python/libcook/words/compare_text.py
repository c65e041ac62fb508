"""The comparison table as plain text and as HTML."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import Any

from libcook.words import page

_NONE = "–"
_NO_DECIMALS = ("[%]", "[min]")
_FOOT = "+ the core was still at or above the holding temperature when the plan ended"


def cells(row: dict[str, Any]) -> list[str]:
    """Write one row, without the column that only explains another one."""
    written = []
    for name, value in row.items():
        if name == "still held":
            continue
        if value is None:
            written.append(_NONE)
        elif isinstance(value, str):
            written.append(value)
        else:
            digits = 0 if name.endswith(_NO_DECIMALS) or name.startswith("stall plateau") else 1
            digits = 2 if name.endswith("[kg]") else digits
            number = f"{value:.{digits}f}"
            written.append(number + ("+" if name.startswith("held") and row["still held"] else ""))
    return written


def headings(rows: list[dict[str, Any]]) -> list[tuple[str, str]]:
    """Split the column names into words and unit."""
    names = [name for name in rows[0] if name != "still held"]
    pairs = []
    for name in names:
        words, _, unit = name.partition(" [")
        pairs.append((words, unit.rstrip("]")))
    return pairs


def plain(rows: list[dict[str, Any]], notes: Sequence[str] = ()) -> str:
    """Align the table for a terminal: names left, numbers right, units under the names."""
    heads = [[*_two_lines(words), unit] for words, unit in headings(rows)]
    body = [cells(row) for row in rows]
    columns = [[*head, *(line[i] for line in body)] for i, head in enumerate(heads)]
    widths = [max(map(len, column)) for column in columns]
    lines = []
    for k in range(len(columns[0])):
        parts = [
            column[k].ljust(width) if i == 0 else column[k].rjust(width)
            for i, (column, width) in enumerate(zip(columns, widths, strict=True))
        ]
        lines.append("  ".join(parts).rstrip())
        if k == 2:
            lines.append("-" * (sum(widths) + 2 * (len(widths) - 1)))
    lines += _feet(rows, notes)
    return "\n".join(lines)


def html(rows: list[dict[str, Any]], notes: Sequence[str] = ()) -> str:
    """Write the table as HTML that takes its colours from the page."""
    head = ["\n".join(filter(None, heading)) for heading in headings(rows)]
    shown = page.table([cells(row) for row in rows], head, numbers=True)
    foot = "".join(f'<p style="opacity:.75">{escape(note)}</p>' for note in _feet(rows, notes))
    return f'<div style="overflow-x:auto">{shown}{foot}</div>'


def _feet(rows: list[dict[str, Any]], notes: Sequence[str]) -> list[str]:
    held = [_FOOT] if any(row["still held"] for row in rows) else []
    return held + list(notes)


def _two_lines(words: str) -> tuple[str, str]:
    """Break a heading near its middle, so that columns stay narrow."""
    if len(words) <= 8 or " " not in words:
        return "", words
    parts = words.split(" ")
    cut = min(range(1, len(parts)), key=lambda k: abs(len(" ".join(parts[:k])) - len(" ".join(parts[k:]))))
    return " ".join(parts[:cut]), " ".join(parts[cut:])
