"""A sweep on disk: a folder with a manifest and one Parquet file for each chunk, each whole or not there."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from libcook._optional import need
from libcook._sweep_chunk import Block
from libcook._sweep_layout import Layout
from libcook.errors import InvalidInput, invalid

FORMAT, VERSION = "libcook sweep", 1
_MANIFEST = "sweep.json"
_KEY = b"libcook sweep"


class Store:
    """The folder of one sweep.

    Parameters
    ----------
    folder : Path
        Made if it is missing.
    layout : Layout
        Of the sweep that is to run.

    Raises
    ------
    InvalidInput
        When the folder belongs to another sweep, or holds other files.
    ImportError
        When pyarrow is not installed.
    """

    def __init__(self, folder: Path, layout: Layout) -> None:
        self._parquet = need("pyarrow.parquet", "sweep", "sweep(to=...)")
        self._arrow = need("pyarrow", "sweep", "sweep(to=...)")
        self.folder = folder
        self.layout = layout

    @classmethod
    def begin(cls, folder: Path, layout: Layout, chunk_given: bool) -> Store:
        """Start a folder, or go on with the one of the same sweep."""
        store = cls(folder, layout)
        if (folder / _MANIFEST).exists():
            before = read_manifest(folder)
            other = [part for part, code in layout.parts.items() if before.parts.get(part) != code]
            if other:
                raise invalid(
                    "to",
                    str(folder),
                    f"'{folder}' holds another sweep: {' and '.join(other)} differ",
                    "a new folder, or the one of the same sweep, is accepted",
                )
            if chunk_given and before.chunk != layout.chunk:
                raise invalid(
                    "chunk",
                    layout.chunk,
                    f"'{folder}' was begun with chunks of {before.chunk} cooks",
                    f"{before.chunk} is accepted",
                )
            store.layout = before
            return store
        if folder.exists() and (
            not folder.is_dir() or any(not _is_left_over(one) for one in folder.iterdir())
        ):
            raise invalid(
                "to", str(folder), f"'{folder}' holds something else", "a new or an empty folder is accepted"
            )
        folder.mkdir(parents=True, exist_ok=True)
        content = {"format": FORMAT, "version": VERSION, "hash": layout.hash, **layout.to_json()}
        _write_whole(folder / _MANIFEST, json.dumps(content, indent=1).encode())
        return store

    def path(self, number: int) -> Path:
        """Name the file of a chunk."""
        return self.folder / f"part-{number:06d}.parquet"

    def done(self) -> set[int]:
        """List the chunks that are there, whole and of this sweep."""
        return {number for number in range(self.layout.chunks) if self._is_whole(number)}

    def _is_whole(self, number: int) -> bool:
        first, stop = self.layout.span(number)
        try:
            found = self._parquet.read_metadata(self.path(number))
        except (OSError, ValueError):  # not there, or cut short: pyarrow's errors are of these kinds
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
        _write_whole(self.path(block.number), memoryview(sink.getvalue()))

    def read(self, number: int, readings: Sequence[str] | None = None) -> Block | None:
        """Read a chunk, or some of its readings; None when it is not there."""
        if not self._is_whole(number):
            return None
        layout = self.layout
        wanted = [one for one in layout.readings if readings is None or one.name in readings]
        traces = [one for one in layout.traces if readings is None or one.name in readings]
        parameters = () if layout.is_grid else layout.parameters
        names = [one.name for one in (*parameters, *wanted, *traces)] + ["failure"]
        # the file itself: a path would be taken for a data set, whose folders may name columns
        with open(self.path(number), "rb") as file:
            table = self._parquet.ParquetFile(file).read(columns=names)
        values = {one.name: _array(table, one.name, one.by_stage) for one in wanted}
        return Block(
            number,
            values,
            {
                one.name.removesuffix("_trace"): [np.asarray(row) for row in table[one.name].to_pylist()]
                for one in traces
            },
            table["failure"].to_pylist(),
            [table[one.name].to_pylist() for one in parameters],
        )

    def tidy(self) -> None:
        """Delete files that a killed process left half-written."""
        for path in self.folder.iterdir():
            if _is_left_over(path):
                path.unlink(missing_ok=True)


def read_manifest(folder: Path) -> Layout:
    """Read what a folder holds.

    Raises
    ------
    InvalidInput
        When it is no folder of a sweep, or of a later version.
    """
    path = folder / _MANIFEST
    try:
        content = json.loads(path.read_text(encoding="utf-8"))
        if content["format"] != FORMAT:
            raise KeyError(content["format"])
        if content["version"] != VERSION:
            came = f"'{folder}' is of version {content['version']}"
            raise invalid("to", str(folder), came, f"version {VERSION} is accepted")
        return Layout.from_json(content)
    except InvalidInput:
        raise
    except (OSError, ValueError, KeyError, TypeError) as error:
        raise invalid(
            "to",
            str(folder),
            f"'{folder}' is no folder of a sweep ({error})",
            "one that libcook.sweep(to=...) wrote is accepted",
        ) from None


def _lists(arrow: Any, rows: Iterable[Any]) -> Any:
    return arrow.array([row.tolist() for row in rows], arrow.list_(arrow.float64()))


def _array(table: Any, name: str, by_stage: bool) -> Any:
    return np.array(table[name].to_pylist() if by_stage else table[name].to_numpy(), dtype=np.float64)


def _is_left_over(path: Path) -> bool:
    return path.name.startswith(".") and path.name.endswith(".tmp")


def _write_whole(path: Path, content: Any) -> None:
    """Write a file that appears under its name only when all of it is on disk."""
    passing = path.with_name(f".{path.name}.{os.getpid()}.tmp")
    try:
        with open(passing, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.replace(passing, path)
    finally:
        passing.unlink(missing_ok=True)
