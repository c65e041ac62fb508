"""What may vary in a plan, read from what a cook gives."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from libcook import _core
from libcook._core import End, format_degrees
from libcook.arguments.plain import choice, close
from libcook.arguments.quote import came_as, quoted
from libcook.errors import invalid
from libcook.planner import limits
from libcook.planner.recipe import Recipe
from libcook.units import fahrenheit_to_celsius, format_duration, parse_clock, to_si

KNOBS = ("pit", "wrapped_pit", "wrap", "wrap_at", "boost", "pull", "rest", "hold")
HOLDS = ("oven", "cooler")
RANGE_STEPS = 6  # values that a range is tried at


def _f(*degrees: float) -> tuple[float, ...]:
    return tuple(float(fahrenheit_to_celsius(one)) for one in degrees)


DEFAULTS: dict[str, tuple[Any, ...]] = {
    "pit": _f(225, 235, 250, 265, 275),
    "wrapped_pit": _f(225, 250, 265, 275, 300),
    "wrap": ("butcher paper", "foil", "none"),
    "wrap_at": (*(("core", one) for one in _f(145, 150, 155, 160, 165, 170, 175)), ("bark", 1.0)),
    "boost": (0.0, *_f(275, 300)),
    "pull": (*(("core", one) for one in _f(195, 198, 200, 203, 205)), ("tender", 0.85), ("tender", 0.9)),
    "rest": (0.5 * limits.HOUR, limits.HOUR, 2.0 * limits.HOUR),
    "hold": ("oven",),
}


@dataclass(frozen=True)
class Window:
    """Times of day between which the start may lie [s after midnight]."""

    earliest: float
    latest: float


@dataclass(frozen=True)
class Choices:
    """The values that each part of a plan may take."""

    options: Mapping[str, tuple[Any, ...]]
    start: Window | None = None
    told: tuple[str, ...] = field(default=())  # what was left out, in words

    @property
    def sizes(self) -> tuple[int, ...]:
        """How many values each has, in the order of `KNOBS`."""
        return tuple(len(self.options[name]) for name in KNOBS)

    @property
    def open(self) -> bool:
        """Whether anything is left to choose."""
        return len({self.recipe(place) for place in self.corners()}) > 1

    def corners(self) -> list[tuple[int, ...]]:
        """Return the first values of all, and each other value alone."""
        found = [(0,) * len(KNOBS)]
        for i, size in enumerate(self.sizes):
            found += [tuple(k if j == i else 0 for j in range(len(KNOBS))) for k in range(1, size)]
        return found

    def count(self) -> int:
        """Return how many ways there are to put the values together."""
        return int(np.prod(self.sizes))

    def recipe(self, place: npt.ArrayLike) -> Recipe:
        """Return the recipe at a place: which value of each."""
        at = np.asarray(place, dtype=int)
        values = {name: self.options[name][int(k)] for name, k in zip(KNOBS, at, strict=True)}
        return Recipe(**values).plain

    def place(self, recipe: Recipe) -> tuple[int, ...]:
        """Return the place nearest to a recipe."""
        return tuple(_nearest(self.options[name], getattr(recipe, name)) for name in KNOBS)

    def only(self, **options: tuple[Any, ...]) -> Choices:
        """Return the same with other values of some."""
        return replace(self, options={**self.options, **options})


def _nearest(options: tuple[Any, ...], value: Any) -> int:
    if value in options:
        return options.index(value)
    if isinstance(value, float):
        return int(np.argmin([abs(one - value) for one in options]))
    if isinstance(value, tuple):
        same = [i for i, one in enumerate(options) if one[0] == value[0]]
        return min(same, key=lambda i: abs(options[i][1] - value[1]), default=0)
    return 0


def read_choices(choose: Any, habit: Recipe) -> Choices:
    """Read what may vary.

    Parameters
    ----------
    choose : None, mapping or sequence of str
        None: everything, in the ways of `DEFAULTS`. A mapping gives values of its own for some. A sequence
        of names: only these vary, all else stays as the habit has it.
    habit : Recipe
        What is done without a choice.
    """
    if choose is None or (isinstance(choose, Mapping) and not choose):
        return Choices(_with_habit(dict(DEFAULTS), habit))
    if isinstance(choose, str) or not isinstance(choose, Mapping):
        names = [choose] if isinstance(choose, str) else choose
        if not isinstance(names, (list, tuple)) or not all(isinstance(one, str) for one in names):
            raise invalid(
                "choose",
                choose,
                came_as(choose),
                "a mapping such as {'wrap': ['foil', 'none']}, or names, is accepted",
            )
        _refuse_unknown(names)
        return Choices({name: DEFAULTS[name] if name in names else _as_usual(name, habit) for name in KNOBS})
    _refuse_unknown(list(choose))
    options = _with_habit(dict(DEFAULTS), habit)
    window = None
    for name, given in choose.items():
        if name == "start":
            window = _window(given)
        else:
            options[name] = _options(name, given)
    return Choices(options, window)


def _as_usual(name: str, habit: Recipe) -> tuple[Any, ...]:
    """Return what the habit does, where that may be proposed."""
    value = getattr(habit, name)
    if name == "hold":
        return (value if value in HOLDS else HOLDS[0],)
    if name in ("pit", "wrapped_pit"):
        _pit(value, f"plan: {name}")
    if name == "pull" and value[0] == "core":
        _pull(value[1], "plan: pull")
    return (value,)


def _with_habit(options: dict[str, tuple[Any, ...]], habit: Recipe) -> dict[str, tuple[Any, ...]]:
    """Let the search know the habit's own cover, if it is no usual one."""
    if habit.wrap not in options["wrap"]:
        options["wrap"] = (*options["wrap"], habit.wrap)
    return options


