"""What a sweep keeps of each cook: numbers read off its outcome."""

from __future__ import annotations

import math
import numbers
import types
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from libcook._coerce import close
from libcook.errors import InvalidInput, SolverFailure, invalid
from libcook.outcome import Outcome

NAN = math.nan


_SOURCES: dict[str, Callable[[Outcome], Any]] = {
    "ends": lambda out: out.stage_ends,
    "stall": lambda out: out.stall(),
    "carry": lambda out: out.carryover(),
    "loss": lambda out: out.loss,
    "safety": lambda out: out.safety(),
}


class Facts:
    """An outcome and what is read off it, each computed once, when it is first asked for."""

    def __init__(self, outcome: Outcome, hold: float) -> None:
        self.outcome = outcome
        self.hold = hold  # °C

    def __getattr__(self, name: str) -> Any:
        # only called for what is not there yet; quicker than functools.cached_property, which takes a lock
        try:
            value = _SOURCES[name](self.outcome)
        except KeyError:
            raise AttributeError(name) from None
        setattr(self, name, value)
        return value


@dataclass(frozen=True)
class Reading:
    """A number (or one for each stage) read off an outcome."""

    name: str
    units: str
    long_name: str
    read: Callable[[Any], Any]  # of Facts for ours, of the Outcome for one of the user's own
    by_stage: bool = False
    own: bool = False


def _or(value: Any) -> float:
    return NAN if value is None else float(value)


_LOST = "lost"
READINGS = {
    one.name: one
    for one in (
        Reading("finish_time", "s", "end of the last stage on the heat",
                lambda f: f.carry.pulled_at if f.carry else f.ends[-1][1]),
        Reading("end_time", "s", "end of the plan", lambda f: f.ends[-1][1]),
        Reading("stage_end", "s", "end of each stage", lambda f: [end[1] for end in f.ends], by_stage=True),
        Reading("stage_core", "degC", "core temperature at the end of each stage",
                lambda f: [end[2] for end in f.ends], by_stage=True),
        Reading("stall_start", "s", "start of the stall; NaN without one",
                lambda f: f.stall.start if f.stall else NAN),
        Reading("stall_end", "s", "end of the stall; NaN without one",
                lambda f: f.stall.end if f.stall else NAN),
        Reading("stall_duration", "s", "duration of the stall; 0 without one",
                lambda f: f.stall.duration if f.stall else 0.0),
        Reading("stall_plateau", "degC", "core temperature in the stall; NaN without one",
                lambda f: f.stall.plateau if f.stall else NAN),
        Reading("carryover_peak", "degC", "highest core temperature after the heat; NaN if nothing follows",
                lambda f: f.carry.peak if f.carry else NAN),
        Reading("carryover_rise", "K", "rise of the core after the heat; NaN if nothing follows it",
                lambda f: max(0.0, f.carry.rise) if f.carry else NAN),
        Reading("carryover_time", "s", "from the end of the heat to the peak; NaN if nothing follows it",
                lambda f: f.carry.peak_at - f.carry.pulled_at if f.carry else NAN),
        Reading("held", "s", "core at or above the holding temperature after the heat; NaN if it ends there",
                lambda f: f.outcome.time_above(f.hold) if f.carry else NAN),
        Reading("still_held", "1", "1: the plan ends with the core still at or above the holding temperature",
                lambda f: float(f.carry is not None and f.outcome.core[-1] >= f.hold)),
        Reading("raw_mass", "kg", "raw mass, fat cap included", lambda f: f.loss.raw),
        Reading("evaporated", "kg", f"{_LOST} by evaporation", lambda f: f.loss.evaporated),
        Reading("dripped", "kg", f"{_LOST} by dripping", lambda f: f.loss.dripped),
        Reading("in_wrap", "kg", f"{_LOST} as juice on the faces and in the wrap", lambda f: f.loss.in_wrap),
        Reading("rendered_fat", "kg", f"{_LOST} as rendered fat, an estimate", lambda f: f.loss.fat),
        Reading("loss", "1", "share of the raw mass that is lost", lambda f: f.loss.total / f.loss.raw),
        Reading("yield", "1", "share of the raw mass that is left", lambda f: f.loss.yield_),
        Reading("tenderness", "1", "share of collagen converted at the core by the end",
                lambda f: f.outcome.tenderness[-1]),
        Reading("log_reduction", "1",
                "calculated decimal reductions of Salmonella at the slowest place, or a lower bound of them",
                lambda f: f.safety.log_reduction),
        Reading("lethality_time", "s", "when 6.5 decimal reductions are calculated everywhere; NaN if never",
                lambda f: _or(f.safety.lethality_at)),
        Reading("core_danger_time", "s", "core between 5 and 57 °C while warming",
                lambda f: f.safety.core_danger_time),
        Reading("surface_danger_time", "s", "slower face between 5 and 57 °C while warming",
                lambda f: f.safety.surface_danger_time),
        Reading("safety_warnings", "1", "how many warnings Outcome.safety() gives",
                lambda f: float(len(f.safety.warnings))),
    )
}  # fmt: skip


