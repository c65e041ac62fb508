"""What a parameter of a plan is called and measured in, from what is told of the fields."""

from __future__ import annotations

import re
from collections.abc import Sequence

from libcook import _core

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
            _, unit, words = _core.END_KINDS[next(iter(ends))]
            units = _UNITS.get(unit.split()[0], unit.split()[0])
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
