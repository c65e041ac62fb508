"""Which mark is the decimal one: a point or a comma; the other may set thousands apart."""

from __future__ import annotations

import re
from collections.abc import Sequence

from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.logs.findings import Finding, count_of
from libcook.logs.reading.numbers import Number, bare

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


class _Seen:
    """The numbers with a mark among the cells of a table."""

    def __init__(self, columns: Sequence[Sequence[str]]) -> None:
        self.sure: dict[str, list[str]] = {".": [], ",": []}  # cells that show the decimal mark
        self.open: dict[str, list[str]] = {".": [], ",": []}
        self.grouped = False  # whether numbers below and above a thousand go on in one column
        for cells in columns:
            here: list[str] = []
            counts = False
            for cell in cells:
                if isinstance(cell, Number) or not ("," in cell or "." in cell):
                    counts = counts or _HUNDREDS.fullmatch(cell) is not None
                    continue
                text = bare(cell)
                mark = text[max(text.rfind("."), text.rfind(","))] if text else ""
                if mark not in _MARKS:
                    continue
                if _OPEN.fullmatch(text):
                    self.open[mark].append(cell)
                    here.append(cell)
                elif _ONE[mark].fullmatch(text):
                    self.sure[mark].append(cell)
                else:
                    for decimal, form in _BOTH.items():
                        if form.fullmatch(text):
                            self.sure[decimal].append(cell)
            self.grouped = self.grouped or (counts and bool(here))


def guess_decimal(rows: Sequence[Sequence[str]], findings: list[Finding]) -> str:
    """Tell the decimal mark from the cells, and say so where it is a comma or thousands are set apart.

    "1,020" alone is open: where numbers from 100 on without a mark stand in its column, the mark sets
    thousands apart, for three decimals would be there always; else it is the decimal one.
    """
    if not any("," in cell or "." in cell for row in rows for cell in row):
        return "."
    seen = _Seen(list(zip(*rows, strict=True)))
    commas, points = seen.sure[","], seen.sure["."]
    if not commas and not points and seen.open[","] and seen.open["."]:
        commas, points = seen.open[","], seen.open["."]
    if commas and points:
        came = (
            f"both a comma ({quoted(commas[0])}) and a point ({quoted(points[0])}) look like the decimal mark"
        )
        raise invalid("decimal", None, came, "say decimal=',' or decimal='.'")
    if commas or points:
        decimal = "," if commas else "."
    elif seen.open[","]:
        decimal = "." if seen.grouped else ","
    else:
        decimal = "," if seen.open["."] and seen.grouped else "."
    thousands = seen.open["." if decimal == "," else ","]
    if decimal == ",":
        commas = commas + seen.open[","]
    if commas:
        text = f"{count_of(len(commas), 'number')} with a comma, such as {quoted(commas[0])}, "
        text += "read as decimal commas"
        findings.append(Finding("found", text, len(commas), kind="decimal comma"))
    if thousands:
        other = "," if decimal == "." else "."
        text = f"{count_of(len(thousands), 'number')} such as {quoted(thousands[0])} read as thousands; "
        text += f"say decimal={quoted(other)} if they are not"
        findings.append(Finding("found", text, len(thousands), kind="thousands"))
    return decimal
