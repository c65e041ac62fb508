"""What the processor's wide vectors are worth: the full model compiled for any processor, with AVX2, and with
all that there is, one cook at a time and in batches on one core.

Each is compared with CVODE in the same library, on the same cooks and to the same accuracy; the libraries
take turns.
"""

from __future__ import annotations

import statistics
from collections.abc import Mapping
from dataclasses import dataclass

from contenders import CVODE_TOLERANCE, FULL_TOLERANCE
from library import Library

COOKS = 64  # one at a time
BATCH = 1024
ROUNDS = 5


@dataclass
class Vectors:
    """Times as fast as CVODE, by what the library was compiled for."""

    alone: dict[str, float]
    batch: dict[str, float]

    def sentence(self) -> str:
        """What was reached."""
        told = "; ".join(f"{name} {self.alone[name]:.1f} and {self.batch[name]:.0f}" for name in self.alone)
        return f"Times as fast as CVODE, one cook alone and one of a batch on one core, by vectors: {told}."


def measure(libraries: Mapping[str, Library]) -> Vectors:
    """Take turns."""
    alone: dict[str, list[float]] = {name: [] for name in libraries}
    batch: dict[str, list[float]] = {name: [] for name in libraries}

    def mean(library: Library, solver: str, tolerance: float) -> float:
        return statistics.fmean(library.run("full", solver, i, tolerance).seconds for i in range(COOKS))

    for _ in range(ROUNDS):
        for name, library in libraries.items():
            cvode = mean(library, "cvode", CVODE_TOLERANCE)
            alone[name].append(cvode / mean(library, "libcook", FULL_TOLERANCE))
            batch[name].append(cvode / (library.full_sweep(BATCH, 1, FULL_TOLERANCE) / BATCH))
    return Vectors(
        {name: statistics.median(of) for name, of in alone.items()},
        {name: statistics.median(of) for name, of in batch.items()},
    )
