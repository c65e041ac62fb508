"""The whole piece.

Two lines, and a lengthwise section, against bricks solved in three dimensions.

`validation/brick` solves the same equations on a brick with all six faces, in Python: an implementation of
its own, whose results are stored beside the script that makes them. The default grid stands for such a
piece by a line through its middle beside one through its rim; the cross-section by its long section, with a
share of its long sides. Both are run here on the stored plans. A slab without sides is beside them, to show
what they are for.
"""

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import figures as draw
import numpy as np
import sources
from evidence import Figure, Row

import libcook as lc

RESULTS = Path(__file__).resolve().parent.parent / "brick" / "results"
NAMES = sorted(path.stem for path in RESULTS.glob("*.csv"))
MINUTE = 60.0
GRIDS = {"piece": "whole piece", "cross-section": "cross-section"}


@cache
def stored(name: str) -> tuple[dict[str, Any], np.ndarray]:
    """What was stored of a brick, and its trace by the minute: minute, core, ..."""
    told = json.loads((RESULTS / f"{name}.json").read_text())
    return told, np.loadtxt(RESULTS / f"{name}.csv", delimiter=",", skiprows=1)


@cache
def ours(name: str, grid: str) -> lc.Outcome:
    return lc.simulate(
        lc.Plan.from_json(json.dumps(stored(name)[0]["plan"])), grid=grid, output_every="1 min"
    )


def hot(ends: list[tuple[str, float]]) -> float:
    """When the last stage on the heat ends [s]; `ends`: names and times of the stages."""
    return [time for name, time in ends if name != "rest"][-1]


def rows() -> Iterator[Row]:
    for name in NAMES:
        told, trace = stored(name)
        theirs = hot([(stage["name"], stage["end"]) for stage in told["stages"]])
        for grid, words in GRIDS.items():
            out = ours(name, grid)
            mine = hot([(end.name, float(end.time)) for end in out.stage_ends])
            text = f"{told['words']}: {words}, time"
            why = "5 %: what remains is a few minutes in ten hours"
            yield Row(text, "h", sources.brick, theirs / 3600.0, mine / 3600.0, 0.05, why, relative=True)
            until = trace[:, 0] * MINUTE <= min(theirs, mine)
            off = np.interp(trace[until, 0] * MINUTE, out.time, out.core) - trace[until, 1]
            allowed, missed = (2.0, "") if grid == "piece" else (2.0, TAPER if rms(off) > 2.0 else "")
            text = f"{told['words']}: {words}, core, RMS"
            why = "2 K, as sure as a probe and its place"
            yield Row(text, "K", sources.brick, 0.0, rms(off), allowed, why, known_miss=missed)
        wet = ours(name, "piece").ledger.evaporated / told["ledger"]["evaporated"]
        text = f"{told['words']}: whole piece, evaporated over the brick's"
        yield Row(text, "-", sources.brick, 1.0, wet, 0.05, "5 %, as for the time")


TAPER = "a brisket's section is tapered, the brick is not"


def rms(off: np.ndarray) -> float:
    return float(np.sqrt(np.mean(off**2)))


def figures() -> Iterator[Figure]:
    for name in ("pork_foil_rest", "brisket_paper"):
        told, trace = stored(name)
        ax = draw.axes("time [h]", "core [°C]")
        ax.plot(trace[::20, 0] / 60.0, trace[::20, 1], label="three dimensions", **draw.REFERENCE)
        for colour, grid in zip(draw.COLOURS, (*GRIDS, "slab"), strict=False):
            out = ours(name, grid)
            ax.plot(
                np.asarray(out.time) / 3600.0,
                out.core,
                color=colour,
                label=GRIDS.get(grid, "slab without sides"),
            )
        yield draw.finish(ax, f"{told['words']}.")
