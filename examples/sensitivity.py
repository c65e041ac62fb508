"""Answer "what decides when it is done?": Sobol indices of everything that is uncertain about a cook.

Twice: for a brisket and a pit that nobody measured, and again with the thickness measured and the pit holding
its temperature. Ranges come from the table of defaults (`libcook.parameter`), which cites its sources; those
of the pit's temperature and of the wrapping are common practice, no source. Within its range every value is
taken as equally likely. The brisket is invented.

    python examples/sensitivity.py [--cooks N] [--figures FOLDER]
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import matplotlib

matplotlib.use("Agg")  # figures go to files; no screen is needed
import matplotlib.pyplot as plt
import numpy as np
import pandas as pd
from matplotlib.figure import Figure
from SALib.analyze import sobol as analysis
from SALib.sample import sobol as sampling

import libcook as lc
from libcook import plots
from libcook.units import to_si

OUTPUT = Path(__file__).resolve().parent / "output"
HOUR = 3600.0  # s

# Change these to your own cook.
PIT = lc.pit("drum", air="250 °F", film="10 W/m²/K")
PLAN = lc.Plan(
    lc.brisket(mass="14 lb"),  # invented
    [
        lc.Stage("smoke", PIT, until=lc.core("155 °F"), at_most="120 h"),
        lc.Stage("wrapped", PIT, wrap="butcher paper", until=lc.core("200 °F"), at_most="120 h"),
    ],
)


@dataclass(frozen=True)
class Input:
    """Something uncertain: what it is called, where it goes, between which values [SI, °C]."""

    name: str
    paths: tuple[str, ...]
    low: float
    high: float
    log: bool = False  # even in the logarithm
    measured: bool = False  # known once it has been measured


@dataclass(frozen=True)
class Shares:
    """Sobol indices of the inputs: shares of the variance of the finish time, with 95 % confidence bounds."""

    inputs: tuple[Input, ...]
    alone: np.ndarray  # first order: what the variance falls by, on average, when the input is known
    total: np.ndarray  # with all interactions
    alone_error: np.ndarray
    total_error: np.ndarray
    hours: np.ndarray  # finish times of all cooks [h]

    def ranked(self) -> list[int]:
        """Order the inputs by their total share, largest first."""
        return [int(i) for i in np.argsort(-self.total)]


def row(name: str, parameter: str, *paths: str, log: bool = False, measured: bool = False) -> Input:
    """Take the range of an input from the table of defaults."""
    found = lc.parameter(parameter)
    return Input(name, paths, found.low, found.high, log, measured)


def film_range() -> tuple[float, float]:
    """Film coefficients [W/(m²·K)] from still air to the fastest that the table has for a cooker."""
    air, face = 121.0, 70.0  # °C, midway through a cook
    shape = lc.brisket().shape
    length = shape.extent / shape.width
    still = lc.physics.natural_plate(face, air, 0.5 * shape.extent / (shape.width + length), "down")
    speed = lc.parameter("pit.offset.air_speed").high
    return float(still), float(lc.physics.forced_plate(speed, length, 0.5 * (air + face)))


def inputs() -> tuple[Input, ...]:
    """List what is uncertain."""
    paper = [f"stages.wrapped.wrap.{side}.vapour_resistance" for side in ("bottom", "top")]
    warm = [to_si(text, "temperature", "pit.air") for text in ("225 °F", "275 °F")]
    wrapped = [to_si(text, "temperature", "until") for text in ("140 °F", "170 °F")]
    return (
        row("thickness of the meat", "brisket.thickness", "meat.thickness", measured=True),
        Input("pit temperature", ("pit.air",), *warm, measured=True),  # common practice, no source
        row("water vapour in the pit", "surroundings.vapour_pressure", "pit.vapour_pressure"),
        Input("air film on the meat", ("pit.film.value",), *film_range()),
        Input("core when it is wrapped", ("stages.smoke.until",), *wrapped),  # common practice, no source
        row("tightness of the paper", "wrap.butcher paper.top.vapour_resistance", *paper),
        row("start temperature", "meat.start", "meat.start"),
        row("speed of the juice", "tissue.mobility.expressed", "meat.tissue.mobility.expressed", log=True),
        row("speed of held water", "tissue.mobility.held", "meat.tissue.mobility.held", log=True),
        row("water kept when cooked", "tissue.holding.final_share", "meat.tissue.holding.final_share"),
        row("temperature that lets water go", "tissue.holding.midpoint", "meat.tissue.holding.midpoint"),
        row("fat cap", "fat_cap.thickness", "meat.fat_cap.thickness"),
    )


def decide(varied: Sequence[Input], cooks: int) -> Shares:
    """Cook Saltelli's sample of the inputs and share out the variance of the finish time."""
    scale = [(np.log(one.low), np.log(one.high)) if one.log else (one.low, one.high) for one in varied]
    problem = {"num_vars": len(varied), "names": [one.name for one in varied], "bounds": scale}
    sample = sampling.sample(problem, cooks, calc_second_order=False, seed=1)
    columns = {
        path: np.exp(values) if one.log else values
        for one, values in zip(varied, sample.T, strict=True)
        for path in one.paths
    }
    found = lc.sweep(PLAN, pd.DataFrame(columns), readings="finish_time")
    hours = found["finish_time"].values / HOUR
    if np.isnan(hours).any():
        raise RuntimeError(
            f"{np.isnan(hours).sum()} cooks have no finish time: {set(found['failure'].values)}"
        )
    indices = analysis.analyze(problem, hours, calc_second_order=False, seed=1)
    return Shares(
        tuple(varied), *(np.asarray(indices[name]) for name in ("S1", "ST", "S1_conf", "ST_conf")), hours
    )


