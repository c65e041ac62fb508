"""Text in a CSV that a spreadsheet shows as it is: a cell that begins like a formula would be run.

Such cells get an apostrophe in front, which spreadsheets take for "this is text", and so do cells that begin
with apostrophes and then like a formula: taking one away gives back every text. Numbers are not text and stay
as they are. The signs are those of the OWASP page on CSV injection (from memory, not read here).
"""

from __future__ import annotations

import re

_GUARD = "'"
_FORMULA = re.compile(r"'*[=+\-@\t\r\n＝＋－＠]")
_GUARDED = re.compile(r"''*[=+\-@\t\r\n＝＋－＠]")
_STRING = re.compile(r'"(?:[^"\\]|\\.)*"')
_DIVIDES = re.compile(r"[,;|=+\-@'＝＋－＠]")


def guarded(text: str) -> str:
    """Write text so that a spreadsheet does not run it.

    Examples
    --------
    >>> guarded("=1+1"), guarded("wrapped"), guarded("'-")
    ("'=1+1", 'wrapped', "''-")
    """
    return _GUARD + text if _FORMULA.match(text) else text


def unguarded(text: str, was: bool = True) -> str:
    """Return what `guarded` was given; with `was` false the text, for files of before it was guarded."""
    return text[1:] if was and _GUARDED.match(text) else text


def in_one_cell(text: str) -> str:
    r"""Write JSON so that no text in it begins a cell, whatever delimiter a spreadsheet takes.

    Examples
    --------
    >>> in_one_cell('{"a": "x,=1"}')
    '{"a": "x\\u002c\\u003d1"}'
    """
    return _STRING.sub(
        lambda string: _DIVIDES.sub(lambda sign: f"\\u{ord(sign[0]):04x}", string[0]),
        text,
    )