def chosen(given: Any) -> tuple[Reading, ...]:
    """Read which readings are wanted.

    Parameters
    ----------
    given : None, str, mapping, or sequence of str and mappings
        None for all of ours; names of ours; and mappings of a name to a callable that takes the outcome, or
        to (callable, units).

    Raises
    ------
    InvalidInput
        For an unknown name, with the nearest.
    """
    if given is None:
        return tuple(READINGS.values())
    listed = [given] if isinstance(given, (str, Mapping)) else given
    if not isinstance(listed, Iterable):
        raise invalid(
            "readings", given, f"{given!r} came", "names of readings and {name: callable} are accepted"
        )
    made: dict[str, Reading] = {}
    for item in listed:
        found = _own(item) if isinstance(item, Mapping) else [_ours(item)]
        for reading in found:
            if reading.name in made:
                raise invalid("readings", given, f"'{reading.name}' came twice", "each once is accepted")
            made[reading.name] = reading
    return tuple(made.values())


def _ours(name: Any) -> Reading:
    if isinstance(name, str) and name in READINGS:
        return READINGS[name]
    raise invalid(
        "readings",
        name,
        f"{name!r} is not known",
        f"{{name: callable}} or one of these is accepted: {', '.join(READINGS)}",
        close(name, READINGS),
    )


def _own(given: Mapping[Any, Any]) -> list[Reading]:
    made = []
    for name, value in given.items():
        read, units = value if isinstance(value, tuple) and len(value) == 2 else (value, "")
        if isinstance(read, str):
            ours = _ours(read)
            made.append(Reading(str(name), ours.units, ours.long_name, ours.read, ours.by_stage))
        elif callable(read):
            made.append(Reading(str(name), str(units), str(name), read, own=True))
        else:
            raise invalid(
                f"readings['{name}']",
                value,
                f"{value!r} came",
                "a callable that takes the outcome is accepted",
            )
    return made


def read(reading: Reading, facts: Facts) -> tuple[Any, str]:
    """Take a reading: (value, "") or (NaN, why there is none).

    Only a callable of the user's own can fail, such as one that asks for the core after the cook has ended.
    What is not an error of this package is a mistake in the callable and goes through.
    """
    if not reading.own:
        return reading.read(facts), ""
    try:
        value = reading.read(facts.outcome)
    except (InvalidInput, SolverFailure) as error:
        return NAN, f"readings['{reading.name}']: {error}"
    if value is None:
        return NAN, ""
    if isinstance(value, (numbers.Real, np.bool_)) or (isinstance(value, np.ndarray) and value.ndim == 0):
        return float(value), ""
    raise invalid(
        f"readings['{reading.name}']", value, f"it returned {type(value).__name__}", "a number is accepted"
    )


def fingerprint(reading: Reading) -> Any:
    """Describe a reading so that another one under the same name is told apart."""
    if not reading.own:
        return [reading.name, reading.long_name]
    code = getattr(reading.read, "__code__", None)
    what = (
        _code(code) if code is not None else getattr(reading.read, "__qualname__", repr(type(reading.read)))
    )
    return [reading.name, what]


def _code(code: types.CodeType) -> list[Any]:
    constants = [_code(one) if isinstance(one, types.CodeType) else repr(one) for one in code.co_consts]
    return [code.co_code.hex(), list(code.co_names), constants]
