"""Parameters of a plan by path: "stages[0].until", "stages.wrapped.wrap", "meat.tissue.mobility.expressed".

A path names the attributes of the plan's objects, which are nearly those of its JSON. Shortcuts: ``pit.`` is
the surroundings of every stage on the heat, ``film`` both faces, ``meat.thickness`` and ``meat.mass`` reshape
the piece.
"""

from __future__ import annotations

import difflib
import functools
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from libcook._core import End, Plan, Signal, Stage, resized, with_mass
from libcook.arguments.quote import quoted
from libcook.errors import InvalidInput, invalid
from libcook.units import to_si

Step = str | int
Put = Callable[[Any], None]  # sets a value in the plan it is bound to

_TOKEN = re.compile(r"\.?([A-Za-z_]\w*)|\[(\d+)\]|\[\s*(?:'([^']*)'|\"([^\"]*)\")\s*\]|\.([^.\[\]]+)")
_JSON_NAMES = {"clock_start": "start"}  # where the JSON calls a field otherwise
_NOT_PITS = ("counter", "holding oven")
_RESHAPES = ("thickness", "mass")
_FIXED = (Signal, End)  # objects without setters: replaced as a whole


@dataclass(frozen=True)
class Target:
    """One attribute of a plan: steps from the plan to it, names and indices."""

    steps: tuple[Step, ...]

    def get(self, plan: Plan) -> Any:
        """Read it."""
        found: Any = plan
        for step in self.steps:
            found = found[step] if isinstance(step, int) else getattr(found, step)
        return found

    def bound(self, plan: Plan) -> Put:
        """Return what sets it in this plan, again and again: the way there is gone once."""
        owner: Any = plan
        steps = self.steps
        while len(steps) > 1:
            name = str(steps[0])
            child = getattr(owner, name)
            if isinstance(child, tuple):
                inside = child[int(steps[1])]
                if len(steps) == 2 or not isinstance(inside, Stage):
                    break
                owner, steps = inside, steps[2:]
            elif isinstance(child, _FIXED) or child is not getattr(owner, name):
                break  # handed out as a copy, which is changed and set
            else:
                owner, steps = child, steps[1:]
        if len(steps) == 1:
            return functools.partial(setattr, owner, str(steps[0]))
        return functools.partial(_put, owner, steps)

    def touches(self) -> list[tuple[Step, ...]]:
        """Name what changes with it."""
        return [self.steps]


@dataclass(frozen=True)
class Thickness:
    """Thickness (or diameter) of the piece at constant mass: a thicker piece is a smaller one from above."""

    steps: tuple[Step, ...] = ("meat", "thickness")

    def get(self, plan: Plan) -> float:
        """Read it [m]."""
        return plan.meat.shape.thickness

    def bound(self, plan: Plan) -> Put:
        """Return what sets it in this plan, again and again."""

        def put(value: Any) -> None:
            thickness = to_si(value, "length", "meat.thickness", low=0.005, high=0.5)
            plan.meat = resized(plan.meat, plan.meat.mass, thickness)

        return put

    def touches(self) -> list[tuple[Step, ...]]:
        """Name what changes with it."""
        return [
            ("meat", "shape", "thickness"),
            ("meat", "shape", "extent"),
            ("meat", "shape", "width"),
            ("meat", "section"),
        ]


@dataclass(frozen=True)
class Mass:
    """Mass of a piece of its cut: the thickness goes with its cube root down to the smallest whole one."""

    steps: tuple[Step, ...] = ("meat", "mass")

    def get(self, plan: Plan) -> float:
        """Read it [kg]."""
        return plan.meat.mass

    def bound(self, plan: Plan) -> Put:
        """Return what sets it in this plan, again and again."""

        def put(value: Any) -> None:
            plan.meat = with_mass(plan.meat, to_si(value, "mass", "meat.mass", low=0.15, high=15.0))

        return put

    def touches(self) -> list[tuple[Step, ...]]:
        """Name what changes with it."""
        return Thickness().touches()


AnyTarget = Target | Thickness | Mass


