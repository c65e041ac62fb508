"""Plain values at the door: numbers, counts, truth values, text, words of a list, paths and arrays.

Whatever comes, the answer is the value in Python's or NumPy's own type, or an `InvalidInput` that names the
field. Quantities with units are read in `units`, and everything the extension module stores in `_coerce`.
"""

from __future__ import annotations

import difflib
import math
import numbers
import operator
import os
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any, NoReturn

import numpy as np
import numpy.typing as npt

from libcook.arguments.quote import came_as, listed, quoted
from libcook.errors import InvalidInput, invalid

FloatArray = npt.NDArray[np.float64]

# What text forms, conversions and iterators of other people's classes raise.
CONVERSION_ERRORS = (TypeError, ValueError, OverflowError, ArithmeticError, RecursionError, RuntimeError)
_LONGEST_SLIP = 64  # characters; longer text is no slip of the pen, and comparing takes time with its square
_LONGEST_PATH = 4096  # bytes, on Linux


def is_real(value: Any) -> bool:
    """Tell a number from everything else; a truth value is none."""
    return isinstance(value, numbers.Real) and not isinstance(value, (bool, np.bool_))


def real(value: Any, field: str, accepted: str = "") -> float:
    """Turn what is a number already into a float; refuses what is too large for one."""
    try:
        return float(value)
    except CONVERSION_ERRORS:
        came = f"{quoted(value)} is too large" if is_real(value) else came_as(value)
        raise invalid(field, value, came, accepted) from None


def number(value: Any, field: str, accepted: str = "a plain number in SI units is accepted") -> float:
    """Read a plain finite number."""
    if not is_real(value):
        raise invalid(field, value, f"{quoted(value)} is not a number", accepted)
    result = real(value, field, accepted)
    if not math.isfinite(result):
        raise invalid(field, value, f"{quoted(value)} is not a finite number", accepted)
    return result


def whole(value: Any, field: str, low: int | None = None, high: int | None = None) -> int:
    """Read a whole number."""
    found = operator.index(value) if isinstance(value, numbers.Integral) and is_real(value) else None
    if found is not None and (low is None or found >= low) and (high is None or found <= high):
        return found
    limits = "" if low is None else f", {low} to {high}," if high is not None else f", {low} and above,"
    came = f"{quoted(value)} is {'no whole number' if found is None else 'out of range'}"
    raise invalid(field, value, came, f"a whole number{limits} is accepted")


def count(value: Any, field: str) -> int:
    """Read how many."""
    if isinstance(value, numbers.Integral) and is_real(value) and 0 <= operator.index(value) < 2**31:
        return operator.index(value)
    raise invalid(field, value, f"{quoted(value)} is not a count", "a whole number, 0 and above, is accepted")


def flag(value: Any, field: str) -> bool:
    """Read a truth value."""
    if isinstance(value, (bool, np.bool_)):
        return bool(value)
    raise invalid(field, value, f"{quoted(value)} is not a truth value", "True or False is accepted")


def text(value: Any, field: str, accepted: str = "text is accepted") -> str:
    """Read text: whole characters, so that it can be stored, printed and sent anywhere."""
    if not isinstance(value, str):
        raise invalid(field, value, f"{quoted(value)} is not text", accepted)
    try:
        value.encode("utf-8")
    except UnicodeEncodeError as error:
        came = f"{quoted(value)} holds half of a character (a lone surrogate) at place {error.start}"
        raise invalid(field, value, came, "text in whole characters is accepted") from None
    return str(value)


def is_one_of(value: Any, words: Iterable[str]) -> bool:
    """Tell whether a value is one of the words; whatever else comes is not."""
    return isinstance(value, str) and value in words


def choice(value: Any, words: Sequence[str], field: str) -> str:
    """Read one of the words."""
    if isinstance(value, str) and value in words:
        return value
    raise invalid(
        field, value, f"{quoted(value)} is not known", f"accepted: {listed(words)}", close(value, words)
    )


