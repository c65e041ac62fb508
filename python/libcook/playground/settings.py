"""What the playground's sliders and lists set: ranges, cooks to begin with, and the plan that they make.

The plan is made from the very texts that its code shows ("250 °F"), so both are the same plan.
"""

from __future__ import annotations

import functools
from collections.abc import Mapping
from typing import Any, NamedTuple

from libcook import _core, cookers
from libcook.ends import core, elapsed
from libcook.meat import cut, cuts
from libcook.plan import Plan, Stage, spritz
from libcook.units import parse
from libcook.wraps import wrap_names

LONGEST = "48 h"  # after which a cook is given up
OVEN = "oven"
DONE = 93.3333  # °C, 200 °F: common practice, no source
Settings = dict[str, Any]


class Knob(NamedTuple):
    """A slider: what it changes, between which values, in the units that are shown."""

    key: str
    label: str
    kind: str  # of libcook.units
    low: float  # °C, kg, mm, kPa, min or h, as `values` has them
    high: float
    shown: tuple[tuple[str, float], tuple[str, float]]  # unit and step: with °C, with °F


def _same(unit: str, step: float) -> tuple[tuple[str, float], tuple[str, float]]:
    return (unit, step), (unit, step)


_DEGREES = (("°C", 1.0), ("°F", 1.0))
KNOBS = (
    Knob("mass", "weight, trimmed", "mass", 0.4, 12.0, (("kg", 0.1), ("lb", 0.25))),
    Knob("thickness", "thickness, mean", "length", 20.0, 200.0, (("mm", 1.0), ("in", 0.05))),
    Knob("air", "pit temperature", "temperature", 80.0, 176.7, (("°C", 1.0), ("°F", 5.0))),
    Knob("vapour", "water vapour in the pit", "pressure", 1.0, 40.0, _same("kPa", 0.5)),
    Knob("spritz", "spray the top every (0: never)", "duration", 0.0, 180.0, _same("min", 15.0)),
    Knob("wrap_at", "wrap when the core is at", "temperature", 40.0, 95.0, _DEGREES),
    Knob("pull", "off the heat with the core at", "temperature", 54.0, 98.0, _DEGREES),
    Knob("rest_time", "rest for", "duration", 0.25, 12.0, _same("h", 0.25)),
)
_BY_KEY = {knob.key: knob for knob in KNOBS}
_BASE = {"mass": "kg", "length": "mm", "temperature": "°C", "pressure": "kPa"}
RESTS = {"none": "no rest", "counter": "kitchen counter", "box": "insulated box", "oven": "holding oven"}


@functools.cache
def choices() -> dict[str, tuple[str, dict[str, str]]]:
    """Return the lists: key to label and options, each a name and how it is shown."""
    wraps = {"none": "no wrap"} | {
        name: "open pan" if name == "pan" else name
        for name in wrap_names()
        if name not in ("none", "foil tent", "towels")  # those cover a rest
    }
    places = {name: name for name in _core.pit_kinds()} | {OVEN: "kitchen oven"}
    return {
        "cut": ("cut", {one.name: one.name for one in cuts()}),
        "cooker": ("cooker", places),
        "wrap": ("wrap", wraps),
        "rest": ("rest", RESTS),
    }


def first(mass: Any = "14 lb", cooker: str = "drum") -> Settings:
    """Return the settings to begin with: a brisket in paper, without a rest."""
    made: Settings = {
        "cut": "brisket", "cooker": cooker, "wrap": "butcher paper", "rest": "none",
        "mass": parse(mass, "mass", "mass"), "air": parse("250 °F", "temperature"), "spritz": 0.0,
        "wrap_at": parse("150 °F", "temperature"), "pull": DONE, "rest_time": 2.0,
    }  # fmt: skip
    return made | {"thickness": usual_thickness(made), "vapour": usual_vapour(made)}


