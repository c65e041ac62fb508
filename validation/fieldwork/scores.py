"""How far the middle answer is from measured cooks: finish time and core, with how sure the figures are."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

import libcook as lc
from fieldwork.cooks import HOUR, Array, Field, slowness

RESAMPLES = 2000


@dataclass(frozen=True)
class Miss:
    """One cook: ln(model's time / measured), and model less measured at the readings [K]."""

    cook: Field
    slow: float
    core: Array


@dataclass(frozen=True)
class Score:
    """Of one kind of cut, each with the standard error of resampled cooks."""

    count: int
    bias: tuple[float, float]  # median time error [share]
    off: tuple[float, float]  # median of its size [share]
    scatter: tuple[float, float]  # standard deviation of ln(time)
    core: tuple[float, float]  # median of the cooks' mean error [K]
    rmse: tuple[float, float]  # over cooks [K]

    def __str__(self) -> str:
        one = (
            "time {:+.0f} ± {:.0f} %, off by {:.0f} ± {:.0f} %, sd {:.2f}, core {:+.1f} ± {:.1f} K, "
            "rmse {:.1f} ± {:.1f} K"
        )
        return f"({self.count}) " + one.format(
            100 * self.bias[0], 100 * self.bias[1], 100 * self.off[0], 100 * self.off[1], self.scatter[0],
            *self.core, *self.rmse,
        )  # fmt: skip


def missed(cooks: Sequence[Field], outcomes: Sequence[lc.Outcome]) -> list[Miss]:
    found = []
    for cook, out in zip(cooks, outcomes, strict=True):
        time, core = np.asarray(out.time) / HOUR, np.asarray(out.core)
        found.append(Miss(cook, slowness(cook, time, core), np.interp(cook.time, time, core) - cook.core))
    return found


def score(misses: Sequence[Miss]) -> Score:
    slow = np.array([m.slow for m in misses])
    mean = np.array([m.core.mean() for m in misses])
    square = np.array([np.mean(m.core**2) for m in misses])
    measures: list[Callable[[Array], float]] = [
        lambda i: float(np.exp(np.median(slow[i])) - 1.0),
        lambda i: float(np.exp(np.median(np.abs(slow[i]))) - 1.0),
        lambda i: float(slow[i].std()),
        lambda i: float(np.median(mean[i])),
        lambda i: float(np.sqrt(square[i].mean())),
    ]
    random = np.random.default_rng(1)
    draws = random.integers(0, len(misses), (RESAMPLES, len(misses)))
    pairs = [
        (measure(np.arange(len(misses))), float(np.std([measure(d) for d in draws]))) for measure in measures
    ]
    return Score(len(misses), *pairs)
