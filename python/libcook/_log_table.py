"""From a file or a text to a table of cells: encoding, comments, delimiter, decimal mark and header.

The form is plain delimited text as RFC 4180 describes it, with the liberties that spreadsheets of other
countries take.
"""

from __future__ import annotations

import csv
import io
import math
import os
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from libcook._log_findings import Finding, count_of
from libcook.errors import invalid

_DELIMITERS = ("\t", ";", ",", "|")  # in this order: a comma may be a decimal mark where another one divides
_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?")
_TIMELIKE = re.compile(r"\d{1,4}([-/.]\d{1,2}[-/.]\d{1,4}|:\d{2})")
_BLANK = frozenset(("", "-", "--", "---", "na", "n/a", "nan", "null", "none", "nil", "."))
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

    def column(self, index: int) -> list[str]:
        """Return the cells of one column."""
        return [row[index] for row in self.rows]


def is_blank(cell: str) -> bool:
    """Tell whether a cell says that there is no reading."""
    return cell.strip().lower() in _BLANK


def to_number(cell: str, decimal: str) -> float:
    """Read a cell as a number, with an optional unit sign behind it; NaN when it is none."""
    text = cell.strip().replace("−", "-").rstrip("CFcf").rstrip("°º ").strip()
    if not _NUMBER.fullmatch(text) or ("." if decimal == "," else ",") in text:
        return math.nan
    return float(text.replace(",", "."))


def _is_data(cell: str) -> bool:
    text = cell.strip().rstrip("CFcf").rstrip("°º ")
    return bool(_NUMBER.fullmatch(text) or _TIMELIKE.match(text))


def load(source: Any) -> str | bytes:
    """Return what a path or an open file holds, or the text or bytes themselves."""
    accepted = "a path, an open file or the text of a CSV is accepted"
    if hasattr(source, "read"):
        content = source.read()
        if isinstance(content, (str, bytes)):
            return content
        raise invalid("log", source, f"reading it gave a {type(content).__name__}", accepted)
    if isinstance(source, (bytes, bytearray)):
        return bytes(source)
    if isinstance(source, str) and ("\n" in source or "\r" in source):
        return source
    if not isinstance(source, (str, os.PathLike)):
        raise invalid("log", source, f"a {type(source).__name__} came", accepted)
    if isinstance(source, str) and not source.strip():
        raise invalid("log", source, "an empty text", accepted)
    path = Path(os.path.expanduser(source))  # leaves a home that it does not know as it is
    if len(str(path)) > 4096 or "\0" in str(path):
        came = f"'{str(path)[:60]}...' is no path"
        raise invalid("log", None, came, "a path, an open file, or text of more than one line is accepted")
    if path.is_dir():
        raise invalid("log", source, f"'{path}' is a folder", "a file of delimited text is accepted")
    if not path.is_file():
        came = f"there is no file '{path}'" + ("" if path.is_absolute() else f" in {Path.cwd()}")
        raise invalid("log", source, came, "a path, an open file, or text of more than one line is accepted")
    return path.read_bytes()


def decode(source: Any, raw: str | bytes) -> tuple[str, list[Finding]]:
    """Return the text of what was loaded."""
    findings: list[Finding] = []
    if isinstance(raw, str):
        text = raw.removeprefix("\ufeff")
    elif raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        text = raw.decode("utf-16", errors="replace")
    elif b"\x00" in raw:
        text = "\x00"
    else:
        try:
            text = raw.decode("utf-8-sig")
        except UnicodeDecodeError:
            text = raw.decode("latin-1")
            findings.append(Finding("found", "the text is not UTF-8; read as Latin-1", kind="encoding"))
    if "\x00" in text or text.startswith("PK\x03\x04"):
        came = "the file is not text"
        raise invalid("log", source, came, "delimited text is accepted", "the spreadsheet saved as CSV")
    return text, findings


def _split(lines: list[str], delimiter: str) -> list[list[str]]:
    return [row for _, row in _records(lines, delimiter)]


def _records(lines: list[str], delimiter: str) -> Iterator[tuple[int, list[str]]]:
    """Yield where in `lines` each record begins, and its cells; quotes may hold line breaks."""
    reader = csv.reader(lines, delimiter=delimiter, skipinitialspace=True)
    begin = 0
    try:
        for row in reader:
            yield begin, [cell.strip() for cell in row]
            begin = reader.line_num
    except csv.Error as error:
        came = f"the text cannot be divided into cells ({error})"
        raise invalid("log", lines[min(begin, len(lines) - 1)][:60], came, "CSV or TSV is accepted") from None


def _guess_delimiter(lines: list[str]) -> str:
    best, most = "", 0.0
    for delimiter in _DELIMITERS:
        widths = Counter(len(row) for row in _split(lines[:200], delimiter) if row)
        width, rows = widths.most_common(1)[0]
        share = rows / sum(widths.values())
        if width > 1 and share > most + 0.2:
            best, most = delimiter, share
    return best


