"""A log of more rows than can be read one by one: looked at a chunk at a time, and thinned."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager

import numpy as np

from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.logs.columns.names import Key, find_column, is_note, is_time
from libcook.logs.findings import Finding
from libcook.logs.reading.header import take_head
from libcook.logs.reading.marks import check_decimal, guess_decimal
from libcook.logs.reading.numbers import FloatArray, Numbers, is_blank
from libcook.logs.reading.records import Lines, chunks
from libcook.logs.reading.source import Source
from libcook.logs.reading.table import Square, Table, delimiter_of, without_said_delimiter
from libcook.logs.reading.thin import kept_places, run_length

_HEAD = 200  # rows that tell which columns hold numbers
_CHUNK = 20_000  # rows that are looked at together
MOST_NOTES = 20_000  # rows with a note


def read_long(
    source: Source, delimiter: str | None, decimal: str | None, notes: Key, skip: int | None
) -> Table:
    """Read the rows that are kept; the first finding says what was left out.

    Parameters
    ----------
    source : Source
        The text.
    delimiter, decimal : str or None
        As the call says them.
    notes : str, int or None
        The column of notes, as the call names it.
    skip : int or None
        Lines to leave out at the beginning.
    """
    check_decimal(decimal)
    chosen = delimiter_of(source, delimiter, skip)
    with _collector_resting():
        table = _read(source, chosen, decimal, decimal or ".", notes, skip)
        if table.decimal != (decimal or "."):  # the extremes were looked for with the wrong mark
            table = _read(source, chosen, decimal, table.decimal, notes, skip)
    return table


@contextmanager
def _collector_resting() -> Iterator[None]:
    """Keep the collector of cycles from looking at millions of short lists, and each time at all else."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def _read(
    source: Source, delimiter: str, decimal: str | None, mark: str, notes: Key, skip: int | None
) -> Table:
    size = _HEAD

    def sizes() -> Iterator[int]:
        while True:
            yield size

    findings: list[Finding] = []
    with source.text() as file:
        lines = Lines(file, skip or 0)
        stream = chunks(lines, delimiter, sizes(), source.quotes)
        numbers, rows = next(stream)
        numbers, rows = without_said_delimiter(numbers, rows, delimiter, findings)
        first = take_head(numbers, rows, findings, skip is not None, lines.remark(delimiter))
        names, head = first.names, first.numbers
        square = Square(names, delimiter)
        rows = square(head, first.rows)
        kept = _Cells(names, rows, source.line_ends, mark, notes)
        size = kept.keeper.chunk
        kept.take(head, rows)
        for numbers, more in stream:
            kept.take(numbers, square(numbers, more))
    findings = [kept.keeper.finding(), *lines.findings(), *findings, *square.findings()]
    found = decimal or guess_decimal(kept.rows, findings)
    return Table(names, kept.rows, kept.lines, found, findings, thinned=True, titles=first.titles)


class Keeper:
    """Chooses rows and counts them.

    Parameters
    ----------
    names : list of str
        Of the columns.
    counted : int
        How many columns of numbers there are.
    rows : int
        About how many rows there will be.
    notes : str, int or None
        The column of notes, as the call names it.
    """

    def __init__(self, names: list[str], counted: int, rows: int, notes: Key) -> None:
        self.know(names, notes)
        self._every = run_length(rows, counted)
        self._seen = self._kept = self._noted = 0
        self.chunk = self._every * max(1, _CHUNK // self._every)  # rows that are looked at together

    def know(self, names: list[str], notes: Key) -> None:
        """Learn of the columns; in JSON they become more while it is read."""
        self._names = names
        self.notes = _note_columns(names, notes)

    def choose(
        self, size: int, read: Sequence[FloatArray], cells: Callable[[int], Sequence[str]]
    ) -> list[int]:
        """Return the places of the rows of a chunk that are kept.

        Parameters
        ----------
        size : int
            Rows of the chunk.
        read : sequence of numpy.ndarray
            Its columns of numbers.
        cells : callable
            Gives the cells of a column of notes.
        """
        kept = set(kept_places(read, size, self._every).tolist())
        for i in self.notes:
            column = cells(i)
            told = {cell for cell in set(column) if not is_blank(cell)}
            if told:
                noted = [place for place, cell in enumerate(column) if cell in told]
                self._noted += len(noted)
                kept.update(noted)
            if self._noted > MOST_NOTES:
                came = f"more than {MOST_NOTES:,} rows of a log of this length have a note"
                came += f" in column {quoted(self._names[i])}"
                accepted = "fewer are accepted, for no note is left out; take the column out of the file"
                raise invalid("events", None, came, accepted)
        self._seen += size
        self._kept += len(kept)
        return sorted(kept)

    def finding(self) -> Finding:
        """Say what was kept, and by which rule."""
        text = (
            f"{self._seen:,} rows thinned to {self._kept:,}: of every {self._every} in a row the first and"
            " the last, the lowest and the highest of each column, and every row with a note; what follows"
            " counts those"
        )
        return Finding("mended", text, self._seen - self._kept, kind="thinned")


class _Cells:
    """Keeps some of the rows of cells that it is shown."""

    def __init__(self, names: list[str], head: list[list[str]], rows: int, mark: str, notes: Key) -> None:
        self.rows: list[list[str]] = []
        self.lines: list[int] = []
        self._numbers = [Numbers(mark) for _ in names]
        columns = list(zip(*head, strict=True)) if head else [()] * len(names)
        self._looked_at = [
            i
            for i, cells in enumerate(columns)
            if not is_time(names[i]) and not _is_stamps(cells, self._numbers[i])
        ]
        counted = sum(bool(np.isfinite(self._numbers[i].column(columns[i])).any()) for i in self._looked_at)
        self.keeper = Keeper(names, counted, rows, notes)
        self._looked_at = [i for i in self._looked_at if i not in self.keeper.notes]

    def take(self, numbers: Sequence[int], rows: list[list[str]]) -> None:
        """Keep what has to be kept of a chunk."""
        if not rows:
            return
        columns = list(zip(*rows, strict=True))
        read = [self._numbers[i].column(columns[i]) for i in self._looked_at]
        for place in self.keeper.choose(len(rows), read, columns.__getitem__):
            self.rows.append([cell.strip() for cell in rows[place]])
            self.lines.append(numbers[place])


def _note_columns(names: list[str], notes: Key) -> list[int]:
    given = find_column(notes, "events", names)
    wordy = [i for i, name in enumerate(names) if is_note(name)]
    return sorted({*wordy, *([] if given is None else [given])})


def _is_stamps(cells: Sequence[str], numbers: Numbers) -> bool:
    """Tell a column of time stamps, and the like, by its first rows: no number, and hardly two alike."""
    return not np.isfinite(numbers.column(cells)).any() and len(set(cells)) > len(cells) / 2
