"""Lines of a log into records, a chunk at a time: comments and blank lines left out, line numbers kept."""

from __future__ import annotations

import csv
import itertools
from collections.abc import Iterable, Iterator, Sequence

from libcook.arguments.quote import cut
from libcook.errors import invalid
from libcook.logs.findings import Finding, count_of

MOST_LINES = 10_000  # line numbers that a finding lists

Rows = list[list[str]]
Numbered = tuple[Sequence[int], Rows]  # line in which each record begins, and its cells


class Lines:
    """The lines that hold cells; counts the others.

    Attributes
    ----------
    numbers, texts : list
        Of the lines that were taken last: line numbers from 1.

    Parameters
    ----------
    file : iterable of str
        The lines.
    skip : int
        How many of them to leave out at the beginning.
    """

    def __init__(self, file: Iterable[str], skip: int = 0) -> None:
        self._file = iter(file)
        self._read = self._skipped = sum(1 for _ in itertools.islice(self._file, skip))
        self._before: tuple[int, str] | None = None  # the comment right before the first record
        self._begun = False
        self.numbers: Sequence[int] = []
        self.texts: list[str] = []
        self._waiting: list[int] = []  # blank lines, which count when others follow
        self._blank, self._blanks = [0] * 0, 0
        self._remark, self._remarks = [0] * 0, 0
        self.long: list[list[int]] = []  # lines of records that go over more than a note would

    def take(self, count: int) -> bool:
        """Read up to so many further lines; false at the end."""
        lines = list(itertools.islice(self._file, count))
        first, self._read = self._read + 1, self._read + len(lines)
        self.numbers, self.texts = range(first, first + len(lines)), lines
        if lines and _may_hold_others(lines):
            kept = [
                (number, line) for number, line in enumerate(lines, first) if self._is_record(number, line)
            ]
            self.numbers, self.texts = [number for number, _ in kept], [line for _, line in kept]
        elif lines:
            self._begun = True
            self._flush()
        return bool(lines)

    def _is_record(self, number: int, line: str) -> bool:
        bare = line.lstrip()
        if not bare:
            self._waiting.append(number)
            return False
        self._flush()
        if bare[0] != "#":
            self._begun = True
            return True
        if not self._begun:
            self._before = number, bare
        self._remarks += 1
        self._remark += [number] * (self._remarks <= MOST_LINES)
        return False

    def _flush(self) -> None:
        self._blanks += len(self._waiting)
        self._blank += self._waiting[: max(MOST_LINES - len(self._blank), 0)]
        self._waiting.clear()

    @property
    def only_remarks(self) -> bool:
        """Whether there have been comments."""
        return bool(self._remarks)

    def remark(self, delimiter: str) -> tuple[int, list[str]] | None:
        """Return the comment right before the first record, divided into cells."""
        if self._before is None:
            return None
        number, text = self._before
        rows = split([text.lstrip("# \t")], delimiter)
        return (number, [cell.strip() for cell in rows[0]]) if rows else None

    def findings(self) -> list[Finding]:
        """Report what was left out."""
        made = []
        if self._skipped:
            text = f"{count_of(self._skipped, 'line')} at the beginning, as skip= says"
            lines = tuple(range(1, min(self._skipped, MOST_LINES) + 1))
            made.append(Finding("ignored", text, self._skipped, lines=lines, kind="skip"))
        if self._blanks:
            text = count_of(self._blanks, "blank line")
            made.append(Finding("ignored", text, self._blanks, lines=tuple(self._blank), kind="blank"))
        for numbers in self.long:
            text = f"one record goes over {len(numbers)} lines: is a quotation mark missing, or one too many?"
            made.append(Finding("found", text, len(numbers), lines=tuple(numbers), kind="long record"))
        if self._remarks:
            text = count_of(self._remarks, "comment line")
            made.append(Finding("ignored", text, self._remarks, lines=tuple(self._remark), kind="comment"))
        return made


def _may_hold_others(lines: list[str]) -> bool:
    """Tell whether some lines may be blank or comments; quick, for nearly always none is."""
    firsts = {line[0] for line in lines}
    return any(first in "#\n" or first.isspace() for first in firsts)


def chunks(lines: Lines, delimiter: str, sizes: Iterable[int], quotes: bool) -> Iterator[Numbered]:
    """Give the records of so many lines at a time.

    Parameters
    ----------
    lines : Lines
        Of the text.
    delimiter : str
        Between cells.
    sizes : iterable of int
        How many lines to take each time; where there are quotes, at least so many records.
    quotes : bool
        Whether there are quotes at all: they may hold line breaks.
    """
    if quotes:
        yield from _quoted_chunks(lines, delimiter, sizes)
        return
    for size in sizes:
        if not lines.take(size):
            return
        if lines.texts:
            yield lines.numbers, _cells(lines.texts, delimiter)


def _cells(texts: Iterable[str], delimiter: str) -> Rows:
    try:
        return list(csv.reader(texts, delimiter=delimiter, skipinitialspace=True))
    except csv.Error as error:
        raise _undivided("", error) from None


def _undivided(text: str, error: Exception) -> Exception:
    came = f"the text cannot be divided into cells ({cut(str(error))})"
    return invalid("log", text[:60], came, "CSV or TSV is accepted")


def _quoted_chunks(lines: Lines, delimiter: str, sizes: Iterable[int]) -> Iterator[Numbered]:
    pulled: list[int] = []

    def feed() -> Iterator[str]:
        while lines.take(_BLOCK):
            for number, text in zip(lines.numbers, lines.texts, strict=True):
                pulled.append(number)
                yield text.rstrip("\n")

    reader = csv.reader(feed(), delimiter=delimiter, skipinitialspace=True)
    for size in sizes:
        numbers: list[int] = []
        rows: Rows = []
        try:
            for row in itertools.islice(reader, size):
                numbers.append(pulled[0])
                if len(pulled) > _LONGEST_NOTE and len(lines.long) < _MOST_LONG:
                    lines.long.append(pulled[:MOST_LINES])
                pulled.clear()
                rows.append(row)
        except csv.Error as error:
            raise _undivided("", error) from None
        if not rows:
            return
        yield numbers, rows


_BLOCK = 2_000  # lines
_LONGEST_NOTE = 5  # lines
_MOST_LONG = 20  # records that are reported


def split(texts: list[str], delimiter: str) -> Rows:
    """Divide some lines into cells."""
    return _cells(texts, delimiter)
