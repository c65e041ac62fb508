"""Files of a log as libcook writes them: CSV with one remark line, or Parquet; both read back equal.

One layout for both. Columns: ``time [s]``; each temperature with its unit, such as ``core [°C]``; ``event``,
``event source``, ``event note``. A row holds either the readings of one time or one event. What is not a
column (version, start, summary) stands as JSON in the first line of the CSV, or in the metadata of the
Parquet file. Text in the CSV is guarded against spreadsheets that would run it (`libcook.logs.cells`).
"""

from __future__ import annotations

import csv
import datetime as dt
import io
import itertools
import json
import math
from array import array
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import IO, Any
from zoneinfo import ZoneInfo

import numpy as np
import numpy.typing as npt

from libcook.arguments.files import whole_file
from libcook.arguments.optional import need
from libcook.arguments.quantity import PathName
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.logs.cells import guarded, in_one_cell, unguarded
from libcook.logs.events import Event
from libcook.logs.findings import Finding
from libcook.logs.reading.source import Source
from libcook.units import fahrenheit_to_celsius, shown_in, temperature_unit

FloatArray = npt.NDArray[np.float64]
Start = dt.datetime | dt.time | None

KEY = b"libcook log"
EVENT = ("event", "event source", "event note")
_MARK = "# libcook log "
_VERSION = 1
_TIME = "time [s]"
_CHUNK = 20_000  # rows that are read together
# What reading a file raises that was changed since.
UNREADABLE = (ValueError, LookupError, TypeError, AttributeError, RecursionError, OSError)


@dataclass
class Parts:
    """What a log is made of."""

    time: FloatArray
    columns: dict[str, FloatArray]
    start: Start
    summary: Sequence[Finding]
    events: Sequence[Event]
    units: str = "C"


@dataclass(frozen=True)
class Facts:
    """What is not a column: start, findings and scale of the log, and how its text is written."""

    start: Start
    summary: tuple[Finding, ...]
    units: str
    guarded: bool


def start_text(start: Start) -> tuple[str | None, str | None]:
    """Write a start and the name of its zone: unlike ``==``, right in an hour that comes twice as well."""
    zone = getattr(start, "tzinfo", None)
    return None if start is None else start.isoformat(), zone.key if isinstance(zone, ZoneInfo) else None


def facts_of(log: Any) -> str:
    """Write what is not a column, as JSON."""
    shown, zone = start_text(log.start_clock)
    facts = {
        "version": _VERSION,
        "guarded": True,
        "start": shown,
        "zone": zone,
        "units": log.units,
        "summary": [asdict(finding) for finding in log.summary],
    }
    return json.dumps(facts, ensure_ascii=False)


def read_facts(text: str) -> Facts:
    """Read what `facts_of` wrote; ValueError, KeyError, TypeError or RecursionError where it did not."""
    facts = json.loads(text)
    if facts["version"] != _VERSION:
        raise ValueError(f"version {quoted(facts['version'])} is not known")
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
    # older files do not say their scale, and their text is as it was
    return Facts(start, summary, temperature_unit(facts.get("units", "C")), bool(facts.get("guarded", False)))


def columns_of(log: Any, units: str) -> tuple[list[str], list[FloatArray]]:
    """Return headers and values of the times and temperatures."""
    scale = temperature_unit(units)
    names, columns = [_TIME], [log.time]
    for name, celsius in log.columns.items():
        names.append(f"{name} [°{scale}]")
        columns.append(shown_in(celsius, scale))
    return names, columns


def order_of(log: Any) -> npt.NDArray[np.intp]:
    """Return places in order of time: of readings and, from the number of readings on, of events."""
    times = np.concatenate([log.time, [event.time for event in log.events]])
    return np.argsort(times, kind="stable")


def check_names(names: Sequence[str]) -> None:
    """Raise ValueError where the columns are not those of a log."""
    if len(names) < 5 or names[0] != _TIME or tuple(names[-3:]) != EVENT:
        raise ValueError("the columns are not the ones of a libcook log")