def _put(owner: Any, steps: tuple[Step, ...], value: Any) -> None:
    name = steps[0]
    assert isinstance(name, str)
    if len(steps) == 1:
        setattr(owner, name, value)
        return
    child = getattr(owner, name)
    if isinstance(child, tuple):
        index = steps[1]
        assert isinstance(index, int)
        if isinstance(child[index], Stage):  # handed out as references
            _put(child[index], steps[2:], value)
            return
        items = list(child)
        items[index] = _changed(items[index], steps[2:], value)
        setattr(owner, name, items)
    else:
        changed = _changed(child, steps[1:], value)
        if changed is not getattr(owner, name):  # some are handed out as copies
            setattr(owner, name, changed)


def _changed(thing: Any, steps: tuple[Step, ...], value: Any) -> Any:
    if not steps:
        return value
    if isinstance(thing, _FIXED):
        return thing.replace(**{str(steps[0]): value})
    _put(thing, steps, value)
    return thing


def resolve(plan: Plan, path: str, what: str = "parameters") -> list[AnyTarget]:
    """Find what a path names: one attribute, or several for a shortcut.

    Raises
    ------
    InvalidInput
        When there is no such path; names the nearest.
    """
    if not isinstance(path, str):
        raise invalid(what, path, f"{quoted(path)} came", "a path such as 'stages[0].until' is accepted")
    tokens = _tokens(plan, path, what)
    if tokens[0] == "pit":
        return _in_pits(plan, tokens, path, what)
    if tokens[0] == "meat" and tokens[1:] in (["thickness"], ["mass"]):
        return [Thickness() if tokens[1] == "thickness" else Mass()]
    return [Target(steps) for steps in _walk(plan, plan, [], tokens, path, what)]


def _tokens(plan: Plan, path: str, what: str) -> list[Step]:
    tokens: list[Step] = []
    at = 0
    text = path.strip()
    while at < len(text):
        match = _TOKEN.match(text, at)
        if not match:
            raise _wrong(plan, path, what)
        name, index, single, double, odd = match.groups()
        tokens.append(int(index) if index is not None else name or single or double or odd or "")
        at = match.end()
    if tokens[:1] == ["plan"]:
        tokens = tokens[1:]
    if not tokens:
        raise _wrong(plan, path, what)
    return tokens


def _in_pits(plan: Plan, tokens: list[Step], path: str, what: str) -> list[AnyTarget]:
    found: list[AnyTarget] = []
    if len(tokens) == 1:
        raise invalid(
            f"{what}[{quoted(path)}]",
            path,
            "a shortcut without a field came",
            "such as 'pit.air' is accepted",
        )
    for i, stage in enumerate(plan.stages):
        place = stage.surroundings
        if place.box is None and place.kind not in _NOT_PITS:
            before: list[Step] = ["stages", i, "surroundings"]
            found += [Target(steps) for steps in _walk(plan, place, before, tokens[1:], path, what)]
    if not found:
        raise invalid(f"{what}[{quoted(path)}]", path, "this plan has no stage on the heat")
    return found


def _walk(
    plan: Plan, owner: Any, before: list[Step], tokens: list[Step], path: str, what: str
) -> Iterator[tuple[Step, ...]]:
    """Follow the tokens from an object; yields more than one way where a word stands for both faces."""
    steps = list(before)
    for k, token in enumerate(tokens):
        names = getattr(type(owner), "_fields", ())
        if owner is None:
            shown = _text(steps)
            raise invalid(
                f"{what}[{quoted(path)}]",
                path,
                f"{shown} is not set in this plan",
                f"a path into it is accepted once the plan has one, or {quoted(shown)} as a whole",
            )
        if token == "film" and "bottom" in names and "top" in names and "film" not in names:
            for face in ("bottom", "top"):
                yield from _walk(plan, owner, steps, [face, *tokens[k + 1 :]], path, what)
            return
        step = _step(owner, token, names)
        if step is None:
            raise _wrong(plan, path, what, steps, tokens[k:], owner)
        owner = owner[step] if isinstance(step, int) else getattr(owner, step)
        steps.append(step)
    yield tuple(steps)


