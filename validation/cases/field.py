"""Measured cooks.

What the defaults say of cooks that were measured, with nothing fitted to the one at hand.

112 cooks of `validation/field`, told by people who did not know this library; each row of the data names
its source. Only what a user would type is given: cut, mass, the start where it is known, the kind of
cooker, the course of the pit, the wraps. Scored are the cooks whose pit was logged or stated (grades A and
B). Nobody measured these pieces, their probes' places or the air they stood in, and slow cooks are told of
more often than quick ones: a population, not single checks. Its medians are known to what stands beside
them, one standard error of resampled cooks. The numbers of the model that no measurement fixes come
from a joint tuning to these same cooks (`validation/population.py`, which says how the scores hold
where a cook is left out).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache

import figures as draw
import numpy as np
import sources
from evidence import Figure, Row
from fieldwork import cooks, others, scores
from matplotlib.ticker import FixedLocator

import libcook as lc

SCORED = {"brisket": "AB", "pork": "AB"}
COLOURS = {"brisket": draw.COLOURS[0], "pork": draw.COLOURS[1], "other": draw.COLOURS[2]}
MARKS = {"A": "o", "B": "s", "C": "x"}
NAMED = 6  # worst ones
OFF = (
    "a search of the numbers of the model within their priors comes to 18 to 20 %; what is left is mostly "
    "what nobody told of a cook, its thickness before all"
)
# Why a row of cooling, rests or losses is further off than it should be.
MISSED = {
    "pork shop": "a survey of shops: neither the size of the piece nor the air about it is known well",
    "ham shop air 2": "a survey of shops: neither the size of the piece nor the air about it is known well",
    "ham chill room": "a survey of shops: neither the size of the piece nor the air about it is known well",
    "bacon factory air 2": "a survey of factories: size and air are not known well",
    "brisket point, drum": "a point is fat that renders out, of which ours lets go only a part",
}


@cache
def misses() -> list[scores.Miss]:
    told = list(cooks.load())
    outcomes = lc.simulate_many([cooks.plan(cook) for cook in told], keep_fields=False, output_every="5 min")
    return scores.missed(told, outcomes)


def scored(kind: str) -> list[scores.Miss]:
    return [m for m in misses() if m.cook.kind == kind and m.cook.grade in SCORED[kind]]


def rows() -> Iterator[Row]:
    for kind in SCORED:
        found = scores.score(scored(kind))
        name = f"{found.count} cooks of {kind}"
        for text, unit, (value, error), band, scale, missed in (
            ("median error of the finish time", "%", found.bias, (-4.0, 4.0), 100.0, ""),
            ("median size of that error", "%", found.off, (0.0, 18.0), 100.0, OFF),
            ("median error of the core", "K", found.core, (-1.5, 1.5), 1.0, ""),
            ("RMSE of the core", "K", found.rmse, (0.0, 9.0), 1.0, ""),
        ):
            yield Row(
                f"{name}: {text}", unit, sources.field_cooks, band, scale * value, 0.0,
                f"the aim; known to ± {scale * error:.0f} {unit}" if scale > 1.0 else
                f"the aim; known to ± {error:.1f} {unit}",
                known_miss=missed,
            )  # fmt: skip
    yield from other_rows()


def other_rows() -> Iterator[Row]:
    """Cooling, rests and losses."""
    wanted = {"cooling": 0.15, "rest": 4.0, "loss": 4.0}
    all_of_them = [one for one in others.everything() if one.kind in wanted]
    outcomes = lc.simulate_many([one.plan() for one in all_of_them], output_every="1 min")
    for one, out in zip(all_of_them, outcomes, strict=True):
        value, allowed = one.read(out), wanted[one.kind]
        off = abs(one.miss(out) if not one.log else value / one.measured - 1.0)
        missed = MISSED.get(one.name, one.why or REST) if off > allowed else ""
        yield Row(
            f"{one.kind}: {one.name}", one.unit, sources.field_cooks, one.measured, value, allowed,
            f"{one.source}", relative=one.log, known_miss=missed,
        )  # fmt: skip


REST = "mass, towels and cooler are not told; the same two towels and box stand for all of them"


def figures() -> Iterator[Figure]:
    ax = draw.axes("measured time of the last reading [h]", "time at which the model has it [h]")
    for kind, colour in COLOURS.items():
        for grade, mark in MARKS.items():
            found = [m for m in misses() if m.cook.kind == kind and m.cook.grade == grade]
            if found:
                hours = np.array([m.cook.time[-1] for m in found])
                ours = hours * np.exp([m.slow for m in found])
                ax.plot(hours, ours, mark, color=colour, ms=4, label=f"{kind}, grade {grade} ({len(found)})")
    line = np.array([3.0, 30.0])
    ax.plot(line, line, color="#444444", linewidth=0.8)
    for factor in (0.8, 1.25):
        ax.plot(line, factor * line, color="#444444", linewidth=0.6, linestyle=":")
    ax.set_xscale("log")
    ax.set_yscale("log")
    for axis in (ax.xaxis, ax.yaxis):
        axis.set_major_locator(FixedLocator([1, 2, 3, 5, 10, 20, 30]))
        axis.set_minor_locator(FixedLocator([]))
        axis.set_major_formatter("{x:g}")
    worst = sorted(misses(), key=lambda m: -abs(m.slow))[:NAMED]
    told = "; ".join(
        f"{m.cook.name} ({m.cook.cut} of {m.cook.mass:g} kg, {m.cook.cooker}, grade {m.cook.grade}) "
        f"{100.0 * (math.exp(m.slow) - 1.0):+.0f} %"
        for m in worst
    )
    yield draw.finish(ax, f"Dotted: a fifth early, a quarter late. Furthest off: {told}.")
    ax = draw.axes("measured core [°C]", "core of the model then [°C]")
    for kind, colour in COLOURS.items():
        found = [m for m in misses() if m.cook.kind == kind]
        core = np.concatenate([m.cook.core for m in found])
        ours = core + np.concatenate([m.core for m in found])
        ax.plot(core, ours, ".", color=colour, ms=4, label=f"{kind} ({core.size} readings)")
    ax.plot([20.0, 100.0], [20.0, 100.0], color="#444444", linewidth=0.8)
    yield draw.finish(ax, "Every reading of every cook.")
