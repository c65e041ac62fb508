"""Where the table of a log begins: title lines, the header with its units, and the first row.

A header is known by a word for time above a time or a number, or by standing, without a number of its own,
right above the numbers. What stands before it are titles, which are reported.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.logs.columns.names import is_time, is_unit, scale_of
from libcook.logs.findings import Finding, count_of
from libcook.logs.reading.dates import has_date, named_day_joined
from libcook.logs.reading.elapsed import looks_like_clock
from libcook.logs.reading.numbers import Number, is_blank, is_number

MOST_COLUMNS = 1000
_LOOKED_AT = 100  # records from the beginning, among which the header is
_SHOWN = 3  # title lines that a finding quotes
_RULE = re.compile(r"[-=_+:|*~ ]{3,}")

Rows = list[list[str]]


@dataclass
class Head:
    """The beginning of a table.

    Attributes
    ----------
    names : list of str
        Of the columns.
    numbers, rows : list
        Line numbers and cells of the rows that follow.
    titles : list of str
        What stands before the header.
    """

    names: list[str]
    numbers: list[int]
    rows: Rows
    titles: list[str] = field(default_factory=list)


def is_data(cell: str) -> bool:
    """Tell whether a cell is a number, a date or a time."""
    return is_number(cell) or looks_like_clock(cell) or has_date(cell)


def take_head(
    numbers: Sequence[int],
    rows: Rows,
    findings: list[Finding],
    told: bool = False,
    remark: tuple[int, list[str]] | None = None,
) -> Head:
    """Take titles and header off a table.

    Parameters
    ----------
    numbers, rows
        Line numbers and cells of the records, the first of them those of the beginning.
    findings : list of Finding
        What is found goes here.
    told : bool
        Whether the call said how many lines to skip: then the first record is the header, or a row.
    remark : (int, list of str), optional
        The comment right before the first record, and its cells: it can be the header.
    """
    table = [
        (number, [cell if isinstance(cell, Number) else cell.strip() for cell in row])
        for number, row in zip(numbers, rows, strict=True)
    ]
    first = [cells for _, cells in table[:_LOOKED_AT]]
    at = 0 if told else _header_at(first)
    titles = []
    if at:
        titles = [", ".join(filter(None, cells)) for _, cells in table[:at]]
        findings.append(_title_finding(titles, [number for number, _ in table[:at]]))
        del table[:at]
    names = _take_header(table, findings, remark)
    check_width(names)
    return Head(names, [number for number, _ in table], [row for _, row in table], titles)


def check_width(names: Sequence[str]) -> None:
    """Refuse more columns than a log has."""
    if len(names) > MOST_COLUMNS:
        came = f"the log has {len(names):,} columns"
        accepted = f"up to {MOST_COLUMNS:,} are accepted"
        raise invalid("log", None, came, accepted, "another delimiter (delimiter=...)")


def _title_finding(titles: list[str], lines: list[int]) -> Finding:
    shown = ", ".join(quoted(title[:60]) for title in titles[:_SHOWN])
    more = f" and {len(titles) - _SHOWN} more" if len(titles) > _SHOWN else ""
    what = "a line before the header" if len(titles) == 1 else f"{len(titles)} lines before the header"
    return Finding("ignored", f"{what}: {shown}{more}", len(titles), lines=tuple(lines), kind="title")


def _header_at(rows: Rows) -> int:
    """Return the place of the header, or of the first row where there is none."""
    width = Counter(len(row) for row in rows).most_common(1)[0][0]
    plain, full = None, list[list[str]]()  # rows of data that have been passed
    for at, row in enumerate(rows):
        filled = [cell for cell in row if cell]
        data = sum(map(is_data, filled))
        below = next((one for one in rows[at + 1 :] if not _is_rule(one) and not _is_units(one)), [])
        time = _time_above(row, below)
        if time is not None:
            if sum(is_data(_at(one, time)) for one in full) < 2:
                return at
        elif plain is None and len(full) < 2 and not data and not _is_rule(row) and any(map(is_data, below)):
            wide = len(filled) > 1 or width == 1
            plain = at if wide and len(filled) >= min(width, len(below)) / 2 else None
        if len(filled) > 1 and len(row) >= width and 2 * data > len(filled):
            full.append(row)
    if plain is not None:
        return plain
    at = 0
    while at + 1 < len(rows) and sum(map(bool, rows[at])) == 1 < width and not is_data(rows[at][0]):
        at += 1
    return at


def _time_above(row: list[str], below: list[str]) -> int | None:
    """Return the place of a word for time right above a time or a number."""
    return next(
        (i for i, one in enumerate(row) if is_time(one) and not is_data(one) and is_data(_at(below, i))), None
    )


def _at(row: list[str], place: int) -> str:
    return row[place] if place < len(row) else ""


def _is_rule(row: list[str]) -> bool:
    """Tell whether a row is a line drawn below a header."""
    filled = [cell for cell in row if cell]
    return bool(filled) and all(_RULE.fullmatch(cell) for cell in filled)


def _is_units(row: list[str]) -> bool:
    filled = [cell for cell in row if cell]
    return bool(filled) and all(is_unit(cell) for cell in filled)


def _take_header(
    table: list[tuple[int, list[str]]], findings: list[Finding], remark: tuple[int, list[str]] | None
) -> list[str]:
    first = table[0][1]
    below = next((row for _, row in table[1:3] if not _is_rule(row) and not _is_units(row)), [])
    headed = _time_above(first, below) is not None
    if any(map(is_data, first)) and not headed:
        return _without_header(table, findings, remark)
    table.pop(0)
    names = [name or f"column {index}" for index, name in enumerate(first)]
    while (
        names
        and len(names) > 1
        and not first[len(names) - 1]
        and not any(_at(row, len(names) - 1) for _, row in table)
    ):
        names.pop()  # delimiters at the ends of lines
    if table and _is_units(table[0][1]) and any(table[0][1]):
        units = table.pop(0)[1]  # a second line of the header that holds the units
        units += [""] * (len(names) - len(units))
        names = [
            f"{name} [{unit.strip('[](){} ')}]" if unit else name
            for name, unit in zip(names, units, strict=False)
        ]
    if table and _is_rule(table[0][1]):
        findings.append(
            Finding("ignored", "a line drawn below the header", lines=(table[0][0],), kind="rule")
        )
        table.pop(0)
    return names


def _without_header(
    table: list[tuple[int, list[str]]], findings: list[Finding], remark: tuple[int, list[str]] | None
) -> list[str]:
    width = max(len(row) for _, row in table)
    if remark and len(remark[1]) == len(table[0][1]) and any(map(is_time, remark[1])):
        text = f"header read from the comment {quoted(', '.join(remark[1]))}"
        findings.append(Finding("found", text, lines=(remark[0],), kind="header"))
        return remark[1]
    joined = [named_day_joined(row) for _, row in table]
    if max(map(len, joined)) < width and not is_blank(joined[0][0]):
        table[:] = [(number, row) for (number, _), row in zip(table, joined, strict=True)]
        width = max(map(len, joined))
        text = f"{count_of(len(table), 'row')} with a date divided by its comma; put together again"
        findings.append(Finding("mended", text, len(table), kind="joined date"))
    text = "no header; columns are called 'column 0', 'column 1' and so on"
    findings.append(Finding("found", text, kind="no header"))
    return [f"column {index}" for index in range(width)]


_TITLE_SCALE = re.compile(
    r"(?<!\d)(?<!\d\s)(?:°\s?([CFK])\b|\b(celsius|fahrenheit|kelvin)\b)"
    r"|\b(?:units?|scale|einheit|unité|unidad)\b[^,;]{0,20}?[:=,\s]\s*([CF])\b",
    re.I,
)


def scale_in_titles(titles: Sequence[str]) -> tuple[str, str] | None:
    """Return the one scale that title lines name, and the line; a temperature such as "250 °F" names none."""
    found: dict[str, str] = {}
    for title in titles:
        for match in _TITLE_SCALE.finditer(title):
            scale = scale_of(next(filter(None, match.groups())))
            if scale:
                found.setdefault(scale, title)
    return next(iter(found.items())) if len(found) == 1 else None
