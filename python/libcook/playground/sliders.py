"""Sliders over one cook: wrap, pit, humidity and thickness; curves, budget and finish time at once.

    import libcook as lc
    lc.playground.show()

Needs the extra ``playground``. Without it, and where no kernel runs (a saved notebook on a web page), the
same figure is shown, only that nothing moves.
"""

from __future__ import annotations

import functools
from html import escape
from pathlib import Path
from typing import Any, NamedTuple

from libcook import cookers
from libcook.arguments.door import door
from libcook.arguments.quantity import Word
from libcook.arguments.quote import quoted
from libcook.ends import core
from libcook.errors import SolverFailure, invalid
from libcook.figures.svg import playground_svg
from libcook.meat import brisket
from libcook.outcome import Outcome
from libcook.plan import Plan, Stage
from libcook.readings.facts import read_facts
from libcook.simulate import simulate
from libcook.units import fahrenheit_to_celsius, format_duration, format_percent, shown_in, temperature_unit
from libcook.words.sentences import sentences
from libcook.wraps import wrap_names

__all__ = ["Still", "show"]

DONE = 93.3  # °C, 200 °F: common practice, no source
LONGEST = "48 h"  # after which a cook is given up


class Knob(NamedTuple):
    """A slider: what it changes, between which values and in which steps, in SI, or °C."""

    key: str
    label: str
    unit: str  # as shown; "°" takes the unit of temperature
    low: float
    high: float
    steps: tuple[float, float]  # with °C, with °F
    usual: float


KNOBS = (
    Knob("wrap_at", "wrap when the core is at", "°", 48.9, 87.8, (1.0, 1.0), 65.6),
    Knob("air", "pit", "°", 100.0, 165.6, (1.0, 5.0), 121.1),
    Knob("vapour", "water vapour in the pit", "kPa", 3.0, 25.0, (0.5, 0.5), 8.0),
    Knob("thickness", "thickness of the meat", "mm", 40.0, 90.0, (1.0, 1.0), 57.0),
)
WRAPS = tuple(name for name in wrap_names() if name in ("none", "butcher paper", "foil", "pan"))


@door
def show(mass: Any = "14 lb", units: Word = "F", pit: str = "drum") -> Any:
    """Show sliders over the cook of one brisket, from the refrigerator to 200 °F (93.3 °C).

    Parameters
    ----------
    mass : float, str or pint.Quantity
        Of the brisket; a plain number is in kg.
    units : str
        ``"C"`` or ``"F"``.
    pit : str
        Kind of pit, as in `libcook.pit`.

    Returns
    -------
    Playground or Still
        Its ``outcome`` is the cook that is shown; ``set(air=130.0, wrap="foil")`` moves the sliders [°C, kPa,
        mm]. A `Still` where the package anywidget is not installed.
    """
    temperature_unit(units)
    still = Still(mass, units, pit)
    try:
        made: Any = _widget()
    except ImportError:
        return still
    return made(still)


class Still:
    """One cook as a figure and words: what the sliders show, without sliders.

    Attributes
    ----------
    values : dict of str to float or str
        Where the sliders are: ``wrap``, ``wrap_at`` and ``air`` [°C], ``vapour`` [kPa], ``thickness`` [mm].
    outcome : Outcome
        The cook that is shown.
    """

    def __init__(self, mass: Any, units: Word, pit: str) -> None:
        self.mass, self.units, self.pit = mass, units, pit
        self.values: dict[str, Any] = {knob.key: knob.usual for knob in KNOBS} | {"wrap": "butcher paper"}
        self.outcome: Outcome = self._cook()
        self._first = (self.outcome.time, self.outcome.core)

    def set(self, **values: Any) -> None:
        """Move sliders; each stays within its ends.

        Parameters
        ----------
        **values : float or str
            ``wrap``, ``wrap_at`` and ``air`` [°C], ``vapour`` [kPa], ``thickness`` [mm].
        """
        ranges = {knob.key: knob for knob in KNOBS}
        for key, value in values.items():
            if key == "wrap":
                if value not in WRAPS:
                    raise invalid(
                        "wrap", value, f"{quoted(value)} is not on the list", f"accepted: {', '.join(WRAPS)}"
                    )
                self.values["wrap"] = value
            elif key in ranges:
                low, high = ranges[key].low, ranges[key].high
                if isinstance(value, bool) or not isinstance(value, (int, float)) or value != value:
                    raise invalid(key, value, f"{quoted(value)} came", f"{low:g} to {high:g} is accepted")
                self.values[key] = min(max(float(value), low), high)
            else:
                raise invalid(
                    key, value, f"there is no slider {quoted(key)}", f"accepted: wrap, {', '.join(ranges)}"
                )
        self.outcome = self._cook()

    def _cook(self) -> Outcome:
        told = self.values
        place = cookers.pit(self.pit, air=told["air"]).replace(vapour_pressure=1000.0 * told["vapour"])
        done = core(DONE)
        bare = told["wrap"] == "none"
        stages = [Stage("bare", place, until=done if bare else core(told["wrap_at"]), at_most=LONGEST)]
        if not bare:
            stages.append(Stage("wrapped", place, wrap=told["wrap"], until=done, at_most=LONGEST))
        piece = brisket(mass=self.mass, thickness=1e-3 * told["thickness"])
        try:
            return simulate(Plan(piece, stages), keep_fields=False)
        except SolverFailure as failure:  # too cool a pit: what there is of it is shown
            partial: Outcome = failure.outcome
            return partial

    @property
    def headline(self) -> str:
        """When it is done, in a line."""
        facts = read_facts(self.outcome)
        if facts.unfinished is not None:
            return f"not done after {format_duration(facts.end)}"
        length = facts.stall_length
        stalls = "no stall" if length is None else f"stalls for {format_duration(length)}"
        lost = f"{format_percent(facts.lost)} of the weight lost"
        return f"done after {format_duration(facts.end)}, {stalls}, {lost}"

    def picture(self) -> dict[str, Any]:
        """Return what is shown: figure, headline, words and caution as text."""
        said = sentences(self.outcome, self.units)
        return {
            "svg": playground_svg(self.outcome, self.units, self._first),
            "headline": self.headline,
            "words": [said[1], said[3]],
            "caution": self.outcome.safety().caution,
        }

    def __repr__(self) -> str:
        """Say in a line when it is done, and where the sliders are."""
        return f"{self.headline} ({self._places()})"

    def _places(self) -> str:
        places = (f"{knob.label} {shown_value(knob, self.values, self.units)}" for knob in KNOBS)
        return f"{self.values['wrap']}; {', '.join(places)}"

    def _repr_html_(self) -> str:
        return self.still_html() + (
            '<p style="opacity:.75">To move the sliders, install them: '
            "<code>pip install 'libcook[playground]'</code></p>"
        )

    def still_html(self) -> str:
        """Return the figure and the words as HTML that needs no kernel and no script."""
        shown = self.picture()
        words = "".join(f"<p>{escape(text)}</p>" for text in (*shown["words"], shown["caution"]))
        return (
            f'<div style="max-width:60em"><p><strong>{escape(shown["headline"])}</strong><br>'
            f"{escape(self._places())}</p>{shown['svg']}{words}</div>"
        )


