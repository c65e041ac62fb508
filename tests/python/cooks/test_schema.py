"""The published schema of plans, judged by an independent implementation of JSON Schema.

The same files are read by the library in tests/cpp/json/test_json_errors.cpp: what the schema refuses the
library refuses, and what is good is good to both. Files in bad_meaning are well built, but no plan: only the
library can tell.
"""

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

ROOT = Path(__file__).parents[3]
PLANS = Path(__file__).parents[1] / "data" / "plans"
SCHEMA = json.loads((ROOT / "libcook" / "schema" / "plan.schema.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


def files(folder: str) -> list[Path]:
    found = sorted((PLANS / folder).glob("*.json"))
    assert found, f"no plans in {folder}"
    return found


def refuse_constant(word: str) -> None:
    raise ValueError(f"{word} is not JSON")


def refuse_repeats(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    if len(dict(pairs)) != len(pairs):
        raise ValueError("a key is given twice")
    return dict(pairs)


def finite(text: str) -> float:
    number = float(text)
    if number in (float("inf"), float("-inf")):
        raise ValueError(f"{text} is not finite")
    return number


def read(path: Path) -> Any:
    """Reads strictly, as RFC 8259 wants it; Python by itself lets some slips pass."""
    return json.loads(
        path.read_bytes().decode("utf-8"),
        parse_constant=refuse_constant,
        parse_float=finite,
        object_pairs_hook=refuse_repeats,
    )


def test_schema_is_a_schema() -> None:
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_every_reference_leads_somewhere_and_every_definition_is_used() -> None:
    references: set[str] = set()

    def walk(node: Any) -> None:
        if isinstance(node, dict):
            if isinstance(node.get("$ref"), str):
                references.add(node["$ref"])
            for value in node.values():
                walk(value)
        elif isinstance(node, list):
            for value in node:
                walk(value)

    walk(SCHEMA)
    assert references == {f"#/$defs/{name}" for name in SCHEMA["$defs"]}


def test_every_object_is_closed() -> None:
    """So that the schema finds misspelt keys everywhere, as the library does."""

    def walk(node: Any) -> None:
        if isinstance(node, dict):
            if node.get("type") == "object":
                assert node["additionalProperties"] is False, node
            for value in node.values():
                walk(value)
        elif isinstance(node, list):
            for value in node:
                walk(value)

    walk(SCHEMA)


@pytest.mark.parametrize("path", files("good"), ids=lambda path: path.stem)
def test_good(path: Path) -> None:
    VALIDATOR.validate(read(path))


@pytest.mark.parametrize("path", files("bad_meaning"), ids=lambda path: path.stem)
def test_well_built_but_meaningless(path: Path) -> None:
    VALIDATOR.validate(read(path))


@pytest.mark.parametrize("path", files("bad_structure"), ids=lambda path: path.stem)
def test_bad_structure(path: Path) -> None:
    assert not VALIDATOR.is_valid(read(path))


@pytest.mark.parametrize("path", files("bad_text"), ids=lambda path: path.stem)
def test_bad_text(path: Path) -> None:
    with pytest.raises(ValueError):
        read(path)


def test_all_files_are_sorted_into_these_folders() -> None:
    sorted_files = {
        path for name in ("good", "bad_text", "bad_structure", "bad_meaning") for path in files(name)
    }
    assert sorted_files == set(PLANS.rglob("*.json"))