# Common practice, no source.
PRESETS: dict[str, Settings] = {
    "brisket, in paper": {},
    "brisket without a wrap": {"wrap": "none"},
    "brisket, hot and fast in foil": {"air": "300 °F", "wrap": "foil", "pull": "203 °F"},
    "pork shoulder to pull": {
        "cut": "pork shoulder", "cooker": "kettle", "wrap": "foil", "pull": "203 °F", "rest": "box",
    },
    "small flat, sprayed, in paper": {
        "cut": "brisket flat", "air": "225 °F", "cooker": "pellet", "spritz": "60 min",
    },
}  # fmt: skip


def preset(name: str) -> Settings:
    """Return the settings of a cook to begin with."""
    changes = dict(PRESETS[name])
    for key, value in changes.items():
        if key in _BY_KEY:
            changes[key] = from_si(_BY_KEY[key], parse(value, _BY_KEY[key].kind))
    made = first() | changes
    if "cut" in changes:
        made["mass"] = next(one.mass for one in cuts() if one.name == made["cut"])
    return made | {"thickness": usual_thickness(made), "vapour": usual_vapour(made)}


def usual_thickness(told: Settings) -> float:
    """Return how thick such a piece is [mm], to a tenth."""
    return round(1e3 * cut(told["cut"], mass=told["mass"]).shape.thickness, 1)


def usual_vapour(told: Settings) -> float:
    """Return the water vapour of a kind of cooker [kPa]."""
    return float(round(1e-3 * _place(told["cooker"], told["air"]).vapour_pressure.value[0], 3))


def _place(cooker: str, air: Any) -> Any:
    return cookers.oven(air) if cooker == OVEN else cookers.pit(cooker, air=air)


def ends_of(knob: Knob, told: Settings) -> tuple[float, float]:
    """Return between which values a slider moves; the weight between those of pieces of the cut."""
    if knob.key != "mass":
        return knob.low, knob.high
    piece = next(one for one in cuts() if one.name == told["cut"])
    return max(knob.low, min(0.3 * piece.mass, piece.smallest)), min(knob.high, piece.largest)


def follow(told: Settings, changed: Mapping[str, Any]) -> Settings:
    """Change some settings: a piece then has the size of its cut, a cooker its vapour, unless told."""
    made = told | dict(changed)
    if made["cut"] != told["cut"] and "mass" not in changed:
        made["mass"] = next(one.mass for one in cuts() if one.name == made["cut"])
    low, high = ends_of(_BY_KEY["mass"], made)
    made["mass"] = min(max(made["mass"], low), high)
    if any(made[key] != told[key] for key in ("cut", "mass")) and "thickness" not in changed:
        made["thickness"] = usual_thickness(made)
    if made["cooker"] != told["cooker"] and "vapour" not in changed:
        made["vapour"] = usual_vapour(made)
    return made


def _scale(knob: Knob) -> float:
    return {"mm": 1e-3, "kPa": 1e3, "min": 60.0, "h": 3600.0}.get(_base(knob), 1.0)


def _base(knob: Knob) -> str:
    return _BASE.get(knob.kind) or knob.shown[0][0]


def from_si(knob: Knob, value: float) -> float:
    """Turn SI into what `values` has."""
    return value / _scale(knob)


def unit_of(knob: Knob, units: str) -> str:
    """Return the unit that a slider's value is shown in."""
    return knob.shown[units == "F"][0]


def displayed(knob: Knob, value: float, units: str) -> float:
    """Convert a slider's value to the unit it is shown in, rounded to its step."""
    unit, step = knob.shown[units == "F"]
    exact = _in_unit(value, unit)
    return round(round(exact / step) * step, 6)


def _in_unit(value: float, unit: str) -> float:
    if unit == "°F":
        return 1.8 * value + 32.0
    return value / {"lb": 0.45359237, "in": 25.4}.get(unit, 1.0)


def meant(knob: Knob, shown: float, units: str) -> float:
    """Convert a slider's value back from the unit it is shown in."""
    return from_si(knob, parse(f"{shown:.10g} {unit_of(knob, units)}", knob.kind))


def text_of(key: str, value: float, units: str) -> str:
    """Write a value as text with a unit, such as "250 °F"; where that is not it, with all digits."""
    knob = _BY_KEY[key]
    text = f"{displayed(knob, value, units):.10g} {unit_of(knob, units)}"
    if abs(from_si(knob, parse(text, knob.kind)) - value) <= 1e-5 * max(1.0, abs(value)):
        return text
    return f"{value:.10g} {_base(knob)}"


