"""Every door between C++ and Python is gone through once: functions, methods, properties of the extension.

So whatever tests the sanitized run (`tests/sanitized`) chooses, nothing that is exported is left out of it: a
new name of the extension for which no right arguments stand here is a failure.
"""

from __future__ import annotations

import copy
import functools
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from invented_cook import plan as invented_plan
from public_calls import parameters_of
from right_values import MADE, RIGHT, ahead, fit, outcome, plan
from section_samples import section_outcome

import libcook as lc
from libcook import _core

EXPORTED = {name: thing for name, thing in vars(_core).items() if not name.startswith("__")}
CLASSES = {name: thing for name, thing in EXPORTED.items() if isinstance(thing, type)}
FUNCTIONS = {name: thing for name, thing in EXPORTED.items() if callable(thing) and name not in CLASSES}


@functools.cache
def log() -> _core.CookLog:
    time = [0.0, 1800.0, 3600.0, 5400.0]
    return _core.CookLog("log", time, [4.0, 8.0, 15.0, 24.0], time, [118.0] * 4, [], False)


@functools.cache
def batch() -> _core.PlanBatch:
    made = _core.PlanBatch()
    made.add(plan())
    return made


@functools.cache
def reader() -> _core.Reader:
    return _core.Reader(["finish_time"], len(plan().stages), 60.0)


def number() -> _core.PlanNumber:
    found = _core.plan_number(plan(), ["meat", "shape", "thickness"])
    assert found is not None
    return found


@functools.cache
def late() -> _core.Schedule:
    """A start with what would be quicker, and with what is done where it gets late."""
    return _core.start_by(
        invented_plan(), 64800.0, 0.9, None, 60.0, True, True, 50, 0, _core.ModelError(), [], 1, None
    )


@functools.cache
def futures() -> list[_core.Futures]:
    return _core.futures(ahead(), [list(invented_plan().stages)], [0, 1], [3600.0], [0.0, 600.0])


# Right values for parameters, by "name.parameter" or by the parameter alone; others are in `right_values`.
VALUES: dict[str, Callable[[], Any]] = {
    "activity": lambda: 0.5,
    "air": lambda: lc.Signal(118.0),
    "alternatives": lambda: False,
    "ambient": lambda: 20.0,
    "box": _core.Box,
    "celsius": lambda: 60.0,
    "contact": lambda: 0.9,
    "confidence": lambda: 0.9,
    "conductivity": lambda: 16.0,
    "diameter": lambda: 0.003,
    "earliest": lambda: None,
    "evaporation": lambda: 1e-5,
    "face": lambda: 1,
    "fahrenheit": lambda: False,
    "fan": lambda: True,
    "fat": lambda: "up",
    "fields": lambda: True,
    "fit": lambda: None,
    "forecast": ahead,
    "free": lambda: [lc.prior("thickness")],
    "hold": lambda: 60.0,
    "hold_limit": lambda: 60.0,
    "humidity": lambda: 0.4,
    "indent": lambda: 1,
    "immersion": lambda: 0.06,
    "join_rules": lambda: True,
    "limit": lambda: 60.0,
    "log": log,
    "logs": lambda: [log()],
    "looks": lambda: [3600.0],
    "mass": lambda: 4.0,
    "max_iterations": lambda: 1,
    "members": lambda: 50,
    "model_error": _core.ModelError,
    "notes": list,
    "options": lambda: _core.Options(nodes=9),
    "numbers": lambda: [number()],
    "origin": plan,
    "position": lambda: 0.01,
    "pressure": lambda: 101325.0,
    "q": lambda: 0.5,
    "reader": reader,
    "remaining": lambda: invented_plan().stages,
    "remedies": lambda: False,
    "robust": lambda: True,
    "room": lambda: 20.0,
    "seconds": lambda: 60.0,
    "seed": lambda: 0,
    "serve": lambda: 64800.0,
    "slicing": lambda: 60.0,
    "stage": lambda: plan().stages[0],
    "start": lambda: 4.0,
    "table": lambda: np.array([[0.06], [0.07]]),
    "thickness": lambda: 0.07,
    "threads": lambda: 1,
    "wall": lambda: 0.0002,
    "waits": lambda: [0.0, 600.0],
    "way": lambda: ["meat", "shape", "thickness"],
    "wind": lambda: 1.0,
    "weight": lambda: [0.5, 0.5],
    "words": lambda: "offset",
    "x": lambda: 0.02,
    "z": lambda: 0.01,
    # of one callable
    "Belief._draw.count": lambda: 2,
    "Equations.core.y": lambda: objects()["Equations"].initial(),
    "Equations.rhs.y": lambda: objects()["Equations"].initial(),
    "Equations.temperatures.y": lambda: objects()["Equations"].initial(),
    "Fit._estimate.name": lambda: "thickness",
    "Forecast._chance_after.stage": lambda: 1,
    "Forecast._never.stage": lambda: 1,
    "Forecast._quantile.stage": lambda: 1,
    "Section.place.name": lambda: "flat",
    "brisket_point_tissue.meat": lc.brisket_tissue,
    "brisket_seam_tissue.meat": lc.brisket_tissue,
    "cut.name": lambda: "brisket",
    "fit_from_json.text": lambda: fit()._to_json(1),
    "forecast.log": log,
    "forecast.plan": invented_plan,
    "free_kind.name": lambda: "thickness",
    "futures.members": lambda: [0, 1],
    "futures.plans": lambda: [invented_plan().stages],
    "outcome_from_json.text": lambda: outcome().to_json(),
    "parameter.name": lambda: _core.parameters()[0].name,
    "pit_air.air": lambda: 118.0,
    "holding_oven.air": lambda: 65.0,
    "steady_vapour_pressure.air": lambda: _core.pit_air("drum", 118.0, 20.0, 0.4, 1.0, 101325.0),
    "read_many.plans": batch,
    "value_in.name": lambda: "thickness",
    "weighted_quantile.value": lambda: [1.0, 2.0],
    "with_value.name": lambda: "thickness",
    "with_value.value": lambda: 0.07,
}


