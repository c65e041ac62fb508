"""Builds libcook's wheel with scikit-build-core, and keeps it: the same sources are never compiled twice.

pip asks for a wheel anew for each set of extras (`'.[plots]'`, then `'.[notebook]'`), in a fresh environment
whose paths differ, so a kept CMake folder would compile everything again. The finished wheel is kept instead,
in build/kept, under the hash of all that it is made from.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import subprocess
import sys
import sysconfig
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from scikit_build_core import build as _maker
from scikit_build_core.build import (
    build_editable,
    build_sdist,
    get_requires_for_build_editable,
    get_requires_for_build_sdist,
    get_requires_for_build_wheel,
    prepare_metadata_for_build_editable,
    prepare_metadata_for_build_wheel,
)

__all__ = [
    "build_editable",
    "build_sdist",
    "build_wheel",
    "get_requires_for_build_editable",
    "get_requires_for_build_sdist",
    "get_requires_for_build_wheel",
    "prepare_metadata_for_build_editable",
    "prepare_metadata_for_build_wheel",
]

_SOURCES = (
    "CMakeLists.txt",
    "README.md",
    "pyproject.toml",
    "libcook",
    "python/backend",
    "python/bindings",
    "python/libcook",
)
_VARIABLES = (
    "CC",
    "CXX",
    "CFLAGS",
    "CXXFLAGS",
    "CPPFLAGS",
    "LDFLAGS",
    "ARCHFLAGS",
    "MACOSX_DEPLOYMENT_TARGET",
)
_PREFIXES = ("CMAKE_", "COOK_", "SKBUILD")
# How many run side by side, and through which cache, changes no wheel.
_INDIFFERENT = {"CMAKE_BUILD_PARALLEL_LEVEL", "CMAKE_CXX_COMPILER_LAUNCHER", "COOK_JOBS"}
_WHEELS_KEPT = 4  # several interpreters, or settings, taken in turn


def build_wheel(
    wheel_directory: str,
    config_settings: Mapping[str, Any] | None = None,
    metadata_directory: str | None = None,
) -> str:
    """Hand over the kept wheel of these sources, or build it (PEP 517)."""
    kept = Path("build", "kept")
    place = kept / digest(Path(), config_settings)
    for wheel in place.glob("*.whl"):
        print(f"libcook: these sources were compiled before, the wheel is {wheel}")
        os.utime(place)
        shutil.copy2(wheel, wheel_directory)
        return wheel.name
    name: str = _maker.build_wheel(wheel_directory, config_settings, metadata_directory)
    try:
        keep(Path(wheel_directory, name), place)
    except OSError as problem:  # a read-only tree or a full disk: the wheel itself is there
        print(f"libcook: the wheel is not kept for the next time: {problem}")
    return name


def keep(wheel: Path, place: Path) -> None:
    """Copy a wheel to its place in one move, and drop the oldest ones."""
    place.parent.mkdir(parents=True, exist_ok=True)
    unfinished = place.with_name(f"{place.name}.{os.getpid()}")
    unfinished.mkdir()
    shutil.copy2(wheel, unfinished)
    shutil.rmtree(place, ignore_errors=True)
    unfinished.rename(place)
    by_age = sorted(place.parent.iterdir(), key=lambda one: one.stat().st_mtime, reverse=True)
    for old in by_age[_WHEELS_KEPT:]:
        shutil.rmtree(old, ignore_errors=True)


def digest(root: Path, config_settings: Mapping[str, Any] | None) -> str:
    """Hash of everything that decides what a wheel holds: sources, compiler, interpreter, settings."""
    parts = hashlib.sha256()
    for file in _files(root):
        parts.update(f"{file.relative_to(root).as_posix()}\n".encode())
        parts.update(hashlib.sha256(file.read_bytes()).digest())
    variables = {
        name: value
        for name, value in os.environ.items()
        if (name in _VARIABLES or name.startswith(_PREFIXES)) and name not in _INDIFFERENT
    }
    surroundings = [
        sys.version,
        sysconfig.get_platform(),
        _compiler(),
        dict(sorted(variables.items())),
        dict(sorted((config_settings or {}).items())),
    ]
    parts.update(json.dumps(surroundings, default=str).encode())
    return parts.hexdigest()[:24]


def _files(root: Path) -> Iterator[Path]:
    for source in _SOURCES:
        path = root / source
        found = sorted(path.rglob("*")) if path.is_dir() else [path]
        yield from (file for file in found if file.is_file() and "__pycache__" not in file.parts)


def _compiler() -> str:
    """First line of what the compiler says of itself; empty where there is none to ask."""
    try:
        told = subprocess.run(
            [os.environ.get("CXX", "c++"), "--version"], capture_output=True, text=True, check=True
        )
    except (OSError, subprocess.SubprocessError):
        return ""
    return told.stdout.partition("\n")[0]
