"""What the tables, figures and sentences read from an outcome.

They take whatever has these attributes, so that they can be tested on their own and do not import the
extension module.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Protocol

import numpy as np
import numpy.typing as npt

from libcook.errors import invalid

FloatArray = npt.NDArray[np.float64]


class Readable(Protocol):
    """The part of an outcome that is read here; SI, and °C for temperatures."""

    @property
    def plan(self) -> Any: ...  # noqa: D102
    @property
    def time(self) -> FloatArray: ...  # noqa: D102
    @property
    def core(self) -> FloatArray: ...  # noqa: D102
    @property
    def coldest(self) -> FloatArray: ...  # noqa: D102
    @property
    def surface(self) -> FloatArray: ...  # noqa: D102
    @property
    def surface_water(self) -> FloatArray: ...  # noqa: D102
    @property
    def film(self) -> FloatArray: ...  # noqa: D102
    @property
    def air(self) -> FloatArray: ...  # noqa: D102
    @property
    def mean_water(self) -> FloatArray: ...  # noqa: D102
    @property
    def mean_temperature(self) -> FloatArray: ...  # noqa: D102
    @property
    def tenderness(self) -> FloatArray: ...  # noqa: D102
    @property
    def temperature(self) -> FloatArray: ...  # noqa: D102
    @property
    def water(self) -> FloatArray: ...  # noqa: D102
    @property
    def position(self) -> FloatArray: ...  # noqa: D102
    @property
    def node_volume(self) -> FloatArray: ...  # noqa: D102
    @property
    def stage_ends(self) -> Sequence[Any]: ...  # noqa: D102
    @property
    def events(self) -> Sequence[Any]: ...  # noqa: D102
    @property
    def notes(self) -> Sequence[str]: ...  # noqa: D102
    @property
    def ledger(self) -> Any: ...  # noqa: D102
    @property
    def loss(self) -> Any: ...  # noqa: D102

    def stall(self) -> Any: ...  # noqa: D102
    def carryover(self) -> Any: ...  # noqa: D102
    def falls_to(self, celsius: Any, /) -> float | None: ...  # noqa: D102
    def time_above(self, celsius: Any, /) -> float: ...  # noqa: D102
    def heat_budget(self, face: Any = ..., /) -> Any: ...  # noqa: D102
    def safety(self) -> Any: ...  # noqa: D102


def stage_labels(outcome: Readable) -> list[str]:
    """Name the stage at each stored time; the moment at which a stage ends belongs to it."""
    ends = [float(end.time) for end in outcome.stage_ends]
    names = [str(end.name) for end in outcome.stage_ends]
    places = np.searchsorted(ends, outcome.time, side="left")
    return [names[min(int(i), len(names) - 1)] for i in places] if names else [""] * len(outcome.time)


def faces(outcome: Readable) -> tuple[str, ...]:
    """Name the columns of the face arrays: a cylinder has one curved face."""
    return ("surface",) if outcome.surface.shape[1] == 1 else ("bottom", "top")


def wrap_name(outcome: Readable, stage: int) -> str:
    """Name of the wrap of a stage, empty where it is bare."""
    name = str(outcome.plan.stages[stage].wrap.name)
    return "" if name == "none" else name


def on_section(outcome: Any) -> bool:
    """Whether it was computed on a cross-section."""
    return bool(getattr(outcome, "columns", 0))


def need_fields(outcome: Any) -> None:
    """Refuse an outcome that was simulated without its fields."""
    if not np.size(outcome.temperature):
        raise invalid(
            "outcome", outcome, "the fields were not kept", "an outcome simulated with fields is accepted"
        )
