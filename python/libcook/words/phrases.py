"""Each fact of a cook as a phrase: what rows, lines and sentences are put together from."""

from __future__ import annotations

from typing import Any, NamedTuple

from libcook.readings.facts import Facts, ProbeFacts, StageFacts
from libcook.units import format_duration, format_percent
from libcook.words.two_scales import Scale, at_clock, moment

HOUR = 3600.0  # s


class Row(NamedTuple):
    """A fact in words, by its name."""

    name: str
    said: str

    def __str__(self) -> str:
        """Write it in a line."""
        return f"{self.name}: {self.said}"


def changes(rate: float, scale: Scale) -> str:
    """Say how fast the core changes [K/s]."""
    return f"{'rises' if rate >= 0.0 else 'falls'} {scale.warmer(abs(rate) * HOUR)} per hour"


def stall_span(stall: Any, scale: Scale) -> str:
    """Say how long a stall is, from when on and where."""
    start, end = float(stall.start), float(stall.end)
    on = "on" if stall.over else "on and to the end"
    near = scale.degrees(float(stall.plateau), 0)
    return f"{format_duration(end - start)}, from {format_duration(start)} {on}, near {near}"


def slowest(stall: Any, scale: Scale) -> str:
    """Say how slow the core gets in a stall."""
    return f"at its slowest it {changes(float(stall.slowest), scale)}"


def climb(rise: float, peak: float, after: float, scale: Scale) -> str:
    """Say how far the core climbs after the pull [K], to where [°C] and within how long [s]."""
    return f"{scale.warmer(rise)} to {scale.degrees(peak)} within {format_duration(after)}"


def parts_of_loss(loss: Any, scale: Scale) -> str:
    """Say where the lost weight went."""
    sprayed = f" ({scale.mass(loss.spritzed)} of this was sprayed on)" if loss.spritzed > 0.0 else ""
    steam = f"{scale.mass(loss.evaporated)} evaporated"
    if loss.evaporated < 1e-4 * loss.raw:  # what condensed on cold meat outweighs it, or nothing left it
        steam = "nothing evaporated"
    return (
        f"{steam}, {scale.mass(loss.dripped + loss.in_wrap)} dripped or "
        f"in the wrap{sprayed}, about {scale.mass(loss.fat)} rendered fat"
    )


def ending(stage: StageFacts, start: float | None, scale: Scale) -> str:
    """Say when a stage ended, with what core, and why."""
    return f"until {moment(stage.end, start)}, core {scale.degrees(stage.core)}: {stage.reason}"


def _probe(probe: ProbeFacts, scale: Scale) -> str:
    return f"{probe.name} {scale.degrees(probe.temperature)}, {format_percent(probe.tenderness)} tender"


def rows(facts: Facts, scale: Scale) -> list[Row]:
    """Write the facts of a cook, each by its name: stages, stall, carryover, probes, loss, tenderness."""
    found = [
        Row(f"{each.name} ({each.wrap})" if each.wrap else each.name, ending(each, facts.clock_start, scale))
        for each in facts.stages
    ]
    if facts.unfinished is not None:
        found.append(Row(facts.unfinished, f"not finished, core at {scale.degrees(facts.core[2])}"))
    found.append(Row("stall", "none" if facts.stall is None else stall_span(facts.stall, scale)))
    if facts.rise is not None and facts.peak is not None and facts.peak_after is not None:
        found.append(Row("carryover", climb(facts.rise, facts.peak, facts.peak_after, scale)))
    if facts.nodes is not None:
        shown = "; ".join(_probe(probe, scale) for probe in facts.probes)
        found.append(Row("cross-section of {} x {} nodes".format(*facts.nodes), f"at the pull {shown}"))
    lost = f"{format_percent(facts.lost)} of {scale.mass(facts.loss.raw)}"
    found.append(Row("weight loss", f"{lost}: {parts_of_loss(facts.loss, scale)}"))
    tender = f"{format_percent(facts.tenderness)} of the collagen converted at the core"
    found.append(Row("tenderness", tender))
    return found


def by_the_clock(facts: Facts, seconds: float) -> str:
    """Write the time of day behind a time of the cook [s], where its start has one."""
    return at_clock(seconds, facts.clock_start)
