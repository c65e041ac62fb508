"""Dates and time stamps in the cells of a log."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence

from libcook.arguments.quote import quoted
from libcook.errors import InvalidInput, invalid
from libcook.logs.findings import Finding
from libcook.units.clock import parse_clock

# Year first; day.month.year; and the two orders that slashes stand for.
DATE = re.compile(
    r"(?P<y>\d{4})[-/.](?P<m>\d{1,2})[-/.](?P<d>\d{1,2})(?!\d)"
    r"|(?P<dd>\d{1,2})\.(?P<dm>\d{1,2})\.(?P<dy>\d{4})(?!\d)"
    r"|(?P<a>\d{1,2})(?P<mark>[/-])(?P<b>\d{1,2})(?P=mark)(?P<ay>\d{4}|\d{2})(?!\d)"
)
_ZONE = re.compile(r"(Z|[+-]\d{2}:?\d{2})$")
_FORMS = "such as '2024-05-11' or '11.5.2024' is accepted"


def day_of(match: re.Match[str], day_first: bool | None) -> dt.date | None:
    """Return the day that a match of `DATE` means; None where there is no such day."""
    try:
        if match["y"]:
            return dt.date(int(match["y"]), int(match["m"]), int(match["d"]))
        if match["dy"]:
            return dt.date(int(match["dy"]), int(match["dm"]), int(match["dd"]))
        if day_first is None:
            return None
        year = int(match["ay"]) + (2000 if len(match["ay"]) == 2 else 0)
        day, month = (match["a"], match["b"]) if day_first else (match["b"], match["a"])
        return dt.date(year, int(month), int(day))
    except ValueError:
        return None


def read_date(value: dt.date | str, field: str = "date") -> dt.date:
    """Read a calendar date: ISO 8601, or day.month.year; slashes only with the year first."""
    if isinstance(value, dt.date):
        return value.date() if isinstance(value, dt.datetime) else value
    match = DATE.fullmatch(str(value).strip())
    day = day_of(match, None) if match else None
    if day is None:
        raise invalid(field, value, f"{quoted(value)} is not a date", _FORMS)
    return day


def looks_like_date(cells: Sequence[str]) -> bool:
    """Tell whether all filled cells of a column are dates without a time."""
    return bool(cells) and all(DATE.fullmatch(cell) for cell in cells)


def read_stamps(
    cells: Sequence[str], name: str, day_first: bool | None
) -> tuple[list[dt.datetime | None], list[Finding]]:
    """Read time stamps; None where a cell holds none.

    Parameters
    ----------
    cells : sequence of str
        Such as ``"2024-05-11T21:00:30+02:00"``, ``"11.5.2024 21:00"`` or ``"5/11/2024 9:00 pm"``.
    name : str
        Header of the column.
    day_first : bool or None
        Which number of a date with slashes is the day; None to tell it from the cells.

    Raises
    ------
    InvalidInput
        When slashes leave open which number is the day.
    """
    matches = [DATE.match(cell.strip()) for cell in cells]
    findings: list[Finding] = []
    slashed = [match for match in matches if match and match["ay"]]
    if slashed and day_first is None:
        day_first, why = _day_first(slashed, name)
        order = "day/month/year" if day_first else "month/day/year"
        text = f"dates in column {quoted(name)} such as {quoted(slashed[0][0])} taken as {order}: {why}"
        findings.append(Finding("found", text, len(slashed), kind="date order"))
    return [
        _stamp(cell.strip(), match, day_first) for cell, match in zip(cells, matches, strict=True)
    ], findings


def _day_first(slashed: list[re.Match[str]], name: str) -> tuple[bool, str]:
    """Tell the day from the month: one is beyond 12, or one order makes the log months long, not days."""
    days = {order: [day_of(match, order) for match in slashed] for order in (True, False)}
    wrong = {order: sum(day is None for day in days[order]) for order in days}
    if wrong[True] != wrong[False]:
        right = wrong[True] < wrong[False]
        return right, "the other order makes months beyond 12"
    spans = {}
    for order, found in days.items():
        known = [day for day in found if day is not None]
        spans[order] = (max(known) - min(known)).days if known else 0
    if spans[True] != spans[False]:
        right = spans[True] < spans[False]
        return right, f"the other order makes the log {max(spans.values())} days long"
    came = f"{quoted(slashed[0][0])} in column {quoted(name)} leaves open which number is the day"
    accepted = "say day_first=True or day_first=False"
    raise invalid("time", slashed[0][0], came, accepted, "an ISO date, year first")


def _stamp(cell: str, match: re.Match[str] | None, day_first: bool | None) -> dt.datetime | None:
    day = day_of(match, day_first) if match else None
    if match is None or day is None:
        return None
    rest = cell[match.end() :].lstrip("T ,").replace(",", ".")
    zone = _ZONE.search(rest)
    clock = rest[: zone.start()].strip() if zone else rest
    try:
        seconds = parse_clock(clock) if clock else 0.0
    except InvalidInput:
        return None
    moment = dt.datetime.combine(day, dt.time()) + dt.timedelta(seconds=seconds)
    if zone is None:
        return moment
    if zone[0] == "Z":
        return moment.replace(tzinfo=dt.timezone.utc)
    digits = zone[0].replace(":", "")
    offset = dt.timedelta(hours=int(digits[1:3]), minutes=int(digits[3:5])) * (-1 if digits[0] == "-" else 1)
    try:
        return moment.replace(tzinfo=dt.timezone(offset))
    except ValueError:  # an offset of a day or more
        return None
