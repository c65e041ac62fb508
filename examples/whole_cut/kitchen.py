"""What the examples of the whole cut share: an invented brisket, how to cook it, and how figures look."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path

import matplotlib

matplotlib.use("Agg")  # figures go to files; no screen is needed
import matplotlib.pyplot as plt
import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

import libcook as lc
from libcook import plots

HOUR = 3600.0
OUTPUT = Path(__file__).resolve().parents[1] / "output"
INVENTED = "An invented brisket of 14 lb in the default section; measure yours."
CAUTION = (
    "Computed, not measured: check the coldest part with a probe, and follow your local food-safety rules; "
    "they come first."
)
FLAT, POINT, OTHER, GREY = "#0072B2", "#D55E00", "#009E73", "#6A6F76"

# Change these to your own cook.
MEAT = lc.brisket(mass="14 lb")
PIT = lc.pit("drum", air="250 °F")
DONE = "200 °F"
DONE_C = lc.core(DONE).value


def cook(meat: lc.Meat, stages: list[lc.Stage], probes: list[lc.Probe] | None = None) -> lc.Outcome:
    """Simulate a plan in the cross-section."""
    return lc.simulate(lc.Plan(meat, stages).replace(probes=probes or []), grid="cross-section")


def smoke(meat: lc.Meat, pit: lc.Surroundings, where: str = "flat") -> lc.Outcome:
    """Cook bare until the flat or the point is done."""
    return cook(meat, [lc.Stage("smoke", pit, until=lc.core(DONE), probe=where)])


def reaches(time: np.ndarray, values: np.ndarray, level: float) -> float:
    """Return when values first rise to a level [s]; NaN when they never do."""
    above = np.flatnonzero(values >= level)
    if above.size == 0:
        return float("nan")
    i = int(above[0])
    if i == 0:
        return float(time[0])
    share = (level - values[i - 1]) / (values[i] - values[i - 1])
    return float(time[i - 1] + share * (time[i] - time[i - 1]))


def fahrenheit(celsius: float | np.ndarray) -> float | np.ndarray:
    """Convert for the words and the figures."""
    return 1.8 * celsius + 32.0


def degrees(celsius: float) -> str:
    """Write a temperature."""
    return f"{1.8 * celsius + 32.0:.0f} °F"


def hours(seconds: float) -> str:
    """Write a duration."""
    minutes = round(abs(seconds) / 60.0)
    return f"{minutes} min" if minutes < 60 else f"{minutes // 60} h {minutes % 60:02d} min"


def panels(
    *shares: float, size: tuple[float, float] = (9.0, 3.9), stacked: bool = False
) -> tuple[Figure, list[Axes]]:
    """Make a figure with panels side by side, or one above the other."""
    ratios = {"height_ratios": shares} if stacked else {"width_ratios": shares}
    rows, columns = (len(shares), 1) if stacked else (1, len(shares))
    figure, axes = plt.subplots(rows, columns, figsize=size, layout="constrained", squeeze=False, **ratios)
    for ax in axes.flat:
        ax.spines[["top", "right"]].set_visible(False)
        ax.tick_params(labelsize=9)
    return figure, list(axes.flat)


def section_map(ax: Axes, out: lc.Outcome, values: np.ndarray, levels: np.ndarray, colours: str) -> object:
    """Fill the section with the values of its nodes, drawn to scale, in cm."""
    shape = (out.columns, -1)
    x, z = (100.0 * np.asarray(v).reshape(shape) for v in (out.along, out.position))
    filled = ax.contourf(x, z, values.reshape(shape), levels=levels, cmap=colours, extend="both")
    for edge in (0, -1):
        ax.plot(x[:, edge], z[:, edge], color="#1F2328", lw=1.2)
        ax.plot(x[edge], z[edge], color="#1F2328", lw=1.2)
    ax.set_aspect("equal")
    ax.set_xlabel("from the flat end [cm]")
    ax.set_ylabel("height [cm]")
    return filled


def inside(out: lc.Outcome, deep: float = 0.01) -> np.ndarray:
    """Say which nodes lie deeper than this under all faces [m]; shape (columns, rows)."""
    x, z = (np.asarray(v).reshape(out.columns, -1) for v in (out.along, out.position))
    walls = (z - z[:, :1], z[:, -1:] - z, x - x[:1], x[-1:] - x)
    return np.minimum.reduce(np.broadcast_arrays(*walls)) >= deep


def coldest(out: lc.Outcome, i: int) -> tuple[float, float, float]:
    """Find the coldest place deeper than 1 cm: from the flat end [m], height [m], temperature [°C]."""
    k = int(np.argmin(np.where(inside(out).ravel(), out.temperature[i], np.inf)))
    return float(out.along[k]), float(out.position[k]), float(out.temperature[i, k])


def mark(ax: Axes, name: str, x: float, z: float, per_metre: float = 100.0) -> None:
    """Mark a place [m] on axes in cm, or in what else a metre has."""
    at = (per_metre * x, per_metre * z)
    ax.plot(*at, "o", ms=6, mfc="white", mec="#1F2328")
    ax.annotate(
        name, at, (7, 5), textcoords="offset points", fontsize=9,
        bbox={"fc": "white", "ec": "none", "alpha": 0.75, "pad": 1.0},
    )  # fmt: skip


def show(name: str, question: str, answer: Callable[[], tuple[list[str], Figure]]) -> None:
    """Print the question and its two sentences, and write the figure."""
    parser = argparse.ArgumentParser(description=question)
    parser.add_argument("--figures", type=Path, default=OUTPUT, help="folder that the figure is written to")
    folder = parser.parse_args().figures
    sentences, figure = answer()
    print(f"{question} {INVENTED}")
    for sentence in sentences:
        print(f"  {sentence}")
    print(f"wrote {plots.savefig(figure, folder / f'{name}.png')}")
    plt.close(figure)
