"""The headline facts of a cook, read once for tables, figures, notebook and sentences: numbers, no words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from libcook import _core
from libcook.readings.readable import Readable, faces, on_section, wrap_name


@dataclass(frozen=True)
class StageFacts:
    """One stage that ended."""

    name: str
    wrap: str  # empty where it is bare
    start: float  # [s]
    end: float  # [s]
    core: float  # as it ended [°C]
    reason: str


@dataclass(frozen=True)
class ProbeFacts:
    """What a probe of a cross-section showed at the pull, or at the end where nothing follows the heat."""

    name: str
    temperature: float  # [°C]
    tenderness: float  # [share]


@dataclass(frozen=True)
class Facts:
    """What a cook wants to know first; SI, and °C for temperatures."""

    stages: tuple[StageFacts, ...]
    pulled_at: float  # end of the last heated stage [s]
    pulled_core: float  # [°C]
    pulled_stage: str  # the stage that ended then
    end: float  # end of the plan [s]
    core: tuple[float, float, float]  # at the start, at its highest, at the end [°C]
    stall: Any | None  # as the outcome gives it
    stall_length: float | None  # [s]
    rise: float | None  # carryover [K]; None where nothing follows the heat
    peak: float | None  # [°C]
    peak_after: float | None  # after the pull [s]
    hold: float  # holding temperature asked for [°C]
    held: float | None  # at or above it after the pull [s]; None where nothing follows the heat
    still_held: bool  # the plan ends while it is still held: `held` is a lower bound
    loss: Any  # as the outcome gives it [kg]
    tenderness: float  # collagen converted at the core by the end [share]
    nodes: tuple[int, int] | None  # of a cross-section, along and across
    probes: tuple[ProbeFacts, ...]  # of a cross-section
    clock_start: float | None  # time of day at the start [s after midnight]
    unfinished: str | None  # the stage that was given up; None where the plan was run to its end
    only_cools: bool  # it is never on the heat
    skipped: tuple[str, ...]  # what the outcome notes of stages that were over before they began

    @property
    def lost(self) -> float:
        """Share of the raw weight that is lost [-]."""
        return float(self.loss.total) / float(self.loss.raw)

    @property
    def evaporated(self) -> float:
        """What evaporated [kg], of what was sprayed on as well."""
        return float(self.loss.evaporated)


def read_facts(outcome: Readable, hold: float = 60.0) -> Facts:
    """Read the facts.

    Parameters
    ----------
    outcome : Outcome
        A simulated cook.
    hold : float
        Holding temperature [°C].

    Returns
    -------
    Facts
    """
    carry, stall, core = outcome.carryover(), outcome.stall(), outcome.core
    plan = outcome.plan
    stages = tuple(
        StageFacts(
            str(end.name),
            wrap_name(outcome, i),
            float(end.start),
            float(end.time),
            float(end.core),
            str(end.reason),
        )
        for i, end in enumerate(outcome.stage_ends)
    )
    unfinished = str(plan.stages[len(stages)].name) if len(stages) < len(plan.stages) else None
    end, last = float(outcome.time[-1]), float(core[-1])
    pulled_at = end if carry is None else float(carry.pulled_at)
    lasted = [stage for stage in stages if stage.end > stage.start] or stages
    pulled = (
        unfinished
        if carry is None and unfinished is not None
        else min(lasted, key=lambda stage: (abs(stage.end - pulled_at), stage.name)).name
    )
    columns = int(getattr(outcome, "columns", 0))
    return Facts(
        stages=stages,
        pulled_at=pulled_at,
        pulled_core=last if carry is None else float(carry.pulled_core),
        pulled_stage=pulled,
        end=end,
        core=(float(core[0]), float(core.max()), last),
        stall=stall,
        stall_length=None if stall is None else float(stall.end) - float(stall.start),
        # smoothing in the reading may leave a hair below zero; a core that only falls has no carryover
        rise=None if carry is None else max(0.0, float(carry.peak) - float(carry.pulled_core)),
        peak=None if carry is None else float(carry.peak),
        peak_after=None if carry is None else float(carry.peak_at) - pulled_at,
        hold=hold,
        held=None if carry is None else float(outcome.time_above(hold)),
        still_held=carry is not None and last >= hold,
        loss=outcome.loss,
        tenderness=float(outcome.tenderness[-1]),
        nodes=(columns, len(outcome.position) // columns) if columns else None,
        probes=_probes(outcome, pulled_at) if on_section(outcome) else (),
        clock_start=None if plan.start is None else float(plan.start),
        unfinished=unfinished,
        only_cools=carry is None and last < float(core[0]),
        skipped=tuple(note for note in map(str, outcome.notes) if " was skipped: " in note),
    )


def _probes(outcome: Any, at: float) -> tuple[ProbeFacts, ...]:
    i = int((outcome.time <= at).sum()) - 1
    return tuple(
        ProbeFacts(probe.name, float(probe.temperature[i]), float(probe.tenderness[i]))
        for probe in outcome.probes.values()
    )


@dataclass(frozen=True)
class SlowSpell:
    """Why the core climbs slowly: the heat while it stalls, or in the range where it would have."""

    arrives: float  # what reaches the meat, mean over its faces and the spell [W/m²]
    taken: float  # what evaporation takes of it [W/m²]
    rate: float  # slowest [K/s]
    core: float  # there [°C]


def read_slow_spell(outcome: Readable, stall: Any | None) -> SlowSpell | None:
    """Read who takes the heat while the core stalls, or, without a stall, while it could have.

    None where it does not get into the range in which stalls begin.
    """
    if stall is not None:
        heat = _mean_heat(outcome, float(stall.start), float(stall.end))
        return SlowSpell(*heat, float(stall.slowest), float(stall.plateau))
    found = _core.slowest_rise(outcome.time, outcome.core)
    return None if found is None else SlowSpell(*_mean_heat(outcome, *found[:2]), found[3], found[2])


def _mean_heat(outcome: Readable, start: float, end: float) -> tuple[float, float]:
    """Mean heat over a spell [W/m²]: what reaches the faces, and what evaporation takes.

    The faces of a slab have one area, so their plain mean is the mean over the surface.
    """
    edges = np.asarray(outcome.time)
    # the part of each interval that lies in the spell
    weight = np.clip(np.minimum(edges[1:], end) - np.maximum(edges[:-1], start), 0.0, None)
    budgets = [outcome.heat_budget(face) for face in faces(outcome)]
    arrives = [np.average(np.add(b.convection, b.radiation), weights=weight) for b in budgets]
    taken = [np.average(b.evaporation, weights=weight) for b in budgets]
    return float(np.mean(arrives)), float(np.mean(taken))


def last_rate(outcome: Readable) -> float:
    """How fast the core changes over the last tenth of the time [K/s]."""
    time, core = outcome.time, outcome.core
    begin = 0.9 * time[-1]
    return float(core[-1] - np.interp(begin, time, core)) / float(time[-1] - begin)
