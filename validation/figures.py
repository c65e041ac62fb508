"""Figures of the report: one style, drawn without a screen, as SVG text."""

from __future__ import annotations

import io

import matplotlib

matplotlib.use("Agg")

import matplotlib.pyplot as plt
from evidence import Figure
from matplotlib.axes import Axes

SIZE = (7.6, 3.4)
# Colour-blind safe (Okabe & Ito 2008), dark enough on white.
COLOURS = ["#0072b2", "#d55e00", "#009e73", "#cc79a7", "#444444"]
STYLE = {
    "axes.grid": True,
    "axes.spines.right": False,
    "axes.spines.top": False,
    "axes.prop_cycle": matplotlib.cycler(color=COLOURS),
    "figure.constrained_layout.use": True,
    "font.size": 9.5,
    "grid.color": "#dddddd",
    "legend.frameon": False,
    "lines.linewidth": 1.6,
    "svg.hashsalt": "libcook",  # the same figure gives the same text
}
REFERENCE = {"linestyle": "none", "marker": "o", "markersize": 4.5, "markerfacecolor": "none"}


def axes(xlabel: str, ylabel: str, title: str = "") -> Axes:
    with plt.rc_context(STYLE):
        figure, made = plt.subplots(figsize=SIZE)
        made.set_xlabel(xlabel)
        made.set_ylabel(ylabel)
        made.set_title(title, loc="left", fontsize=10.5)
    return made


def finish(drawn: Axes, caption: str) -> Figure:
    with plt.rc_context(STYLE):
        handles, _ = drawn.get_legend_handles_labels()
        if handles and drawn.get_legend() is None:
            drawn.legend(fontsize=8.5, loc="upper left", bbox_to_anchor=(1.0, 1.0))
        text = io.StringIO()
        drawn.figure.savefig(text, format="svg", metadata={"Date": None, "Creator": None})
        plt.close(drawn.figure)
    return Figure(text.getvalue(), caption)
