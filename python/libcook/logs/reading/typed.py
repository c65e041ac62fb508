"""A table of cells that know what they are: numbers, texts, dates, as JSON and workbooks hold them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Any

import numpy as np

from libcook.logs.columns.names import Key, is_time
from libcook.logs.findings import Finding
from libcook.logs.reading.header import check_width
from libcook.logs.reading.long import Keeper
from libcook.logs.reading.marks import check_decimal, guess_decimal
from libcook.logs.reading.numbers import Number, Numbers
from libcook.logs.reading.table import Table, table_of
from libcook.logs.reading.thin import MOST_ROWS

_HEAD = 200  # rows that tell which columns hold numbers
_SHEET_ORIGIN = dt.datetime(1899, 12, 30)
_FIRST_DATE = dt.datetime(1904, 1, 2)  # before it, a workbook's date is a number of hours


def cell_of(value: Any) -> str:
    """Write one value as a cell; numbers as Python writes them."""
    if value is None:
        return ""
    if isinstance(value, str):
        return value if isinstance(value, Number) else " ".join(value.split())
    if isinstance(value, bool):
        return str(value)
    if isinstance(value, (int, float)):
        return Number(repr(value))
    if isinstance(value, dt.datetime) and value < _FIRST_DATE:
        value = value - _SHEET_ORIGIN
    if isinstance(value, dt.timedelta):
        seconds = round(value.total_seconds(), 3)
        return f"{int(seconds // 3600)}:{int(seconds // 60 % 60):02d}:{seconds % 60:06.3f}"
    if isinstance(value, (dt.datetime, dt.date, dt.time)):
        return value.isoformat()
    return str(value)


def typed_table(
    numbers: Sequence[int],
    rows: list[list[str]],
    findings: list[Finding],
    decimal: str | None,
    notes: Key,
    told: bool = False,
    names: Sequence[str] | None = None,
) -> Table:
    """Make a table of cells; long ones are thinned.

    Numbers keep their value whatever the decimal mark of the texts is.

    Parameters
    ----------
    numbers, rows
        Line, record or row numbers, and the cells.
    findings : list of Finding
        What was found so far.
    decimal : str or None
        The decimal mark of numbers in texts, as the call says it.
    notes : str, int or None
        The column of notes, as the call names it.
    told : bool
        Whether the call said how many rows to skip.
    names : sequence of str, optional
        Of the columns; where left out, the header is still among the rows.
    """
    check_decimal(decimal)
    if names is None:
        table = table_of(numbers, rows, findings, "\t", ".", told)
    else:
        check_width(names)
        table = Table(list(names), rows, list(numbers), ".", findings)
    if len(table.rows) > MOST_ROWS:
        table = _thinned(table, notes)
    mark = decimal or guess_decimal([[_text(cell) for cell in row] for row in table.rows], table.findings)
    if mark == ",":
        table.rows = [
            [cell.replace(".", ",") if isinstance(cell, Number) else cell for cell in row]
            for row in table.rows
        ]
    table.decimal = mark
    return table


def _text(cell: str) -> str:
    return "" if isinstance(cell, Number) and "." in cell else cell


def _thinned(table: Table, notes: Key) -> Table:
    head = [list(column) for column in zip(*table.rows[:_HEAD], strict=True)]
    readers = [Numbers(".") for _ in table.names]
    counted = [
        i
        for i, name in enumerate(table.names)
        if not is_time(name) and np.isfinite(readers[i].column(head[i])).any()
    ]
    keeper = Keeper(table.names, len(counted), len(table.rows), notes)
    rows: list[list[str]] = []
    lines: list[int] = []
    for first in range(0, len(table.rows), keeper.chunk):
        part = table.rows[first : first + keeper.chunk]
        columns = list(zip(*part, strict=True))
        places = keeper.choose(
            len(part), [readers[i].column(columns[i]) for i in counted], columns.__getitem__
        )
        rows += [part[place] for place in places]
        lines += [table.lines[first + place] for place in places]
    findings = [keeper.finding(), *table.findings]
    return Table(table.names, rows, lines, table.decimal, findings, thinned=True, titles=table.titles)
