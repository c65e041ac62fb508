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

LONG_BARE = (
    "a bare brisket in a cool drum takes two thirds of its time above 71 °C, as measured bare cooks do "
    "(validation/field); who wraps does not know how long it would have taken"
)
WHY = "common practice, no source: a band, not a number"


def rows() -> Iterator[Row]:
    for pit, name in ((107.0, "225 °F"), (121.0, "250 °F")):
        out = drum(pit)
        stall = out.stall()
        core = (
            float("nan") if stall is None else float(np.interp(stall.start + 2 * 3600.0, out.time, out.core))
        )
        text = f"core two hours into the stall, {name} pit, bare"
        yield Row(text, "°C", sources.practice, (63.0, 77.0), core, 0.0, WHY)
    bare, paper, foil = (hours(drum(107.0, wrap)) for wrap in ("none", "butcher paper", "foil"))
    yield Row("225 °F, bare over paper: time", "-", sources.practice, (1.02, 3.0), bare / paper, 0.0, WHY)
    yield Row("225 °F, paper over foil: time", "-", sources.practice, (1.02, 3.0), paper / foil, 0.0, WHY)
    text = "foil at 68 °C saves"
    yield Row(text, "h", sources.practice, (2.0, 7.0), bare - foil, 0.0, WHY, known_miss=LONG_BARE)
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
    yield from early_wraps()
    yield from rests()
    yield from hours_per_pound()


def early_wraps() -> Iterator[Row]:
    """Wrapped at 150 °F: foil is quickest by a margin, paper no slower than bare."""
    bare, paper, foil = (hours(drum(107.0, wrap, 65.6)) for wrap in ("none", "butcher paper", "foil"))
    text = "225 °F, wrapped at 150 °F: bare over paper, time"
    yield Row(text, "-", sources.practice, (1.0, 3.0), bare / paper, 0.0, WHY)
    text = "225 °F, wrapped at 150 °F: paper over foil, time"
    yield Row(text, "-", sources.practice, (1.1, 3.0), paper / foil, 0.0, WHY)
    out = drum(121.0, "foil", 74.0)
    climb = (out.stage_ends[1].time - out.stage_ends[0].time) / 3600.0
    text = "250 °F: in foil from 74 to 93 °C"
    yield Row(text, "h", sources.practice, (1.5, 3.0), climb, 0.0, WHY)


def rests() -> Iterator[Row]:
    """In foil and towels on the counter; how far the core climbs after the heat."""
    place = lc.pit("drum", air=107.0)
    stages = [
        lc.Stage("smoke", place, until=lc.core(68.0)),
        lc.Stage("wrapped", place, wrap="foil", until=lc.core(93.0)),
        lc.Stage("rest", lc.counter(21.0), wrap="towels", until=lc.elapsed("2 h")),
    ]
    out = lc.simulate(lc.Plan(lc.brisket(mass=6.0), stages))
    fall = float(out.stage_ends[1].core - out.core[-1])
    text = "rest in foil and towels on the counter: core falls in 2 h"
    yield Row(text, "K", sources.practice, (10.0, 16.0), fall, 0.0, WHY)
    rest = lc.Stage("rest", lc.counter(21.0), wrap="foil tent", until=lc.elapsed("1 h"))
    roast = lc.Stage("roast", lc.oven("225 °F"), until=lc.core(52.0))
    rise = lc.simulate(lc.Plan(lc.cut("beef rib roast"), [roast, rest])).carryover().rise
    text = "rib roast at 225 °F to 52 °C, under a tent: rise after the oven"
    yield Row(text, "K", sources.practice, (2.0, 6.0), rise, 1.0, WHY + "; 1 K for the probe")


def hours_per_pound() -> Iterator[Row]:
    """Shoulders of a few sizes, foiled in the stall, in a cabinet at 107 °C, to 93 °C."""
    place = lc.pit("cabinet", air=107.0)
    for pounds in (6, 9):
        stages = [
            lc.Stage("smoke", place, until=lc.core("165 °F")),
            lc.Stage("wrapped", place, wrap="foil", until=lc.core(93.0)),
        ]
        out = lc.simulate(lc.Plan(lc.pork_shoulder(mass=f"{pounds} lb"), stages))
        text = f"shoulder of {pounds} lb, 225 °F, foiled at 165 °F: time per pound"
        yield Row(text, "h/lb", sources.practice, (1.5, 2.0), out.time[-1] / 3600.0 / pounds, 0.2, WHY)


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
