"""A table of cells that know what they are: numbers, texts, dates, as JSON and workbooks hold them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
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
# Workbooks count days from one of two dates; a time within two months of either was meant as elapsed.
_ORIGINS = (dt.datetime(1899, 12, 31), dt.datetime(1904, 1, 1))
_SOON = dt.timedelta(days=59)


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
    if isinstance(value, dt.datetime) and value.year < 1905:
        value = next((value - origin for origin in _ORIGINS if origin <= value < origin + _SOON), value)
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
    thinned: bool = False,
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
    thinned : bool
        Whether rows were left out already.
    """
    check_decimal(decimal)
    if names is None:
        table = table_of(numbers, rows, findings, "\t", ".", told)
    else:
        check_width(names)
        table = Table(list(names), rows, list(numbers), ".", findings, thinned)
    if len(table.rows) > MOST_ROWS and not thinned:
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


class Collector:
    """Takes rows of cells one by one; of a long log it keeps what `libcook.logs.reading.thin` says.

    Parameters
    ----------
    names : list of str
        Of the columns; may grow while rows come.
    expected : int
        About how many rows there will be.
    notes : str, int or None
        The column of notes, as the call names it.
    """

    def __init__(self, names: list[str], expected: int, notes: Key) -> None:
        self.lines: list[int] = []
        self.rows: list[list[str]] = []
        self._names, self._expected, self._notes = names, expected, notes
        self._keeper: Keeper | None = None
        self._waiting: list[tuple[int, list[str]]] = []
        self._numbers = Numbers(".")

    def add(self, line: int, row: list[str]) -> None:
        """Take one row."""
        if self._expected <= MOST_ROWS:
            self.lines.append(line)
            self.rows.append(row)
            return
        self._waiting.append((line, row))
        if len(self._waiting) >= (self._keeper.chunk if self._keeper else _HEAD):
            self._choose()

    def _choose(self) -> None:
        width = len(self._names)
        part = [(row + [""] * width)[:width] for _, row in self._waiting]
        columns = list(zip(*part, strict=True))
        read = [self._numbers.column(columns[i]) for i, name in enumerate(self._names) if not is_time(name)]
        read = [values for values in read if np.isfinite(values).any()]
        if self._keeper is None:
            self._keeper = Keeper(self._names, len(read), self._expected, self._notes)
        self._keeper.know(self._names, self._notes)
        for place in self._keeper.choose(len(part), read, columns.__getitem__):
            self.lines.append(self._waiting[place][0])
            self.rows.append(part[place])
        self._waiting.clear()

    def finish(self, findings: list[Finding]) -> bool:
        """Make all rows of one length; tell whether rows were left out, which the first finding then says."""
        if self._waiting:
            self._choose()
        width = len(self._names)
        self.rows = [row if len(row) == width else (row + [""] * width)[:width] for row in self.rows]
        if self._keeper is not None:
            findings.insert(0, self._keeper.finding())
        return self._keeper is not None


def _thinned(table: Table, notes: Key) -> Table:
    kept = Collector(table.names, len(table.rows), notes)
    for line, row in zip(table.lines, table.rows, strict=True):
        kept.add(line, row)
    thinned = kept.finish(table.findings)
    return replace(table, rows=kept.rows, lines=kept.lines, thinned=thinned)