def shown_value(knob: Knob, values: Settings, units: str) -> str:
    """Write where a slider is, with its unit."""
    return f"{displayed(knob, values[knob.key], units):g} {unit_of(knob, units)}"


def _arguments(told: Settings, units: str) -> dict[str, str]:
    return {key: text_of(key, told[key], units) for key in _BY_KEY}


def _wrapped(told: Settings) -> bool:
    return bool(told["wrap"] != "none" and told["wrap_at"] < told["pull"])


def _own(told: Settings) -> tuple[bool, bool]:
    """Tell whether thickness and vapour are others than such a piece and such a cooker have."""
    return told["thickness"] != usual_thickness(told), told["vapour"] != usual_vapour(told)


def plan_of(told: Settings, units: str = "F") -> Plan:
    """Return the plan that the settings describe."""
    said, (thick, damp) = _arguments(told, units), _own(told)
    place = _place(told["cooker"], said["air"])
    if damp:
        place = place.replace(vapour_pressure=said["vapour"])
    piece = cut(told["cut"], mass=said["mass"], thickness=said["thickness"] if thick else None)
    spray = spritz(said["spritz"]) if told["spritz"] > 0.0 else None
    until = core(said["wrap_at"] if _wrapped(told) else said["pull"])
    stages = [Stage("smoke", place, spritz=spray, until=until, at_most=LONGEST)]
    if _wrapped(told):
        stages.append(Stage("wrapped", place, wrap=told["wrap"], until=core(said["pull"]), at_most=LONGEST))
    if told["rest"] != "none":
        rests: dict[str, Any] = {
            "counter": cookers.counter,
            "box": cookers.insulated_box,
            "oven": cookers.holding_oven,
        }
        rest = rests[told["rest"]]()
        stages.append(Stage("rest", rest, wrap=_rest_wrap(told), until=elapsed(said["rest_time"])))
    return Plan(piece, stages)


def _rest_wrap(told: Settings) -> str:
    """Rest in the paper that is round it; whatever else there was, in foil."""
    return "butcher paper" if _wrapped(told) and told["wrap"] == "butcher paper" else "foil"


def code_of(told: Settings, units: str = "F") -> str:
    """Return Python that makes the same plan and cooks it."""
    said, (thick, damp) = _arguments(told, units), _own(told)
    air = f'"{said["air"]}"'
    pit = f"lc.oven({air})" if told["cooker"] == OVEN else f'lc.pit("{told["cooker"]}", air={air})'
    if damp:
        pit += f'.replace(vapour_pressure="{said["vapour"]}")'
    size = f', thickness="{said["thickness"]}"' if thick else ""
    spray = f'spritz=lc.spritz("{said["spritz"]}"), ' if told["spritz"] > 0.0 else ""
    until = said["wrap_at"] if _wrapped(told) else said["pull"]
    most = f'at_most="{LONGEST}"'
    stages = [f'lc.Stage("smoke", pit, {spray}until=lc.core("{until}"), {most})']
    if _wrapped(told):
        until = f'until=lc.core("{said["pull"]}"), {most}'
        stages.append(f'lc.Stage("wrapped", pit, wrap="{told["wrap"]}", {until})')
    if told["rest"] != "none":
        name = {"counter": "counter", "box": "insulated_box", "oven": "holding_oven"}[told["rest"]]
        until = f'until=lc.elapsed("{said["rest_time"]}")'
        stages.append(f'lc.Stage("rest", lc.{name}(), wrap="{_rest_wrap(told)}", {until})')
    lines = [
        "import libcook as lc",
        "",
        f"pit = {pit}",
        f'meat = lc.cut("{told["cut"]}", mass="{said["mass"]}"{size})',
        "plan = lc.Plan(meat, [",
        *(f"    {stage}," for stage in stages),
        "])",
        "out = lc.simulate(plan)",
        f'print(*lc.sentences(out, units="{units}"), sep="\\n")',
    ]
    return "\n".join(lines) + "\n"
