"""What a parameter of a plan is called and measured in, read from the plan's JSON Schema."""

from __future__ import annotations

import functools
import json
import re
from collections.abc import Sequence
from typing import Any

from libcook import _core

# end condition: kind of quantity, units for an axis, what it is called there
END_KINDS = {
    "core": "temperature", "cooled": "temperature", "elapsed": "duration", "clock": "clock",
    "bark": "dimensionless", "tender": "dimensionless",
}  # fmt: skip
END_UNITS = {
    "core": ("degC", "core temperature that ends it"),
    "cooled": ("degC", "core temperature, cooling, that ends it"),
    "elapsed": ("s", "how long it lasts"),
    "clock": ("s", "time of day that ends it, after midnight"),
    "bark": ("1", "index of the bark that ends it"),
    "tender": ("1", "share of collagen converted at the core that ends it"),
}
# the schema's way of writing units: that of data sets, which other software reads
_UNITS = {
    "°C": "degC", "-": "1", "W/m²K": "W/(m2 K)", "m²K/W": "m2 K/W", "W/mK": "W/(m K)", "J/m³K": "J/(m3 K)",
    "kg/kg dry": "kg/kg", "J per kg fat": "J/kg", "J per kg protein": "J/kg",
}  # fmt: skip
_SHORTCUTS: dict[tuple[str, ...], tuple[str, str]] = {
    ("meat", "thickness"): ("m", "thickness of the piece, its mass kept"),
    ("meat", "mass"): ("kg", "raw mass of a piece of the same proportions"),
}


@functools.cache
def _schema() -> dict[str, Any]:
    content: dict[str, Any] = json.loads(_core.plan_schema())
    return content


def described(steps: Sequence[str | int], path: str, ends: set[str]) -> tuple[str, str]:
    """Return units and a long name for what the steps lead to.

    Parameters
    ----------
    steps : sequence of str or int
        From the plan to the attribute.
    path : str
        As the user wrote it; part of the long name.
    ends : set of str
        Kinds of the end conditions among the values.
    """
    known = _SHORTCUTS.get(tuple(map(str, steps)))
    if known is not None:
        return known
    if "until" in steps:
        if len(ends) == 1:
            units, words = END_UNITS[next(iter(ends))]
            return units, f"{path}: {words}"
        return "", f"{path}: what ends it"
    text = _description(steps)
    words, _, unit = text.partition(" [") if not text.startswith("[") else ("", "", text[1:])
    unit = re.split(r"[\]]", unit)[0]
    plain = _UNITS.get(unit, unit.replace("²", "2").replace("³", "3"))
    return plain, f"{path}: {words}" if words else path


def _description(steps: Sequence[str | int]) -> str:
    node: dict[str, Any] = _schema()
    for step in steps:
        if isinstance(step, int):
            continue
        name = "clock_start" if step == "start" and node is _schema() else step
        found = next((one["properties"][name] for one in _objects(node) if name in one["properties"]), None)
        if found is None:
            return ""
        node = found
    return str(node.get("description", ""))


def _objects(node: dict[str, Any]) -> list[dict[str, Any]]:
    """List the object schemas that a node allows, those in full first."""
    if "$ref" in node:
        return _objects(_schema()["$defs"][node["$ref"].rsplit("/", 1)[1]])
    if "properties" in node:
        return [node]
    if "items" in node:
        return _objects(node["items"])
    parts = [one for part in node.get("anyOf", []) for one in _objects(part)]
    return sorted(parts, key=lambda one: "cut" in one["properties"])
