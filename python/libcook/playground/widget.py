"""The playground as a widget: what the page's sliders ask, and what it is answered."""

from __future__ import annotations

import functools
from pathlib import Path
from typing import Any

from libcook.arguments.door import door
from libcook.arguments.quantity import Word
from libcook.outcome import Outcome
from libcook.plan import Plan
from libcook.playground.settings import KNOBS, PRESETS, Settings, choices, displayed, ends_of, meant, unit_of
from libcook.playground.sliders import Still
from libcook.units import temperature_unit

__all__ = ["controls", "playground_class", "show"]


def controls(units: str, told: Settings) -> list[dict[str, Any]]:
    """Describe lists and sliders for the page, in the units that are shown."""
    listed: list[dict[str, Any]] = [
        {"key": key, "label": label, "options": list(options.items())}
        for key, (label, options) in choices().items()
    ]
    ranged: list[dict[str, Any]] = [
        {
            "key": knob.key,
            "label": knob.label,
            "unit": unit_of(knob, units),
            "low": displayed(knob, ends_of(knob, told)[0], units),
            "high": displayed(knob, ends_of(knob, told)[1], units),
            "step": knob.shown[units == "F"][1],
        }
        for knob in KNOBS
    ]
    by_key = {each["key"]: each for each in (*listed, *ranged)}
    order = (
        "cut",
        "mass",
        "thickness",
        "cooker",
        "air",
        "vapour",
        "spritz",
        "wrap",
        "wrap_at",
        "pull",
        "rest",
    )
    return [by_key[key] for key in (*order, "rest_time")]


@functools.cache
def playground_class() -> Any:
    """Make the widget's class; only where anywidget is there is it a widget."""
    import anywidget
    import traitlets

    here = Path(__file__).parent

    class Playground(anywidget.AnyWidget):
        """Sliders over a cook or two; see `libcook.playground.show`."""

        _esm = (here / "sliders.js").read_text(encoding="utf-8")
        _css = (here / "sliders.css").read_text(encoding="utf-8")
        units = traitlets.Unicode("F").tag(sync=True)
        controls: Any = traitlets.List().tag(sync=True)
        presets = traitlets.List(list(PRESETS)).tag(sync=True)
        asked = traitlets.Dict().tag(sync=True)  # where the page's sliders are, in its units
        cooks = traitlets.Dict({"second": False, "picked": "a"}).tag(sync=True)
        wanted = traitlets.Dict().tag(sync=True)  # what is to be taken along, and the how manieth wish it is
        file = traitlets.Dict().tag(sync=True)  # that: name, type and text
        picture = traitlets.Dict().tag(sync=True)

        def __init__(self, still: Still) -> None:
            self._still = still
            super().__init__(
                units=still.units,
                controls=controls(still.units, still.values),
                asked=self._places(),
                picture=still.picture(),
            )

        @property
        def outcome(self) -> Outcome:
            """The cook that is picked."""
            return self._still.outcome

        @property
        def plan(self) -> Plan:
            """Its plan."""
            return self._still.plan

        @property
        def code(self) -> str:
            """Python that makes the same plan and cooks it."""
            return self._still.code

        @property
        def data(self) -> str:
            """The curves as CSV."""
            return self._still.data

        @property
        def values(self) -> dict[str, Any]:
            """Where the sliders are [°C, kg, mm, kPa, min, h]."""
            return dict(self._still.values)

        def set(self, **values: Any) -> None:
            """Move sliders; see `Still.set`."""
            self._still.set(**values)
            self._tell()

        def begin_with(self, name: str) -> None:
            """Set all to a cook to begin with; see `Still.begin_with`."""
            self._still.begin_with(name)
            self._tell()

        def compare(self, **values: Any) -> None:
            """Put a second cook beside the first; see `Still.compare`."""
            self._still.compare(**values)
            self._tell()

        def alone(self) -> None:
            """Take the second cook away."""
            self._still.alone()
            self._tell()

        def __repr__(self) -> str:
            return repr(self._still)

        def _tell(self, **more: Any) -> None:
            """Show the page where everything is."""
            still = self._still
            with self.hold_trait_notifications():
                self.cooks = {"second": "b" in still._settings, "picked": still.picked}
                self.controls = controls(still.units, still.values)
                turn = {"turn": more["answers"]} if "answers" in more else {}
                self.asked = self._places() | turn
            self.picture = still.picture() | more

        def _places(self) -> dict[str, Any]:
            told, units = self._still.values, self._still.units
            return {key: told[key] for key in choices()} | {
                k.key: displayed(k, told[k.key], units) for k in KNOBS
            }

        @traitlets.observe("asked")
        def _moved(self, _change: Any) -> None:
            now, turn = self._places(), {"answers": self.asked.get("turn", 0)}
            if name := self.asked.get("preset"):
                self._still.begin_with(name)
                self._tell(**turn)
                return
            moved = {key: value for key, value in self.asked.items() if key in now and value != now[key]}
            if not moved:
                return  # set from Python: drawn already
            ranges = {knob.key: knob for knob in KNOBS}
            self._still.set(
                **{k: meant(ranges[k], v, self.units) if k in ranges else v for k, v in moved.items()}
            )
            self._tell(**turn)

        @traitlets.observe("cooks")
        def _other_cook(self, _change: Any) -> None:
            still, told = self._still, dict[str, Any](self.cooks)
            second = "b" in still._settings
            if {"second": second, "picked": still.picked} == told:
                return
            if told["second"] and not second:
                still.compare()
            elif second and not told["second"]:
                still.alone()
            else:
                still.pick(told["picked"])
            self._tell()

        @traitlets.observe("wanted")
        def _take_along(self, _change: Any) -> None:
            still, what = self._still, self.wanted.get("what")
            name = f"{still.values['cut']} {still.values['wrap']}".replace(" ", "_")
            makers: dict[str, Any] = {
                "plan": lambda: (f"{name}.json", "application/json", still.plan.to_json()),
                "data": lambda: (f"{name}.csv", "text/csv", still.data),
                "code": lambda: (f"{name}.py", "text/x-python", still.code),
            }
            if made := makers.get(str(what)):
                names = ("name", "type", "text")
                self.file = dict(zip(names, made(), strict=True)) | {
                    "what": what,
                    "turn": self.wanted.get("turn", 0),
                }

        @traitlets.observe("units")
        def _other_units(self, _change: Any) -> None:
            self._still.units = temperature_unit(self.units)
            self._tell()

        def _repr_mimebundle_(self, **kwargs: Any) -> Any:
            bundle = super()._repr_mimebundle_(**kwargs)
            data = bundle[0] if isinstance(bundle, tuple) else bundle
            if data is not None:  # what a page without a kernel shows
                data["text/html"] = self._still.still_html()
            return bundle

    return Playground


@door
def show(mass: Any = "14 lb", units: Word = "F", pit: str = "drum") -> Any:
    """Show sliders over a cook: a brisket in paper, from the refrigerator to 200 °F (93.3 °C), to begin with.

    Cut, weight, cooker, pit, wrap, pull, spray and rest can be moved; a second cook stands beside the first;
    plan, curves and the Python code of the plan can be taken along.

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
        Its ``outcome`` is the cook that is shown, ``plan`` its plan; ``set(air=130.0, wrap="foil")`` moves
        the sliders [°C, kg, mm, kPa, min, h]. A `Still` where the package anywidget is not installed.
    """
    temperature_unit(units)
    still = Still(mass, units, pit)
    try:
        made: Any = playground_class()
    except ImportError:
        return still
    return made(still)
