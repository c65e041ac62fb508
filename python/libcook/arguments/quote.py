r"""How messages quote what came: the one place that turns input into words.

Input is data, not text to repeat: it can be ten million characters long, a list in a list in a list, or an
object whose text form fails. What is quoted is cut at `LONGEST` characters, with a mark and the length it
had, stays in one line, and what cannot be printed is written out. In C++ ``cook::in_quotes`` (``errors.hpp``)
does so.
"""

from __future__ import annotations

import reprlib
from collections.abc import Iterable
from pathlib import PurePath
from typing import Any

LONGEST = 200  # characters of one value
_MOST_NAMES = 40  # of a list of names
_MOST_DIGITS = 40


class _Short(reprlib.Repr):
    """The standard library's short text forms, with our limits, for whatever comes."""

    def __init__(self) -> None:
        super().__init__()
        self.maxlevel = 3
        self.maxother = LONGEST

    def repr_str(self, x: str, level: int) -> str:
        """Quote text inside a list like text by itself."""
        return _text(x)

    def repr_int(self, x: int, level: int) -> str:
        """Write a whole number; one that nobody can read by its number of digits."""
        digits = int(x.bit_length() * 0.30103) + 1  # log10(2)
        return repr(x) if digits <= _MOST_DIGITS else f"a whole number of about {digits:,} digits"

    def repr_instance(self, x: Any, level: int) -> str:
        """Write anything else; an object whose text form fails by its class."""
        try:
            text = repr(x)
        except Exception:  # whatever it is: this message is about something else
            return f"<an object of class {type(x).__name__}>"
        return cut(" ".join(text.split()))


_short = _Short()


def cut(text: str) -> str:
    """Return text as it can be shown in one line: printable, and `LONGEST` characters at most."""
    shown = "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text[:LONGEST])[:LONGEST]
    return shown if len(text) <= LONGEST else f"{shown}… ({len(text):,} characters)"


def _text(text: str) -> str:
    shown, mark, length = cut(text).partition("… (")
    return f"'{shown}…' ({length}" if mark and len(text) > LONGEST else f"'{shown}{mark}{length}'"


def quoted(value: Any) -> str:
    """Return what came as a message shows it: text in quotes, anything else in its short form.

    Examples
    --------
    >>> quoted("250 °F"), quoted(3.5), quoted(["a", None]), quoted(10**400)
    ("'250 °F'", '3.5', "['a', None]", 'a whole number of about 401 digits')
    """
    return _text(str(value)) if isinstance(value, (str, PurePath)) else _short.repr(value)


def listed(names: Iterable[Any], most: int = _MOST_NAMES) -> str:
    """Return names joined by commas, the first `most` of them.

    Examples
    --------
    >>> listed(["core", "pit"]), listed("abcd", 2)
    ('core, pit', 'a, b and 2 more')
    """
    known = [cut(str(name)) for name in names]
    more = f" and {len(known) - most} more" if len(known) > most else ""
    return ", ".join(known[:most]) + more


def came_as(value: Any) -> str:
    """Say what came and of which type it is, for where another type is wanted."""
    return "nothing (None) came" if value is None else f"{quoted(value)} of type {type(value).__name__} came"
