"""The other worlds: the same by seed, possible, stalling, as long as measured cooks, free of the library."""

from __future__ import annotations

import ast
import sys
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from worlds import WORLDS, Cook, field, tune

HERE = Path(__file__).resolve().parent / "worlds"
COUNT = 80
WITH_PHYSICS = [name for name in WORLDS if name != "traces"]
# K that a core may fall back: sagging pits cool a wet face; probes are moved by up to 5 K, twice.
FALL = {"mobility": 8.0, "lumped": 8.0, "brick": 10.0, "traces": 3.0, "wandering": 14.0}
# K that a core may fall back: sagging pits cool a wet face; probes are moved by up to 5 K, twice.
FALL = {"mobility": 8.0, "lumped": 8.0, "brick": 10.0, "traces": 3.0, "wandering": 14.0}


@cache
def cooks(name: str) -> tuple[Cook, ...]:
    return tuple(WORLDS[name](seed) for seed in range(COUNT))


def climb(cook: Cook) -> np.ndarray:
    """The readings with their noise and dips taken out: medians of five, never falling."""
    core = np.lib.stride_tricks.sliding_window_view(np.pad(cook.core_C, 2, mode="edge"), 5)
    return np.maximum.accumulate(np.median(core, axis=1))


def hours_between(cook: Cook, low: float, high: float) -> float:
    at = np.interp([low, high], climb(cook) + 1e-6 * np.arange(cook.core_C.size), cook.core_time)
    return float(at[1] - at[0]) / 3600.0


def imported(file: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {one.name.split(".")[0] for one in node.names}
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            found.add((node.module or "").split(".")[0])
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 1, f"{file.name} reaches out of its package"
    return found


def test_nothing_of_the_library_is_used():
    names = set().union(*(imported(file) for file in HERE.glob("*.py")))
    assert {"numpy", "scipy"} <= names
    assert names - set(sys.stdlib_module_names) == {"numpy", "scipy"}
    for file in HERE.glob("*.py"):
        assert "import_module" not in file.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", WORLDS)
def test_a_seed_is_one_cook(name):
    first, again, other = WORLDS[name](7), WORLDS[name](7), WORLDS[name](8)
    for part in vars(first):
        assert np.array_equal(getattr(first, part), getattr(again, part)), part
    assert first.done != other.done or first.mass_kg != other.mass_kg


@pytest.mark.parametrize("name", WORLDS)
def test_cooks_are_possible(name):
    for cook in cooks(name):
        assert 0.0 < cook.done <= cook.core_time[-1] + 1200.0
        assert cook.core_time[-1] >= cook.done and cook.pit_time[-1] >= cook.done
        assert (np.diff(cook.core_time) > 0.0).all() and np.isfinite(cook.core_C).all()
        assert np.isfinite(cook.pit_C).all()
        assert cook.core_C.max() <= cook.pit_C.max() + 15.0
        assert (climb(cook) - cook.core_C).max() < FALL[name]
        assert climb(cook)[cook.core_time < cook.done - 1800.0].max() < cook.target_C + 3.0
        late = cook.core_C[(cook.core_time >= cook.done) & (cook.core_time <= cook.done + 900.0)]
        assert abs(late.mean() - cook.target_C) < 6.0  # foil climbs fast; a probe may be moved just then
        assert cook.cut in field.CUTS and all(0.0 < wrap.at <= cook.done for wrap in cook.wraps)
        assert np.diff(cook.core_time).max() < 3.5 * 3600.0  # gaps may run into each other


@pytest.mark.parametrize("name", WORLDS)
def test_wraps_and_cuts_are_mixed(name):
    kinds = [cook.wraps[0].kind if cook.wraps else "" for cook in cooks(name)]
    assert 0.4 < kinds.count("") / COUNT < 0.8
    assert {"", "foil", "butcher paper"} == set(kinds)
    assert 0.3 < sum(cook.cut == "pork" for cook in cooks(name)) / COUNT < 0.7


@pytest.mark.parametrize("name", WITH_PHYSICS)
def test_bare_cooks_stall(name):
    """Some ten degrees between 60 and 82 °C take at least twice as long as ten of the climb before."""
    bare = [cook for cook in cooks(name) if not cook.wraps]
    slow = [max(hours_between(cook, low, low + 10.0) for low in np.arange(60.0, 73.0, 2.0)) for cook in bare]
    climbs = [0.5 * hours_between(cook, 25.0, 45.0) for cook in bare]
    assert np.mean(np.array(slow) > 2.0 * np.array(climbs)) > 0.7


@pytest.mark.parametrize("name", WORLDS)
def test_as_long_and_as_scattered_as_measured_cooks(name):
    """A median of 80 is known to 0.035, a robust scatter of 0.25 to 0.03."""
    off = tune.slowness(cooks(name))
    assert abs(np.median(off)) < 0.12
    assert 0.17 < field.robust(off) < 0.34
    assert 0.18 < off.std() < 0.40


def test_the_yardstick_is_the_field_cooks():
    pace = field.pace()
    assert min(pace.count.values()) > 25
    assert all(0.2 < one < 0.4 for one in pace.scatter.values())
    bare = pace.hours("brisket", 4.0, 115.0, 93.0, 0.0, 0.0)
    assert 9.0 < bare < 15.0
    assert (
        pace.hours("brisket", 4.0, 130.0, 93.0, 0.0, 0.0)
        < bare
        < pace.hours("brisket", 6.0, 115.0, 93.0, 0.0, 0.0)
    )
    assert pace.hours("brisket", 4.0, 115.0, 93.0, 0.4, 0.0) < bare
