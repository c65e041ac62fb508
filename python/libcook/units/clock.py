"""Times of day: "18:00", "6 pm" in, seconds since midnight inside, "18:00" out."""

from __future__ import annotations

import datetime as dt
import math
import re

from libcook.arguments.plain import flag, number
from libcook.arguments.quote import LONGEST, quoted
from libcook.errors import invalid

DAY = 86400.0  # s; one civil day without a clock change
_ACCEPTED = "a time of day such as '18:00', '6 pm' or '6:30 pm' is accepted"
_CLOCK = re.compile(
    r"(\d{1,2})(?:\s*[:hH]\s*(\d{2})(?::(\d{2}(?:\.\d+)?))?|\s*[hH])?\s*([aApP])?\.?(?:[mM]\.?)?"
)


def parse_clock(value: str | dt.time | dt.datetime, field: str = "clock") -> float:
    """Read a time of day.

    Parameters
    ----------
    value : str, datetime.time or datetime.datetime
        Such as ``"18:00"``, ``"18:00:30"``, ``"18h30"``, ``"6 pm"``, ``"6:30 pm"``, ``"noon"``,
        ``"midnight"``.
    field : str, optional
        Name used in messages.

    Returns
    -------
    float
        Seconds since midnight [s], 0 <= value < 86400.

    Raises
    ------
    InvalidInput
        When the text is no time of day, or could be morning or evening.
    """
    if isinstance(value, (dt.time, dt.datetime)):
        return value.hour * 3600.0 + value.minute * 60.0 + value.second + value.microsecond * 1e-6
    if not isinstance(value, str):
        raise invalid(field, value, f"{quoted(value)} is not a time of day", _ACCEPTED)
    if len(value) > LONGEST:
        raise invalid(field, value, f"{quoted(value)} is not a time of day", _ACCEPTED)
    text = value.strip().lower()
    if text in ("noon", "midnight"):
        return 43200.0 if text == "noon" else 0.0
    match = _CLOCK.fullmatch(text)
    if match is None:
        raise invalid(field, value, f"{quoted(value)} is not a time of day", _ACCEPTED)
    hour, minute, second, half = int(match[1]), int(match[2] or 0), float(match[3] or 0), match[4]
    if not half and text.isdigit():
        meant = f"'{hour}:00' or '{hour} pm'" if 1 <= hour <= 12 else f"'{hour}:00'" if hour < 24 else ""
        raise invalid(
            field, value, f"{quoted(value)} does not say which half of the day it is in", _ACCEPTED, meant
        )
    if half and not 1 <= hour <= 12:
        meant = f"'{hour}:{minute:02d}'" if hour < 24 else ""
        raise invalid(
            field, value, f"{quoted(value)}: am and pm go with hours from 1 to 12", _ACCEPTED, meant
        )
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    if hour > 23 or minute > 59 or second >= 60:
        meant = "'00:00'" if hour == 24 and minute == 0 else ""
        raise invalid(
            field, value, f"{quoted(value)} is past the end of the day or the hour", _ACCEPTED, meant
        )
    return hour * 3600.0 + minute * 60.0 + second


def format_clock(seconds: float, days: bool = False) -> str:
    """Write seconds since midnight as a time of day, rounded to the minute.

    Parameters
    ----------
    seconds : float
        Seconds since some midnight [s]; values outside one day wrap round.
    days : bool, optional
        Whether to add the number of days passed, as in ``"02:10 (+1 d)"``.

    Returns
    -------
    str
        Such as ``"18:00"``.
    """
    seconds = number(seconds, "seconds", "finite seconds since midnight are accepted")
    minutes = math.floor(seconds / 60.0 + 0.5)
    day, minute = divmod(minutes, 1440)
    text = f"{minute // 60:02d}:{minute % 60:02d}"
    return f"{text} ({day:+d} d)" if flag(days, "days") and day else text
