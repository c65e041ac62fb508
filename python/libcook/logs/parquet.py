"""Logs as Parquet: written like the CSV of a log, and read like it or like any other table."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from pathlib import Path
from typing import IO, Any

import numpy as np

from libcook.arguments.files import passing_file
from libcook.arguments.optional import need
from libcook.arguments.quantity import PathName
from libcook.arguments.quote import cut, listed
from libcook.errors import InvalidInput, invalid
from libcook.logs.columns.names import Key, is_time
from libcook.logs.events import Event
from libcook.logs.files import (
    EVENT,
    KEY,
    UNREADABLE,
    Parts,
    check_names,
    columns_of,
    facts_of,
    from_layout,
    order_of,
    read_facts,
)
from libcook.logs.findings import Finding
from libcook.logs.reading.header import MOST_COLUMNS
from libcook.logs.reading.long import Keeper
from libcook.logs.reading.table import Table
from libcook.logs.reading.thin import MOST_ROWS

_BATCH = 16_384  # rows


def write_parquet(log: Any, path: PathName, units: str) -> Path:
    """Write a log as Parquet."""
    arrow = need("pyarrow", "parquet", "Log.to_parquet")
    parquet = need("pyarrow.parquet", "parquet", "Log.to_parquet")
    names, columns = columns_of(log, units)
    size, order = len(log), order_of(log)
    times, *temperatures = (np.concatenate([values, np.full(len(log.events), np.nan)]) for values in columns)
    times[size:] = [event.time for event in log.events]
    arrays = [arrow.array(times[order])]
    arrays += [arrow.array(values[order], mask=~np.isfinite(values[order])) for values in temperatures]
    for header, field in zip(EVENT, ("kind", "source", "note"), strict=True):
        texts = [getattr(log.events[i - size], field) if i >= size else None for i in order.tolist()]
        arrays.append(arrow.array(texts, arrow.string()))
        names.append(header)
    table = arrow.table(arrays, names=names).replace_schema_metadata({KEY: facts_of(log).encode("utf-8")})
    target = Path(path)
    with passing_file(target) as passing:
        parquet.write_table(table, passing)
    return target


def read_parquet(raw: IO[bytes], notes: Key) -> Parts | Table:
    """Read a Parquet file: a log that libcook wrote, or else a table of cells like that of a CSV."""
    arrow = need("pyarrow", "parquet", "reading a Parquet file")
    parquet = need("pyarrow.parquet", "parquet", "reading a Parquet file")
    findings: list[Finding] = []
    try:
        raw.seek(0)
        file = parquet.ParquetFile(raw)
        names = [str(name) for name in file.schema_arrow.names]
        metadata: Mapping[bytes, bytes] = file.schema_arrow.metadata or {}
        if KEY in metadata:
            try:
                return _read_own(file, names, metadata[KEY].decode("utf-8"))
            except UNREADABLE as error:
                text = f"the file was changed after libcook wrote it ({cut(str(error))})"
                text += "; read like any other log"
                findings.append(Finding("found", text, kind="changed"))
        return _read_cells(arrow, file, names, notes, findings)
    except InvalidInput:
        raise
    except (ValueError, OSError, OverflowError, arrow.ArrowException) as error:
        came = f"the Parquet file cannot be read ({' '.join(str(error).split())[:120]})"
        raise invalid("log", None, came, "a whole Parquet file is accepted") from None


def _read_own(file: Any, names: list[str], text: str) -> Parts:
    facts = read_facts(text)
    check_names(names)
    table = file.read()
    kinds, sources, notes = (table.column(i).to_pylist() for i in range(len(names) - 3, len(names)))
    happened = np.array([bool(kind) for kind in kinds])
    time, *temperatures = (
        np.asarray(table.column(i).to_numpy(), dtype=np.float64) for i in range(len(names) - 3)
    )
    events = [
        Event(str(kinds[i]), float(time[i]), str(sources[i]), str(notes[i] or ""))
        for i in np.flatnonzero(happened)
    ]
    return from_layout(names, time[~happened], [values[~happened] for values in temperatures], events, facts)


def _read_cells(arrow: Any, file: Any, names: list[str], notes: Key, findings: list[Finding]) -> Table:
    count = file.metadata.num_rows
    if not names or not count:
        came = f"the log has columns ({listed(names)}) but no rows"
        raise invalid("log", None, came, "at least two rows are accepted")
    if len(names) > MOST_COLUMNS:
        accepted = f"up to {MOST_COLUMNS:,} are accepted"
        raise invalid("log", None, f"the log has {len(names):,} columns", accepted)
    rows: list[list[str]] = []
    lines: list[int] = []
    kinds = file.schema_arrow.types
    counted = [i for i, kind in enumerate(kinds) if _is_number(arrow, kind) and not is_time(names[i])]
    keeper = Keeper(names, len(counted), count, notes) if count > MOST_ROWS else None
    seen = 0
    for batch in file.iter_batches(keeper.chunk if keeper else _BATCH):
        columns = [_plain(arrow, column) for column in batch.columns]
        places = list(range(batch.num_rows))
        if keeper is not None:
            read = [np.asarray(columns[i].to_numpy(zero_copy_only=False), np.float64) for i in counted]

            def cells(i: int, columns: list[Any] = columns) -> list[str]:
                return [_cell(value) for value in columns[i].to_pylist()]

            places = keeper.choose(batch.num_rows, read, cells)
        taken = [column.take(arrow.array(places, arrow.int64())).to_pylist() for column in columns]
        rows += [[_cell(value) for value in row] for row in zip(*taken, strict=True)]
        lines += [seen + place + 1 for place in places]
        seen += batch.num_rows
    if keeper is not None:
        findings.append(keeper.finding())
    return Table(names, rows, lines, ".", findings, keeper is not None)


def _is_number(arrow: Any, kind: Any) -> bool:
    return bool(arrow.types.is_integer(kind) or arrow.types.is_floating(kind))


def _plain(arrow: Any, column: Any) -> Any:
    kind = column.type
    if arrow.types.is_timestamp(kind):  # nanoseconds do not fit Python's own
        return column.cast(arrow.timestamp("us", kind.tz), safe=False)
    if arrow.types.is_duration(kind):
        return column.cast(arrow.duration("us"), safe=False)
    return column


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, dt.timedelta):
        seconds = value.total_seconds()
        return f"{int(seconds // 3600)}:{int(seconds // 60 % 60):02d}:{seconds % 60:06.3f}"
    return (value.isoformat() if isinstance(value, (dt.datetime, dt.date, dt.time)) else str(value)).strip()
