"""The universal numbers that no measurement fixes well, what is believed of them, and where they act."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

Plan = dict[str, Any]  # a plan's JSON


@dataclass(frozen=True)
class Number:
    """One number: its prior is normal in the value, or in its logarithm."""

    name: str
    unit: str
    middle: float
    sd: float  # of the value, or of its logarithm
    log: bool
    source: str
    apply: Callable[[Plan, float], None]

    def value(self, z: float) -> float:
        """The value at `z` prior standard deviations from the middle."""
        return float(self.middle * np.exp(self.sd * z) if self.log else self.middle + self.sd * z)


def tissue(*path: str) -> Callable[[Plan, float], None]:
    def put(plan: Plan, value: float) -> None:
        at = plan["meat"]["tissue"]
        for key in path[:-1]:
            at = at[key]
        at[path[-1]] = value

    return put


def covering(wrap: str, key: str) -> Callable[[Plan, float], None]:
    """Of every stage under a wrap, both sides."""

    def put(plan: Plan, value: float) -> None:
        for stage in plan["stages"]:
            if stage["wrap"]["name"] == wrap:
                for side in ("bottom", "top"):
                    stage["wrap"][side][key] = value

    return put


def thickness(family: str, usual: float) -> Callable[[Plan, float], None]:
    """Of a whole piece of its cut's middling mass; the plan's goes with it."""

    def put(plan: Plan, value: float) -> None:
        if plan["meat"]["tissue"]["name"].startswith(family):
            rescale(plan, value / usual)

    return put


def rescale(plan: Plan, ratio: float) -> None:
    """Make the piece thicker at the same mass; its footprint keeps its proportions."""
    shape = plan["meat"]["shape"]
    shape["thickness"] *= ratio
    shape["extent"] /= ratio
    shape["width"] /= ratio**0.5


def box_loss(plan: Plan, value: float) -> None:
    for stage in plan["stages"]:
        box = stage["surroundings"].get("box")
        if box:
            box["loss"] = value


def universal(usual: dict[str, float]) -> list[Number]:
    """All of them. `usual`: thickness of whole pieces by cut, as the library has it [m]."""
    return [
        Number(
            "holding.midpoint",
            "°C",
            66.0,
            3.0,
            False,
            "65.6 °C fitted to beef (van der Sman 2007); other fits of meat 60 to 75",
            tissue("holding", "midpoint"),
        ),
        Number(
            "holding.width",
            "K",
            5.0,
            0.3,
            True,
            "4 K (the same); broader for a mixture of muscles",
            tissue("holding", "width"),
        ),
        Number(
            "holding.final_share",
            "-",
            0.537,
            0.05,
            False,
            "0.537 (the same); losses of 30 to 40 % at 90 °C",
            tissue("holding", "final_share"),
        ),
        Number(
            "mobility.expressed",
            "m²/s",
            2.5e-8,
            0.7,
            True,
            "permeabilities of cooked beef make 8e-10 to 2.2e-8 across the fibres, more along them",
            tissue("mobility", "expressed"),
        ),
        Number(
            "mobility.held",
            "m²/s",
            3e-10,
            0.5,
            True,
            "drying studies: 2e-10 to 1e-9",
            tissue("mobility", "held"),
        ),
        Number(
            "cooked_conductivity",
            "-",
            0.9,
            0.07,
            False,
            "falls as proteins denature (Baghe-Khandan & Okos 1981); how far is not in the abstract",
            tissue("cooked_conductivity"),
        ),
        Number(
            "emissivity",
            "-",
            0.9,
            0.04,
            False,
            "wet and dry organic surfaces 0.85 to 0.96",
            tissue("emissivity"),
        ),
        Number(
            "paper.vapour_resistance",
            "s/m",
            500.0,
            1.0,
            True,
            "uncoated kraft 1000 to 7000 dry; wet paper evaporates from its own outer face",
            covering("butcher paper", "vapour_resistance"),
        ),
        Number(
            "paper.heat_resistance",
            "m²K/W",
            0.003,
            0.5,
            True,
            "the sheet 0.0012, and its contact",
            covering("butcher paper", "heat_resistance"),
        ),
        Number(
            "foil.heat_resistance",
            "m²K/W",
            0.012,
            0.6,
            True,
            "0 where wetted to 0.07 for 2 mm of dry air",
            covering("foil", "heat_resistance"),
        ),
        Number(
            "foil.emissivity",
            "-",
            0.15,
            0.06,
            False,
            "clean 0.04 to 0.09; greasy, dull and smoked more",
            covering("foil", "emissivity"),
        ),
        Number(
            "towels.heat_resistance",
            "m²K/W",
            0.2,
            0.35,
            True,
            "two folded towels of 10 mm at 0.06 W/mK, and their air",
            covering("towels", "heat_resistance"),
        ),
        Number("box.loss", "W/K", 0.8, 0.4, True, "1.2 m² of 3 to 5 cm foam", box_loss),
        Number(
            "brisket.thickness",
            "m",
            0.056,
            0.05,
            True,
            "sizes found, within some 5 %",
            thickness("brisket", usual["brisket"]),
        ),
        Number(
            "pork shoulder.thickness",
            "m",
            0.080,
            0.08,
            True,
            "sizes found: 72 mm over the footprint, 91 mm with the proportions over all",
            thickness("pork", usual["pork shoulder"]),
        ),
    ]


def per_cook() -> list[Number]:
    """What differs from cook to cook and was not measured: middle and scatter."""

    def thicker(plan: Plan, value: float) -> None:
        rescale(plan, value)

    def pit_off(plan: Plan, value: float) -> None:
        for stage in plan["stages"]:
            air = stage["surroundings"]["air"]
            if isinstance(air, dict):
                air["value"] = [v + value for v in air["value"]]
            else:
                stage["surroundings"]["air"] = air + value

    def humid(plan: Plan, value: float) -> None:
        for stage in plan["stages"]:
            stage["surroundings"]["vapour_pressure"] = min(
                stage["surroundings"]["vapour_pressure"] * value, 6e4
            )

    def draught(plan: Plan, value: float) -> None:
        for stage in plan["stages"]:
            for side in ("bottom", "top"):
                film = stage["surroundings"][side]
                film["factor"] = film.get("factor", 1.0) * value

    def probe(plan: Plan, value: float) -> None:
        """Above the middle by a share of the half thickness."""
        height = plan["meat"]["shape"]["thickness"] * (0.5 + 0.5 * min(abs(value), 0.9))
        for stage in plan["stages"]:
            stage["probe"] = {"name": "tip", "z": height}

    def juice(plan: Plan, value: float) -> None:
        holding = plan["meat"]["tissue"]["holding"]
        holding["final_share"] = float(np.clip(holding["final_share"] + value, 0.2, 0.9))

    return [
        Number("thickness", "-", 1.0, 0.13, True, "pieces of one mass", thicker),
        Number("pit", "K", 0.0, 5.0, False, "thermometers 5 to 15 K off, places in the pit", pit_off),
        Number("humidity", "-", 1.0, 0.5, True, "cookers of one kind", humid),
        Number("film", "-", 1.0, 0.2, True, "draught and place", draught),
        Number(
            "probe", "-", 0.0, 0.25, False, "tip beside the middle, as a share of the half thickness", probe
        ),
        Number("final share", "-", 0.0, 0.05, False, "pieces of one cut", juice),
    ]
