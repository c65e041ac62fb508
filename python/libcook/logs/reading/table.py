"""From a file or a text to a table of cells: encoding, comments, delimiter, decimal mark and header.

The form is plain delimited text as RFC 4180 describes it, with the liberties that spreadsheets of other
countries take.
"""

from __future__ import annotations

import functools
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from libcook.arguments.quote import listed, quoted
from libcook.errors import InvalidInput, invalid
from libcook.logs.findings import Finding, count_of
from libcook.logs.reading.numbers import FloatArray, Numbers, is_number
from libcook.logs.reading.records import MOST_LINES, Lines, chunks, split
from libcook.logs.reading.source import Source

_DELIMITERS = ("\t", ";", ",", "|")  # in this order: a comma may be a decimal mark where another one divides
_TIMELIKE = re.compile(r"\d{1,4}([-/.]\d{1,2}[-/.]\d{1,4}|:\d{2})")
MOST_COLUMNS = 1000
_HEAD = 200  # lines that tell the delimiter
NOTE_WORDS = frozenset(("event", "events", "note", "notes", "remark", "remarks", "comment", "comments"))
_UNIT_WORDS = frozenset(
    (
        "s",
        "sec",
        "min",
        "h",
        "hh:mm",
        "hh:mm:ss",
        "c",
        "f",
        "°c",
        "°f",
        "degc",
        "degf",
        "k",
        "%",
        "celsius",
        "fahrenheit",
        "seconds",
        "minutes",
        "hours",
    )
)


@dataclass
class Table:
    """Cells as text, one list a row, all of one length."""

    names: list[str]
    rows: list[list[str]]
    lines: list[int]  # line number of each row in the file
    decimal: str
    findings: list[Finding]
    thinned: bool = False  # whether rows were left out

    @functools.cached_property
    def _numbers(self) -> Numbers:
        return Numbers(self.decimal)

    def numbers(self, index: int) -> FloatArray:
        """Return a column as numbers, NaN where it holds none."""
        return self._numbers.column(self.column(index))

    def column(self, index: int) -> list[str]:
        """Return the cells of one column."""
        return [row[index] for row in self.rows]


def _is_data(cell: str) -> bool:
    return is_number(cell) or _TIMELIKE.match(cell.strip()) is not None


def _guess_delimiter(lines: list[str]) -> str:
    best, most = "", 0.0
    for delimiter in _DELIMITERS:
        try:
            widths = Counter(len(row) for row in split(lines, delimiter) if row)
        except InvalidInput:  # so divided, a cell would be longer than any is
            continue
        width, rows = widths.most_common(1)[0]
        share = rows / sum(widths.values())
        if width > 1 and share > most + 0.2:
            best, most = delimiter, share
    return best


def guess_decimal(rows: list[list[str]], findings: list[Finding]) -> str:
    """Tell the decimal mark from the cells, and say so where it is a comma."""
    commas = [cell for row in rows for cell in row if "," in cell and re.fullmatch(r"[+-]?\d*,\d+", cell)]
    points = commas and [cell for row in rows for cell in row if re.fullmatch(r"[+-]?\d*\.\d+", cell)]
    if commas and points:
        came = (
            f"both a comma ({quoted(commas[0])}) and a point ({quoted(points[0])}) look like the decimal mark"
        )
        raise invalid("decimal", None, came, "say decimal=',' or decimal='.'")
    if commas:
        text = f"{count_of(len(commas), 'number')} with a comma, such as {quoted(commas[0])}, "
        text += "read as decimal commas"
        findings.append(Finding("found", text, len(commas), kind="decimal comma"))
    return "," if commas else "."


def delimiter_of(source: Source, given: str | None) -> str:
    """Check the delimiter that the call gives, or find it in the first lines."""
    head = _head(source)
    if given is not None and (len(given) != 1 or given in '"\r\n\0'):
        what = "is not one character" if len(given) != 1 else "cannot divide cells"
        came = f"{quoted(given)} {what}"
        raise invalid("delimiter", given, came, "such as ',' ';' or '\\t' is accepted")
    chosen = given or _guess_delimiter(head.texts)
    if not chosen:
        first = f"line {head.numbers[0]}: {quoted(head.texts[0][:60])}"
        came = f"no delimiter divides the lines into columns ({first})"
        found = "comma, semicolon or tab are found by themselves; say delimiter=..."
        raise invalid("delimiter", None, came, found)
    return chosen


def read_table(source: Source, delimiter: str | None, decimal: str | None) -> Table:
    """Split a text into cells, header and line numbers; refuses what would have to be guessed at."""
    check_decimal(decimal)
    chosen = delimiter_of(source, delimiter)
    with source.text() as file:
        lines = Lines(file)
        table = next(chunks(lines, chosen, [source.line_ends + 2], source.quotes))
    findings = lines.findings()
    names, numbers, rows = take_head(*table, findings)
    if not rows:
        came = f"the log has a header ({listed(names)}) but no rows"
        raise invalid("log", None, came, "at least two rows are accepted")
    square = Square(names, chosen)
    rows = square(numbers, rows)
    findings += square.findings()
    mark = decimal or guess_decimal(rows, findings)
    return Table(names, rows, numbers, mark, findings)


