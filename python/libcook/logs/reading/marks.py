"""Which mark is the decimal one: a point or a comma; the other may set thousands apart."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence

from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.logs.findings import Finding, count_of
from libcook.logs.reading.numbers import bare

_MARKS = (".", ",")
_ONE = {mark: re.compile(rf"[+-]?\d*{re.escape(mark)}\d+") for mark in _MARKS}
_OPEN = re.compile(r"[+-]?[1-9]\d{0,2}[.,]\d{3}")  # "1,020" is 1.02 or 1020
_BOTH = {
    ".": re.compile(r"[+-]?\d{1,3}(?:(?:,\d{3})+\.\d+|(?:,\d{3}){2,})"),
    ",": re.compile(r"[+-]?\d{1,3}(?:(?:\.\d{3})+,\d+|(?:\.\d{3}){2,})"),
}
_HUNDREDS = re.compile(r"[1-9]\d{2}")


def check_decimal(decimal: str | None) -> None:
    """Refuse what is no decimal mark."""
    if decimal not in (None, ".", ","):
        raise invalid(
            "decimal", decimal, f"{quoted(decimal)} is not a decimal mark", "'.' or ',' is accepted"
        )


class _Cells:
    """Some cells: the first of them, and how many there are."""

    def __init__(self) -> None:
        self.first, self.count = "", 0

    def add(self, cell: str, count: int) -> None:
        """Count one more kind of cell."""
        self.first = self.first or cell
        self.count += count


class _Seen:
    """The numbers with a mark among the cells of a table."""

    def __init__(self, columns: Iterable[Sequence[str]]) -> None:
        self.sure = {".": _Cells(), ",": _Cells()}  # cells that show the decimal mark
        self.open = {".": _Cells(), ",": _Cells()}
        self.grouped: set[str] = set()  # marks between numbers below and above a thousand in one column
        for cells in columns:
            hundreds, opened = False, set[str]()
            for cell, count in Counter(cells).items():
                if not ("," in cell or "." in cell):
                    hundreds = hundreds or _HUNDREDS.fullmatch(cell) is not None
                    continue
                opened.add(self._see(bare(cell), cell, count))
            self.grouped |= opened - {""} if hundreds else set()

    def _see(self, text: str, cell: str, count: int) -> str:
        """Sort one cell in; return its mark where it is open."""
        mark = text[max(text.rfind("."), text.rfind(","))] if text else ""
        if mark in _MARKS and _OPEN.fullmatch(text):
            self.open[mark].add(cell, count)
            return mark
        if mark in _MARKS and _ONE[mark].fullmatch(text):
            self.sure[mark].add(cell, count)
        elif mark in _MARKS:
            for decimal, form in _BOTH.items():
                if form.fullmatch(text):
                    self.sure[decimal].add(cell, count)
        return ""


def guess_decimal(rows: Sequence[Sequence[str]], findings: list[Finding]) -> str:
    """Tell the decimal mark from the cells, and say so where it is a comma or thousands are set apart.

    "1,020" alone is open: where numbers from 100 on without a mark stand in its column, the mark sets
    thousands apart, for three decimals would be there always; else it is the decimal one.
    """
    if not any("," in cell or "." in cell for row in rows for cell in row):
        return "."
    seen = _Seen(zip(*rows, strict=True))
    commas, points = seen.sure[","], seen.sure["."]
    if not commas.count and not points.count and seen.open[","].count and seen.open["."].count:
        commas, points = seen.open[","], seen.open["."]
    if commas.count and points.count:
        shown = f"a comma ({quoted(commas.first)}) and a point ({quoted(points.first)})"
        came = f"both {shown} look like the decimal mark"
        raise invalid("decimal", None, came, "say decimal=',' or decimal='.'")
    if commas.count or points.count:
        decimal = "," if commas.count else "."
        if decimal in seen.grouped:
            shown = f"{quoted(seen.open[decimal].first)} and {quoted(seen.sure[decimal].first)}"
            came = f"{quoted(decimal)} sets thousands apart or is the decimal mark, of {shown}"
            raise invalid("decimal", None, came, "say decimal=',' or decimal='.'")
    elif seen.open[","].count:
        decimal = "." if "," in seen.grouped else ","
    else:
        decimal = "," if "." in seen.grouped else "."
    thousands = seen.open["." if decimal == "," else ","]
    if decimal == ",":
        commas.add(seen.open[","].first, seen.open[","].count)
    if commas.count:
        text = f"{count_of(commas.count, 'number')} with a comma, such as {quoted(commas.first)}, "
        text += "read as decimal commas"
        findings.append(Finding("found", text, commas.count, kind="decimal comma"))
    if thousands.count:
        other = "," if decimal == "." else "."
        text = f"{count_of(thousands.count, 'number')} such as {quoted(thousands.first)} read as thousands; "
        text += f"say decimal={quoted(other)} if they are not"
        findings.append(Finding("found", text, thousands.count, kind="thousands"))
    return decimal
