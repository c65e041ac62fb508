"""Dates and time stamps in the cells of a log."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence

from libcook.arguments.quote import quoted
from libcook.errors import InvalidInput, invalid
from libcook.logs.columns.names import plain
from libcook.logs.findings import Finding
from libcook.logs.reading.elapsed import clock_seconds
from libcook.units.clock import parse_clock

# English, German, French, Spanish; any beginning of three letters or more that is no other month's.
_MONTHS = (
    ("january", "januar", "janner", "janvier", "enero"),
    ("february", "februar", "fevrier", "fevr", "febrero"),
    ("march", "marz", "maerz", "mars", "marzo", "mrz"),
    ("april", "avril", "abril"),
    ("may", "mai", "mayo"),
    ("june", "juni", "juin", "junio"),
    ("july", "juli", "juillet", "julio"),
    ("august", "aout", "agosto"),
    ("september", "septembre", "septiembre", "setiembre"),
    ("october", "oktober", "octobre", "octubre"),
    ("november", "novembre", "noviembre"),
    ("december", "dezember", "decembre", "diciembre"),
)
_NAME = r"[^\W\d_]{3,10}"
_YEAR = r"(?:\d{4}|\d{2}(?![:\d]))(?!\d)"
# Year first; day, month and year in either order; and with the month's name.
DATE = re.compile(
    rf"(?:{_NAME}\.?,?\s+|[^\W\d_]{{2}}\.?,?\s+)?(?:"  # the day of the week
    r"(?P<y>\d{4})[-/.](?P<m>\d{1,2})[-/.](?P<d>\d{1,2})(?!\d)"
    r"|(?P<cy>(?:19|20)\d\d)(?P<cm>[01]\d)(?P<cd>[0-3]\d)(?=T?\d{4}|[T ]|$)"
    r"|(?P<a>\d{1,2})(?P<mark>[./-])(?P<b>\d{1,2})(?P=mark)(?P<ay>\d{4}|\d{2})(?!\d)"
    rf"|(?P<nd>\d{{1,2}})(?:st|nd|rd|th|er|º)?[\s.-]+(?:de\s+)?(?P<nm>{_NAME})[\s.,-]+(?:del?\s+)?(?P<ny>{_YEAR})"
    rf"|(?P<um>{_NAME})\.?[\s-]+(?P<ud>\d{{1,2}})(?:st|nd|rd|th)?[\s,-]+(?P<uy>\d{{4}})(?!\d)"
    rf"|(?P<vy>\d{{4}})-(?P<vm>{_NAME})-(?P<vd>\d{{1,2}})(?!\d)"
    r")"
)
_ZONE = re.compile(r"\s*(?:(?P<utc>Z|UTC|GMT)|(?:UTC|GMT)?(?P<sign>[+-])(?P<h>\d{2}):?(?P<m>\d{2})?)$")
_ABBREVIATION = re.compile(r"(?<=[\dmM.])\s+(?!AM$|PM$)([A-Z]{2,5})$")
_BEFORE_CLOCK = re.compile(r"^(?:T|[\s,]|(?:um|at|à|a las)\s)+", re.I)
_WITHOUT_YEAR = re.compile(
    rf"(?:\d{{1,2}}[./-]\d{{1,2}}\.?|({_NAME})\.?\s+\d{{1,2}}|\d{{1,2}}\.?\s+({_NAME})\.?),?\s+\d{{1,2}}:\d{{2}}"
)
_C_TIME = re.compile(rf"^((?:{_NAME} )?{_NAME} +\d{{1,2}}),? +(\d{{1,2}}:\d{{2}}(?::\d{{2}})?) +(\d{{4}})$")
_POINT_CLOCK = re.compile(r"\d{1,2}\.\d{2}(\.\d{2})?(?: Uhr)?")
_NAMED_DAY = re.compile(rf"(?:{_NAME}\.?,?\s+)?({_NAME})\.?\s+\d{{1,2}}(?:st|nd|rd|th)?")
_MIDNIGHT = re.compile(r"(?:[T ]0?0:00(?::00(?:\.0+)?)?)?")
_FORMS = "such as '2024-05-11' or '11.5.2024' is accepted"


def month_of(name: str) -> int | None:
    """Return the month that a name, or its beginning, stands for."""
    word = plain(name).strip(".")
    hits = {i for i, names in enumerate(_MONTHS, 1) for one in names if one.startswith(word)}
    return hits.pop() if len(hits) == 1 and len(word) > 2 else None


def has_date(cell: str) -> bool:
    """Tell whether a cell begins with a date."""
    match = DATE.match(_year_before_clock(cell.strip()))
    return match is not None and all(month_of(match[key]) for key in ("nm", "um", "vm") if match[key])


def _year_before_clock(cell: str) -> str:
    """Write "Sat Nov 14 19:10:00 2026", as C does, with the year beside the day."""
    return _C_TIME.sub(r"\1 \3 \2", cell) if cell[-4:].isdigit() else cell


def is_whole_stamp(text: str) -> bool:
    """Tell whether text is a date, or a date and a time, and nothing else."""
    match = DATE.match(text)
    if match is None or not has_date(text):
        return False
    rest = _rest(text, match)
    return not rest or _clock(rest)[0] is not None


def named_day_joined(row: list[str]) -> list[str]:
    """Put "Nov 14" and a following "2026 7:10 PM" together again, where a comma divided them."""
    for i, (cell, after) in enumerate(zip(row, row[1:], strict=False)):
        match = _NAMED_DAY.fullmatch(cell.strip())
        whole = f"{cell.strip()}, {after.strip()}"
        if match and month_of(match[1]) and is_whole_stamp(whole):
            return [*row[:i], whole, *row[i + 2 :]]
    return row


def day_of(match: re.Match[str], day_first: bool | None) -> dt.date | None:
    """Return the day that a match of `DATE` means; None where there is no such day."""
    try:
        for year, month, day in (("y", "m", "d"), ("cy", "cm", "cd")):
            if match[year]:
                return dt.date(int(match[year]), int(match[month]), int(match[day]))
        for year, month, day in (("ny", "nm", "nd"), ("uy", "um", "ud"), ("vy", "vm", "vd")):
            if match[year]:
                number = month_of(match[month])
                return None if number is None else dt.date(_year(match[year]), number, int(match[day]))
        if day_first is None and match["mark"] == ".":
            day_first = True
        if day_first is None:
            return None
        first, second = (match["a"], match["b"]) if day_first else (match["b"], match["a"])
        return dt.date(_year(match["ay"]), int(second), int(first))
    except ValueError:
        return None


def _year(digits: str) -> int:
    return int(digits) + (2000 if len(digits) == 2 else 0)


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
    """Tell whether the filled cells of a column are dates without a time, all but a few damaged ones."""
    others = 0
    for cell in cells:
        others += not (has_date(cell) and _MIDNIGHT.fullmatch(cell.strip()[len(date_in(cell)) :]))
        if others > 0.1 * len(cells):
            return False
    return bool(cells)


def is_bare_date(cell: str) -> bool:
    """Tell whether a cell is a date and nothing else."""
    text = _year_before_clock(" ".join(cell.split()))
    match = DATE.match(text)
    return match is not None and not _rest(text, match)


def date_in(cell: str) -> str:
    """Return the date with which a cell begins."""
    match = DATE.match(cell.strip())
    return match[0] if match else cell


def read_stamps(
    cells: Sequence[str], name: str, day_first: bool | None, zoned: bool = False
) -> tuple[list[dt.datetime | None], list[Finding]]:
    """Read time stamps; None where a cell holds none.

    Parameters
    ----------
    cells : sequence of str
        Such as ``"2024-05-11T21:00:30+02:00"``, ``"11.5.2024 21:00"`` or ``"May 11, 2024 9:00 pm"``.
    name : str
        Header of the column.
    day_first : bool or None
        Which number of a date with slashes is the day; None to tell it from the cells.
    zoned : bool
        Whether the call names the time zone; letters such as "EST" behind the time then say nothing more.

    Raises
    ------
    InvalidInput
        When slashes leave open which number is the day, or letters the zone.
    """
    cells = [_year_before_clock(" ".join(cell.split())) for cell in cells]
    matches = [DATE.match(cell) for cell in cells]
    findings: list[Finding] = []
    open_order = [match for match in matches if match and match["ay"]]
    if open_order and day_first is None:
        day_first, why = _day_first(open_order, name)
        if why:
            order = "day/month/year" if day_first else "month/day/year"
            text = (
                f"dates in column {quoted(name)} such as {quoted(open_order[0][0])} taken as {order}: {why}"
            )
            findings.append(Finding("found", text, len(open_order), kind="date order"))
    lettered = [
        i for i, match in enumerate(matches) if match and _ABBREVIATION.search(_rest(cells[i], match))
    ]
    lettered = [i for i in lettered if not _ZONE.search(cells[i])]
    if lettered:
        letters = cells[lettered[0]].rpartition(" ")[2]
        came = f"{quoted(cells[lettered[0]])} in column {quoted(name)} ends in {quoted(letters)}"
        if not zoned:
            accepted = "a name of the zone is accepted: say timezone='America/Chicago' or whichever it is"
            raise invalid(
                "timezone", cells[lettered[0]], f"{came}, which more than one zone is called", accepted
            )
        findings.append(
            Finding("ignored", f"{came}; the time zone is as told", len(lettered), kind="zone letters")
        )
        for i in lettered:
            cells[i] = cells[i].rpartition(" ")[0]
    return [_stamp(cell, match, day_first) for cell, match in zip(cells, matches, strict=True)], findings


def refuse_without_year(cells: Sequence[str], name: str) -> None:
    """Refuse dates such as "Nov 14 19:10": which year they are of is not told."""
    found = [(cell, _WITHOUT_YEAR.match(" ".join(cell.split()))) for cell in cells]
    shown = [
        cell for cell, match in found if match and all(month_of(name) for name in match.groups() if name)
    ]
    if len(shown) > 0.5 * len(cells):
        came = f"{quoted(shown[0])} in column {quoted(name)} has no year"
        accepted = "dates with a year are accepted; write it into the column, as in '2026-11-14 19:10'"
        raise invalid("time", shown[0], came, accepted)


def _day_first(found: list[re.Match[str]], name: str) -> tuple[bool, str]:
    """Tell the day from the month: one is beyond 12, or one order makes the log months long, not days."""
    days = {order: [day_of(match, order) for match in found] for order in (True, False)}
    wrong = {order: sum(day is None for day in days[order]) for order in days}
    points = all(match["mark"] == "." for match in found)
    if points and wrong[True] <= wrong[False]:
        return True, ""  # points are for day.month.year
    if wrong[True] != wrong[False]:
        right = wrong[True] < wrong[False]
        return right, "the other order makes months beyond 12"
    spans = {}
    for order, each in days.items():
        known = [day for day in each if day is not None]
        spans[order] = (max(known) - min(known)).days if known else 0
    if spans[True] != spans[False]:
        right = spans[True] < spans[False]
        return right, f"the other order makes the log {max(spans.values())} days long"
    came = f"{quoted(found[0][0])} in column {quoted(name)} leaves open which number is the day"
    accepted = "say day_first=True or day_first=False"
    raise invalid("time", found[0][0], came, accepted, "an ISO date, year first")


def _rest(cell: str, match: re.Match[str]) -> str:
    """Return what follows the date, without a zone's name in brackets."""
    return re.sub(r"\s*\([^)]*\)$", "", _BEFORE_CLOCK.sub("", cell[match.end() :])).strip()


