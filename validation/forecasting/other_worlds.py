"""Forecasts of cooks of the other worlds: some to learn from, others to be scored."""

from __future__ import annotations

from collections.abc import Sequence

import worlds

from forecasting import answers as answers_of
from forecasting import cases
from forecasting.answers import Answer
from forecasting.cases import Case

TRAINING_SEED = 100_000  # scored cooks have seeds from 0 on
TRAINING = 30  # cooks of each world


def of(world: str, seeds: Sequence[int], shares: Sequence[float] = cases.SHARES) -> list[Case]:
    """Cases of one world."""
    made = [(seed, worlds.WORLDS[world](seed)) for seed in seeds]
    found = (cases.of_world(f"{world} {seed}", cook, share) for share in shares for seed, cook in made)
    return [case for case in found if case is not None]


def training(count: int = TRAINING) -> list[Answer]:
    """Answers to learn weights from, of cooks that are never scored."""
    seeds = range(TRAINING_SEED, TRAINING_SEED + count)
    told = [
        answer for world in worlds.WORLDS for answer in answers_of.ask(of(world, seeds), join_rules=False)
    ]
    return [a for a in told if not a.refused]
