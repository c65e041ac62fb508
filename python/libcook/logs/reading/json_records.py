"""Logs as JSON (RFC 8259): one object a line, a list of objects or rows, or an object with such a list."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from typing import Any

from libcook.arguments.quote import cut, listed, quoted
from libcook.errors import invalid
from libcook.logs.columns.names import Key
from libcook.logs.findings import Finding, count_of
from libcook.logs.reading.numbers import Number
from libcook.logs.reading.source import Source
from libcook.logs.reading.table import Table
from libcook.logs.reading.typed import Collector, cell_of, typed_table

_BEGINNING = re.compile(r'\s*(\{\s*["}]|\[\s*[\[{\]])')
_MOST = 1 << 26  # characters of a list that is read as a whole
_LONGEST_LINE = 1 << 16  # characters of a row
_MOST_KNOWN = 100_000  # cells that are kept once
_DEEPEST = 4  # objects within objects
_BROKEN = 0.2  # share of the lines that may be damaged
_SPACE = re.compile(r"[\s,]*")
_decoder = json.JSONDecoder(parse_float=Number, parse_int=Number, parse_constant=Number)
# What the decoder raises: for what is no JSON, and for lists within lists without end.
_UNREADABLE = (ValueError, RecursionError)

Record = Mapping[str, Any] | list[Any]


def is_json(source: Source) -> bool:
    """Tell whether a text begins as JSON does."""
    with source.text() as text:
        start = text.readline(_LONGEST_LINE)
        if start.lstrip()[:1] == "[":  # a row a line, unless it is the title of something else
            try:
                return isinstance(_decoder.decode(start), list)
            except _UNREADABLE:
                pass
        return _BEGINNING.match(start + text.read(4096)) is not None


def read_json(source: Source, decimal: str | None, notes: Key, skip: int | None) -> Table:
    """Read a log as JSON.

    Raises
    ------
    InvalidInput
        When it cannot be read, or holds no list of records or several.
    """
    if skip is not None:
        raise invalid("skip", skip, "the log is JSON, which has no title lines", "leave skip out")
    findings: list[Finding] = []
    table = _by_line(source, findings, decimal, notes)
    if table is not None:
        return table
    beside: list[str] = []  # what stands in the JSON beside the records
    lines, records = _as_whole(source, findings, beside)
    if beside:
        text = f"beside the records: {listed((quoted(one[:60]) for one in beside), 3)}"
        findings.append(Finding("ignored", text, len(beside), kind="title"))
    taken = _Records(len(records), notes)
    for line, record in zip(lines, records, strict=True):
        taken.add(line, record)
    table = taken.table(findings, decimal)
    table.titles = beside
    return table


class _Records:
    """Takes records one by one, objects or lists, and makes a table of them."""

    def __init__(self, expected: int, notes: Key) -> None:
        self.count = 0
        self._notes = notes
        self._places: dict[str, int] = {}
        self._names: list[str] = []
        self._kinds: set[type] = set()
        self._known: dict[str, str] = {}  # cells that repeat are kept once
        self._kept = Collector(self._names, expected, notes)

    def add(self, line: int, record: Record) -> None:
        """Take one record."""
        self.count += 1
        self._kinds.add(type(record))
        if isinstance(record, list):
            row = [self._once(value) for value in record]
            self._grow(len(row))
        else:
            row = [""] * len(self._names)
            for name, value in _flat(record, "", 0):
                place = self._places.setdefault(name, len(self._names))
                if place == len(self._names):
                    self._names.append(name)
                row += [""] * (place + 1 - len(row))
                row[place] = self._once(value)
        self._kept.add(line, row)

    def _grow(self, width: int) -> None:
        self._names += [f"column {i}" for i in range(len(self._names), width)]

    def _once(self, value: Any) -> str:
        cell = cell_of(value)
        if len(self._known) > _MOST_KNOWN:
            self._known.clear()
        return self._known.setdefault(cell, cell)

    def table(self, findings: list[Finding], decimal: str | None) -> Table:
        """Make the table."""
        if not self.count or not self._names:
            raise invalid("log", None, "the JSON holds no readings", "a time and temperatures are accepted")
        if len(self._kinds) > 1:
            came = "the JSON mixes objects and lists"
            raise invalid("log", None, came, "records of one kind are accepted")
        thinned = self._kept.finish(findings)
        names = None if list in self._kinds else self._names
        lines, rows = self._kept.lines, self._kept.rows
        return typed_table(lines, rows, findings, decimal, self._notes, names=names, thinned=thinned)


def _by_line(source: Source, findings: list[Finding], decimal: str | None, notes: Key) -> Table | None:
    """Read one record a line; None where the first line is none, or lists all."""
    taken = _Records(source.line_ends, notes)
    broken: list[int] = []
    with source.text() as text:
        for number, line in enumerate(iter(lambda: text.readline(_MOST + 1), ""), 1):
            if not line.strip():
                continue
            try:
                record = _decoder.decode(line)
            except _UNREADABLE:
                record = None
            if isinstance(record, list) and record and isinstance(record[0], (dict, list)):
                return None  # all records in one line
            if isinstance(record, (dict, list)):
                taken.add(number, record)
            else:
                broken.append(number)
            if len(broken) > 50 + _BROKEN * number or (broken and not taken.count):
                return None
    if taken.count < 2 or len(broken) > _BROKEN * (taken.count + len(broken)):
        return None
    if broken:
        said = f"{count_of(len(broken), 'line')} that is no JSON object, damaged or cut short"
        findings.append(Finding("ignored", said, len(broken), lines=tuple(broken), kind="no JSON"))
    return taken.table(findings, decimal)


def _as_whole(source: Source, findings: list[Finding], beside: list[str]) -> tuple[list[int], list[Any]]:
    with source.text() as file:
        text = file.read(_MOST + 1)
    if len(text) > _MOST:
        came = f"the JSON is longer than {_MOST:,} characters"
        raise invalid("log", None, came, "one object a line, or CSV, is accepted at any length")
    if text.lstrip()[:1] == "[":
        found = list(_items(text, findings))
        return [line for line, _ in found], [record for _, record in found]
    try:
        whole = json.loads(text, parse_float=Number, parse_int=Number, parse_constant=Number)
    except _UNREADABLE as error:
        raise _unreadable(error) from None
    lines, records = _within(whole)
    beside += [f"{name}: {value}" for name, value in _beside(whole, "", 0)]
    return lines, records


def _unreadable(error: Exception) -> Exception:
    why = "objects within objects without end" if isinstance(error, RecursionError) else cut(str(error))
    return invalid("log", None, f"the JSON cannot be read ({why})", "a whole JSON file is accepted")


def _items(text: str, findings: list[Finding]) -> Iterator[tuple[int, Any]]:
    """Give the records of a list with their lines, up to a place that is cut short or broken."""
    at = text.index("[") + 1
    line, counted, seen = 1, 0, 0
    while True:
        space = _SPACE.match(text, at)
        at = space.end() if space else at
        if text[at : at + 1] == "]":
            return
        line, counted = line + text.count("\n", counted, at), at
        try:
            record, at = _decoder.raw_decode(text, at)
        except _UNREADABLE as error:
            if seen < 2:
                raise _unreadable(error) from None
            why = f"the JSON is broken or cut short in line {line}; what follows is not read"
            findings.append(Finding("ignored", why, lines=(line,), kind="no JSON"))
            return
        seen += 1
        yield line, record


def _within(whole: Any) -> tuple[list[int], list[Any]]:
    """Find the list of records in an object, or make records of lists beside each other."""
    if not isinstance(whole, dict):
        raise invalid("log", None, "the JSON is no list of records", "a list of objects is accepted")
    columns = {name: value for name, value in whole.items() if isinstance(value, list) and _are_plain(value)}
    if len(columns) > 1:
        lengths = {len(value) for value in columns.values()}
        if len(lengths) > 1:
            shown = listed(f"{quoted(name)}: {len(value)}" for name, value in columns.items())
            raise invalid(
                "log", None, f"lists of different lengths ({shown})", "lists of one length are accepted"
            )
        records = [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]
        return list(range(1, len(records) + 1)), records
    lists = dict(_lists(whole, "", 0))
    if len(lists) == 1:
        (records,) = lists.values()
        return list(range(1, len(records) + 1)), records
    if not lists:
        accepted = f"a list of objects is accepted; the JSON has: {listed(map(quoted, whole))}"
        raise invalid("log", None, "the JSON holds no list of records", accepted)
    came = f"the JSON holds {len(lists)} lists of records ({listed(map(quoted, lists))})"
    raise invalid("log", None, came, "one is accepted: give that list alone, as JSON text")


def _are_plain(values: list[Any]) -> bool:
    return len(values) > 1 and not any(isinstance(value, (list, dict)) for value in values)


def _lists(whole: Mapping[str, Any], prefix: str, depth: int) -> Iterator[tuple[str, list[Any]]]:
    for name, value in whole.items():
        if isinstance(value, list) and value and all(isinstance(one, (dict, list)) for one in value):
            yield f"{prefix}{name}", value
        elif isinstance(value, dict) and depth < _DEEPEST:
            yield from _lists(value, f"{prefix}{name}.", depth + 1)


def _beside(whole: Any, prefix: str, depth: int) -> Iterator[tuple[str, Any]]:
    """Give the plain values of an object and of those within it, without its lists."""
    if not isinstance(whole, dict):
        return
    for name, value in whole.items():
        if isinstance(value, dict) and depth < _DEEPEST:
            yield from _beside(value, f"{prefix}{name}.", depth + 1)
        elif value is not None and not isinstance(value, (list, dict)):
            yield f"{prefix}{name}", value


def _flat(record: Any, prefix: str, depth: int) -> Iterator[tuple[str, Any]]:
    """Give the plain values of a record, those of objects within it as "probes.meat"."""
    for name, value in _parts(record):
        if isinstance(value, (list, dict)) and depth < _DEEPEST:
            yield from _flat(value, f"{prefix}{name}.", depth + 1)
        else:
            yield f"{prefix}{name}", str(value) if isinstance(value, (list, dict)) else value


def _parts(record: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(record, dict):
        yield from record.items()
        return
    for i, value in enumerate(record, 1):
        words = (
            [one for one in value.values() if isinstance(one, str) and not isinstance(one, Number)]
            if isinstance(value, dict)
            else []
        )
        if len(words) == 1 and len(value) == 2:  # {"name": "meat", "value": 40}
            yield words[0], next(one for one in value.values() if one is not words[0])
        else:
            yield str(i), value
