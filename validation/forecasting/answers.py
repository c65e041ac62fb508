"""What was answered to a case, and how good a set of answers is."""

from __future__ import annotations

import os
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any

import numpy as np
from fieldwork.cooks import HOUR, Array

import libcook as lc
from forecasting.cases import Case

QUANTILES = (0.05, 0.25, 0.5, 0.75, 0.95)
SOON = 0.05  # h: less than that left is no less


@dataclass(frozen=True)
class Answer:
    """Of one forecast."""

    case: Case
    quantiles: tuple[float, ...]  # of the end [h]; not a number: refused
    by_hand: dict[str, Any]  # time left by rules that need no model [s]
    effective: float
    refused: str = ""

    @property
    def left(self) -> float:
        """Median of the time left [h]."""
        return self.quantiles[2] - self.case.now

    @property
    def in90(self) -> bool:
        return bool(self.quantiles[0] <= self.case.done <= self.quantiles[4])

    @property
    def in50(self) -> bool:
        return bool(self.quantiles[1] <= self.case.done <= self.quantiles[3])

    @property
    def off(self) -> float:
        """Error of the median as a share of the time left; a refusal misses by all of it."""
        return (self.quantiles[2] - self.case.done) / self.case.left if not self.refused else 1.0


def ask(cases: Sequence[Case], **options: Any) -> list[Answer]:
    """Forecast every case, as many at once as there are cores: answers do not depend on how many."""

    def one(case: Case) -> Answer:
        try:
            ahead = lc.forecast(case.plan, case.log, threads=1, **options)
        except lc.InvalidInput as refusal:
            return Answer(case, (float("nan"),) * 5, {}, 0.0, str(refusal))
        found = tuple(ahead.finish_quantile(q) / HOUR for q in QUANTILES)
        return Answer(case, found, ahead.by_hand or {}, ahead.effective_members)

    with ThreadPoolExecutor(os.cpu_count()) as pool:
        return list(pool.map(one, cases))


def cook_weights(answers: Sequence[Answer]) -> Array:
    """Every cook counts once, however often it was forecast."""
    names = [a.case.cook for a in answers]
    weight = np.array([1.0 / names.count(n) for n in names])
    return weight / weight.sum()


def loss(answers: Sequence[Answer]) -> float:
    """Mean pinball loss of ln(time left) over the quantiles (Koenker & Bassett, Econometrica 46 (1978) 33,
    from memory): lower is better; it rewards bands that are honest and narrow."""
    q = np.array(QUANTILES)
    each = []
    for a in answers:
        truth = np.log(max(a.case.left, SOON))
        told = np.log(np.maximum(np.array(a.quantiles) - a.case.now, SOON))
        each.append(float(np.mean(np.where(truth >= told, q * (truth - told), (1.0 - q) * (told - truth)))))
    return float(cook_weights(answers) @ np.array(each))
