"""The manifest of a sweep's folder, read as what it is: a file that anybody can have changed."""

from __future__ import annotations

import json
import math
import os
import stat
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from libcook.arguments.plain import is_real
from libcook.arguments.quote import cut, quoted
from libcook.errors import InvalidInput, invalid
from libcook.sweeps.layout import Layout, Variable
from libcook.sweeps.size import LARGEST

FORMAT, VERSION = "libcook sweep", 1
NAME = "sweep.json"
_LARGEST_FILE = 100_000_000  # bytes


def regular(path: Path, field: str) -> bool:
    """Tell whether a file is there; refuses what is no file: a folder, a link, a pipe.

    Raises
    ------
    InvalidInput
        Names the file.
    """
    try:
        mode = os.lstat(path).st_mode
    except FileNotFoundError:
        return False
    if stat.S_ISREG(mode):
        return True
    kinds = ((stat.S_ISDIR, "a folder"), (stat.S_ISLNK, "a link"), (stat.S_ISFIFO, "a pipe"))
    kind = next((word for test, word in kinds if test(mode)), "a device")
    raise changed(path, f"it is {kind}", field)


def changed(path: Path, why: str, field: str) -> InvalidInput:
    """Build the error for a file of a folder that is not as a sweep wrote it."""
    came = f"{quoted(path)} is not as a sweep wrote it ({cut(why)})"
    return invalid(field, str(path), came, "a folder that nothing else has written into is accepted")


def read_manifest(folder: Path, field: str) -> Layout:
    """Read what a folder holds.

    Raises
    ------
    InvalidInput
        When it is no folder of a sweep, of a later version, or was changed since; names the file.
    """
    path = folder / NAME
    if not regular(path, field):
        came = f"{quoted(folder)} is no folder of a sweep (there is no {NAME} in it)"
        raise invalid(field, str(folder), came, "one that libcook.sweep(to=...) wrote is accepted")
    try:
        if path.stat().st_size > _LARGEST_FILE:
            raise ValueError(f"{path.stat().st_size:,} bytes")
        content = json.loads(path.read_text(encoding="utf-8"))
        if not isinstance(content, Mapping) or content.get("format") != FORMAT:
            raise ValueError("another format")
        if content.get("version") != VERSION:
            came = f"{quoted(path)} is of version {quoted(content.get('version'))}"
            raise invalid(field, str(path), came, f"version {VERSION} is accepted")
        return _layout(content)
    except InvalidInput:
        raise
    except RecursionError:
        raise changed(path, "it is nested too deep", field) from None
    except (OSError, ValueError, LookupError, TypeError) as error:
        raise changed(path, str(error), field) from None


def _layout(content: Mapping[str, Any]) -> Layout:
    shape = _list(content, "shape", _is_count)
    if not shape or math.prod(shape) > LARGEST:
        raise ValueError(f"shape: {quoted(shape)}; up to {LARGEST:,} cooks are accepted")
    if not _is_count(content["chunk"]) or content["chunk"] > LARGEST:
        raise ValueError(f"chunk: {quoted(content['chunk'])}; a number of cooks is accepted")
    if not is_real(content["trace_every"]) or not 0.0 < content["trace_every"] < math.inf:
        raise ValueError(f"trace_every: {quoted(content['trace_every'])}; seconds are accepted")
    if not isinstance(content["is_grid"], bool) or not isinstance(content["plan"], str):
        raise ValueError("is_grid or plan is of another type")
    _list(content, "stages", _is_text)
    parts = content["parts"]
    if not isinstance(parts, Mapping) or not all(map(_is_text, (*parts, *parts.values()))):
        raise ValueError(f"parts: {quoted(parts)}")
    names: list[str] = []
    for name in ("parameters", "readings", "traces"):
        names += [_check_variable(name, one) for one in _list(content, name, _is_mapping)]
    if len(set(names)) < len(names):
        raise ValueError("two variables have one name")
    made = Layout.from_json(content)
    _check_axes(made)
    return made


def _list(content: Mapping[str, Any], name: str, is_right: Callable[[Any], bool]) -> list[Any]:
    found = content[name]
    if not isinstance(found, list) or not all(map(is_right, found)):
        raise ValueError(f"{name}: {quoted(found)}")
    return found


def _is_count(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and value >= 1


def _is_mapping(value: Any) -> bool:
    return isinstance(value, Mapping)


def _is_text(value: Any) -> bool:
    return isinstance(value, str)


def _check_variable(kind: str, given: Mapping[str, Any]) -> str:
    one = Variable(**given)
    texts = (given["name"], given["units"], given["long_name"])
    flags = (given.get("by_stage", False), given.get("is_text", False))
    values = given.get("values")
    if (
        not all(map(_is_text, texts))
        or not all(isinstance(flag, bool) for flag in flags)
        or not (values is None or isinstance(values, list))
    ):
        raise ValueError(f"{kind}: {quoted(dict(given))}")
    return one.name


def _check_axes(made: Layout) -> None:
    if not made.is_grid:
        if len(made.shape) != 1:
            raise ValueError(f"shape: {quoted(made.shape)}; one number of cooks is accepted")
        return
    lengths = []
    for one in made.parameters:
        values = one.values or []
        right = _is_text if one.is_text else is_real
        if not all(map(right, values)):
            raise ValueError(f"values of {quoted(one.name)}: {quoted(values)}")
        lengths.append(len(values))
    if tuple(lengths) != made.shape:
        raise ValueError(f"shape: {quoted(list(made.shape))} came for axes of {quoted(lengths)} values")