def _step(owner: Any, token: Step, names: Iterable[Step]) -> Step | None:
    if isinstance(owner, tuple):
        if isinstance(token, int):
            return token if token < len(owner) else None
        named = [getattr(item, "name", None) for item in owner]
        return named.index(token) if token in named else None
    if token in names:
        return token
    if isinstance(owner, Plan) and token in _JSON_NAMES:
        return _JSON_NAMES[str(token)]
    if isinstance(owner, End) and token == owner.kind:  # the JSON writes {"core": 65.0}
        return "value"
    return None


def _text(steps: Iterable[Step]) -> str:
    written = ""
    for step in steps:
        written += f"[{step}]" if isinstance(step, int) else f"{'.' if written else ''}{step}"
    return written


def every_path(plan: Plan) -> list[str]:
    """List all paths of a plan in their shortest spelling."""
    found: list[str] = []

    def walk(owner: Any, steps: list[Step]) -> None:
        names = getattr(type(owner), "_fields", None)
        if isinstance(owner, tuple):
            for i, item in enumerate(owner):
                if hasattr(type(item), "_fields"):
                    walk(item, [*steps, i])
        elif names is not None:
            for name in names:
                found.append(_text([*steps, name]))
                walk(getattr(owner, name), [*steps, name])

    walk(plan, [])
    places = type(plan.stages[0].surroundings)._fields if plan.stages else ()
    return [*found, *(f"meat.{name}" for name in _RESHAPES), *(f"pit.{name}" for name in (*places, "film"))]


def _wrong(
    plan: Plan,
    path: str,
    what: str,
    steps: list[Step] | None = None,
    rest: list[Step] | None = None,
    owner: Any = None,
) -> InvalidInput:
    """Name the nearest path: a slip in one word first, then the likeliest of all."""
    meant = ""
    if steps is not None and rest:
        if isinstance(owner, tuple):
            words = [str(getattr(item, "name", "")) for item in owner]
        else:
            words = list(getattr(type(owner), "_fields", ()))
        near = difflib.get_close_matches(str(rest[0]), words, n=1)
        if near and isinstance(owner, tuple):
            meant = _text([*steps]) + f"['{near[0]}']" + _tail(rest[1:])
        elif near:
            meant = _text([*steps, near[0]]) + _tail(rest[1:])
        if meant and not _exists(plan, meant):
            meant = ""
    if path.startswith("pit") and meant:
        meant = re.sub(r"^stages\[\d+\]\.surroundings", "pit", meant)
    if not meant:
        near = difflib.get_close_matches(path, every_path(plan), n=1, cutoff=0.4)
        meant = near[0] if near else ""
    return invalid(
        f"{what}[{quoted(path)}]",
        path,
        "no such path in this plan",
        "such as 'stages[0].until', 'pit.air' or 'meat.thickness' is accepted",
        f"{quoted(meant)}" if meant else "",
    )


def _tail(rest: list[Step]) -> str:
    return "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in rest)


def _exists(plan: Plan, path: str) -> bool:
    try:
        tokens = _tokens(plan, path, "")
        owner: Any = plan
        for token in tokens:
            step = _step(owner, token, getattr(type(owner), "_fields", ()))
            if step is None:
                return False
            owner = owner[step] if isinstance(step, int) else getattr(owner, step)
    except InvalidInput:
        return False
    return True


def refuse_overlaps(found: dict[str, list[AnyTarget]], what: str = "parameters") -> None:
    """Refuse two parameters that set the same thing; only mass and thickness of the piece go together.

    Raises
    ------
    InvalidInput
        Names both.
    """
    seen: list[tuple[tuple[Step, ...], str, AnyTarget]] = []
    for path, targets in found.items():
        for target in targets:
            for touched in target.touches():
                for other, other_path, other_target in seen:
                    shared = min(len(touched), len(other))
                    both = {type(target), type(other_target)} == {Mass, Thickness}
                    if other_path != path and touched[:shared] == other[:shared] and not both:
                        raise invalid(
                            f"{what}[{quoted(path)}]",
                            path,
                            f"it sets what {quoted(other_path)} sets too",
                            "each once is accepted",
                        )
            seen += [(touched, path, target) for touched in target.touches()]
