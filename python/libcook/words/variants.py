"""How sure a cook's numbers are: possible cooks of the same plan, as `libcook.belief` draws them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from libcook import _core
from libcook._solver_options import solver_options
from libcook.errors import InvalidInput, SolverFailure

# The class that outcomes are to be of: it is handed in, for its methods lead here.
Kind = Callable[[_core.Outcome], Any]
SEED = 20  # the same plan gives the same words


@dataclass(frozen=True)
class Variant:
    """A possible cook that was simulated to its end."""

    outcome: Any
    pace: float  # what it takes over what the simulation says, where the meat decides [-]

    def longer(self, seconds: float) -> float:
        """Turn a time of the simulation into one of the clock on the wall [s]."""
        passed = begun = 0.0
        for stage, end in zip(self.outcome.plan.stages, self.outcome.stage_ends, strict=False):
            part = min(seconds, float(end.time)) - begun
            if part <= 0.0:
                break
            passed += self.stretched(stage, float(end.time) - begun, part)
            begun = float(end.time)
        return passed + max(seconds - begun, 0.0)

    def stretched(self, stage: Any, length: float, part: float) -> float:
        """Turn a part of a stage into its time on the wall [s]; timed stages last as long as they last."""
        if not _core.meat_ends(stage):
            return part
        limit = min((float(e.value) for e in stage.until if e.kind == "elapsed"), default=np.inf)
        if length >= limit - 1.0:
            return part
        return part * min(self.pace, limit / length)


def variants(plan: Any, count: int) -> list[tuple[Any, float]]:
    """Return possible cooks of a plan, and the pace of each.

    Parameters
    ----------
    plan : Plan
        The cook as it is thought to be.
    count : int
        How many.
    """
    plans, pace, _ = _core.believe(plan, _core.ModelError())._draw(count, SEED)
    return list(zip(plans, pace.tolist(), strict=True))


def again(kind: Kind, plan: Any, physics: Any = None) -> Any:
    """Simulate the plan itself, as `libcook.simulate` does."""
    options = solver_options(grid="piece", physics=physics, output_every="60 s", keep_fields=False)
    return kind(_core.simulate(plan, options))


def outcomes(kind: Kind, plan: Any, count: int, physics: Any = None) -> list[Variant | None]:
    """Simulate the variants, as `libcook.simulate_many` does; None where one does not finish."""
    drawn = variants(plan, count)
    options = solver_options(grid="piece", physics=physics, output_every="300 s", keep_fields=False)
    results = _core.simulate_many([plan for plan, _ in drawn], options, 0)
    found: list[Variant | None] = []
    for done, (_, pace) in zip(results, drawn, strict=True):
        if isinstance(done, (InvalidInput, SolverFailure)):
            found.append(None)
        elif isinstance(done, Exception):
            raise done
        else:
            found.append(Variant(kind(done), pace))
    return found


def middle(values: Sequence[float]) -> tuple[float, float] | None:
    """Return what eight of ten lie between, None for fewer than five values."""
    if len(values) < 5:
        return None
    low, high = np.quantile(np.asarray(values, dtype=float), (0.1, 0.9))
    return float(low), float(high)
