"""From a file or a text to a table of cells: delimiter, decimal mark and header.

The form is plain delimited text as RFC 4180 describes it, with the liberties that spreadsheets of other
countries take.
"""

from __future__ import annotations

import functools
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from libcook.arguments.quote import listed, quoted
from libcook.errors import InvalidInput, invalid
from libcook.logs.columns.names import is_note, is_time, scale_of, words_of
from libcook.logs.columns.vocabulary import UNIT_COLUMNS
from libcook.logs.findings import Finding, count_of
from libcook.logs.reading.dates import is_whole_stamp
from libcook.logs.reading.header import is_data, take_head
from libcook.logs.reading.marks import check_decimal, guess_decimal
from libcook.logs.reading.numbers import FloatArray, Numbers
from libcook.logs.reading.records import MOST_LINES, Lines, chunks, split
from libcook.logs.reading.source import Source

_DELIMITERS = ("\t", ";", ",", "|")  # in this order: a comma may be a decimal mark where another one divides
_HEAD = 200  # lines that tell the delimiter
_SAID = re.compile(r'\ufeff?"?sep=(.)"?\s*', re.I)  # how spreadsheets are told the delimiter


@dataclass
class Table:
    """Cells as text, one list a row, all of one length."""

    names: list[str]
    rows: list[list[str]]
    lines: list[int]  # line number of each row in the file
    decimal: str
    findings: list[Finding]
    thinned: bool = False  # whether rows were left out
    titles: list[str] = field(default_factory=list)  # what stands before the header

    @functools.cached_property
    def _numbers(self) -> Numbers:
        return Numbers(self.decimal)

    @functools.cached_property
    def unit_columns(self) -> list[int]:
        """Columns that name the scale of each row: one, or several that never differ."""
        hits = [i for i, name in enumerate(self.names) if words_of(name) & UNIT_COLUMNS]
        scales = {i: [scale_of(cell) for cell in self.column(i) if cell] for i in hits}
        hits = [i for i in hits if scales[i] and scales[i].count(None) < 0.2 * len(scales[i])]
        same = len(hits) == 1 or len({scale for i in hits for scale in scales[i]}) == 1
        return hits if same else []

    def numbers(self, index: int) -> FloatArray:
        """Return a column as numbers, NaN where it holds none."""
        return self._numbers.column(self.column(index))

    def column(self, index: int) -> list[str]:
        """Return the cells of one column."""
        return [row[index] for row in self.rows]


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


def delimiter_of(source: Source, given: str | None, skip: int | None) -> str:
    """Check the delimiter that the call gives, or find it in the first lines."""
    head = _head(source, skip)
    if given is not None and (len(given) != 1 or given in '"\r\n\0'):
        what = "is not one character" if len(given) != 1 else "cannot divide cells"
        came = f"{quoted(given)} {what}"
        raise invalid("delimiter", given, came, "such as ',' ';' or '\\t' is accepted")
    said = _SAID.fullmatch(head.texts[0])
    chosen = given or (said[1] if said and said[1] not in '"\r\n\0' else "") or _guess_delimiter(head.texts)
    if not chosen:
        first = f"line {head.numbers[0]}: {quoted(head.texts[0].strip()[:60])}"
        came = f"no delimiter divides the lines into columns ({first})"
        found = "a time and a temperature divided by comma, semicolon or tab are accepted; for another one"
        found += " say delimiter=..., delimiter=' ' for columns set apart by blanks"
        raise invalid("delimiter", None, came, found)
    return chosen


def without_said_delimiter(
    numbers: Sequence[int], rows: list[list[str]], delimiter: str, findings: list[Finding]
) -> tuple[Sequence[int], list[list[str]]]:
    """Leave out a first line "sep=;", which is for spreadsheets."""
    if rows and delimiter.join(rows[0]).strip().lower() in (f"sep={delimiter}", "sep="):
        text = "a line that tells spreadsheets the delimiter"
        findings.append(Finding("ignored", text, lines=(numbers[0],), kind="delimiter"))
        return numbers[1:], rows[1:]
    return numbers, rows


def read_table(source: Source, delimiter: str | None, decimal: str | None, skip: int | None) -> Table:
    """Split a text into cells, header and line numbers; refuses what would have to be guessed at."""
    check_decimal(decimal)
    chosen = delimiter_of(source, delimiter, skip)
    with source.text() as file:
        lines = Lines(file, skip or 0)
        numbers, rows = next(chunks(lines, chosen, [source.line_ends + 2], source.quotes))
    findings = lines.findings()
    numbers, rows = without_said_delimiter(numbers, rows, chosen, findings)
    return table_of(numbers, rows, findings, chosen, decimal, skip is not None, lines.remark(chosen))


