"""Files read and written whole.

A file appears under its name only when all of it is on the disk: it is written beside it first, under a
passing name, and then put in its place in one step. A full disk, a crash or a Ctrl-C leaves what was there
before.
"""

from __future__ import annotations

import os
import secrets
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, Any

from libcook.arguments.quote import cut, quoted
from libcook.errors import invalid

_PASSING = (".", ".tmp")  # how passing names begin and end


def is_left_over(path: Path) -> bool:
    """Tell whether a file is one that a killed process was still writing."""
    return path.name.startswith(_PASSING[0]) and path.name.endswith(_PASSING[1])


@contextmanager
def passing_file(target: Path) -> Iterator[Path]:
    """Give the name of a file beside `target`, which takes its place at the end, whole or not at all.

    Missing folders are made. Where something goes wrong, what was written is deleted, and `target` is what it
    was. A device or a pipe cannot be put in place: it is written to.
    """
    target.parent.mkdir(parents=True, exist_ok=True)
    place = target.resolve() if target.is_symlink() else target
    if place.exists() and not place.is_file():
        yield place
        return
    name = f"{place.name[:100]}.{os.getpid()}.{secrets.token_hex(4)}"
    passing = place.with_name(_PASSING[0] + name + _PASSING[1])
    try:
        yield passing
        _to_disk(passing)
        if place.exists():
            shutil.copymode(place, passing)
        os.replace(passing, place)
    finally:
        passing.unlink(missing_ok=True)


@contextmanager
def whole_file(target: Path) -> Iterator[IO[bytes]]:
    """Open `target` for writing, as `passing_file` does."""
    with passing_file(target) as passing, open(passing, "wb") as file:
        yield file


def write_whole(target: Path, content: Any) -> None:
    """Write bytes, or what counts as such, as `passing_file` does."""
    with whole_file(target) as file:
        file.write(content)


def _to_disk(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def read_text(path: Path, field: str) -> str:
    """Read a text file.

    Raises
    ------
    InvalidInput
        When there is none, or it is no text in UTF-8; names the field.
    """
    if not path.is_file():
        came = f"there is no file {quoted(path)}" + ("" if path.is_absolute() else f" in {Path.cwd()}")
        raise invalid(field, path, came, "the path of a file is accepted")
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        came = f"{quoted(path)} cannot be read ({cut(str(error))})"
        raise invalid(field, path, came, "a file of text in UTF-8 is accepted") from None