def span(shares: Shares) -> str:
    """Write where nine cooks in ten end."""
    low, high = np.quantile(shares.hours, [0.05, 0.95])
    return f"{low:.0f} to {high:.0f} h"


def listed(shares: Shares, count: int) -> str:
    """Name the inputs that decide most, with their shares."""
    parts = [
        f"{shares.inputs[i].name} ({100.0 * shares.total[i]:.0f} ± {100.0 * shares.total_error[i]:.0f} %)"
        for i in shares.ranked()[:count]
    ]
    return ", ".join(parts[:-1]) + f" and {parts[-1]}"


def sentences(unknown: Shares, known: Shares) -> list[str]:
    """Answer in two sentences that follow from the numbers."""
    small = [known.inputs[i].name for i in range(len(known.inputs)) if known.total[i] < 0.05]
    rest = f"; {len(small)} of the {len(known.inputs)} inputs: less than 5 % each" if small else ""
    return [
        f"With nothing measured, nine cooks in ten are done after {span(unknown)}; most of the variance of "
        f"that time, interactions included, goes with {listed(unknown, 2)}.",
        f"With the thickness measured and the pit held at its temperature it is {span(known)}, and most of "
        f"what is left goes with {listed(known, 3)}{rest}.",
    ]


def draw(unknown: Shares, known: Shares) -> Figure:
    """Draw the shares of both cases as bars with confidence bounds, the largest on top."""
    figure, panels = plt.subplots(1, 2, figsize=(9.6, 5.0), layout="constrained", sharex=True, sharey=True)
    order = [unknown.inputs[i].name for i in unknown.ranked()]
    later = [known.inputs[i].name for i in known.ranked()]
    order = [name for name in order if name not in later] + later
    titles = ("nothing measured", "thickness measured, pit held")
    for ax, shares, title in zip(panels, (unknown, known), titles, strict=True):
        names = [one.name for one in shares.inputs]
        y = np.array([order.index(name) for name in names])
        ax.barh(y - 0.19, 100.0 * shares.total, height=0.36, color="#0072B2", label="with interactions")
        ax.barh(y + 0.19, 100.0 * shares.alone, height=0.36, color="#E69F00", label="alone")
        error = {"fmt": "none", "ecolor": "#1F2328", "elinewidth": 1.0, "capsize": 2.0}
        ax.errorbar(100.0 * shares.total, y - 0.19, xerr=100.0 * shares.total_error, **error)
        ax.errorbar(100.0 * shares.alone, y + 0.19, xerr=100.0 * shares.alone_error, **error)
        for place, name in enumerate(order):
            if name not in names:
                ax.text(1.0, place, "known", fontsize=8.5, color="#6A6F76", va="center")
        ax.set_title(f"{title}: {span(shares)}", fontsize=10, loc="left")
        ax.set_xlabel("share of the variance of the finish time [%]")
        ax.spines[["top", "right"]].set_visible(False)
        ax.tick_params(labelsize=9)
        ax.set_xlim(left=0.0)
    panels[0].set_yticks(range(len(order)), order)
    panels[0].set_ylim(len(order) - 0.4, -0.6)
    panels[1].legend(
        frameon=False, fontsize=9, loc="lower right", title="lines: 95 % confidence", title_fontsize=9,
        alignment="left",
    )  # fmt: skip
    return figure


def main() -> None:
    """Vary, share out, print, draw."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--cooks", type=int, default=256, help="base sample, a power of two")
    parser.add_argument("--figures", type=Path, default=OUTPUT, help="folder that the figure is written to")
    told = parser.parse_args()
    every = inputs()
    unknown = decide(every, told.cooks)
    known = decide([one for one in every if not one.measured], told.cooks)
    count = len(unknown.hours) + len(known.hours)
    print(f"What decides when it is done? An invented brisket of 14 lb, wrapped in paper; {count:,} cooks.")
    for sentence in sentences(unknown, known):
        print(f"  {sentence}")
    figure = draw(unknown, known)
    print(f"wrote {plots.savefig(figure, told.figures / 'sensitivity.png')}")
    plt.close(figure)


if __name__ == "__main__":
    main()
