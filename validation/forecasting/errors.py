"""How far the model errs, by the loss of its bands on measured cooks; and what that choice is worth held out.

    python -m forecasting.errors      in validation; prints the sets of the grid, best first

Every set of `GRID` forecasts all measured cooks, at each reading and before any; a set's loss is the mean
pinball loss of its quantiles. Leave-one-out takes for each cook the set that loses least on the others.
"""

from __future__ import annotations

import itertools
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

import libcook as lc
from forecasting import answers as answers_of
from forecasting import cases, learn
from forecasting.answers import Answer

PACES = (0.1, 0.15, 0.2)
LEVELS = (2.5, 4.0, 6.0)  # K
TAILS = (3.0, 5.0)


@dataclass(frozen=True)
class Tried:
    """A set of the grid and what it answered."""

    error: lc.ModelError
    before: list[Answer]  # any reading
    shares: list[Answer]
    readings: list[Answer]

    @property
    def name(self) -> str:
        return f"pace {self.error.pace:g}, level {self.error.level:g} K, tails {self.error.tails:g}"

    def losses(self) -> dict[str, float]:
        """Of each cook: the mean of what it loses before any reading and at its readings, refusals apart."""
        found: dict[str, list[float]] = {}
        for part in (self.before, self.readings):
            for name in {a.case.cook for a in part}:
                mine = [a for a in part if a.case.cook == name and not a.refused]
                if mine:
                    found.setdefault(name, []).append(answers_of.loss(mine))
        return {name: float(np.mean(parts)) for name, parts in found.items()}


def grid() -> list[lc.ModelError]:
    return [lc.ModelError(pace=p, level=k, tails=t) for p, k, t in itertools.product(PACES, LEVELS, TAILS)]


def tried(errors: Sequence[lc.ModelError]) -> list[Tried]:
    """Forecast all measured cooks by each set."""
    cooks = learn.measured()
    before, shares = cases.at_shares(cooks, (0.0,)), cases.at_shares(cooks)
    readings = cases.at_readings(cooks)
    made = []
    for error in errors:
        one = [
            answers_of.ask(part, model_error=error, join_rules=False) for part in (before, shares, readings)
        ]
        made.append(Tried(error, *one))
        print(made[-1].name, f"{np.mean(list(made[-1].losses().values())):.4f}", file=sys.stderr, flush=True)
    return made


def chosen_without(sets: Sequence[Tried]) -> Mapping[str, Tried]:
    """For each cook, the set that loses least on all others."""
    losses = [one.losses() for one in sets]
    total = [sum(of.values()) for of in losses]
    return {
        name: sets[int(np.argmin([t - of[name] for t, of in zip(total, losses, strict=True)]))]
        for name in losses[0]
    }


def held_out(sets: Sequence[Tried], part: str) -> list[Answer]:
    """Answers to each cook by the set that the others chose; part: before, shares or readings."""
    chosen = chosen_without(sets)
    names = dict.fromkeys(a.case.cook for a in getattr(sets[0], part))
    return [a for name in names for a in getattr(chosen[name], part) if a.case.cook == name]


def main() -> int:
    sets = tried(grid())
    for loss, name in sorted((float(np.mean(list(s.losses().values()))), s.name) for s in sets):
        print(f"{loss:.4f}  {name}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