def arguments(owner: type | None, name: str, function: Any) -> dict[str, Any]:
    """Return right values for all parameters that are needed."""
    called = f"{owner.__name__}.{name}" if owner else name
    found = {}
    for one in parameters_of(owner, name, function):
        if one.needed:
            keys = (f"{called}.{one.name}", one.name)
            values = [known[key] for known in (VALUES, RIGHT) for key in keys if key in known]
            assert values, f"{called}({one.name}) has no right value in VALUES"
            found[one.name] = values[0]()
    return found


@pytest.mark.parametrize("name", FUNCTIONS)
def test_every_function_is_called(name: str) -> None:
    function = FUNCTIONS[name]
    function(**arguments(None, name, function))


def reached(thing: Any, found: dict[str, Any]) -> None:
    """Collect one object of each class, by way of lists and properties."""
    if isinstance(thing, list | tuple):
        for one in thing[:3]:
            reached(one, found)
    for cls in type(thing).__mro__:
        if CLASSES.get(cls.__name__) is cls and cls.__name__ not in found:
            found[cls.__name__] = thing
            for name, member in vars(cls).items():
                if isinstance(member, property):
                    reached(getattr(thing, name), found)


@functools.cache
def objects() -> dict[str, Any]:
    found: dict[str, Any] = {}
    whole = lc.simulate(invented_plan())
    read = [
        _core.stall(whole), _core.carryover(whole), _core.loss(whole), _core.heat_budget(whole, 1),
        _core.safety(whole), _core.bark(whole), _core.hot_hold(whole, 60.0, 60.0), _core.wet_surface(),
    ]  # fmt: skip
    told = [*_core.FIELDS["Plan"].values(), _core.cuts(), _core.parameters(), _core.free_kinds()]
    parts = [
        _core.Box(), _core.FixedThermal(), _core.LidOpening(), _core.Options(), _core.PitAir(), _core.Probe(),
        _core.Spritz(), _core.WaterPan(),
    ]  # fmt: skip
    density = _core.LogPosterior([plan()], [log()], [lc.prior("thickness")], _core.ModelError(), 1)
    inner = [whole, number(), batch(), reader(), log(), density, futures(), late()]
    made = [*read, *told, *parts, *inner]
    others = [make() for name, make in MADE.items() if name in CLASSES]
    for thing in [*made, *others]:
        reached(thing, found)
    return found


def test_there_is_an_object_of_every_class() -> None:
    assert sorted(set(CLASSES) - set(objects())) == []


@pytest.mark.parametrize("name", CLASSES)
def test_every_member_is_used(name: str) -> None:
    cls, thing = CLASSES[name], objects()[name]
    for member, raw in vars(cls).items():
        if isinstance(raw, property):
            value = getattr(thing, member)
            if raw.fset is not None:
                setattr(copy.copy(thing), member, value)
        elif callable(raw) and not member.startswith("__") and member != "_pybind11_conduit_v1_":
            function = getattr(section_outcome() if member == "_probe_at" else thing, member)
            function(**arguments(cls, member, function))