def _refuse_unknown(names: list[Any] | tuple[Any, ...]) -> None:
    known = (*KNOBS, "start")
    for name in names:
        if name not in known:
            raise invalid(
                "choose",
                name,
                f"{quoted(name)} is nothing to choose",
                f"accepted: {', '.join(known)}",
                close(name, known),
            )


def _window(given: Any) -> Window:
    field = "choose['start']"
    if isinstance(given, (list, tuple)):
        if len(given) != 2:
            raise invalid(
                field, given, came_as(given), "a time of day, or two such as ('21:00', '06:00'), is accepted"
            )
        return Window(parse_clock(given[0], field), parse_clock(given[1], field))
    at = parse_clock(given, field)
    return Window(at, at)


def _options(name: str, given: Any) -> tuple[Any, ...]:
    field = f"choose[{quoted(name)}]"
    readers: dict[str, Callable[[Any, str], Any]] = {
        "pit": _pit,
        "wrapped_pit": _pit,
        "wrap": _wrap,
        "wrap_at": _wrap_at,
        "boost": _boost,
        "pull": _pull,
        "rest": _rest,
        "hold": lambda value, where: choice(value, HOLDS, where),
    }
    read = readers[name]
    if isinstance(given, tuple) and len(given) == 2 and name in ("pit", "wrapped_pit", "wrap_at", "pull"):
        low, high = read(given[0], f"{field}[0]"), read(given[1], f"{field}[1]")
        if isinstance(low, float):
            return tuple(float(one) for one in np.linspace(low, high, RANGE_STEPS))
        if low[0] == high[0]:
            return tuple((low[0], float(one)) for one in np.linspace(low[1], high[1], RANGE_STEPS))
        return (low, high)
    if not isinstance(given, (list, tuple)):
        return (read(given, field),)
    if not given:
        raise invalid(field, given, "nothing came", "at least one value is accepted")
    return tuple(dict.fromkeys(read(one, f"{field}[{i}]") for i, one in enumerate(given)))


def _pit(value: Any, field: str) -> float:
    air = to_si(value, "temperature", field)
    if not limits.COOLEST_PIT <= air <= limits.HOTTEST_PIT:
        span = f"{format_degrees(limits.COOLEST_PIT)} to {format_degrees(limits.HOTTEST_PIT)}"
        raise invalid(
            field,
            value,
            f"a pit of {format_degrees(air)} is outside of what is proposed",
            f"{span} is accepted",
        )
    return air


def _wrap(value: Any, field: str) -> str:
    if value is None:
        return "none"
    return choice(value, _core.wrap_names(), field)


def _wrap_at(value: Any, field: str) -> tuple[str, float]:
    if isinstance(value, End):
        if value.kind not in ("core", "bark"):
            raise invalid(
                field, value, f"an end by {value.kind}", "a core temperature, or libcook.bark(), is accepted"
            )
        return (str(value.kind), float(value.value))
    if isinstance(value, str) and value.strip().casefold() == "bark":
        return ("bark", 1.0)
    return ("core", to_si(value, "temperature", field, low=50.0, high=90.0))


def _boost(value: Any, field: str) -> float:
    return 0.0 if value is None or value is False else _pit(value, field)


def _pull(value: Any, field: str) -> tuple[str, float]:
    if isinstance(value, End):
        if value.kind not in ("core", "tender"):
            raise invalid(
                field,
                value,
                f"an end by {value.kind}",
                "a core temperature, or libcook.tender(), is accepted",
            )
        kind, number = str(value.kind), float(value.value)
    else:
        kind, number = "core", to_si(value, "temperature", field)
    if kind == "core" and not limits.COOLEST_PULL <= number <= limits.HOTTEST_PULL:
        span = f"{format_degrees(limits.COOLEST_PULL)} to {format_degrees(limits.HOTTEST_PULL)}"
        raise invalid(
            field,
            value,
            f"a pull at {format_degrees(number)} is outside of what is proposed",
            f"{span} is accepted",
        )
    return (kind, number)


def _rest(value: Any, field: str) -> float:
    seconds = to_si(value, "duration", field)
    if not 600.0 <= seconds <= limits.LONGEST_HOLD:
        raise invalid(
            field,
            value,
            f"a rest of {format_duration(max(seconds, 0.0))} is outside of what is proposed",
            f"10 min to {format_duration(limits.LONGEST_HOLD)} is accepted",
        )
    return seconds
