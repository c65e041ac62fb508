"""Tables with a row for each probe, as databases write them: turned into a column for each probe."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np

from libcook.arguments.quote import listed, quoted
from libcook.logs.columns.names import is_note, is_time, rank_of, scale_of, split_name, words_of
from libcook.logs.columns.vocabulary import SERIES, UNIT_COLUMNS
from libcook.logs.findings import Finding
from libcook.logs.reading.numbers import is_blank, is_number
from libcook.logs.reading.table import Table

_MOST_PROBES = 20
_NUMBER = re.compile(r"1?\d")
_ROLES = ("core", "pit")


def spread(table: Table) -> Table:
    """Return a table with a column for each probe; one that has them already stays as it is.

    A row for each probe is known by one column that names the probe, one of numbers, and times that repeat.
    Its probes must not be averaged into one reading.
    """
    names = table.names
    times = [i for i, name in enumerate(names) if is_time(name)]
    if not times or len(names) > 12:
        return table
    which = [i for i in range(len(names)) if i not in times and _names_probes(table, i)]
    numbers = [
        i
        for i in range(len(names))
        if i not in (*times, *which) and np.isfinite(table.numbers(i)).sum() > 0.5 * len(table.rows)
    ]
    units = [i for i in range(len(names)) if words_of(names[i]) & UNIT_COLUMNS]
    if len(which) != 1 or len(numbers) != 1:
        return table
    series, value = which[0], numbers[0]
    probes = list(dict.fromkeys(table.column(series)))
    kept = [i for i in range(len(names)) if i not in (series, value, *units)]
    unit = split_name(names[value])[1]
    called = [f"{names[series]} {probe}" if is_number(probe) else probe for probe in probes]
    header = [names[i] for i in kept] + [f"{probe} [{unit}]" if unit else probe for probe in called]
    rows: list[list[str]] = []
    lines: list[int] = []
    place: dict[tuple[str, ...], int] = {}
    for number, row in zip(table.lines, table.rows, strict=True):
        key = tuple(row[i] for i in times)
        column = len(kept) + probes.index(row[series])
        at = place.get(key)
        if (
            at is None or rows[at][column]
        ):  # a time that comes again with the same probe stays a row of its own
            at = place[key] = len(rows)
            rows.append([row[i] for i in kept] + [""] * len(probes))
            lines.append(number)
        sign = next((f" °{scale}" for i in units if (scale := scale_of(row[i]))), "")
        rows[at][column] = row[value] if is_blank(row[value]) else row[value] + sign
        for k, i in enumerate(kept):
            rows[at][k] = rows[at][k] or row[i]
    if len(rows) > 0.9 * len(table.rows) and any(rank_of(names[value], role) is not None for role in _ROLES):
        return table  # readings of one probe, which another column says something of
    text = f"column {quoted(names[series])} tells {len(probes)} probes apart, {listed(map(quoted, probes))}; "
    text += "each is read as a column of its own"
    findings = [*table.findings, Finding("found", text, len(probes), kind="series", column=names[series])]
    return replace(table, names=header, rows=rows, lines=lines, findings=findings)


def _names_probes(table: Table, index: int) -> bool:
    header = table.names[index]
    if is_note(header) or not words_of(header) & SERIES:
        return False
    cells = table.column(index)
    probes = set(cells)
    repeated = len(cells) >= 2 * len(probes)
    if any(map(is_number, probes)):  # numbers of probes, and no readings
        numbered = all(_NUMBER.fullmatch(probe) for probe in probes)
        if not numbered or not words_of(header) <= SERIES | {"no", "nr", "id", "number"}:
            return False
    return repeated and 1 < len(probes) <= _MOST_PROBES and not any(map(is_blank, probes))
