"""Ranges that the variants of a cook give to its numbers, in words."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from libcook import _core
from libcook.arguments.quote import came_as
from libcook.errors import SolverFailure, invalid
from libcook.readings.facts import Facts, read_facts
from libcook.readings.readable import on_section
from libcook.units import format_duration, format_percent, format_temperature
from libcook.words.two_scales import join
from libcook.words.variants import Variant, again, middle, outcomes

SAME = 0.01  # share of the finish time up to which a second run is the same cook


@dataclass(frozen=True)
class Spread:
    """The variants of a cook, to be read as ranges that eight of ten lie in."""

    own: Facts  # of the outcome that is told
    slab: Facts | None  # of its plan run again as a whole piece; None where that is the same, or another cook
    facts: list[Facts]  # of the variants that finished
    count: int  # of all variants
    other_cook: bool  # the plan run again is not this outcome: the variants say nothing about it

    @property
    def lost(self) -> int:
        """How many variants did not finish."""
        return self.count - len(self.facts)

    def _range(
        self, read: Callable[[Facts], Any], among: Sequence[Facts] | None, shifted: bool
    ) -> tuple[float, float] | None:
        told = self.facts if among is None else among
        values = [float(v) for v in (read(f) for f in told) if v is not None]
        found = middle(values)
        if found is None or self.slab is None:
            return found
        own, slab = read(self.own), read(self.slab)
        if own is None or slab is None:
            return found
        if shifted:
            return found[0] + own - slab, found[1] + own - slab
        return (found[0] * own / slab, found[1] * own / slab) if slab > 0.0 else found

    def duration(self, read: Callable[[Facts], Any], among: Sequence[Facts] | None = None) -> str | None:
        """Write the range of a duration, rounded to what it is worth; None where the plan fixes it."""
        found = self._range(read, among, shifted=False)
        if found is None or found[1] - found[0] < 1.0:
            return None
        return join(*(format_duration(_rounded(v)) for v in found))

    def temperature(
        self, read: Callable[[Facts], Any], unit: str, among: Sequence[Facts] | None = None
    ) -> str | None:
        """Write the range of a temperature."""
        found = self._range(read, among, shifted=True)
        return None if found is None else join(*(format_temperature(v, unit, 0) for v in found))

    def percent(self, read: Callable[[Facts], Any]) -> str | None:
        """Write the range of a share."""
        found = self._range(read, None, shifted=False)
        return None if found is None else join(*(format_percent(v) for v in found))


def spread_of(outcome: Any, own: Facts, count: int) -> Spread:
    """Run the plan of an outcome again, as it is and varied.

    Parameters
    ----------
    outcome : Outcome
        The cook that is told.
    own : Facts
        Read from it.
    count : int
        How many variants.
    """
    if not isinstance(outcome, _core.Outcome):
        raise invalid(
            "outcome", outcome, came_as(outcome), "an outcome of libcook.simulate(plan) is accepted"
        )
    kind, physics = type(outcome), getattr(outcome, "_physics", None)

    def facts(done: Any) -> Facts:
        return read_facts(done, own.hold)

    slab = None
    if own.unfinished is None:
        try:
            slab = facts(again(kind, outcome.plan, physics))
        except SolverFailure:
            return Spread(own, None, [], count, other_cook=True)
        if not on_section(outcome) and abs(slab.pulled_at - own.pulled_at) > SAME * own.pulled_at:
            return Spread(own, None, [], count, other_cook=True)
    done = [each for each in outcomes(kind, outcome.plan, count, physics) if each is not None]
    found = [_on_the_wall(each, own.hold) for each in done]
    return Spread(own, slab if on_section(outcome) else None, found, count, other_cook=False)


def _on_the_wall(variant: Variant, hold: float) -> Facts:
    """Read a variant with its times as the clock would show them, the model's own error in them."""
    facts = read_facts(variant.outcome, hold)
    pulled, end = variant.longer(facts.pulled_at), variant.longer(facts.end)
    stall = facts.stall
    length = None
    if stall is not None:
        length = variant.longer(float(stall.end)) - variant.longer(float(stall.start))
    return replace(facts, pulled_at=pulled, end=end, stall_length=length)


def _rounded(seconds: float) -> float:
    step = 900.0 if seconds > 3.0 * 3600.0 else 300.0 if seconds > 1800.0 else 60.0
    return step * round(seconds / step)
