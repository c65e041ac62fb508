"""How sure a cook's numbers are: the same plan again with meat and pit a little different.

What is varied, and how far: the rows of the table of parameters in `ROWS`, between their ``low`` and
``high``, where the plan holds their default; what differs from the default counts as known. Besides, what a
cook measures: thickness, and the temperature of the air. Below and above the plan's value lie half of the
draws each, in two right-angled triangles with their peak there, in the logarithm where a row spans several-
fold. The draws of one quantity are one in each slice of equal probability (Latin hypercube: M. D. McKay, R.
J. Beckman and W. J. Conover, Technometrics 21 (1979) 239-245, from memory), with a fixed seed, so that the
same plan gives the same words.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from libcook import _core
from libcook.errors import InvalidInput, SolverFailure

SEED = 20
THICKNESS = 0.08  # share, assumed: soft meat under a ruler, and an even piece that stands for an uneven one
AIR = 3.0  # K, assumed: a cooker's thermometer, and where it hangs
ROWS = (  # name in the table, whether it is drawn in the logarithm
    ("tissue.holding.final_share", False),
    ("tissue.holding.midpoint", False),
    ("tissue.mobility.expressed", True),
    ("tissue.mobility.held", True),
    ("tissue.emissivity", False),
    ("fat_cap.vapour_resistivity", True),
)
_PLACES = len(ROWS) + 4  # and humidity, tightness of the wrap, thickness, air


def drawn(share: float, low: float, peak: float, high: float) -> float:
    """Value that the distribution of a quantity stays below with a probability of `share`."""
    low, high = min(low, peak), max(high, peak)
    if share < 0.5:
        return low + (peak - low) * math.sqrt(2.0 * share)
    return high - (high - peak) * math.sqrt(2.0 * (1.0 - share))


def variants(plan: Any, count: int) -> list[Any]:
    """Return copies of a plan, each with meat and pit a little different.

    Parameters
    ----------
    plan : Plan
        The cook as it is thought to be.
    count : int
        How many copies.

    Returns
    -------
    list of Plan
        None in place of one that can be told beforehand not to get to its end, as its pit is too cool.
    """
    generator = np.random.default_rng(SEED)
    shares = np.column_stack([(generator.permutation(count) + 0.5) / count for _ in range(_PLACES)])
    return [_variant(plan, list(row)) for row in shares]


def outcomes(plan: Any, count: int, run: Callable[[Any], Any]) -> list[Any]:
    """Simulate the variants; None where one does not finish."""
    done = []
    for each in variants(plan, count):
        try:
            done.append(None if each is None else run(each))
        except SolverFailure:
            done.append(None)
    return done


def middle(values: Sequence[float]) -> tuple[float, float] | None:
    """Return what eight of ten lie between, None for fewer than five values."""
    if len(values) < 5:
        return None
    low, high = np.quantile(np.asarray(values, dtype=float), (0.1, 0.9))
    return float(low), float(high)


def _variant(plan: Any, shares: list[float]) -> Any:
    humid, tight, thick, warm = shares[len(ROWS) :]
    stages = [
        stage.replace(
            surroundings=_surroundings(stage.surroundings, humid, warm), wrap=_wrap(stage.wrap, tight)
        )
        for stage in plan.stages
    ]
    try:
        return plan.replace(meat=_meat(plan.meat, shares[: len(ROWS)], thick), stages=stages)
    except InvalidInput as refusal:
        if not refusal.field.startswith("meat"):
            return None
    try:  # at the edge of what is accepted meat cannot be a little different
        return plan.replace(stages=stages)
    except InvalidInput:
        return None


def _meat(meat: Any, shares: Sequence[float], thick: float) -> Any:
    changed = meat.replace()
    for (name, logarithmic), share in zip(ROWS, shares, strict=True):
        _vary(changed, name, name, share, logarithmic)
    factor = drawn(thick, 1.0 - THICKNESS, 1.0, 1.0 + THICKNESS)
    # the mass stays what the scales said
    return _core.resized(changed, meat.mass, meat.shape.thickness * factor)


def _vary(root: Any, path: str, row: str, share: float, logarithmic: bool) -> None:
    """Draw one attribute of `root`, named by its path below it, where it holds the default of that row."""
    *parents, last = path.split(".")
    owner = root
    for parent in parents:
        owner = getattr(owner, parent, None)
        if owner is None:  # meat without a fat cap
            return
    entry = _core.parameter(row)
    value = float(getattr(owner, last))
    if not math.isclose(value, entry.value, rel_tol=1e-9):
        return
    setattr(owner, last, _draw(entry, share, logarithmic))


def _draw(entry: Any, share: float, logarithmic: bool) -> float:
    if logarithmic:
        return math.exp(drawn(share, *(math.log(v) for v in (entry.low, entry.value, entry.high))))
    return drawn(share, entry.low, entry.value, entry.high)


def _surroundings(place: Any, humid: float, warm: float) -> Any:
    changed = place.replace()
    shift = drawn(warm, -AIR, 0.0, AIR)
    air = place.air
    changed.air = air.replace(value=np.asarray(air.value) + shift)
    entry = _row(f"pit.{place.kind}.vapour_pressure") or _row(f"{place.kind}.vapour_pressure")
    vapour = place.vapour_pressure
    if entry is not None and place.pit_air is None and _is_steady(vapour, entry.value):
        changed.vapour_pressure = _draw(entry, humid, True)
    try:
        changed.validate("pit")
    except InvalidInput:  # at the edge of what is accepted
        return place
    return changed


def _is_steady(signal: Any, value: float) -> bool:
    return bool(np.allclose(np.asarray(signal.value), value, rtol=1e-9))


def _wrap(wrap: Any, tight: float) -> Any:
    changed = wrap.replace()
    for side in ("bottom", "top"):
        row = f"wrap.{wrap.name}.{side}.vapour_resistance"
        entry = _row(row)
        if entry is not None and entry.value > 0.0:
            _vary(changed, f"{side}.vapour_resistance", row, tight, True)
    return changed


_NAMES = frozenset(entry.name for entry in _core.parameters())


def _row(name: str) -> Any:
    return _core.parameter(name) if name in _NAMES else None
