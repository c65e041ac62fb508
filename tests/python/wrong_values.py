"""Values that come in where something else was meant: what slips of a hand, a file or a program produce."""

import collections
import datetime as dt
import decimal
import fractions
import pathlib
import uuid

import numpy as np

import libcook as lc


class Unspeakable:
    """Its text form fails."""

    def __repr__(self):
        raise RuntimeError("no text form")


class NotQuite:
    """Says it is a number, and then is none."""

    def __float__(self):
        raise RuntimeError("no number")

    def __index__(self):
        raise RuntimeError("no whole number")


class Quantitylike:
    """Looks like a quantity of pint."""

    magnitude = "much"
    units = "very"


def _deep():
    value = []
    for _ in range(2_000):
        value = [value]
    return value


def _failing():
    yield 1
    raise RuntimeError("no more")


# A new one for each call: generators are used up.
KINDS = {
    "None": lambda: None,
    "True": lambda: True,
    "False": lambda: False,
    "NumPy's True": lambda: np.True_,
    "0": lambda: 0,
    "-1": lambda: -1,
    "-1.5": lambda: -1.5,
    "10**18": lambda: 10**18,
    "10**400": lambda: 10**400,
    "-10**400": lambda: -(10**400),
    "10**5000": lambda: 10**5000,
    "1e308": lambda: 1e308,
    "-1e308": lambda: -1e308,
    "5e-324": lambda: 5e-324,
    "nan": lambda: float("nan"),
    "inf": lambda: float("inf"),
    "-inf": lambda: float("-inf"),
    "1j": lambda: 1j,
    "a fraction of 10**400": lambda: fractions.Fraction(10**400, 3),
    "a decimal nan": lambda: decimal.Decimal("nan"),
    "a decimal snan": lambda: decimal.Decimal("snan"),
    "NumPy's nan": lambda: np.float32("nan"),
    "no date": lambda: np.datetime64("NaT"),
    "empty text": lambda: "",
    "a blank": lambda: " ",
    "a word": lambda: "hickory",
    "a digit": lambda: "7",
    "text of a nan": lambda: "nan °F",
    "text of 1e400": lambda: "1e400 °F",
    "text of 10**5000": lambda: "1" * 5000 + " kg",
    "a unit alone": lambda: "°F",
    "the wrong unit": lambda: "5 furlong",
    "a long text": lambda: "brisket " * 2_000,
    "a long number": lambda: "9" * 10_000 + " °X",
    "long units": lambda: "5 " + "kg/" * 5_000,
    "half a character": lambda: "\ud800",
    "half a character with a number": lambda: "5 \udcff",
    "NUL": lambda: "\0",
    "lines": lambda: "a\nb\r\nc",
    "braces": lambda: "{0.__class__} %s %n",
    "no bytes": lambda: b"",
    "bytes": lambda: b"250 F",
    "a bytearray": lambda: bytearray(b"\xff\xfe"),
    "an empty list": lambda: [],
    "a list of None": lambda: [None],
    "a list of texts": lambda: ["a", "b"],
    "a list of numbers": lambda: [1.0, 2.0],
    "a list of 10**400": lambda: [10**400, 1],
    "uneven lists": lambda: [[1.0, 2.0], [3.0]],
    "a deep list": _deep,
    "a long list": lambda: [None] * 2_000,
    "an empty tuple": lambda: (),
    "a pair of texts": lambda: ("a", "b"),
    "a pair of lists": lambda: ([0.0, 1.0], [1.0]),
    "an empty dict": lambda: {},
    "a dict of text": lambda: {"a": "b"},
    "a dict of None": lambda: {None: None},
    "a set": lambda: {1, 2},
    "a generator that fails": _failing,
    "an empty array": lambda: np.zeros(0),
    "a matrix": lambda: np.zeros((2, 2)),
    "an array of texts": lambda: np.array(["a", "b"]),
    "an array of objects": lambda: np.array([None, object()], dtype=object),
    "an array of nan": lambda: np.full(6, np.nan),
    "a complex array": lambda: np.array([1j, 2.0]),
    "a date": lambda: dt.date(2024, 5, 11),
    "a span of time": lambda: dt.timedelta(hours=1),
    "a path": lambda: pathlib.Path("no/such/file"),
    "a class": lambda: int,
    "a function": lambda: len,
    "a module": lambda: decimal,
    "an object": object,
    "no text form": Unspeakable,
    "not quite a number": NotQuite,
    "not quite a quantity": Quantitylike,
    "an ellipsis": lambda: ...,
    "a counter": lambda: collections.Counter("meat"),
    "a uuid": lambda: uuid.UUID(int=1),
    "a class of ours": lambda: lc.Plan,
    "an error": lambda: ValueError("x"),
}
