"""Plans and sizes of the bricks that are kept. Proportions: common practice, no source."""

from __future__ import annotations

from dataclasses import dataclass

import libcook as lc


@dataclass(frozen=True)
class Kept:
    words: str
    plan: lc.Plan
    size: tuple[float, float, float]  # length, width, thickness of the lean meat [m]


def cut(name: str, mass: float) -> tuple[lc.Meat, tuple[float, float, float]]:
    """A piece of a cut, and the brick that it is."""
    meat = lc.cut(name, mass=mass)
    shape = meat.shape
    return meat, (shape.extent / shape.width, shape.width, shape.thickness)


def smoke_and_wrap(pit: lc.Surroundings, wrap: str, at: float, done: float) -> list[lc.Stage]:
    return [
        lc.Stage("smoke", pit, until=lc.core(at)),
        lc.Stage("wrapped", pit, wrap=wrap, until=lc.core(done)),
    ]


def kept() -> dict[str, Kept]:
    drum, hot_drum, kettle = lc.pit("drum", air=121.0), lc.pit("drum", air=135.0), lc.pit("kettle", air=107.0)
    whole, whole_size = cut("brisket", 6.0)
    pork, pork_size = cut("pork shoulder", 4.0)
    chuck, chuck_size = cut("beef chuck", 1.4)
    thin, thin_size = cut("brisket flat", 2.3)
    rest = lc.Stage("rest", lc.counter(21.0), wrap="towels", until=lc.elapsed(7200.0))

    def bare(pit: lc.Surroundings, done: float) -> list[lc.Stage]:
        return [lc.Stage("smoke", pit, until=lc.core(done))]

    def made(words: str, meat: lc.Meat, stages: list[lc.Stage], size: tuple[float, float, float]) -> Kept:
        return Kept(words, lc.Plan(meat, stages), size)

    whole_words, pork_words = "brisket 6 kg, fat down, drum 121 °C", "pork shoulder 4 kg, kettle 107 °C"
    return {
        "brisket_bare": made(f"{whole_words}, bare to 95 °C", whole, bare(drum, 95.0), whole_size),
        "brisket_paper": made(
            f"{whole_words}, paper at 66 °C, to 95 °C",
            whole,
            smoke_and_wrap(drum, "butcher paper", 66.0, 95.0),
            whole_size,
        ),
        "brisket_foil": made(
            f"{whole_words}, foil at 66 °C, to 95 °C",
            whole,
            smoke_and_wrap(drum, "foil", 66.0, 95.0),
            whole_size,
        ),
        "pork_bare": made(f"{pork_words}, bare to 93 °C", pork, bare(kettle, 93.0), pork_size),
        "pork_foil_rest": made(
            f"{pork_words}, foil at 71 °C, to 93 °C, 2 h on the counter in towels",
            pork,
            [*smoke_and_wrap(kettle, "foil", 71.0, 93.0), rest],
            pork_size,
        ),
        "chuck_bare": made(
            "chuck 1.4 kg, drum 135 °C, bare to 90 °C",
            chuck,
            bare(hot_drum, 90.0),
            chuck_size,
        ),
        "flat_foil": made(
            "brisket flat 2.3 kg, fat down, drum 121 °C, foil at 65 °C, to 95 °C",
            thin,
            smoke_and_wrap(drum, "foil", 65.0, 95.0),
            thin_size,
        ),
    }