def _clock(rest: str) -> tuple[float | None, dt.tzinfo | None]:
    """Read the time of day and the offset that follow a date; no time where it cannot be read."""
    zone = _ZONE.search(rest)
    clock = (rest[: zone.start()] if zone else rest).strip()
    if _POINT_CLOCK.fullmatch(clock):
        clock = clock.replace(".", ":")
    elif re.fullmatch(r"\d{4}(\d{2})?", clock):
        clock = ":".join(re.findall("..", clock))
    seconds = clock_seconds(clock)
    if not seconds < 86400.0:
        try:
            seconds = parse_clock(clock.replace(",", ".").removesuffix("Uhr").strip()) if clock else 0.0
        except InvalidInput:
            return None, None
    if zone is None:
        return seconds, None
    if zone["utc"]:
        return seconds, dt.timezone.utc
    offset = dt.timedelta(hours=int(zone["h"]), minutes=int(zone["m"] or 0)) * (
        -1 if zone["sign"] == "-" else 1
    )
    try:
        return seconds, dt.timezone(offset)
    except ValueError:  # an offset of a day or more
        return None, None


def _stamp(cell: str, match: re.Match[str] | None, day_first: bool | None) -> dt.datetime | None:
    day = day_of(match, day_first) if match else None
    if match is None or day is None:
        return None
    seconds, zone = _clock(_rest(cell, match))
    if seconds is None:
        return None
    moment = dt.datetime.combine(day, dt.time()) + dt.timedelta(seconds=seconds)
    return moment if zone is None else moment.replace(tzinfo=zone)
