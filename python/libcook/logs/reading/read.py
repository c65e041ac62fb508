"""From a source to the parts of a log: the steps of `read_log`, in their order."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.logs.columns.names import Key
from libcook.logs.columns.roles import Columns, assign
from libcook.logs.columns.scales import scales
from libcook.logs.detect import propose, say_proposed
from libcook.logs.events import Event, from_column, from_list, in_time
from libcook.logs.files import Parts, read_csv
from libcook.logs.findings import Finding, Rows, count_of
from libcook.logs.parquet import read_parquet
from libcook.logs.reading import cleaning
from libcook.logs.reading.dates import date_in, read_date
from libcook.logs.reading.json_records import is_json, read_json
from libcook.logs.reading.long import read_long
from libcook.logs.reading.marks import check_decimal
from libcook.logs.reading.numbers import is_blank
from libcook.logs.reading.series import spread
from libcook.logs.reading.source import Source, open_source
from libcook.logs.reading.table import Table, read_table
from libcook.logs.reading.thin import MOST_ROWS
from libcook.logs.reading.times import Clock, in_order, read_times
from libcook.logs.reading.workbook import read_workbook
from libcook.logs.reading.zone import read_zone

FloatArray = npt.NDArray[np.float64]
Units = str | Mapping[str, str] | None


_MOST_SKIPPED = 1_000_000  # lines


@dataclass(frozen=True)
class Form:
    """What the call says about the form of the file."""

    delimiter: str | None = None
    decimal: str | None = None
    skip: int | None = None
    sheet: str | int | None = None

    def __post_init__(self) -> None:
        """Refuse what cannot be skipped."""
        if self.skip is not None and not 0 <= self.skip <= _MOST_SKIPPED:
            accepted = f"the number of lines before the header, 0 to {_MOST_SKIPPED:,}, is accepted"
            raise invalid("skip", self.skip, f"{quoted(self.skip)} came", accepted)


def read(
    source: Any,
    keys: Mapping[str, Key],
    units: Units,
    listed: Any,
    clock: Clock,
    form: Form,
) -> Parts:
    """Read a log; `keys` names columns (time, core, pit, events), `listed` adds events."""
    check_decimal(form.decimal)
    with open_source(source) as opened:
        findings = opened.findings
        table = _opened(opened, findings, keys["events"], form)
    if isinstance(table, Parts):
        return _as_written(table, keys, units, listed, clock)
    table = spread(table)
    return _from_table(table, findings + table.findings, keys, units, listed, clock)


def _opened(opened: Source, findings: list[Finding], notes: Key, form: Form) -> Parts | Table:
    """Read by the kind of file."""
    if form.sheet is not None and not opened.is_workbook:
        raise invalid("sheet", form.sheet, "the log is no workbook", "leave sheet out")
    if opened.is_workbook:
        return read_workbook(opened.raw, form.sheet, form.decimal, notes, form.skip)
    if opened.is_parquet:
        if form.skip is not None:
            raise invalid("skip", form.skip, "a Parquet file has no title lines", "leave skip out")
        return read_parquet(opened.raw, notes)
    own, changed = read_csv(opened)
    findings += changed
    if own is not None:
        return own
    if is_json(opened):
        return read_json(opened, form.decimal, notes, form.skip)
    if opened.line_ends > MOST_ROWS:
        return read_long(opened, form.delimiter, form.decimal, notes, form.skip)
    return read_table(opened, form.delimiter, form.decimal, form.skip)


def make_clock(date: dt.date | str | None, zone: str | dt.tzinfo | None, day_first: bool | None) -> Clock:
    """Check what the call says about the clock."""
    if day_first not in (None, True, False):
        raise invalid("day_first", day_first, f"{quoted(day_first)} came", "True or False is accepted")
    return Clock(None if date is None else read_date(date), read_zone(zone), day_first)


def _as_written(parts: Parts, keys: Mapping[str, Key], units: Any, listed: Any, clock: Clock) -> Parts:
    """Take a log that libcook wrote as it is; what the call says beyond that cannot apply."""
    said = {**keys, "units": units, "date": clock.date, "timezone": clock.zone, "day_first": clock.day_first}
    for name, value in said.items():
        if value is not None:
            came = "the file is a log that libcook wrote, which says this itself"
            raise invalid(name, value, came, f"leave {name} out")
    if listed is not None:
        span = (float(parts.time[0]), float(parts.time[-1]))
        added = from_list(listed, span, parts.start, parts.summary)
        parts.events = in_time([*parts.events, *added])
    return parts


def _from_table(
    table: Table, findings: list[Finding], keys: Mapping[str, Key], units: Units, listed: Any, clock: Clock
) -> Parts:
    where = assign(table, keys["time"], keys["core"], keys["pit"], keys["events"], units)
    cells = table.column(where.time)
    if where.date is not None:
        cells = [f"{date_in(day)} {hour}" for day, hour in zip(table.column(where.date), cells, strict=True)]
    times = read_times(table, cells, table.names[where.time], where.time_unit, clock)
    lines = np.array(table.lines, dtype=np.int64)
    order, sorting = in_order(times.seconds, lines)
    findings += times.findings + sorting
    if order.size < 2:
        came = f"the log has {count_of(order.size, 'row')} with a time"
        raise invalid(
            "log", None, came, "at least two rows are accepted", "a log cut short, or another delimiter"
        )
    rows = Rows(times.seconds[order], lines[order])
    celsius, scale, found = _temperatures(table, where, order, rows)
    findings += found
    events: list[Event] = []
    if where.events is not None:
        notes = [_note(table.rows[row][where.events]) for row in order]
        events, found = from_column(notes, rows)
        findings += found
        findings += _lost_notes(table, where.events, times.seconds)
    rows, celsius, found = cleaning.merge_doubles(rows, celsius, scale)
    findings += found
    if rows.times.size < 2:
        raise invalid(
            "time", None, "all rows have the same time", "at least two different times are accepted"
        )
    for name in celsius:
        celsius[name], found = cleaning.mark_spikes(name, rows, celsius[name])
        findings += found
    if not table.thinned:
        findings += cleaning.describe_spacing(rows)
    findings += cleaning.find_gaps(rows, celsius, table.thinned)
    if listed is not None:
        span = (float(rows.times[0]), float(rows.times[-1]))
        events += from_list(listed, span, times.start, findings)
    known = in_time(events)
    findings += say_proposed(propose(rows.times, celsius, findings, known, scale))
    return Parts(rows.times, celsius, times.start, findings, known, scale)


def _temperatures(
    table: Table, where: Columns, order: npt.NDArray[np.intp], rows: Rows
) -> tuple[dict[str, FloatArray], str, list[Finding]]:
    """Read the columns of temperatures in order of time [°C], and tell the scale of the first."""
    findings: list[Finding] = []
    raw: dict[str, FloatArray] = {}
    for name, index in list(where.temperatures.items()):
        raw[name], found = cleaning.read_column(table, index, order, rows)
        findings += found
        if not np.isfinite(raw[name]).any():
            if name in ("core", "pit"):
                raise invalid(
                    name, None, f"column {quoted(table.names[index])} holds no reading that can be used"
                )
            text = f"column {quoted(table.names[index])}: no reading that can be used"
            findings.append(Finding("ignored", text, kind="column", column=table.names[index]))
            del raw[name], where.temperatures[name]
    scale = scales(table, where, order, raw)
    findings += where.findings
    celsius: dict[str, FloatArray] = {}
    for name, values in raw.items():
        celsius[name], found = cleaning.to_celsius(values, scale[name], name, rows)
        findings += found
        if name not in ("core", "pit") and not np.isfinite(celsius[name]).any():
            text = f"column {quoted(name)}: no reading that can be used"
            findings.append(Finding("ignored", text, kind="column", column=name))
            del celsius[name]
    return celsius, "F" if scale[next(iter(celsius))] == "F" else "C", findings


def _note(cell: str) -> str:
    return "" if is_blank(cell) else cell


def _lost_notes(table: Table, column: int, seconds: FloatArray) -> Sequence[Finding]:
    """Report notes in rows without a readable time: they have no place in the log."""
    at = [i for i in np.flatnonzero(~np.isfinite(seconds)) if _note(table.rows[i][column])]
    if not at:
        return []
    text = (
        f"{count_of(len(at), 'note')} in rows without a readable time ({quoted(table.rows[at[0]][column])})"
    )
    return [Finding("ignored", text, len(at), lines=tuple(table.lines[i] for i in at), kind="note")]
