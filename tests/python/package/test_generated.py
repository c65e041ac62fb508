"""What is made from the lists of fields stands in the repository, and the kinds are those of the units."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

from libcook import _core
from libcook.units import KINDS

ROOT = Path(__file__).resolve().parents[3]


def load() -> ModuleType:
    spec = importlib.util.spec_from_file_location("generate", ROOT / "python" / "bindings" / "generate.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


GENERATE = load()


@pytest.mark.parametrize("name", ["stub", "schema"])
def test_the_file_is_what_the_lists_make(name: str) -> None:
    made, path = getattr(GENERATE, name)(), getattr(GENERATE, name.upper())
    assert path.read_text(encoding="utf-8") == made, f"run python python/bindings/generate.py for {path.name}"


def test_a_kind_that_is_written_with_a_unit_is_one_of_the_units() -> None:
    for name, (unit, written) in _core.KINDS.items():
        if name == "clock":  # read by parse_clock
            continue
        assert written == (name in KINDS), name
        if written:
            assert unit == {"1": "-"}.get(KINDS[name].symbol, KINDS[name].symbol), name


def test_every_field_says_what_it_is_and_its_unit() -> None:
    assert len(_core.FIELDS) > 25
    for class_name, fields in _core.FIELDS.items():
        made = getattr(_core, class_name)
        assert tuple(fields) == made._fields
        for name, told in fields.items():
            assert len(told.words) > 3 and not told.words.endswith("."), f"{class_name}.{name}"
            text = getattr(made, name).__doc__
            assert told.unit in text, f"{class_name}.{name}"