def close(value: Any, words: Iterable[str]) -> str:
    """Return the nearest of the words, quoted, or nothing.

    Of several words one is enough: "paper" is near "butcher paper", and "aluminium foil" near "foil".
    """
    if not isinstance(value, str) or len(value) > _LONGEST_SLIP:
        return ""
    given, known = value.lower(), list(words)
    parts = {part: word for word in reversed(known) for part in (*word.split(), word)}
    for text in (given, *reversed(given.split())):
        found = difflib.get_close_matches(text, list(parts), n=1, cutoff=0.6 if text == given else 0.8)
        if found:
            return f"'{parts[found[0]]}'"
    return ""


def list_names(name: str, names: Sequence[str]) -> str:
    """List the names there are, with the one that was probably meant."""
    meant = close(name, names)
    return listed(names) + (f"; did you mean {meant}?" if meant else "")


def refuse_type(value: Any, wanted: str, field: str) -> NoReturn:
    """Say that something else was wanted."""
    raise invalid(field, value, came_as(value), f"libcook.{wanted} is accepted")


def path(value: Any, field: str, accepted: str = "the path of a file is accepted") -> Path:
    """Read a path: text or a ``pathlib.Path``."""
    if isinstance(value, os.PathLike):
        try:
            value = os.fspath(value)
        except CONVERSION_ERRORS:
            raise invalid(field, value, came_as(value), accepted) from None
    name = text(value, field, accepted)
    if not name.strip():
        raise invalid(field, value, "an empty text came", accepted)
    if "\0" in name or len(os.fsencode(name)) > _LONGEST_PATH:
        raise invalid(field, value, f"{quoted(name)} is no path", accepted)
    if any(len(os.fsencode(part)) > 255 for part in Path(name).parts):
        raise invalid(field, value, f"{quoted(name)} holds a name that is too long", accepted)
    return Path(name)


def array(value: Any, field: str, accepted: str = "numbers are accepted") -> FloatArray:
    """Read a number or numbers in any nesting as an array; NaN stays, for a place without a number.

    Text is refused, also of digits: it has a unit, or should have one. So are truth values, which NumPy
    counts as 0 and 1, and complex numbers.
    """
    refused = invalid(
        field, value, f"{quoted(value)} came" if value is not None else came_as(value), accepted
    )
    if isinstance(value, (str, bytes, bytearray, memoryview, dict, set, frozenset)):
        raise refused
    try:
        found = np.asarray(value)
        if found.dtype.kind == "O":  # None is NaN; fractions and whole numbers beyond 64 bits are numbers
            plain = [math.nan if one is None else one for one in found.ravel().tolist()]
            if found.ndim == 0 or not all(is_real(one) for one in plain):
                raise refused
            return np.array([float(one) for one in plain], dtype=np.float64).reshape(found.shape)
        if found.dtype.kind not in "iuf":
            raise refused
        return np.asarray(found, dtype=np.float64)
    except InvalidInput:
        raise
    except CONVERSION_ERRORS:
        raise refused from None


def row(value: Any, field: str, accepted: str = "one number each is accepted") -> FloatArray:
    """Read numbers in one dimension, or one number."""
    found = np.atleast_1d(array(value, field, accepted))
    if found.ndim != 1:
        raise invalid(field, value, f"{found.ndim} dimensions came", "one dimension is accepted")
    return found


def two(value: Any, field: str, accepted: str) -> tuple[Any, Any]:
    """Read a pair: a tuple or a list of two."""
    pair = value.tolist() if isinstance(value, np.ndarray) else value
    if not isinstance(pair, (tuple, list)) or len(pair) != 2:
        raise invalid(field, value, f"{quoted(value)} came", accepted)
    return pair[0], pair[1]


def mapping(value: Any, field: str, accepted: str) -> dict[Any, Any]:
    """Read a mapping that holds something."""
    if not isinstance(value, Mapping) or not value:
        raise invalid(field, value, f"{type(value).__name__} came", accepted)
    return dict(value)


def items(value: Any, field: str, accepted: str) -> list[Any]:
    """Read a list, or what gives its items one by one in an order; text, mappings and sets are none."""
    none = (str, bytes, bytearray, Mapping, set, frozenset, type)
    if isinstance(value, none) or not hasattr(value, "__iter__"):
        raise invalid(field, value, came_as(value), accepted)
    try:
        return list(value)
    except CONVERSION_ERRORS as error:
        came = f"a {type(value).__name__} came that fails to give its items ({quoted(str(error))})"
        raise invalid(field, value, came, accepted) from None