def table_of(
    numbers: Sequence[int],
    rows: list[list[str]],
    findings: list[Finding],
    delimiter: str,
    decimal: str | None,
    told: bool = False,
    remark: tuple[int, list[str]] | None = None,
) -> Table:
    """Make a table of records whose header is still among them."""
    if not rows:
        raise invalid("log", None, "the log is empty", "a header and at least two rows are accepted")
    head = take_head(numbers, _unguarded(rows), findings, told, remark)
    if not head.rows:
        came = f"the log has a header ({listed(head.names)}) but no rows"
        raise invalid("log", None, came, "at least two rows are accepted")
    square = Square(head.names, delimiter)
    rows = square(head.numbers, head.rows)
    findings += square.findings()
    mark = decimal or guess_decimal(rows, findings)
    return Table(head.names, rows, head.numbers, mark, findings, titles=head.titles)


_GUARD = re.compile(r"=\"(.*)\"|'(.*)")


def _unguarded(rows: list[list[str]]) -> list[list[str]]:
    """Take off what keeps a spreadsheet from reading a number or a date: ="5.3" and '5.3."""
    if not any(cell[:1] in ("=", "'") for row in rows[-20:] for cell in row if cell):
        return rows

    def bare(cell: str) -> str:
        match = _GUARD.fullmatch(cell)
        inside = (match[1] or match[2] or "") if match else ""
        return inside if match and (is_data(inside) or cell[0] == "=") else cell

    return [list(map(bare, row)) for row in rows]


def _head(source: Source, skip: int | None) -> Lines:
    """Take the first lines that hold cells."""
    with source.text() as file:
        lines = Lines(file, skip or 0)
        while lines.take(_HEAD) and not lines.texts:
            pass
    if not lines.texts:
        came = "the log holds nothing but comments" if lines.only_remarks else "the log is empty"
        if skip:
            came = f"nothing is left of the log after {count_of(skip, 'line')}"
        raise invalid("skip" if skip else "log", None, came, "a header and at least two rows are accepted")
    return lines


class Square:
    """Makes rows of one length: pads short ones, and refuses those with more cells than columns.

    A stray decimal comma makes such rows. Where a date with a comma was divided ("Nov 14, 2026 7:10 PM"), or
    the last column holds notes, the cells are put together again.
    """

    def __init__(self, names: list[str], delimiter: str) -> None:
        self._names, self._delimiter = names, delimiter
        self._wordy = is_note(names[-1])
        times = [is_time(name) for name in names]
        self._dates = [i for i, one in enumerate(times) if one and not any(times[i + 1 : i + 2])]
        self._kept: dict[str, list[int]] = {"dated": [], "joined": [], "short": []}
        self._count = dict.fromkeys(self._kept, 0)

    def __call__(self, numbers: Sequence[int], rows: list[list[str]]) -> list[list[str]]:
        """Make rows of one length; `numbers` are their lines."""
        width = len(self._names)
        if set(map(len, rows)) == {width}:
            return rows
        return [self._row(number, row, width) for number, row in zip(numbers, rows, strict=True)]

    def _note(self, what: str, number: int) -> None:
        self._count[what] += 1
        self._kept[what] += [number] * (self._count[what] <= MOST_LINES)

    def _row(self, number: int, row: list[str], width: int) -> list[str]:
        last = width - 1
        if len(row) > width and self._delimiter == ",":
            row = self._date_joined(number, row, width)
        if self._wordy and len(row) > width and not any(is_data(cell) for cell in row[last:]):
            mark = self._delimiter if self._delimiter == "\t" else f"{self._delimiter} "
            row = [*row[:last], mark.join(cell for cell in row[last:] if cell)]
            self._note("joined", number)
        if any(row[width:]):
            columns = f"{count_of(width, 'column')} ({listed(self._names)})"
            came = f"line {number} has {len(row)} cells for {columns}"
            comma = "a decimal comma in a comma-delimited file; quote such numbers or use ';'"
            meant = comma if self._delimiter == "," else ""
            accepted = "as many cells as columns are accepted; skip=... leaves out lines before the header"
            raise invalid("log", ",".join(row), came, accepted, meant)
        if len(row) < width:
            self._note("short", number)
        return (row + [""] * width)[:width]

    def _date_joined(self, number: int, row: list[str], width: int) -> list[str]:
        for i in self._dates:
            for more in range(min(3, len(row) - width), 0, -1):
                whole = ", ".join(cell.strip() for cell in row[i : i + more + 1])
                if is_whole_stamp(whole):
                    self._note("dated", number)
                    return [*row[:i], whole, *row[i + more + 1 :]]
        return row

    def findings(self) -> list[Finding]:
        """Report what had to be done."""
        made = []
        for what, action, text, kind in (
            ("dated", "mended", "with a date divided by its comma; put together again", "joined date"),
            (
                "joined",
                "mended",
                f"with {quoted(self._delimiter)} inside a note; the note put together again",
                "joined",
            ),
            ("short", "found", "with fewer cells than columns; read as no reading", "short row"),
        ):
            if self._count[what]:
                said = f"{count_of(self._count[what], 'row')} {text}"
                lines = tuple(self._kept[what])
                made.append(
                    Finding(
                        "mended" if action == "mended" else "found",
                        said,
                        self._count[what],
                        lines=lines,
                        kind=kind,
                    )
                )
        return made
