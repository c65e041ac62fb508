"""The C++ files live in rooms: who may include whom, how many share a folder, how long one may be."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

ROOT = next(up for up in Path(__file__).resolve().parents if (up / "DEVELOPERS.md").is_file())
# Rooms of the library from the ground up: each includes only what stands before it. `.` is what all use.
# Two rooms of the engine know nothing of meat or plans and lie below: a water pan is a face that dries too.
# What a field is stands where all can read it, the lists beside their structs; rows of the table of defaults
# name what is in every room, so they stand last.
LIBRARY = """
    .  engine/arithmetic engine/faces
    fields  meat  cooker  plan  json
    engine/linear engine/cells engine/air engine/grids engine/equations engine/time engine/stages engine/runs
    engine/packs engine
    readings
    fit fit/belief fit/calibrate fit/forecast fit/start_time
    fields/rows
""".split()
BINDINGS = "calls records . meat cooker plan json fields engine readings fit".split()
MOST_FILES = 20
MOST_LINES = 400

INCLUDE = re.compile(r'^\s*#\s*include\s*["<]([^">]+)[">]', re.M)
TREES = ["libcook/include", "libcook/src", "python/bindings", "tests/cpp"]


def sources(tree: str) -> list[Path]:
    return sorted(p for p in (ROOT / tree).rglob("*") if p.suffix in (".hpp", ".cpp"))


def included(file: Path) -> set[Path]:
    """Our own files that a file includes."""
    text = file.read_text(encoding="utf-8")
    places = [file.parent, *(ROOT / tree for tree in TREES)]
    found = set()
    for name in INCLUDE.findall(text):
        found.update([p for p in ((place / name).resolve() for place in places) if p.is_file()][:1])
    return found


FILES = [file for tree in TREES for file in sources(tree)]
GRAPH = {file: included(file) for file in FILES}


def room(file: Path) -> tuple[str, str] | None:
    """Whose room, and which: public and private headers of one name share it."""
    for house, tree in [
        ("library", "libcook/include/cook"),
        ("library", "libcook/src"),
        ("bindings", "python/bindings"),
    ]:
        if file.is_relative_to(ROOT / tree):
            return house, file.parent.relative_to(ROOT / tree).as_posix()
    return None


def short(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def test_the_graph_is_read():
    assert len(FILES) > 300
    assert sum(len(of) for of in GRAPH.values()) > 900
    simulate = ROOT / "libcook/src/engine/simulate.cpp"
    assert ROOT / "libcook/include/cook/engine/simulate.hpp" in GRAPH[simulate]


def circle(graph: dict) -> list:
    """One closed walk through a graph; empty when there is none."""
    done: set = set()
    for start in graph:
        walk = [] if start in done else [start]
        ahead = [iter(sorted(graph[node])) for node in walk]
        while walk:
            step = next(ahead[-1], None)
            if step is None:
                done.add(walk.pop())
                ahead.pop()
            elif step in walk:
                return [*walk[walk.index(step) :], step]
            elif step not in done:
                walk.append(step)
                ahead.append(iter(sorted(graph.get(step, ()))))
    return []


def test_circles_are_found():
    assert circle({1: {2}, 2: {3}, 3: {4, 2}, 4: set()}) == [2, 3, 2]
    assert circle({1: {2, 3}, 2: {3}, 3: set()}) == []


def test_no_files_include_each_other():
    assert [short(file) for file in circle(GRAPH)] == []


@pytest.mark.parametrize("house, order", [("library", LIBRARY), ("bindings", BINDINGS)])
def test_rooms_include_downwards(house, order):
    rooms = {where[1] for file in FILES if (where := room(file)) and where[0] == house}
    assert rooms == set(order)
    upwards = [
        f"{short(file)} includes {short(other)}"
        for file, others in GRAPH.items()
        for other in sorted(others)
        if (here := room(file))
        and (there := room(other))
        and here[0] == there[0] == house
        and order.index(there[1]) > order.index(here[1])
    ]
    assert upwards == []


def test_the_library_knows_neither_its_bindings_nor_its_tests():
    leaks = [
        f"{short(file)} includes {short(other)}"
        for file in sources("libcook")
        for other in GRAPH[file]
        if not other.is_relative_to(ROOT / "libcook")
    ]
    assert leaks == []


def test_public_headers_include_public_ones_only():
    public = ROOT / "libcook/include"
    leaks = [short(f) for f in sources("libcook/include") for o in GRAPH[f] if not o.is_relative_to(public)]
    assert leaks == []


def test_folders_are_small():
    count = Counter(file.parent for tree in TREES for file in (ROOT / tree).rglob("*") if file.is_file())
    assert {short(folder): n for folder, n in count.items() if n > MOST_FILES} == {}


def test_files_are_short():
    lines = {short(file): len(file.read_text(encoding="utf-8").splitlines()) for file in FILES}
    assert {file: n for file, n in lines.items() if n > MOST_LINES} == {}


def test_the_map_for_developers_names_every_room():
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    the_map = text[text.index("\n## Map") : text.index("\n## The engine")]
    named = set(re.findall(r"(\w+)/", the_map))
    assert {name.split("/")[-1] for name in LIBRARY + BINDINGS if name != "."} <= named


def test_paths_in_the_documents_for_developers_exist():
    for document in ["DEVELOPERS.md", "validation/ROBUSTNESS.md", "validation/COVERAGE.md"]:
        file = ROOT / document
        text = file.read_text(encoding="utf-8")
        gone = [link for link in re.findall(r"\]\(([^)#:]+)\)", text) if not (file.parent / link).exists()]
        gone += [
            f"libcook/{path}"
            for path in re.findall(r"^\| `((?:src|include)/[^`]+)`", text, re.M)
            if not (ROOT / "libcook" / path).exists()
        ]
        assert gone == [], document
