"""Several cooks side by side: a table and a figure."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import numpy as np

from libcook.arguments.door import door
from libcook.arguments.optional import need
from libcook.arguments.plain import mapping
from libcook.arguments.plain import text as whole_text
from libcook.arguments.quantity import Word
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.figures.marks import hour_ticks
from libcook.figures.style import LINE_STYLES, Theme, dress, halo, label_ends, new_axes, readable, theme_of
from libcook.readings.facts import Facts, read_facts
from libcook.simulate import simulate
from libcook.units import (
    KILOGRAMS_PER_POUND,
    format_clock,
    format_temperature,
    shown_in,
    temperature_unit,
    to_si,
)
from libcook.words import compare_text as text

if TYPE_CHECKING:
    import pandas as pd
    from matplotlib.axes import Axes

__all__ = ["Comparison", "compare"]

HOUR = 3600.0  # s
_ACCEPTED = "names and plans are accepted, as in libcook.compare({'paper': plan, 'foil': other})"


@door
def compare(cooks: Mapping[str, Any], units: Word = "C", hold: Any = "60 °C") -> Comparison:
    """Put several cooks side by side.

    Parameters
    ----------
    cooks : mapping of str to Plan or Outcome
        What to call each cook; plans are simulated.
    units : str
        ``"C"`` or ``"F"`` for the table and the figure.
    hold : float, str or pint.Quantity
        Holding temperature; the table counts how long the core stays at or above it after the pull. 60 °C is
        common practice, no source; your local food-safety rules may set another.

    Returns
    -------
    Comparison

    Examples
    --------
    >>> result = lc.compare({"paper": paper_plan, "foil": foil_plan}, units="F")  # doctest: +SKIP
    >>> result.to_frame(), result.plot()  # doctest: +SKIP
    """
    given = mapping(cooks, "cooks", _ACCEPTED)
    temperature_unit(units)
    level = to_si(hold, "temperature", "hold", low=0.0, high=100.0)
    outcomes = {
        whole_text(str(label), "cooks"): _outcome("cooks", label, cook) for label, cook in given.items()
    }
    made: Comparison = Comparison(outcomes, units, level)
    return made


def _outcome(field: str, label: Any, cook: Any) -> Any:
    if hasattr(cook, "stage_ends") and hasattr(cook, "core"):
        return cook
    if hasattr(cook, "stages"):
        return simulate(cook)
    raise invalid(
        f"{field}[{quoted(label)}]", cook, f"{type(cook).__name__} came", "a plan or an outcome is accepted"
    )


class Comparison:
    """Several cooks side by side, made by `compare`.

    Attributes
    ----------
    outcomes : dict of str to Outcome
        The cooks.
    facts : dict of str to Facts
        What the table is made of; SI, and °C.
    """

    @door
    def __init__(self, outcomes: Mapping[str, Any], units: Word = "C", hold: Any = 60.0) -> None:
        given = mapping(outcomes, "outcomes", _ACCEPTED)
        self.outcomes = {label: _outcome("outcomes", label, out) for label, out in given.items()}
        self.units = temperature_unit(units)
        self.hold = to_si(hold, "temperature", "hold", low=0.0, high=100.0)  # °C
        self.facts: dict[str, Facts] = {
            label: read_facts(out, self.hold) for label, out in self.outcomes.items()
        }

    @property
    def table(self) -> list[dict[str, Any]]:
        """One row for each cook: numbers in the units of the column names, None where there is nothing.

        ``pull`` is the end of the last heated stage. ``still held`` says that the plan ended with the core at
        or above the holding temperature, so that ``held`` is a lower bound.
        """
        return [self._row(label, facts) for label, facts in self.facts.items()]

    def _row(self, label: str, facts: Facts) -> dict[str, Any]:
        u, stall = self.units, facts.stall
        hold = format_temperature(self.hold, u, 0)
        return {
            "cook": label,
            "pull [h]": facts.pulled_at / HOUR,
            "stall start [h]": None if stall is None else float(stall.start) / HOUR,
            "stall end [h]": None if stall is None else float(stall.end) / HOUR,
            f"stall plateau [°{u}]": None if stall is None else float(self._shown(float(stall.plateau))),
            f"carryover [°{u}]": None
            if facts.rise is None
            else float(self._shown(facts.rise) - self._shown(0.0)),
            "peak after pull [min]": None if facts.peak_after is None else facts.peak_after / 60.0,
            "weight loss [%]": 100.0 * facts.lost,
            **self._mass("evaporated", facts.evaporated),
            f"held at {hold} [h]": None if facts.held is None else facts.held / HOUR,
            "still held": facts.still_held,
            "tenderness [%]": 100.0 * facts.tenderness,
        }

    def _notes(self) -> list[str]:
        """Say by the clock when each is off the heat and ready, and what is noted of it."""
        notes = []
        for label, facts in self.facts.items():
            if facts.clock_start is not None and facts.unfinished is None:
                start, off, ready = (
                    format_clock(facts.clock_start + t, days=True) for t in (0.0, facts.pulled_at, facts.end)
                )
                rest = f", the plan ends at {ready}" if facts.end > facts.pulled_at else ""
                notes.append(f"{label}: on at {start}, off the heat at {off}{self._at_core(facts)}{rest}")
            elif core := self._at_core(facts):
                notes.append(f"{label}: off the heat{core}")
            notes += [f"{label}: {note}" for note in self.outcomes[label].notes]
        return notes

    def _at_core(self, facts: Facts) -> str:
        """Say the core at the pull where it was not the core that ended the heat: tender, or by the clock."""
        met = [stage.reason for stage in facts.stages if stage.name == facts.pulled_stage]
        if facts.peak is None and facts.only_cools or not met or met[-1].startswith("core "):
            return ""
        return f" with the core at {format_temperature(facts.pulled_core, self.units, 0)}"

    def _mass(self, name: str, kilograms: float) -> dict[str, float]:
        if self.units == "F":
            return {f"{name} [lb]": kilograms / KILOGRAMS_PER_POUND}
        return {f"{name} [kg]": kilograms}

    def _shown(self, celsius: Any) -> Any:
        return shown_in(celsius, self.units)

    def to_frame(self) -> pd.DataFrame:
        """Return the table as a pandas DataFrame, one row for each cook, NaN where there is nothing."""
        pandas = need("pandas", "frames", "Comparison.to_frame")
        frame: pd.DataFrame = pandas.DataFrame(self.table).set_index("cook")
        numbers = [name for name in frame.columns if name != "still held"]
        return frame.astype(dict.fromkeys(numbers, "float64"))

    @door
    def plot(self, ax: Axes | None = None, theme: Word = "light") -> Axes:
        """Draw the core of every cook, thick while it stalls, with a dot and the hour at the pull.

        The hours are left out where there are more than six cooks.

        Parameters
        ----------
        ax : matplotlib.axes.Axes, optional
            Where to draw; a new figure by default.
        theme : str
            ``"light"`` or ``"dark"``.

        Returns
        -------
        matplotlib.axes.Axes
            One line for each cook, labelled with its name; ``.figure.savefig("cooks.png")`` saves it.
        """
        colours = theme_of(theme)
        ax = ax if ax is not None else new_axes(colours)[0]
        dress(ax, colours, "time since the start [h]", f"core temperature [°{self.units}]")
        longest = max(facts.end for facts in self.facts.values()) / HOUR
        ends, pulls = [], []
        for i, (label, outcome) in enumerate(self.outcomes.items()):
            facts = self.facts[label]
            rounds, place = divmod(i, len(colours.series))
            colour = colours.series[place]
            x = np.asarray(outcome.time) / HOUR
            y = self._shown(outcome.core)
            ax.plot(
                x, y, color=colour, lw=1.6, ls=LINE_STYLES[rounds % len(LINE_STYLES)], label=label, zorder=3
            )
            if facts.stall is not None:
                inside = (x >= float(facts.stall.start) / HOUR) & (x <= float(facts.stall.end) / HOUR)
                ax.plot(
                    x[inside], y[inside], color=colour, lw=5.5, alpha=0.3, solid_capstyle="round", zorder=2
                )
            ax.plot(
                [facts.pulled_at / HOUR], [self._shown(facts.pulled_core)], marker="o", ms=5.5, mec=colour,
                mfc=colours.paper, mew=1.5, zorder=4, clip_on=False,
            )  # fmt: skip
            ends.append((float(x[-1]), float(y[-1]), label, colour))
            pulls.append((facts.pulled_at / HOUR, float(self._shown(facts.pulled_core)), colour))
        ax.set_xlim(0.0, longest or 0.25)  # cooks of which every stage was skipped last no time
        ax.margins(y=0.08)
        ax.set_xticks(hour_ticks(longest))
        ax.axhline(self._shown(self.hold), color=colours.faint, lw=0.8, ls=(0, (4, 3)), zorder=1)
        ax.annotate(
            f"hold at {format_temperature(self.hold, self.units, 0)}", xy=(0.0, self._shown(self.hold)),
            xytext=(4.0, 3.0), textcoords="offset points", fontsize=8.5, color=colours.ink, va="bottom",
            path_effects=halo(colours), zorder=5,
        )  # fmt: skip
        if len(pulls) <= 6:  # more would pile up
            _hours_at_dots(ax, pulls, longest, colours)
        ax.text(
            0.0, 1.02, "dot: end of the heat    thick: stall", transform=ax.transAxes, fontsize=8.5,
            color=colours.ink, va="bottom",
        )  # fmt: skip
        label_ends(ax, ends, colours)
        return ax

    def __repr__(self) -> str:
        """Return the table as aligned plain text."""
        return text.plain(self.table, self._notes())

    def _repr_html_(self) -> str:
        """Return the table as HTML, for notebooks."""
        return text.html(self.table, self._notes())


def _hours_at_dots(ax: Axes, pulls: list[tuple[float, float, str]], longest: float, colours: Theme) -> None:
    """Write the hours above each dot, in the lowest line that has room."""
    room, step = 0.06 * longest, 10.0  # h that a number takes; points from one line to the next
    taken: list[float] = []  # where each line's last number is
    for at, core, colour in sorted(pulls):
        line = next((i for i, before in enumerate(taken) if at - before >= room), len(taken))
        taken[line : line + 1] = [at]
        ax.annotate(
            f"{at:.1f} h", xy=(at, core), xytext=(0.0, 6.0 + step * line), textcoords="offset points",
            ha="center", va="bottom", fontsize=8.5, color=readable(colour, colours),
            path_effects=halo(colours), zorder=6, annotation_clip=False,
        )  # fmt: skip
