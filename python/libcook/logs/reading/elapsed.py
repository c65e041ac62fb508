"""Times of day and elapsed times in cells: "19:10", "7:10 p.m.", "1 h 05 min", "1 day, 2:05:00"."""

from __future__ import annotations

import math
import re

from libcook.errors import InvalidInput
from libcook.units.clock import parse_clock

_CLOCK = re.compile(r"\d{1,3}:\d{2}(:\d{2}([.,]\d+)?)?(\s*[ap]\.?\s?m\.?)?|\d{1,2}\s?h\s?\d{2}(?!\d)", re.I)
_HALF = re.compile(r"([ap])\.?\s?m\.?$", re.I)
_DAYS = r"(?:(?P<d>\d{1,4})\s*(?:days?|d|tage?|jours?|j|dias?|días?)\.?,?\s+)"
_DAYS_CLOCK = re.compile(_DAYS + r"(?P<clock>\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?)", re.I)
_N = r"\d+(?:[.,]\d+)?"
_WORDS = re.compile(
    rf"{_DAYS}?(?:(?P<h>{_N})\s*(?:hours?|hrs?|h|std|stunden?|heures?|horas?)\.?,?\s*)?"
    rf"(?:(?P<m>{_N})\s*(?:minutes?|mins?|mn|m|minuten|minutos?)\.?,?\s*)?"
    rf"(?:(?P<s>{_N})\s*(?:seconds?|secs?|s|sekunden|sek|secondes?|segundos?)\.?)?",
    re.I,
)
_SIZES = {"d": 86400.0, "h": 3600.0, "m": 60.0, "s": 1.0}
_LONGEST = 60  # characters of such a cell


def looks_like_clock(cell: str) -> bool:
    """Tell whether a cell is a time of day or an elapsed time, in digits."""
    return _CLOCK.fullmatch(cell.strip()) is not None


def in_words(cell: str) -> float:
    """Read an elapsed time that names its units or days [s]; NaN where a cell is none."""
    text = " ".join(cell.split())
    if not text or len(text) > _LONGEST or not text[0].isdigit():
        return math.nan
    match = _DAYS_CLOCK.fullmatch(text)
    if match:
        return 86400.0 * float(match["d"]) + clock_seconds(match["clock"])
    match = _WORDS.fullmatch(text)
    if not match or not any(match.groups()):
        return math.nan
    parts = {name: match[name].replace(",", ".") for name in _SIZES if match[name]}
    return sum(float(part) * _SIZES[name] for name, part in parts.items())


def clock_seconds(cell: str, minutes: bool = False) -> float:
    """Read a time of day or an elapsed time in digits [s]; NaN where a cell is none.

    Parameters
    ----------
    cell : str
        Such as ``"19:10"``, ``"7:10 p.m."`` or ``"26:05:30"``.
    minutes : bool
        Whether two numbers are minutes and seconds, not hours and minutes.
    """
    text = " ".join(cell.split()).replace(",", ".")
    text = text.removesuffix("Uhr").strip()
    if not _CLOCK.fullmatch(text):
        return math.nan
    if text[-1] in "mM." or "h" in text.lower():
        try:
            return parse_clock(_HALF.sub(r"\1m", text))
        except InvalidInput:
            return math.nan
    parts = [float(part) for part in text.split(":")]
    if any(part >= 60.0 for part in parts[1:]):
        return math.nan
    sizes = (60.0, 1.0) if minutes and len(parts) == 2 else (3600.0, 60.0, 1.0)
    return sum(part * size for part, size in zip(parts, sizes, strict=False))
