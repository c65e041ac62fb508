"""Every default stands in one table, and the docstring of what carries it leads there."""

from __future__ import annotations

import inspect
import re
from pathlib import Path

import pytest

import libcook as lc

NAMES = [row.name for row in lc.parameters()]
PAGE = Path(__file__).resolve().parents[3] / "validation" / "PARAMETERS.md"

# Defaults that no attribute carries: set by a function, or inside the readings and the engine.
BY_FUNCTION = {
    "pit": lc.pit,
    "oven": lc.oven,
    "counter": lc.counter,
    "holding_oven": lc.holding_oven,
    "insulated_box": lc.insulated_box,
    "wrap": lc.wrap,
    "brisket": lc.brisket,
    "pork_shoulder": lc.pork_shoulder,
    "brisket_section": lc.brisket_section,
    "chamber": lc.pit_air,
    "fuel": lc.pit_air,
    "water_pan": lc.pit_air,
    "free": lc.prior,
    "fit": lc.calibrate,
    "slab_model_error": lc.calibrate,
    "pit_outlook": lc.forecast,
    "schedule": lc.start_by,
    "safety": lc.Outcome.safety,
    "stall": lc.Outcome.stall,
}
INSIDE = {
    "browning",
    "collagen_denaturation",
    "engine",
    "lethality",
    "loss",
    "myoglobin_denaturation",
    "opened_lid",
}


def linked() -> dict[str, str]:
    """Rows that an attribute's docstring names, with that attribute."""
    found = {}
    for class_name, cls in inspect.getmembers(lc._core, inspect.isclass):
        for field in getattr(cls, "_fields", ()):
            text = getattr(cls, field).__doc__ or ""
            for name in re.findall(r'libcook\.parameter\("([^"]+)"\)', text):
                found[name] = f"{class_name}.{field}"
    return found


LINKED = linked()


def test_a_docstring_names_a_row_of_its_own_field() -> None:
    assert len(LINKED) > 40
    for name, attribute in LINKED.items():
        assert name in NAMES
        assert name.rpartition(".")[2] == attribute.rpartition(".")[2]
    assert LINKED["tissue.mobility.expressed"] == "WaterMobility.expressed"
    assert 'libcook.parameter("shape.thickness")' in (lc.Shape.__doc__ or "")  # shown by help()


@pytest.mark.parametrize("name", NAMES)
def test_every_default_is_reached_from_a_docstring(name: str) -> None:
    head = name.partition(".")[0]
    if name in LINKED or head in INSIDE:
        return
    made_by = BY_FUNCTION[head]  # a new group of defaults must be put in one of the two lists
    assert "libcook.parameters()" in (made_by.__doc__ or "") and f"``{head}.*``" in (made_by.__doc__ or "")


def test_the_page_shows_every_default_as_the_library_has_it() -> None:
    lines = PAGE.read_text(encoding="utf-8").splitlines()
    rows = [line.split(" | ") for line in lines if line.startswith("| `")]
    assert [row[0].strip("| `") for row in rows] == NAMES
    for row, default in zip(rows, lc.parameters(), strict=True):
        assert float(row[1]) == pytest.approx(default.value, rel=1e-4, abs=0.0), default.name
        assert row[2] == default.unit
        assert row[4] == default.kind
