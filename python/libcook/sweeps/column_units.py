"""What a parameter of a plan is called and measured in, from what is told of the fields."""

from __future__ import annotations

import re
from collections.abc import Sequence

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
# units as data sets write them, which other software reads
_UNITS = {"°C": "degC", "-": "1"}
_PLAIN = str.maketrans({"²": "2", "³": "3", "·": " "})
_SHORTCUTS: dict[tuple[str, ...], tuple[str, str]] = {
    ("meat", "thickness"): ("m", "thickness of the piece, its mass kept"),
    ("meat", "mass"): ("kg", "raw mass of a piece of the same proportions"),
}


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
    told = _told(steps)
    if told is None:
        return "", path
    return _UNITS.get(told.unit) or told.unit.translate(_PLAIN), f"{path}: {told.words}"


def _told(steps: Sequence[str | int]) -> _core.FieldTold | None:
    """Return what is told of the field that the steps lead to."""
    told, fields = None, _core.FIELDS["Plan"]
    for step in steps:
        if isinstance(step, int):
            continue
        told = fields.get(step)
        if told is None:
            return None
        inside = re.findall(r"\w+", told.gives)
        fields = next((_core.FIELDS[name] for name in inside if name in _core.FIELDS), {})
    return told
