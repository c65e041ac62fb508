"""The headline facts of a cook, read once for tables, notebook and sentences."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from libcook.readings.readable import Readable
from libcook.units import format_mass


@dataclass(frozen=True)
class Facts:
    """What a cook wants to know first; SI, and °C for temperatures."""

    pulled_at: float  # end of the last heated stage [s]
    pulled_core: float  # [°C]
    pulled_stage: str  # the stage that ended then
    end: float  # end of the plan [s]
    stall: Any | None  # as the outcome gives it
    stall_length: float | None  # [s]
    rise: float | None  # carryover [K]; None where nothing follows the heat
    peak: float | None  # [°C]
    peak_after: float | None  # after the pull [s]
    hold: float  # holding temperature asked for [°C]
    held: float | None  # at or above it after the pull [s]; None where nothing follows the heat
    still_held: bool  # the plan ends while it is still held: `held` is a lower bound
    raw: float  # [kg]
    lost: float  # share of the raw weight [-]
    evaporated: float  # [kg]
    dripped: float  # run off, and kept by a wrap [kg]
    fat: float  # rendered out, estimated [kg]
    spritzed: float  # sprayed on [kg]: in what evaporated or dripped, but never in the meat
    tenderness: float  # collagen converted at the core by the end [share]
    clock_start: float | None  # time of day at the start [s after midnight]
    unfinished: str | None  # the stage that was given up; None where the plan was run to its end
    only_cools: bool  # it is never on the heat
    skipped: tuple[str, ...]  # stages whose end was met when they began, each with what to check


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
    carry = outcome.carryover()
    loss = outcome.loss
    ends, stages = list(outcome.stage_ends), outcome.plan.stages
    unfinished = str(stages[len(ends)].name) if len(ends) < len(stages) else None
    pulled_at = float(carry.pulled_at) if carry is not None else float(outcome.time[-1])
    since = [0.0, *(float(end.time) for end in ends)]
    lasted = [end for end, start in zip(ends, since, strict=False) if float(end.time) > start]
    names = [(abs(float(end.time) - pulled_at), str(end.name)) for end in lasted or ends]
    if carry is None and unfinished is not None:
        names = [(0.0, unfinished)]
    clock = outcome.plan.start
    stall = outcome.stall()
    return Facts(
        pulled_at=pulled_at,
        pulled_core=float(carry.pulled_core) if carry is not None else float(outcome.core[-1]),
        pulled_stage=min(names)[1],
        end=float(outcome.time[-1]),
        stall=stall,
        stall_length=None if stall is None else float(stall.end) - float(stall.start),
        # smoothing in the reading may leave a hair below zero; a core that only falls has no carryover
        rise=max(0.0, float(carry.peak) - float(carry.pulled_core)) if carry is not None else None,
        peak=float(carry.peak) if carry is not None else None,
        peak_after=float(carry.peak_at) - pulled_at if carry is not None else None,
        hold=hold,
        held=float(outcome.time_above(hold)) if carry is not None else None,
        still_held=carry is not None and float(outcome.core[-1]) >= hold,
        raw=float(loss.raw),
        lost=float(loss.total) / float(loss.raw),
        evaporated=float(loss.evaporated),
        dripped=float(loss.dripped) + float(loss.in_wrap),
        fat=float(loss.fat),
        spritzed=float(loss.spritzed),
        tenderness=float(outcome.tenderness[-1]),
        clock_start=None if clock is None else float(clock),
        unfinished=unfinished,
        only_cools=carry is None and float(outcome.core[-1]) < float(outcome.core[0]),
        skipped=tuple(
            _skipped(stages, i) for i, end in enumerate(ends) if float(end.time) <= since[i] and len(ends) > 1
        ),
    )


def _skipped(stages: Any, i: int) -> str:
    """Say that a stage never was, and the likely slip."""
    for_rest = i == len(stages) - 1 and any(end.kind == "core" for end in stages[i].until)
    check = "a rest ends when the core has cooled()" if for_rest else "is the order right?"
    return f"the stage '{stages[i].name}' is skipped, as what ends it was so when it began: {check}"


def loss_words(facts: Facts, units: str) -> str:
    """Say where the lost weight went, in ``"kg"`` or ``"lb"``."""
    sprayed = (
        f" ({format_mass(facts.spritzed, units)} of this was sprayed on)" if facts.spritzed > 0.0 else ""
    )
    return (
        f"{format_mass(facts.evaporated, units)} evaporated, {format_mass(facts.dripped, units)} dripped or "
        f"in the wrap{sprayed}, about {format_mass(facts.fat, units)} rendered fat"
    )
