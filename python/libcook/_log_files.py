"""Files of a log as libcook writes them: CSV with one remark line, or Parquet; both read back equal.

One layout for both. Columns: ``time [s]``; each temperature with its unit, such as ``core [°C]``; ``event``,
``event source``, ``event note``. A row holds either the readings of one time or one event. What is not a
column (version, start, summary) stands as JSON in the first line of the CSV, or in the metadata of the
Parquet file.
"""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np
import numpy.typing as npt

from libcook._log_events import Event
from libcook._log_findings import Finding
from libcook._log_table import Table
from libcook._optional import need
from libcook.errors import invalid
from libcook.units import celsius_to_fahrenheit, fahrenheit_to_celsius, temperature_unit

FloatArray = npt.NDArray[np.float64]
Start = dt.datetime | dt.time | None

_MARK = "# libcook log "
_KEY = b"libcook log"
_VERSION = 1
_TIME = "time [s]"
_EVENT = ("event", "event source", "event note")


@dataclass
class Parts:
    """What a log is made of."""

    time: FloatArray
    columns: dict[str, FloatArray]
    start: Start
    summary: Sequence[Finding]
    events: Sequence[Event]
    units: str = "C"


def start_text(start: Start) -> tuple[str | None, str | None]:
    """Write a start and the name of its zone: unlike ``==``, right in an hour that comes twice as well."""
    zone = getattr(start, "tzinfo", None)
    return None if start is None else start.isoformat(), zone.key if isinstance(zone, ZoneInfo) else None


def _facts(log: Any) -> str:
    shown, zone = start_text(log.start_clock)
    facts = {
        "version": _VERSION,
        "start": shown,
        "zone": zone,
        "units": log.units,
        "summary": [asdict(finding) for finding in log.summary],
    }
    return json.dumps(facts, ensure_ascii=False)


def _read_facts(text: str) -> tuple[Start, tuple[Finding, ...], str]:
    """Read what `_facts` wrote; ValueError, KeyError or TypeError where it did not."""
    facts = json.loads(text)
    if facts["version"] != _VERSION:
        raise ValueError(f"version {facts['version']} is not known")
    summary = tuple(
        Finding(**{**line, "times": tuple(line["times"]), "lines": tuple(line["lines"])})
        for line in facts["summary"]
    )
    start: Start = None
    if facts["start"] is not None:
        text = facts["start"]
        start = dt.datetime.fromisoformat(text) if "T" in text else dt.time.fromisoformat(text)
        if facts["zone"] is not None and isinstance(start, dt.datetime):
            start = start.astimezone(ZoneInfo(facts["zone"]))
    # files of before the scale was noted have none
    return start, summary, temperature_unit(facts.get("units", "C"))


def _layout(log: Any, units: str) -> tuple[list[str], list[list[Any]]]:
    """Return headers and columns; None where a row has no value."""
    scale = temperature_unit(units)
    size = len(log)
    times = np.concatenate([log.time, [event.time for event in log.events]])
    order = np.argsort(times, kind="stable")
    names = [_TIME]
    columns: list[list[Any]] = [[float(times[i]) for i in order]]
    for name, celsius in log.columns.items():
        values = celsius_to_fahrenheit(celsius) if scale == "F" else celsius
        names.append(f"{name} [°{scale}]")
        columns.append([float(values[i]) if i < size and np.isfinite(values[i]) else None for i in order])
    for header, field in zip(_EVENT, ("kind", "source", "note"), strict=True):
        names.append(header)
        columns.append([getattr(log.events[i - size], field) if i >= size else None for i in order])
    return names, columns


def _from_layout(
    names: Sequence[str], columns: Sequence[Sequence[Any]], number: Callable[[Any], float]
) -> tuple[FloatArray, dict[str, FloatArray], tuple[Event, ...]]:
    """Take readings and events apart again; ValueError where the layout is another one."""
    if len(names) < 5 or names[0] != _TIME or tuple(names[-3:]) != _EVENT:
        raise ValueError("the columns are not the ones of a libcook log")
    times = np.array([number(value) for value in columns[0]], dtype=np.float64)
    kinds, sources, notes = columns[-3:]
    reading = np.array([not kind for kind in kinds], dtype=bool)
    events = tuple(
        Event(str(kinds[i]), float(times[i]), str(sources[i]), str(notes[i] or ""))
        for i in np.flatnonzero(~reading)
    )
    temperatures: dict[str, FloatArray] = {}
    for header, values in zip(names[1:-3], columns[1:-3], strict=True):
        name, scale = header[:-5], header[-5:]
        if scale not in (" [°C]", " [°F]"):
            raise ValueError(f"column '{header}' has no unit")
        array = np.array([np.nan if value in (None, "") else number(value) for value in values])[reading]
        temperatures[name] = fahrenheit_to_celsius(array) if scale == " [°F]" else array
    return times[reading], temperatures, events