def from_layout(
    names: Sequence[str],
    time: FloatArray,
    temperatures: Sequence[FloatArray],
    events: Sequence[Event],
    facts: Facts,
) -> Parts:
    """Put a log together again; ValueError where the layout is another one."""
    named: dict[str, FloatArray] = {}
    for header, values in zip(names[1:-3], temperatures, strict=True):
        name, scale = header[:-5], header[-5:]
        if scale not in (" [°C]", " [°F]"):
            raise ValueError(f"column {quoted(header)} has no unit")
        named[name] = fahrenheit_to_celsius(values) if scale == " [°F]" else values
    if not (np.diff(time) > 0.0).all() or time.size < 2:
        raise ValueError("times that do not increase")
    return Parts(time, named, facts.start, facts.summary, tuple(events), facts.units)


def write_csv(log: Any, path: PathName, units: str) -> Path:
    """Write a log as CSV."""
    names, columns = columns_of(log, units)
    size, none = len(log), [""] * (len(columns) - 1)
    for text in (*names, *(event.note for event in log.events)):
        if "\0" in text:
            raise invalid("log", None, "a name or a note holds a NUL character", "text is accepted")

    def rows() -> Iterator[list[str]]:
        for place in order_of(log).tolist():
            if place < size:
                values = (float(column[place]) for column in columns)
                yield [*(repr(value) if math.isfinite(value) else "" for value in values), "", "", ""]
            else:
                event = log.events[place - size]
                words = map(guarded, (event.kind, event.source, event.note))
                yield [repr(float(event.time)), *none, *words]

    target = Path(path)
    with whole_file(target) as file:
        text = io.TextIOWrapper(file, "utf-8", newline="")
        text.write(f"{_MARK}{in_one_cell(facts_of(log))}\r\n")
        writer = csv.writer(text, lineterminator="\r\n")  # RFC 4180; with "\n", a note's "\r" goes unquoted
        writer.writerow(map(guarded, (*names, *EVENT)))
        writer.writerows(rows())
        text.detach()
    return target


def read_csv(source: Source) -> tuple[Parts | None, list[Finding]]:
    """Read what `write_csv` wrote; None, and why, where the text is another one or was changed since."""
    with source.text(newline="") as text:
        if text.read(len(_MARK)) != _MARK:
            return None, []
        try:
            return _read_own(text), []
        except (*UNREADABLE, csv.Error) as error:
            why = " ".join(str(error).split())[:80]
            said = f"the file was changed after libcook wrote it ({why}); read like any other log"
            return None, [Finding("found", said, kind="changed")]


def _read_own(text: IO[str]) -> Parts:
    facts = read_facts(text.readline())
    reader = filter(None, csv.reader(text))  # without blank lines
    names = [unguarded(name, facts.guarded) for name in next(reader, [])]
    check_names(names)
    columns: list[array[float]] = [array("d") for _ in names[:-3]]
    events: list[Event] = []
    while rows := list(itertools.islice(reader, _CHUNK)):
        for row in rows:
            if len(row) != len(names):
                raise ValueError("rows of different lengths")
            if row[-3]:
                kind, origin, note = (unguarded(word, facts.guarded) for word in row[-3:])
                events.append(Event(kind, float(row[0]), origin, note))
            else:
                for column, cell in zip(columns, row, strict=False):
                    column.append(float(cell) if cell else math.nan)
    time, *temperatures = (np.array(column, dtype=np.float64) for column in columns)
    return from_layout(names, time, temperatures, events, facts)


def frame_of(log: Any, units: str) -> Any:
    """Return a pandas DataFrame indexed by time [s]."""
    pd = need("pandas", "frames", "Log.to_frame")
    scale = temperature_unit(units)
    data = {name: np.array(shown_in(v, scale)) for name, v in log.columns.items()}
    frame = pd.DataFrame(data, index=pd.Index(log.time.copy(), name="time"))
    frame.attrs["units"] = {"time": "s", **dict.fromkeys(data, f"°{scale}")}
    return frame
