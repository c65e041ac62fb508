"""Cells of a log read as numbers, one by one or a column at a time."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]

_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?")
# Thousands set apart, for each decimal mark: "1,020.5", "1 020,5".
_GROUPED = {
    ".": re.compile(r"[+-]?\d{1,3}([,'’\s])\d{3}(?:\1\d{3})*(?:\.\d*)?"),
    ",": re.compile(r"[+-]?\d{1,3}([.'’\s])\d{3}(?:\1\d{3})*(?:,\d*)?"),
}
_SCALE = re.compile(
    r"\s*(?:(?:°|deg(?:rees?)?\.?)\s*)?(C|F|(?<!\d)K|celsius|fahrenheit|kelvin)\.?$|\s*°$", re.I
)
_BLANK = frozenset(("", "-", "--", "---", "----", "–", "—", "na", "n/a", "nan", "null", "none", "nil", "."))
_MOST_KNOWN = 100_000  # cells that a reader remembers

_SIGNS = str.maketrans({"º": "°", "˚": "°", "∘": "°", "℃": "°C", "℉": "°F", "−": "-"})
_MISREAD = re.compile("Â(?=[°º])|\ufffd(?=[CF]\\b)")  # a degree sign that went through a wrong encoding

# Stand-ins of loggers for no reading.
SENTINELS = (-999.0, 999.0, -999.9, 999.9, -9999.0, 9999.0)


class Number(str):
    """A cell that was a number where it comes from, as Python writes it: with a decimal point."""

    __slots__ = ()


def with_plain_signs(text: str) -> str:
    """Write degree and minus signs in one way."""
    if text.isascii():
        return text
    return _MISREAD.sub(lambda found: "" if found[0] == "Â" else "°", text).translate(_SIGNS)


def is_blank(cell: str) -> bool:
    """Tell whether a cell says that there is no reading."""
    return cell.strip().lower() in _BLANK


def bare(cell: str) -> str:
    """Return a cell without the unit of temperature behind it."""
    text = with_plain_signs(cell.strip())
    match = None if text[-1:].isdigit() else _SCALE.search(text)
    return text[: match.start()].strip() if match else text


def scale_in(cell: str) -> str:
    """Return "C", "F" or "K" where a number carries its unit, else nothing."""
    text = with_plain_signs(cell.strip())
    match = None if text[-1:].isdigit() else _SCALE.search(text)
    return match[1][0].upper() if match and match[1] and is_number(text[: match.start()]) else ""


def is_number(cell: str) -> bool:
    """Tell whether a cell is a number, with either decimal mark."""
    text = bare(cell)
    return any(form.fullmatch(text) for form in (_NUMBER, *_GROUPED.values()))


def to_number(cell: str, decimal: str) -> float:
    """Read a cell as a number, with an optional unit of temperature behind it; NaN when it is none."""
    text = bare(cell)
    other = "." if decimal == "," else ","
    if _NUMBER.fullmatch(text) and other not in text:
        return float(text.replace(",", "."))
    match = _GROUPED[decimal].fullmatch(text)
    return float(text.replace(match[1], "").replace(",", ".")) if match else math.nan


class Numbers(dict[str, float]):
    """Reads cells as `to_number` does and remembers them: a logger has few digits, and its readings repeat.

    Parameters
    ----------
    decimal : str
        ``"."`` or ``","``.
    """

    def __init__(self, decimal: str) -> None:
        super().__init__()
        self._decimal = decimal

    def __missing__(self, cell: str) -> float:
        """Read a cell for the first time."""
        if len(self) >= _MOST_KNOWN:
            self.clear()
        value = self[cell] = to_number(cell, self._decimal)
        return value

    def column(self, cells: Sequence[str]) -> FloatArray:
        """Read a column; NaN where a cell is no number."""
        if self._decimal == ".":
            quick = _plain_numbers(cells)
            if quick is not None:
                return quick
        return np.array(list(map(self.__getitem__, cells)), dtype=np.float64)


def _plain_numbers(cells: Sequence[str]) -> FloatArray | None:
    """Read cells as Python's own float() does; None where one is no number, or only Python's."""
    try:
        values = np.array(list(map(float, cells)), dtype=np.float64)
    except ValueError:
        return None
    if not np.isfinite(values).all() or "_" in "".join(cells):  # "infinity", "1_000"
        return None
    return values
