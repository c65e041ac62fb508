"""What a check against the outside world is: a row with its source, and the case that groups rows."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from sources import Source

PASS, KNOWN_MISS, FAIL = "pass", "known miss", "FAIL"

# A reference is one value, or a band with one side possibly open: (low, high).
Reference = float | tuple[float, float]


@dataclass(frozen=True)
class Row:
    """One quantity, as the source gives it and as libcook does.

    `tolerance` is in the unit of the quantity, or a share of the reference where `relative`. `why` says where
    it comes from. A row that is known to miss says the reason in `known_miss`; it stays a miss until it is
    met, and then the mark has to go.
    """

    quantity: str
    unit: str
    source: Source
    reference: Reference
    ours: float
    tolerance: float
    why: str
    relative: bool = False
    known_miss: str = ""

    @property
    def difference(self) -> float:
        """Ours minus the reference, or how far outside the band (0 inside)."""
        if not isinstance(self.reference, tuple):
            return self.ours - self.reference
        low, high = self.reference
        return self.ours - min(max(self.ours, low), high)

    @property
    def allowed(self) -> float:
        """The tolerance in the unit of the quantity."""
        if not self.relative:
            return self.tolerance
        scale = self.reference if not isinstance(self.reference, tuple) else min(map(abs, self.reference))
        return self.tolerance * abs(scale)

    @property
    def verdict(self) -> str:
        met = math.isfinite(self.ours) and abs(self.difference) <= self.allowed
        if self.known_miss:
            return FAIL if met else KNOWN_MISS
        return PASS if met else FAIL


@dataclass(frozen=True)
class Figure:
    """A picture of a case, as SVG text."""

    svg: str
    caption: str


@dataclass(frozen=True)
class Case:
    """Rows on one subject. `statement` is the docstring of the case's file."""

    name: str
    title: str
    statement: str
    rows: tuple[Row, ...]
    figures: tuple[Figure, ...] = ()
    crash: str = ""  # the traceback when the case could not be computed


def count(rows: Sequence[Row], verdict: str) -> int:
    return sum(row.verdict == verdict for row in rows)


@dataclass
class Worst:
    """Finds the point of a sweep that is furthest off, so that a sweep makes one row."""

    places: list[tuple[float, float, str]] = field(default_factory=list)  # ours, reference, where

    def add(self, ours: float, reference: float, where: str) -> None:
        self.places.append((float(ours), float(reference), where))

    def row(
        self, quantity: str, unit: str, source: Source, tolerance: float, why: str, *, relative: bool = False
    ) -> Row:
        def off(place: tuple[float, float, str]) -> float:
            ours, reference, _ = place
            if not math.isfinite(ours):
                return math.inf
            return abs(ours - reference) / (abs(reference) if relative else 1.0)

        ours, reference, where = max(self.places, key=off)
        text = f"{quantity}, worst of {len(self.places)}: {where}"
        return Row(text, unit, source, reference, ours, tolerance, why, relative=relative)
