"""Cells of a log read as numbers, one by one or a column at a time."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]

_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?")
_BLANK = frozenset(("", "-", "--", "---", "na", "n/a", "nan", "null", "none", "nil", "."))
_MOST_KNOWN = 100_000  # cells that a reader remembers

# Stand-ins of loggers for no reading.
SENTINELS = (-999.0, 999.0, -999.9, 999.9, -9999.0, 9999.0)


def is_blank(cell: str) -> bool:
    """Tell whether a cell says that there is no reading."""
    return cell.strip().lower() in _BLANK


def _bare(cell: str) -> str:
    return cell.strip().replace("−", "-").rstrip("CFcf").rstrip("°º ").strip()


def is_number(cell: str) -> bool:
    """Tell whether a cell is a number, with either decimal mark."""
    return _NUMBER.fullmatch(_bare(cell)) is not None


def to_number(cell: str, decimal: str) -> float:
    """Read a cell as a number, with an optional unit sign behind it; NaN when it is none."""
    text = _bare(cell)
    if not _NUMBER.fullmatch(text) or ("." if decimal == "," else ",") in text:
        return math.nan
    return float(text.replace(",", "."))


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
