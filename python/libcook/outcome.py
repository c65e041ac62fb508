"""What a simulation computed, and what is read off it."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from libcook import _core
from libcook._core import Bark, Carryover, HeatBudget, HotHold, Ledger, Loss, Safety, Stall
from libcook.arguments.door import door
from libcook.arguments.files import read_text
from libcook.arguments.plain import choice, two, whole
from libcook.arguments.quantity import Quantity, Word
from libcook.readings.parts import ProbeTrace, StageEnd
from libcook.units import to_si
from libcook.words.forms import outcome_form
from libcook.words.sentences import sentences

if TYPE_CHECKING:
    import pandas as pd
    import xarray as xr
    from matplotlib.axes import Axes

__all__ = [
    "Bark",
    "Carryover",
    "HeatBudget",
    "HotHold",
    "Ledger",
    "Loss",
    "Outcome",
    "ProbeTrace",
    "Safety",
    "StageEnd",
    "Stall",
]

FloatArray = npt.NDArray[np.float64]


class Outcome(_core.Outcome):
    """What a simulation computed; made by `simulate`, does not change.

    All arrays are read-only, in SI and °C. Those of shape (times,), (nodes,) and (times, nodes) are views
    that keep the outcome alive; nothing is copied. The faces are (bottom, top); a cylinder has one.

    Attributes
    ----------
    time, core, coldest, air, tenderness, mean_water, mean_temperature : numpy.ndarray
        Shape (times,): [s], [°C], [°C], [°C], share of the collagen converted at the core [-], [kg/kg dry],
        [°C].
    surface, surface_water, film : numpy.ndarray
        Shape (times, faces): [°C], [kg/kg dry], liquid on the face [kg/m²].
    position, node_volume : numpy.ndarray
        Shape (nodes,): height above the bottom face or radius [m], share of the volume [-].
    along, region : numpy.ndarray
        Shape (nodes,) in a cross-section, else empty: distance from the flat end [m]; 0 flat, 1 point, 2
        seam.
    lines : int
        Lines of nodes side by side: 2 on a whole piece, the nodes of its middle first, then those of its
        rim; 1 on a slab, 0 on a cross-section.
    columns : int
        Nodes along the length of a cross-section, column by column from the bottom up; 0 on other grids.
    vapour_pressure, pan_water : numpy.ndarray
        Shape (times,): of water in the air around the meat [Pa], left in the water pan [kg].
    temperature, water : numpy.ndarray
        Shape (times, nodes): [°C], [kg/kg dry]; shape (0, nodes) when the fields were not kept.
    plan : Plan
        A copy of the plan that was run.
    ledger : Ledger
        Totals of heat and water, and how well they close.
    events : list of (float, str)
        Times [s] and what happened then: ``"spritz"`` or ``"lid"``.
    notes : list of str
        What a user should know, such as correlations used beyond their range.
    """

    _physics: _core.Physics | None = None  # it was run with; None where it was read from a file

    @property
    def stage_ends(self) -> list[StageEnd]:
        """Where each stage ended: (name, time [s], core [°C]), and by attribute ``start`` and ``reason``."""
        return [StageEnd(*end) for end in self._stage_ends()]

    @door
    def core_at(self, time: Quantity) -> float:
        """Core temperature at a time [°C].

        Parameters
        ----------
        time : float, str or pint.Quantity
            Such as ``"5 h"``; a plain number is in s.

        Raises
        ------
        InvalidInput
            When it lies outside the cook.
        """
        return self._core_at(to_si(time, "duration", "time"))

    @property
    def probes(self) -> dict[str, ProbeTrace]:
        """Traces of the probes, by name: "flat" and "point" of a cross-section, and those of the plan."""
        return {probe[0]: ProbeTrace(*probe) for probe in self._probes()}

    @door
    def probe(self, position: Quantity | tuple[Quantity, Quantity] = "core") -> FloatArray:
        """Temperature over time at a place [°C], shape (times,).

        Parameters
        ----------
        position : float, str, pint.Quantity or pair of them
            Height above the bottom face of the meat, or radius in a cylinder, such as ``"20 mm"``; a plain
            number is in m. In a cross-section a pair: distance from the flat end and height, such as
            ``("12 cm", "3 cm")``. Or a name: ``"core"``, ``"centre"``, one of `faces`, or of `probes`.

        Raises
        ------
        InvalidInput
            When it lies outside the meat, or the fields were not kept.
        """
        if isinstance(position, str):
            name = position.strip().lower()
            if name in ("core", "centre", "center"):
                return self.core
            if name in self.faces:
                return self.surface[:, self.faces.index(name)]
            traces = self.probes
            if position.strip() in traces:
                return traces[position.strip()].temperature
        if isinstance(position, tuple):
            x, z = two(position, "probe", "a height, or a pair such as ('12 cm', '3 cm'), is accepted")
            return self._probe_at(to_si(x, "length", "probe"), to_si(z, "length", "probe"))
        return self._probe(to_si(position, "length", "probe"))

    def stall(self) -> Stall | None:
        """Find the stall; the first one where there are several.

        It begins when the rate of the core over the last 40 min falls below a quarter of the fastest so far
        and below 6 K/h, with the core between 50 and 80 °C. It is over when the rate has climbed again by
        1.5 K/h or by its slowest value, whichever is more, or when the core leaves 50 to 85 °C; less than
        half an hour is none. So nothing depends on what comes later, and one that still goes on says so. The
        definition is ours: none has been published. Its numbers: ``libcook.parameters()``, rows ``stall.*``.

        Returns
        -------
        Stall or None
            ``start``, ``end``, ``duration`` [s], ``over``, ``plateau`` [°C], ``slowest`` [K/s].
        """
        return _core.stall(self)

    def carryover(self) -> Carryover | None:
        """Rise of the core after the last heated stage, or None when no stage follows it."""
        return _core.carryover(self)

    @door
    def falls_to(self, temperature: Quantity) -> float | None:
        """When the core, after its peak, falls to a temperature such as ``"60 °C"`` [s]; None if never."""
        return _core.falls_to(self, to_si(temperature, "temperature", "falls_to"))

    @door
    def time_above(self, temperature: Quantity) -> float:
        """How long the core stays at or above a temperature after the pull [s].

        Of the whole cook when it was never pulled.
        """
        return _core.time_above(self, to_si(temperature, "temperature", "time_above"))

    def bark(self) -> tuple[Bark, Bark]:
        """Bark of the bottom and the top: a heuristic of ours that ranks cooks; an index of 1 counts as set.

        In a cross-section of the faces under and over the core; a cylinder has only the second.
        """
        return _core.bark(self)

    @door
    def hot_hold(self, limit: Quantity = 57.0, slicing: Quantity = 65.0) -> HotHold:
        """How long the coldest and the hottest part stay hot after the pull.

        Parameters
        ----------
        limit : float, str or pint.Quantity
            Hot holding: 57 °C (FDA Food Code 3-501.16); your local rules may ask for more.
        slicing : float, str or pint.Quantity
            What the hottest part should cool to before it is sliced: common practice, no source.
        """
        return _core.hot_hold(
            self,
            to_si(limit, "temperature", "hot_hold.limit"),
            to_si(slicing, "temperature", "hot_hold.slicing"),
        )

    @property
    def hottest(self) -> FloatArray:
        """Hottest place over time [°C], shape (times,)."""
        return _core.hottest(self)

    @door
    def tenderness_by_node(self, at: Quantity | None = None) -> FloatArray:
        """Share of the collagen converted at every node [-], shape (nodes,).

        Parameters
        ----------
        at : float, str or pint.Quantity, optional
            Until when, such as ``"6 h"``; to the end by default.
        """
        return _core.tenderness_by_node(self, None if at is None else to_si(at, "duration", "at"))

    @property
    def loss(self) -> Loss:
        """Where the weight went [kg]."""
        return _core.loss(self)

    @door
    def heat_budget(self, face: Word = "top") -> HeatBudget:
        """Heat fluxes through a face over each interval between stored times [W/m²].

        convection + radiation - evaporation = into_meat: what is left to warm the meat. Water that leaves
        takes its own heat along, which is listed apart as carried.

        Parameters
        ----------
        face : str
            One of `faces`; of a cylinder every name means its one face.

        Returns
        -------
        HeatBudget
            Arrays of shape (times - 1,).
        """
        choice(face, ("bottom", "top", "surface"), "face")
        names = self.faces
        if len(names) == 1:
            return _core.heat_budget(self, 1)
        return _core.heat_budget(self, names.index(choice(face, names, "face")))

    def safety(self) -> Safety:
        """Read lethality, time in the danger zone, and cooling; never a permission.

        Follow your local food-safety rules; `Safety.caution` says what is not covered. The limits, with
        source: ``libcook.parameters()``, rows ``safety.*``.
        """
        return _core.safety(self)

    @door
    def in_words(self, units: Word = "C", hold: Quantity = 60.0, variants: int = 100) -> list[str]:
        """Say in four sentences when it ends, why it stalls, what the rest does, what is lost, and how sure.

        Parameters
        ----------
        units : str
            ``"C"`` or ``"F"``; with °F, masses are in lb.
        hold : float, str or pint.Quantity
            Holding temperature; 60 °C is common practice, no source.
        variants : int
            How many possible cooks stand behind the ranges, 0 for none; see `libcook.sentences` and
            `libcook.belief`.

        Examples
        --------
        >>> print(*out.in_words(units="F"), sep="; ")  # doctest: +SKIP
        """
        return sentences(self, units, hold, variants)

    @door
    def to_json(self, fields: bool = False, indent: int = -1) -> str:
        """Return JSON text.

        Parameters
        ----------
        fields : bool
            Whether to include temperature and water of every node: nearly all of the text.
        indent : int
            Spaces per level; negative: all on one line.
        """
        return _core.outcome_to_json(self, fields, whole(indent, "indent", -1, 100))

    @classmethod
    @door
    def from_json(cls, text: str | os.PathLike[str]) -> Outcome:
        """Read what `to_json` wrote: text, or the path of a file as a ``pathlib.Path``."""
        content = text if isinstance(text, str) else read_text(Path(text), "text")
        return cls(_core.outcome_from_json(content))

    def to_xarray(self) -> xr.Dataset:
        """Return an xarray Dataset with dimensions time, face and node; needs xarray."""
        from libcook.readings.frames import to_xarray

        return to_xarray(self)

    @door
    def to_frame(self, units: Word = "C") -> pd.DataFrame:
        """Return a pandas DataFrame indexed by time, temperatures in °C or °F; needs pandas."""
        from libcook.readings.frames import to_frame

        return to_frame(self, units)

    @door
    def plot(self, units: Word = "C", ax: Axes | None = None, theme: Word = "light") -> Axes:
        """Draw core, surface and air over time, in °C or °F; see `libcook.plots.plot_outcome`."""
        from libcook.figures.plots import plot_outcome

        return plot_outcome(self, units, ax, theme)

    @door
    def plot_budget(self, face: Word = "top", ax: Axes | None = None, theme: Word = "light") -> Axes:
        """Draw where the heat at a face goes [W/m²], stacked; see `libcook.plots.plot_budget`."""
        from libcook.figures.plots import plot_budget

        return plot_budget(self, face, ax, theme)

    @door
    def plot_profiles(
        self, times: Sequence[Quantity], units: Word = "C", theme: Word = "light"
    ) -> tuple[Axes, Axes]:
        """Draw temperature and water through the meat; see `libcook.plots.plot_profiles`."""
        from libcook.figures.plots import plot_profiles

        return plot_profiles(self, times, units, theme)

    @door
    def plot_section(
        self,
        what: Word = "temperature",
        at: Sequence[Quantity] | str | float | None = None,
        units: Word = "C",
        theme: Word = "light",
    ) -> list[Axes]:
        """Draw the cross-section at some times; see `libcook.section_plots.section_map`."""
        from libcook.figures.section_plots import section_map

        return section_map(self, what, at, units, theme)

    @door
    def probe_map(self, at: Quantity | None = None, units: Word = "C", theme: Word = "light") -> Axes:
        """Draw how much a probe 1 cm off reads more or less; see `libcook.section_plots.probe_map`."""
        from libcook.figures.section_plots import probe_map

        return probe_map(self, at, units=units, theme=theme)

    def __repr__(self) -> str:
        """Return the story in a few lines."""
        return outcome_form(self)

    def _repr_html_(self) -> str:
        from libcook.words.html import outcome_html

        return outcome_html(self)