def _head(source: Source) -> Lines:
    """Take the first lines that hold cells."""
    with source.text() as file:
        lines = Lines(file)
        while lines.take(_HEAD) and not lines.texts:
            pass
    if not lines.texts:
        came = "the log holds nothing but comments" if lines.only_remarks else "the log is empty"
        raise invalid("log", None, came, "a header and at least two rows are accepted")
    return lines


def take_head(
    numbers: Sequence[int], rows: list[list[str]], findings: list[Finding]
) -> tuple[list[str], list[int], list[list[str]]]:
    """Take title and header off a table: (names of its columns, line numbers, rows that are left)."""
    table = [(number, [cell.strip() for cell in row]) for number, row in zip(numbers, rows, strict=True)]
    width = Counter(len(row) for _, row in table).most_common(1)[0][0]
    while len(table) > 1 and sum(map(bool, table[0][1])) == 1 < width and not _is_data(table[0][1][0]):
        title = f"a line before the header: {quoted(table[0][1][0][:60])}"
        findings.append(Finding("ignored", title, lines=(table[0][0],), kind="title"))
        table.pop(0)
    names = _take_header(table, findings)
    if len(names) > MOST_COLUMNS:
        came = f"the log has {len(names):,} columns"
        accepted = f"up to {MOST_COLUMNS:,} are accepted"
        raise invalid("log", None, came, accepted, "another delimiter (delimiter=...)")
    return names, [number for number, _ in table], [row for _, row in table]


def check_decimal(decimal: str | None) -> None:
    """Refuse what is no decimal mark."""
    if decimal not in (None, ".", ","):
        raise invalid(
            "decimal", decimal, f"{quoted(decimal)} is not a decimal mark", "'.' or ',' is accepted"
        )


def _take_header(table: list[tuple[int, list[str]]], findings: list[Finding]) -> list[str]:
    first = table[0][1]
    if any(_is_data(cell) for cell in first):
        width = max(len(row) for _, row in table)
        text = "no header; columns are called 'column 0', 'column 1' and so on"
        findings.append(Finding("found", text, kind="no header"))
        return [f"column {index}" for index in range(width)]
    table.pop(0)
    names = [name or f"column {index}" for index, name in enumerate(first)]
    if (
        table
        and all(cell.strip("[]() ").lower() in _UNIT_WORDS for cell in table[0][1] if cell)
        and any(table[0][1])
    ):
        units = table.pop(0)[1]  # a second line of the header that holds the units
        units += [""] * (len(names) - len(units))
        names = [
            f"{name} [{unit.strip('[]() ')}]" if unit else name
            for name, unit in zip(names, units, strict=False)
        ]
    return names


class Square:
    """Makes rows of one length: pads short ones, and refuses those with more cells than columns.

    A stray decimal comma makes such rows. Where the last column holds notes, they are put together again.
    """

    def __init__(self, names: list[str], delimiter: str) -> None:
        self._names, self._delimiter = names, delimiter
        self._wordy = bool(set(re.split(r"[\W_]+", names[-1].lower())) & NOTE_WORDS)
        self._short, self._shorts = [0] * 0, 0
        self._joined, self._joins = [0] * 0, 0

    def __call__(self, numbers: Sequence[int], rows: list[list[str]]) -> list[list[str]]:
        """Make rows of one length; `numbers` are their lines."""
        width = len(self._names)
        if set(map(len, rows)) == {width}:
            return rows
        return [self._row(number, row, width) for number, row in zip(numbers, rows, strict=True)]

    def _row(self, number: int, row: list[str], width: int) -> list[str]:
        last = width - 1
        if self._wordy and len(row) > width and not any(_is_data(cell) for cell in row[last:]):
            mark = self._delimiter if self._delimiter == "\t" else f"{self._delimiter} "
            row = [*row[:last], mark.join(cell for cell in row[last:] if cell)]
            self._joins += 1
            self._joined += [number] * (self._joins <= MOST_LINES)
        if any(row[width:]):
            columns = f"{count_of(width, 'column')} ({listed(self._names)})"
            came = f"line {number} has {len(row)} cells for {columns}"
            comma = "a decimal comma in a comma-delimited file; quote such numbers or use ';'"
            meant = comma if self._delimiter == "," else ""
            raise invalid("log", ",".join(row), came, "as many cells as columns are accepted", meant)
        if len(row) < width:
            self._shorts += 1
            self._short += [number] * (self._shorts <= MOST_LINES)
        return (row + [""] * width)[:width]

    def findings(self) -> list[Finding]:
        """Report what had to be done."""
        made = []
        if self._joins:
            text = f"{count_of(self._joins, 'row')} with {quoted(self._delimiter)} inside a note; "
            text += "the note put together again"
            made.append(Finding("mended", text, self._joins, lines=tuple(self._joined), kind="joined"))
        if self._shorts:
            text = f"{count_of(self._shorts, 'row')} with fewer cells than columns; read as no reading"
            made.append(Finding("found", text, self._shorts, lines=tuple(self._short), kind="short row"))
        return made
