"""What the result of a sweep looks like, in plain values: the same in memory and in a folder."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, fields
from typing import Any

from libcook import _core
from libcook._core import Plan
from libcook.sweeps.chunk import TRACES, Options
from libcook.sweeps.readings import Reading, fingerprint
from libcook.sweeps.table import Table

CAUTION = (
    "Computed readings, not measured ones, and never a permission to serve: check the coldest part with a "
    "probe, and follow your local food-safety rules and qualified advice; they come first."
)
_RESERVED = ("cook", "stage", "time", "failure")


@dataclass(frozen=True)
class Variable:
    """Name and meaning of a parameter, a reading or a trace."""

    name: str
    units: str
    long_name: str
    values: list[float | str] | None = None  # along the axis of a grid
    by_stage: bool = False
    is_text: bool = False


@dataclass(frozen=True)
class Layout:
    """Axes, variables and size of a result, and what tells one sweep from another."""

    is_grid: bool
    shape: tuple[int, ...]
    chunk: int
    parameters: tuple[Variable, ...]
    readings: tuple[Variable, ...]
    traces: tuple[Variable, ...]
    trace_every: float  # s
    stages: tuple[str, ...]
    plan: str  # JSON
    parts: dict[str, str]  # hash of each part of the arguments

    @property
    def cooks(self) -> int:
        """How many cooks."""
        size = 1
        for length in self.shape:
            size *= length
        return size

    @property
    def chunks(self) -> int:
        """How many chunks."""
        return -(-self.cooks // self.chunk)

    def span(self, number: int) -> tuple[int, int]:
        """Return first cook of a chunk, and the one after its last."""
        return number * self.chunk, min((number + 1) * self.chunk, self.cooks)

    @property
    def hash(self) -> str:
        """Tell the sweep from others; chunks are no part of it."""
        return _hash(self.parts)

    def to_json(self) -> dict[str, Any]:
        """Write as plain values."""
        return asdict(self)

    @classmethod
    def from_json(cls, content: Mapping[str, Any]) -> Layout:
        """Read what `to_json` wrote."""
        made: dict[str, Any] = {one.name: content[one.name] for one in fields(cls)}
        for name in ("shape", "stages"):
            made[name] = tuple(made[name])
        for name in ("parameters", "readings", "traces"):
            made[name] = tuple(Variable(**one) for one in made[name])
        return cls(**made)


def make_layout(
    plan: Plan, table: Table, readings: Sequence[Reading], options: Options, chunk: int
) -> Layout:
    """Describe the result of a sweep."""
    parameters = []
    for column in table.columns:
        labels = column.labels
        parameters.append(
            Variable(
                column.path,
                column.units,
                column.long_name,
                list(labels) if table.is_grid and labels is not None else None,
                is_text=labels is not None and isinstance(labels[0], str),
            )
        )
    parts = {
        "plan": _hash(json.loads(plan.to_json(-1))),
        "parameters": _hash([_column(column) for column in table.columns]),
        "readings": _hash([fingerprint(one) for one in readings]),
        "options": _hash(
            [options.grid, options.keep_fields, options.output_every, options.hold, list(options.traces)]
        ),
        "version of libcook": _hash(_core.__version__),
    }
    return Layout(
        is_grid=table.is_grid,
        shape=table.shape,
        chunk=chunk,
        parameters=tuple(parameters),
        readings=tuple(Variable(r.name, r.units, r.long_name, by_stage=r.by_stage) for r in readings),
        traces=tuple(Variable(f"{name}_trace", *TRACES[name]) for name in options.traces),
        trace_every=options.output_every,
        stages=tuple(_apart([stage.name for stage in plan.stages])),
        plan=plan.to_json(-1),
        parts=parts,
    )


def clashing(table: Table, readings: Sequence[Reading]) -> str:
    """Return a name that two variables of the result would share, empty if there is none."""
    taken = [column.path for column in table.columns] + [f"{name}_trace" for name in TRACES] + list(_RESERVED)
    return next((one.name for one in readings if one.name in taken), "")


def _column(column: Any) -> Any:
    """Write a column so that equal ones, and only those, have equal hashes."""
    if column.numbers is not None:
        return [column.path, "numbers", hashlib.sha256(column.numbers.tobytes()).hexdigest(), column.slot.end]
    codes = None if column.codes is None else hashlib.sha256(column.codes.astype("<i8").tobytes()).hexdigest()
    return [column.path, list(column.values), list(column.labels), codes]


def _plain(thing: Any) -> Any:
    """Write the records of the core, for JSON: class and fields, numbers to the last digit."""
    names = getattr(type(thing), "_fields", None)
    if names is not None:
        return {type(thing).__name__: {name: getattr(thing, name) for name in names}}
    return repr(thing)


def _hash(thing: Any) -> str:
    return hashlib.sha256(json.dumps(thing, default=_plain, sort_keys=True).encode()).hexdigest()


def _apart(names: list[str]) -> list[str]:
    return [
        name if names.count(name) == 1 else f"{name} ({names[:i].count(name) + 1})"
        for i, name in enumerate(names)
    ]
