"""RESULTS.md: what the stored bricks say, in tables. Every number is read from brick/results."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

HOUR = 3600.0


def compact(value: Any, indent: str = "") -> str:
    """JSON with lists of numbers and small tables on one line."""
    flat = json.dumps(value)
    if not isinstance(value, (dict, list)) or len(indent + flat) <= 110:
        return flat + ("" if indent else "\n")
    if isinstance(value, list) and not isinstance(value[0], (dict, list)):
        return flat
    deeper = indent + " "
    if isinstance(value, dict):
        inside = [f"{deeper}{json.dumps(k)}: {compact(v, deeper)}" for k, v in value.items()]
        return "{\n" + ",\n".join(inside) + f"\n{indent}}}" + ("" if indent else "\n")
    return "[\n" + ",\n".join(deeper + compact(v, deeper) for v in value) + f"\n{indent}]"


def table(head: list[str], rows: list[list[str]]) -> list[str]:
    rule = ["---", *["--:"] * (len(head) - 1)]
    return ["| " + " | ".join(row) + " |" for row in (head, rule, *rows)] + [""]


def finish(results: dict[str, Any]) -> list[str]:
    rows = []
    for name, r in results.items():
        mm = " x ".join(f"{1e3 * r['size'][k]:.0f}" for k in ("length", "width", "thickness"))
        for end, slab in zip(r["stages"], r["slab"]["stages"], strict=True):
            ours, theirs = end["end"] / HOUR, slab["end"] / HOUR
            change = f"{100.0 * (ours / theirs - 1.0):+.1f} %"
            rows.append([f"{name}, {end['name']}", mm, f"{ours:.2f}", f"{theirs:.2f}", change])
    return table(["plan, stage", "mm", "brick ends [h]", "slab ends [h]", "brick against slab"], rows)


def loss(results: dict[str, Any]) -> list[str]:
    rows = []
    for name, r in results.items():
        ledger = r["ledger"]
        lost = 1.0 - ledger["water_end"] / ledger["water_start"]
        rows.append([name, f"{100.0 * lost:.1f}", f"{100.0 * r['slab']['water_lost']:.1f}"])
    return table(["plan", "brick, % of its water", "slab"], rows)


def per_area(results: dict[str, Any]) -> list[str]:
    parts = ("bottom", "top", "long sides", "ends")
    rows = []
    for name, r in results.items():
        start = {part: 0.0 for part in parts}
        for end in r["stages"]:
            found = end["by_place"]["per area"]
            now = {part: found[part]["all"]["evaporated"] for part in parts}
            rows.append([f"{name}, {end['name']}", *(f"{now[p] - start[p]:.2f}" for p in parts)])
            start = now
    return table(["plan, stage", *parts], rows)


def edges(results: dict[str, Any]) -> list[str]:
    rows = []
    for name, r in results.items():
        found = r["stages"][-1]["by_place"]["per area"]
        for part, places in (
            ("top", ("middle", "edges", "corners")),
            ("bottom", ("middle", "edges", "corners")),
            ("long sides", ("middle", "lower edge", "upper edge", "upright edges", "corners")),
        ):
            told = [f"{place} {found[part][place]['evaporated']:.2f}" for place in places]
            rows.append([name, part, ", ".join(told)])
    return table(["plan", "part", "evaporated until the end"], rows)


def balances(results: dict[str, Any]) -> list[str]:
    rows = []
    for name, r in results.items():
        ledger = r["ledger"]
        rows.append([
            name,
            f"{ledger['water_start']:.3f}", f"{ledger['evaporated']:.3f}", f"{ledger['run_off']:.3f}",
            f"{ledger['water_residual'] / ledger['water_start']:.0e}",
            f"{ledger['heat_residual'] / ledger['heat_from_air']:.0e}",
        ])  # fmt: skip
    head = ["plan", "water at the start [kg]", "evaporated [kg]", "run off [kg]"]
    return table([*head, "water unexplained", "heat unexplained"], rows)


def refinement(path: Path) -> list[str]:
    found = json.loads(path.read_text())
    rows = []
    for name, runs in found.items():
        kept = runs["as kept"]
        for words, run in runs.items():
            ends = ", ".join(f"{end / HOUR:.2f}" for end in run["ends"])
            off = ", ".join(
                f"{100.0 * (a / b - 1.0):+.2f} %" for a, b in zip(run["ends"], kept["ends"], strict=True)
            )
            rows.append([name, words, ends, off, f"{run['evaporated']:.3f}"])
    return table(["plan", "run", "stages end [h]", "against what is kept", "evaporated [kg]"], rows)


def write(folder: Path) -> None:
    names = sorted(p for p in folder.glob("*.json") if p.stem != "refinement")
    results = {path.stem: json.loads(path.read_text()) for path in names}
    lines = [
        "# Bricks in three dimensions", "",
        "Written by `python -m brick` in `validation`; nothing here is typed in. What is solved and how: the",
        "docstrings of `validation/brick`. Plans and sizes: `brick/plans.py`.", "",
        "## When it is done", "", *finish(results),
        "The slab is libcook's at the time, of the brick's thickness, with no sides.", "",
        "## Water lost until the end", "",
        "Liquid that stays in a wrap is not lost.", "",
        *loss(results),
        "## Evaporated per area in each stage [kg/m²]", "", *per_area(results),
        "## Edges and corners", "",
        "Per area [kg/m²]; an edge is nearer than 10 mm to it, a corner to two.", "", *edges(results),
        "## Balances", "", *balances(results),
    ]  # fmt: skip
    if (folder / "refinement.json").exists():
        lines += ["## Other grids and steps", "", *refinement(folder / "refinement.json")]
    (folder.parent / "RESULTS.md").write_text("\n".join(lines).rstrip() + "\n")
