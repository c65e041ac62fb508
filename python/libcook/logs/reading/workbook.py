"""Logs in workbooks (.xlsx): the sheet that holds the log, as cells."""

from __future__ import annotations

import warnings
from typing import IO, Any

from libcook.arguments.optional import need
from libcook.arguments.quote import cut, listed, quoted
from libcook.errors import InvalidInput, invalid
from libcook.logs.columns.names import Key, is_time
from libcook.logs.findings import Finding, count_of
from libcook.logs.reading.header import MOST_COLUMNS, is_data
from libcook.logs.reading.table import Table
from libcook.logs.reading.typed import cell_of, typed_table

_MOST_ROWS = 1_048_576  # of a sheet
_LOOKED_AT = 100  # rows that tell whether a sheet holds a log

Sheet = list[list[str]]


def read_workbook(
    raw: IO[bytes], sheet: str | int | None, decimal: str | None, notes: Key, skip: int | None
) -> Table:
    """Read a log from a workbook.

    Raises
    ------
    InvalidInput
        When the workbook cannot be read, has no such sheet, or several that could be the log.
    ImportError
        When openpyxl is not installed.
    """
    openpyxl = need("openpyxl", "excel", "reading an Excel workbook")
    findings: list[Finding] = []
    sheets = _sheets(openpyxl, raw, values=True)
    name = _chosen(sheets, sheet, findings)
    rows = sheets[name]
    numbers = list(range(1, len(rows) + 1))
    if skip:
        lines = numbers[:skip]
        text = f"{count_of(len(lines), 'row')} at the beginning, as skip= says"
        findings.append(Finding("ignored", text, len(lines), lines=tuple(lines), kind="skip"))
    kept = [
        (number, row) for number, row in zip(numbers, rows, strict=True) if number > (skip or 0) and any(row)
    ]
    if not kept:
        raise invalid("log", None, f"the sheet {quoted(name)} is empty", "at least two rows are accepted")
    blank = [
        number for number, row in zip(numbers, rows, strict=True) if number > (skip or 0) and not any(row)
    ]
    if blank:
        text = count_of(len(blank), "blank row")
        findings.append(Finding("ignored", text, len(blank), lines=tuple(blank), kind="blank"))
    width = max(len(row) for _, row in kept)
    if width > MOST_COLUMNS:
        came = f"the sheet {quoted(name)} has {width:,} columns"
        raise invalid("log", None, came, f"up to {MOST_COLUMNS:,} are accepted")
    cells = [row + [""] * (width - len(row)) for _, row in kept]
    table = typed_table([number for number, _ in kept], cells, findings, decimal, notes, skip is not None)
    _refuse_formulas(openpyxl, raw, table, name)
    return table


def _sheets(openpyxl: Any, raw: IO[bytes], values: bool) -> dict[str, Sheet]:
    raw.seek(0)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # about styles and charts, which hold no readings
            book = openpyxl.load_workbook(raw, read_only=True, data_only=values)
            return {str(one.title): _rows(one) for one in book.worksheets}
    except (InvalidInput, MemoryError):
        raise
    except Exception as error:  # a damaged workbook raises whatever its parts do
        why = f"{type(error).__name__}: {' '.join(str(error).split())[:120]}"
        came = f"the workbook cannot be read ({cut(why)})"
        meant = "the spreadsheet saved as CSV"
        raise invalid("log", None, came, "a whole .xlsx file is accepted", meant) from None


def _rows(sheet: Any) -> Sheet:
    sheet.reset_dimensions()  # what a file says of its size need not be true
    rows: Sheet = []
    for row in sheet.iter_rows(values_only=True):
        cells = [cell_of(value) for value in row]
        while cells and not cells[-1]:
            cells.pop()
        rows.append(cells)
        if len(rows) > _MOST_ROWS:
            raise ValueError(f"more than {_MOST_ROWS:,} rows")
    while rows and not rows[-1]:
        rows.pop()
    return rows


def _chosen(sheets: dict[str, Sheet], sheet: str | int | None, findings: list[Finding]) -> str:
    names = list(sheets)
    listing = listed(map(quoted, names))
    if isinstance(sheet, int) and not isinstance(sheet, bool):
        if 0 <= sheet < len(names):
            return names[sheet]
        came = f"there is no sheet {quoted(sheet)}"
        raise invalid("sheet", sheet, came, f"positions 0 to {len(names) - 1} are accepted: {listing}")
    if sheet is not None:
        if sheet in sheets:
            return sheet
        came = f"no sheet is called {quoted(sheet)}"
        raise invalid("sheet", sheet, came, f"the workbook has: {listing}")
    if not names:
        raise invalid("log", None, "the workbook has no sheets", "one with a log is accepted")
    logs = [name for name in names if _holds_log(sheets[name])]
    if len(logs) > 1:
        came = f"{len(logs)} sheets could be the log: {listed(map(quoted, logs))}"
        raise invalid("sheet", None, came, f"say sheet={quoted(logs[0])}")
    chosen = logs[0] if logs else next((name for name in names if sheets[name]), names[0])
    if len(names) > 1:
        others = [name for name in names if name != chosen]
        text = f"{count_of(len(others), 'sheet')} beside {quoted(chosen)}, which is read: "
        text += f"{listed(map(quoted, others))}; say sheet={quoted(others[0])} for another"
        findings.append(Finding("ignored", text, len(others), kind="sheet"))
    return chosen


def _holds_log(rows: Sheet) -> bool:
    """Tell whether some header of a time stands right above a time or a number."""
    filled = [row for row in rows[:_LOOKED_AT] if any(row)]
    for row, below in zip(filled, filled[1:], strict=False):
        for i, cell in enumerate(row[: len(below)]):
            if is_time(cell) and not is_data(cell) and is_data(below[i]):
                return True
    return False


def _refuse_formulas(openpyxl: Any, raw: IO[bytes], table: Table, name: str) -> None:
    """Refuse columns of formulas whose values are not in the file."""
    empty = [i for i in range(len(table.names)) if not any(table.column(i))]
    if not empty:
        return
    rows = _sheets(openpyxl, raw, values=False).get(name, [])
    for i in empty:
        for number in table.lines[:_LOOKED_AT]:
            row = rows[number - 1] if number <= len(rows) else []
            if i < len(row) and row[i].startswith("="):
                came = f"column {quoted(table.names[i])} holds formulas without their values"
                accepted = (
                    "the values are accepted: open and save the workbook in a spreadsheet, or save it as CSV"
                )
                raise invalid("log", row[i], came, accepted)
