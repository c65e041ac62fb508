"""A sweep on disk: a folder with a manifest and one Parquet file for each chunk, each whole or not there."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from libcook.arguments.files import is_left_over, write_whole
from libcook.arguments.optional import need
from libcook.arguments.quote import quoted
from libcook.errors import InvalidInput, invalid
from libcook.sweeps.chunk import Block
from libcook.sweeps.layout import Layout
from libcook.sweeps.lock import NAME as LOCK
from libcook.sweeps.lock import FolderLock
from libcook.sweeps.manifest import FORMAT, VERSION, changed, read_manifest, regular
from libcook.sweeps.manifest import NAME as MANIFEST

_KEY = b"libcook sweep"
_PART = re.compile(r"part-(\d{6,9})\.parquet")


class Store:
    """The folder of one sweep.

    Parameters
    ----------
    folder : Path
        Made if it is missing.
    layout : Layout
        Of the sweep that is to run.
    field : str
        How messages call the folder.

    Raises
    ------
    InvalidInput
        When the folder belongs to another sweep, or holds other files.
    ImportError
        When pyarrow is not installed.
    """

    def __init__(self, folder: Path, layout: Layout, field: str = "to") -> None:
        self._lock: FolderLock | None = None
        self._field = field
        self._parquet = need("pyarrow.parquet", "sweep", "sweep(to=...)")
        self._arrow = need("pyarrow", "sweep", "sweep(to=...)")
        self.folder = folder
        self.layout = layout

    @classmethod
    def begin(cls, folder: Path, layout: Layout, chunk_given: bool) -> Store:
        """Start a folder, or go on with the one of the same sweep; it is this sweep's until `close`."""
        store = cls(folder, layout)
        if folder.exists() and not folder.is_dir():
            raise _something_else(folder)
        folder.mkdir(parents=True, exist_ok=True)
        store._lock = FolderLock(folder)
        try:
            store._begin(chunk_given)
        except BaseException:
            store.close()
            raise
        return store

    def _begin(self, chunk_given: bool) -> None:
        if regular(self.folder / MANIFEST, "to"):
            self._go_on(read_manifest(self.folder, "to"), chunk_given)
            return
        if any(not is_left_over(one) and one.name != LOCK for one in self.folder.iterdir()):
            raise _something_else(self.folder)
        content = {"format": FORMAT, "version": VERSION, "hash": self.layout.hash, **self.layout.to_json()}
        write_whole(self.folder / MANIFEST, json.dumps(content, indent=1).encode())

    def _go_on(self, before: Layout, chunk_given: bool) -> None:
        folder, layout = self.folder, self.layout
        other = [part for part, code in layout.parts.items() if before.parts.get(part) != code]
        if other:
            came = f"{quoted(folder)} holds another sweep: {' and '.join(other)} differ"
            accepted = "a new folder, or the one of the same sweep, is accepted"
            raise invalid("to", str(folder), came, accepted)
        if chunk_given and before.chunk != layout.chunk:
            came = f"{quoted(folder)} was begun with chunks of {before.chunk} cooks"
            raise invalid("chunk", layout.chunk, came, f"{before.chunk} is accepted")
        same = json.loads(json.dumps(replace(layout, chunk=before.chunk).to_json()))
        if same != json.loads(json.dumps(before.to_json())):
            raise changed(folder / MANIFEST, "it describes another result than this sweep's", "to")
        self.layout = before

    def close(self) -> None:
        """Give the folder back."""
        if self._lock is not None:
            self._lock.release()
            self._lock = None

    def path(self, number: int) -> Path:
        """Name the file of a chunk."""
        return self.folder / f"part-{number:06d}.parquet"

    def there(self) -> list[int]:
        """List the chunks whose files are there, in order."""
        matches = (_PART.fullmatch(one.name) for one in self.folder.iterdir())
        numbers = sorted(int(match[1]) for match in matches if match)
        return [number for number in numbers if number < self.layout.chunks]

    def done(self) -> set[int]:
        """List the chunks that are there, whole and of this sweep."""
        return {number for number in self.there() if self._is_whole(number)}

    def _is_whole(self, number: int) -> bool:
        first, stop = self.layout.span(number)
        if not regular(self.path(number), self._field):
            return False
        try:
            found = self._parquet.read_metadata(self.path(number))
        except (OSError, ValueError):  # cut short: pyarrow's errors are of these kinds
            return False
        code = (found.metadata or {}).get(_KEY)
        return bool(found.num_rows == stop - first and code == self.layout.hash.encode())

    def write(self, block: Block) -> None:
        """Write a chunk, under a passing name first: a file under its own name is whole."""
        layout, arrow = self.layout, self._arrow
        first, stop = layout.span(block.number)
        columns: dict[str, Any] = {"cook": arrow.array(np.arange(first, stop))}
        for parameter, shown in zip(layout.parameters, block.shown, strict=True):
            columns[parameter.name] = arrow.array(
                shown, arrow.string() if parameter.is_text else arrow.float64()
            )
        for reading in layout.readings:
            values = block.values[reading.name]
            columns[reading.name] = _lists(arrow, list(values)) if reading.by_stage else arrow.array(values)
        for trace in layout.traces:
            columns[trace.name] = _lists(arrow, block.traces[trace.name.removesuffix("_trace")])
        columns["failure"] = arrow.array(block.failures, arrow.string())
        table = arrow.table(columns).replace_schema_metadata({_KEY: layout.hash.encode()})
        sink = arrow.BufferOutputStream()
        self._parquet.write_table(table, sink)
        write_whole(self.path(block.number), memoryview(sink.getvalue()))

    def read(self, number: int, readings: Sequence[str] | None = None) -> Block | None:
        """Read a chunk, or some of its readings; None when it is not there."""
        if not self._is_whole(number):
            return None
        layout = self.layout
        wanted = [one for one in layout.readings if readings is None or one.name in readings]
        traces = [one for one in layout.traces if readings is None or one.name in readings]
        parameters = () if layout.is_grid else layout.parameters
        names = [one.name for one in (*parameters, *wanted, *traces)] + ["failure"]
        first, stop = layout.span(number)
        try:
            # the file itself: a path would be taken for a data set, whose folders may name columns
            with open(self.path(number), "rb") as file:
                table = self._parquet.ParquetFile(file).read(columns=names)
            shapes = {one.name: (stop - first, len(layout.stages))[: 1 + one.by_stage] for one in wanted}
            return Block(
                number,
                {one.name: _array(table, one.name, one.by_stage).reshape(shapes[one.name]) for one in wanted},
                {one.name.removesuffix("_trace"): _rows(table, one.name) for one in traces},
                [str(why) for why in table["failure"].to_pylist()],
                [table[one.name].to_pylist() for one in parameters],
            )
        except (OSError, ValueError, LookupError, TypeError, AttributeError) as error:
            raise changed(self.path(number), str(error), self._field) from None

    def tidy(self) -> None:
        """Delete files that a killed process left half-written."""
        for path in self.folder.iterdir():
            if is_left_over(path):
                path.unlink(missing_ok=True)


def _something_else(folder: Path) -> InvalidInput:
    came = f"{quoted(folder)} holds something else"
    return invalid("to", str(folder), came, "a new or an empty folder is accepted")


def _lists(arrow: Any, rows: Iterable[Any]) -> Any:
    return arrow.array([row.tolist() for row in rows], arrow.list_(arrow.float64()))


def _rows(table: Any, name: str) -> list[Any]:
    return [np.asarray(row, dtype=np.float64) for row in table[name].to_pylist()]


def _array(table: Any, name: str, by_stage: bool) -> Any:
    return np.array(table[name].to_pylist() if by_stage else table[name].to_numpy(), dtype=np.float64)