def _guess_decimal(rows: list[list[str]], findings: list[Finding]) -> str:
    commas = [cell for row in rows for cell in row if re.fullmatch(r"[+-]?\d*,\d+", cell)]
    points = [cell for row in rows for cell in row if re.fullmatch(r"[+-]?\d*\.\d+", cell)]
    if commas and points:
        came = f"both a comma ('{commas[0]}') and a point ('{points[0]}') look like the decimal mark"
        raise invalid("decimal", None, came, "say decimal=',' or decimal='.'")
    if commas:
        text = (
            f"{count_of(len(commas), 'number')} with a comma, such as '{commas[0]}', read as decimal commas"
        )
        findings.append(Finding("found", text, len(commas), kind="decimal comma"))
    return "," if commas else "."


def read_table(text: str, delimiter: str | None, decimal: str | None) -> Table:
    """Split a text into cells, header and line numbers; refuses what would have to be guessed at."""
    findings: list[Finding] = []
    everything = [(number, line) for number, line in enumerate(io.StringIO(text, newline=None), 1)]
    numbered = [(number, line) for number, line in everything if line.strip()]
    if not numbered:
        raise invalid("log", text[:40], "the log is empty", "a header and at least two rows are accepted")
    empty = tuple(number for number, line in everything if not line.strip() and number < numbered[-1][0])
    if empty:
        findings.append(
            Finding("ignored", count_of(len(empty), "blank line"), len(empty), lines=empty, kind="blank")
        )
    kept = [(number, line.rstrip("\n")) for number, line in numbered if not line.lstrip().startswith("#")]
    remarks = tuple(number for number, line in numbered if line.lstrip().startswith("#"))
    if remarks:
        text_of = count_of(len(remarks), "comment line")
        findings.append(Finding("ignored", text_of, len(remarks), lines=remarks, kind="comment"))
    if not kept:
        came, accepted = "the log holds nothing but comments", "a header and at least two rows are accepted"
        raise invalid("log", text[:40], came, accepted)
    lines = [line for _, line in kept]
    if delimiter is not None and (len(delimiter) != 1 or delimiter in '"\r\n\0'):
        came = (
            f"{delimiter!r} is not one character"
            if len(delimiter) != 1
            else f"{delimiter!r} cannot divide cells"
        )
        raise invalid("delimiter", delimiter, came, "such as ',' ';' or '\\t' is accepted")
    check_decimal(decimal)
    chosen = delimiter or _guess_delimiter(lines)
    if not chosen:
        came = f"no delimiter divides the lines into columns (line {kept[0][0]}: '{lines[0][:60]}')"
        raise invalid(
            "delimiter", None, came, "comma, semicolon or tab are found by themselves; say delimiter=..."
        )
    table = [(kept[min(at, len(kept) - 1)][0], row) for at, row in _records(lines, chosen)]
    width = Counter(len(row) for _, row in table).most_common(1)[0][0]
    while len(table) > 1 and sum(map(bool, table[0][1])) == 1 < width and not _is_data(table[0][1][0]):
        title = f"a line before the header: '{table[0][1][0][:60]}'"
        findings.append(Finding("ignored", title, lines=(table[0][0],), kind="title"))
        table.pop(0)
    names = _take_header(table, findings)
    if not table:
        came = f"the log has a header ({', '.join(names)}) but no rows"
        raise invalid("log", text[:40], came, "at least two rows are accepted")
    rows = _square(table, names, chosen, findings)
    mark = decimal or _guess_decimal(rows, findings)
    return Table(names, rows, [number for number, _ in table], mark, findings)


def check_decimal(decimal: str | None) -> None:
    """Refuse what is no decimal mark."""
    if decimal not in (None, ".", ","):
        raise invalid("decimal", decimal, f"{decimal!r} is not a decimal mark", "'.' or ',' is accepted")


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


def _square(
    table: list[tuple[int, list[str]]], names: list[str], delimiter: str, findings: list[Finding]
) -> list[list[str]]:
    """Pad short rows; refuse rows with more cells than columns, which a stray decimal comma makes."""
    short: list[int] = []
    joined: list[int] = []
    rows = []
    last = len(names) - 1
    wordy = bool(set(re.split(r"[\W_]+", names[last].lower())) & NOTE_WORDS)
    for number, row in table:
        if wordy and len(row) > len(names) and not any(_is_data(cell) for cell in row[last:]):
            mark = delimiter if delimiter == "\t" else f"{delimiter} "
            row = [*row[:last], mark.join(cell for cell in row[last:] if cell)]
            joined.append(number)
        extra = row[len(names) :]
        if any(extra):
            columns = f"{count_of(len(names), 'column')} ({', '.join(names)})"
            came = f"line {number} has {len(row)} cells for {columns}"
            meant = (
                "a decimal comma in a comma-delimited file; quote such numbers or use ';'"
                if delimiter == ","
                else ""
            )
            raise invalid("log", ",".join(row), came, "as many cells as columns are accepted", meant)
        if len(row) < len(names):
            short.append(number)
        rows.append((row + [""] * len(names))[: len(names)])
    if joined:
        text = f"{count_of(len(joined), 'row')} with '{delimiter}' inside a note; the note put together again"
        findings.append(Finding("mended", text, len(joined), lines=tuple(joined), kind="joined"))
    if short:
        text = f"{count_of(len(short), 'row')} with fewer cells than columns; read as no reading"
        findings.append(Finding("found", text, len(short), lines=tuple(short), kind="short row"))
    return rows