def shown_value(knob: Knob, values: dict[str, Any], units: str) -> str:
    """Write where a slider is, with its unit."""
    return f"{displayed(knob, values[knob.key], units):g} {unit_of(knob, units)}"


def unit_of(knob: Knob, units: str) -> str:
    """Return the unit that a slider's value is shown in."""
    return f"°{units}" if knob.unit == "°" else knob.unit


def displayed(knob: Knob, value: float, units: str) -> float:
    """Convert a slider's value to the unit it is shown in, rounded to its step."""
    shown = float(shown_in(value, units)) if knob.unit == "°" else value
    step = knob.steps[1 if units == "F" else 0]
    return float(round(shown / step) * step)


def meant(knob: Knob, value: float, units: str) -> float:
    """Convert a slider's value back from the unit it is shown in."""
    return fahrenheit_to_celsius(float(value)) if knob.unit == "°" and units == "F" else float(value)


def controls(units: str) -> list[dict[str, Any]]:
    """Describe the sliders for the page, in the units that are shown."""
    return [
        {
            "key": knob.key,
            "label": knob.label,
            "unit": unit_of(knob, units),
            "low": displayed(knob, knob.low, units),
            "high": displayed(knob, knob.high, units),
            "step": knob.steps[1 if units == "F" else 0],
        }
        for knob in KNOBS
    ]


@functools.cache
def _widget() -> Any:
    """Make the widget's class; only where anywidget is there is it a widget."""
    import anywidget
    import traitlets

    here = Path(__file__).parent

    class Playground(anywidget.AnyWidget):
        """Sliders over one cook; see `libcook.playground.show`."""

        _esm = (here / "sliders.js").read_text(encoding="utf-8")
        _css = (here / "sliders.css").read_text(encoding="utf-8")
        units = traitlets.Unicode("F").tag(sync=True)
        controls: Any = traitlets.List().tag(sync=True)
        wraps = traitlets.List(list(WRAPS)).tag(sync=True)
        asked = traitlets.Dict().tag(sync=True)  # where the page's sliders are, in its units
        picture = traitlets.Dict().tag(sync=True)

        def __init__(self, still: Still) -> None:
            self._still = still
            super().__init__(
                units=still.units,
                controls=controls(still.units),
                asked=self._places(),
                picture=still.picture(),
            )

        @property
        def outcome(self) -> Outcome:
            """The cook that is shown."""
            return self._still.outcome

        @property
        def values(self) -> dict[str, Any]:
            """Where the sliders are [°C, kPa, mm]."""
            return dict(self._still.values)

        def set(self, **values: Any) -> None:
            """Move sliders; see `Still.set`."""
            self._still.set(**values)
            with self.hold_trait_notifications():
                self.asked = self._places()
            self.picture = self._still.picture()

        def __repr__(self) -> str:
            return repr(self._still)

        def _places(self) -> dict[str, Any]:
            told, units = self._still.values, self._still.units
            return {"wrap": told["wrap"]} | {k.key: displayed(k, told[k.key], units) for k in KNOBS}

        @traitlets.observe("asked")
        def _moved(self, _change: Any) -> None:
            told = {k.key: meant(k, self.asked[k.key], self.units) for k in KNOBS if k.key in self.asked}
            if self._places() == self.asked:
                return  # set from Python: drawn already
            self._still.set(wrap=self.asked["wrap"], **told)
            self.picture = self._still.picture() | {"answers": self.asked.get("turn", 0)}

        @traitlets.observe("units")
        def _other_units(self, _change: Any) -> None:
            self._still.units = temperature_unit(self.units)
            self.controls = controls(self.units)
            self.asked = self._places()
            self.picture = self._still.picture()

        def _repr_mimebundle_(self, **kwargs: Any) -> Any:
            bundle = super()._repr_mimebundle_(**kwargs)
            data = bundle[0] if isinstance(bundle, tuple) else bundle
            if data is not None:  # what a page without a kernel shows
                data["text/html"] = self._still.still_html()
            return bundle

    return Playground