def write_csv(log: Any, path: str | Path, units: str) -> Path:
    """Write a log as CSV."""
    names, columns = _layout(log, units)
    text = io.StringIO(newline="")
    text.write(f"{_MARK}{_facts(log)}\r\n")
    writer = csv.writer(text, lineterminator="\r\n")  # as RFC 4180; with "\n", a note's "\r" goes unquoted
    writer.writerow(names)
    writer.writerows(
        ["" if value is None else repr(value) if isinstance(value, float) else value for value in row]
        for row in zip(*columns, strict=True)
    )
    if "\0" in text.getvalue():
        raise invalid("log", None, "a name or a note holds a NUL character", "text is accepted")
    target = Path(path)
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(text.getvalue().encode("utf-8"))
    return target


def read_csv(text: str) -> tuple[Parts | None, list[Finding]]:
    """Read what `write_csv` wrote; None, and why, where the text is another one or was changed since."""
    if not text.startswith(_MARK):
        return None, []
    first, _, rest = text.partition("\n")
    try:
        start, summary, units = _read_facts(first[len(_MARK) :])
        rows = [row for row in csv.reader(io.StringIO(rest, newline="")) if row]
        if any(len(row) != len(rows[0]) for row in rows):
            raise ValueError("rows of different lengths")
        if not rows:
            raise ValueError("no rows")
        time, columns, events = _from_layout(rows[0], list(zip(*rows[1:], strict=True)), float)
        if not (np.diff(time) > 0.0).all() or time.size < 2:
            raise ValueError("times that do not increase")
    except (ValueError, KeyError, TypeError, IndexError, AttributeError, csv.Error, OSError) as error:
        why = " ".join(str(error).split())[:80]
        text = f"the file was changed after libcook wrote it ({why}); read like any other log"
        return None, [Finding("found", text, kind="changed")]
    return Parts(time, columns, start, summary, events, units), []


def write_parquet(log: Any, path: str | Path, units: str) -> Path:
    """Write a log as Parquet."""
    arrow = need("pyarrow", "parquet", "Log.to_parquet")
    parquet = need("pyarrow.parquet", "parquet", "Log.to_parquet")
    names, columns = _layout(log, units)
    text, number = arrow.string(), arrow.float64()
    table = arrow.table(
        [
            arrow.array(values, text if name in _EVENT else number)
            for name, values in zip(names, columns, strict=True)
        ],
        names=names,
    ).replace_schema_metadata({_KEY: _facts(log).encode("utf-8")})
    target = Path(path)
    target.parent.mkdir(parents=True, exist_ok=True)
    parquet.write_table(table, target)
    return target


def read_parquet(raw: bytes) -> Parts | Table:
    """Read a Parquet file: a log that libcook wrote, or else a table of cells like that of a CSV."""
    arrow = need("pyarrow", "parquet", "reading a Parquet file")
    parquet = need("pyarrow.parquet", "parquet", "reading a Parquet file")
    try:
        table = parquet.read_table(arrow.BufferReader(raw))
        names = [str(name) for name in table.column_names]
        columns = [_plain(arrow, column) for column in table.columns]
        metadata: Mapping[bytes, bytes] = table.schema.metadata or {}
    except (ValueError, OSError, OverflowError, arrow.ArrowException) as error:
        came = f"the Parquet file cannot be read ({' '.join(str(error).split())[:120]})"
        raise invalid("log", None, came, "a whole Parquet file is accepted") from None
    findings: list[Finding] = []
    if _KEY in metadata:
        try:
            start, summary, units = _read_facts(metadata[_KEY].decode("utf-8"))
            time, temperatures, events = _from_layout(names, columns, float)
            if not (np.diff(time) > 0.0).all() or time.size < 2:
                raise ValueError("times that do not increase")
            return Parts(time, temperatures, start, summary, events, units)
        except (ValueError, KeyError, TypeError, AttributeError, OSError) as error:
            text = f"the file was changed after libcook wrote it ({error}); read like any other log"
            findings.append(Finding("found", text, kind="changed"))
    if not columns or not columns[0]:
        came = f"the log has columns ({', '.join(names)}) but no rows"
        raise invalid("log", None, came, "at least two rows are accepted")
    rows = [[_cell(value) for value in row] for row in zip(*columns, strict=True)]
    return Table(names, rows, list(range(1, len(rows) + 1)), ".", findings)


def _plain(arrow: Any, column: Any) -> list[Any]:
    kind = column.type
    if arrow.types.is_timestamp(kind):  # nanoseconds do not fit Python's own
        column = column.cast(arrow.timestamp("us", kind.tz), safe=False)
    elif arrow.types.is_duration(kind):
        column = column.cast(arrow.duration("us"), safe=False)
    values: list[Any] = column.to_pylist()
    return values


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, dt.timedelta):
        seconds = value.total_seconds()
        return f"{int(seconds // 3600)}:{int(seconds // 60 % 60):02d}:{seconds % 60:06.3f}"
    return (value.isoformat() if isinstance(value, (dt.datetime, dt.date, dt.time)) else str(value)).strip()


def frame_of(log: Any, units: str) -> Any:
    """Return a pandas DataFrame indexed by time [s]."""
    pd = need("pandas", "frames", "Log.to_frame")
    scale = temperature_unit(units)
    data = {name: celsius_to_fahrenheit(v) if scale == "F" else v.copy() for name, v in log.columns.items()}
    frame = pd.DataFrame(data, index=pd.Index(log.time.copy(), name="time"))
    frame.attrs["units"] = {"time": "s", **dict.fromkeys(data, f"°{scale}")}
    return frame
