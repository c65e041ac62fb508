"""Common practice.

What pit cooks say, as loose checks.

Common practice, no source: none of these is evidence, and each band is wide. They are here because a tool
that contradicts them is not believed.
"""

from collections.abc import Iterator

import figures as draw
import numpy as np
import sources
from cooks import drum, hours
from evidence import Figure, Row

import libcook as lc

BARE_FOIL = (
    "a slab of 56 mm under foil alone loses through both faces with some 5 W/(m²·K) each, 11 K an hour at "
    "first by hand, "
    "too; what is rested in practice is thicker at the point, lies on a board and is mostly under towels "
    "as well"
)
LATE_PAPER = (
    "the model's stall is over by 74 °C, some kelvins before practice has it: paper then has no evaporation "
    "left to spare, while it holds back a little heat and wets the bark again, which has to dry once more; "
    "the notebook Wrap or wait switches these off one at a time"
)
WHY = "common practice, no source: a band, not a number"


def rows() -> Iterator[Row]:
    for pit, name in ((107.0, "225 °F"), (121.0, "250 °F")):
        stall = drum(pit).stall()
        plateau = float("nan") if stall is None else stall.plateau
        yield Row(
            f"plateau of the stall, {name} pit, bare", "°C", sources.practice, (63.0, 77.0), plateau, 0.0, WHY
        )
    bare, paper, foil = (hours(drum(107.0, wrap)) for wrap in ("none", "butcher paper", "foil"))
    yield Row("225 °F, bare over paper: time", "-", sources.practice, (1.02, 3.0), bare / paper, 0.0, WHY)
    yield Row("225 °F, paper over foil: time", "-", sources.practice, (1.02, 3.0), paper / foil, 0.0, WHY)
    yield Row("foil at 68 °C saves", "h", sources.practice, (2.0, 7.0), bare - foil, 0.0, WHY)
    bare_250, late_paper, late_foil = (
        hours(drum(121.0, wrap, 74.0)) for wrap in ("none", "butcher paper", "foil")
    )
    yield Row(
        "250 °F, wrapped at 165 °F: bare over paper, time",
        "-",
        sources.practice,
        (1.0, 3.0),
        bare_250 / late_paper,
        0.0,
        WHY,
        known_miss=LATE_PAPER,
    )
    yield Row(
        "250 °F, wrapped at 165 °F: paper over foil, time",
        "-",
        sources.practice,
        (1.02, 3.0),
        late_paper / late_foil,
        0.0,
        WHY,
    )
    hot = hours(drum(135.0))
    yield Row("225 °F over 275 °F, bare: time", "-", sources.practice, (1.5, 3.0), bare / hot, 0.0, WHY)
    yield Row(
        "225 °F, bare: time per pound (6 kg)", "h/lb", sources.practice, (1.0, 2.0), bare / 13.2, 0.0, WHY
    )
    for wrap in ("none", "butcher paper", "foil"):
        out = drum(121.0, wrap)
        name = "bare" if wrap == "none" else wrap
        yield Row(
            f"yield at 93 °C, 250 °F, {name}", "-", sources.practice, (0.55, 0.65), out.loss.yield_, 0.03, WHY
        )
    place, wrapped = lc.pit("drum", air=107.0), {"wrap": "foil"}
    stages = [
        lc.Stage("smoke", place, until=lc.core(68.0)),
        lc.Stage("wrapped", place, until=lc.core(93.0), **wrapped),
        lc.Stage("rest", lc.counter(21.0), until=lc.elapsed("2 h"), **wrapped),
    ]
    out = lc.simulate(lc.Plan(lc.brisket(mass=6.0), stages))
    fall = float(out.stage_ends[1].core - out.core[-1])
    yield Row(
        "wrapped rest on the counter: core falls in 2 h",
        "K",
        sources.practice,
        (10.0, 15.0),
        fall,
        5.0,
        WHY,
        known_miss=BARE_FOIL,
    )


def figures() -> Iterator[Figure]:
    ax = draw.axes("time [h]", "core [°C]")
    for colour, (pit, wrap, name) in zip(
        draw.COLOURS,
        (
            (107.0, "none", "225 °F, bare"),
            (107.0, "butcher paper", "225 °F, paper at 68 °C"),
            (107.0, "foil", "225 °F, foil at 68 °C"),
            (135.0, "none", "275 °F, bare"),
        ),
        strict=False,
    ):
        out = drum(pit, wrap)
        ax.plot(np.asarray(out.time) / 3600.0, out.core, color=colour, label=name)
    yield draw.finish(ax, "Default 6 kg brisket in a drum; libcook only, nothing here is measured.")
