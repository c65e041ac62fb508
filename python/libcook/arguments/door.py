"""Arguments at the door of public functions: read by their declared types, and wrong ones told to a cook."""

from __future__ import annotations

import functools
import inspect
from collections.abc import Callable, Iterable, Sequence
from typing import ParamSpec, TypeVar

from libcook.arguments.declared import Reading, reading
from libcook.arguments.plain import list_names
from libcook.arguments.quote import quoted

_OWNERS = ("self", "cls")
P = ParamSpec("P")
R = TypeVar("R")


def refuse_unknown(function: str, given: Iterable[str], names: Sequence[str]) -> None:
    """Refuse an argument that a function does not have, with those that it has."""
    for name in given:
        if name not in names:
            raise TypeError(f"{function}() has no {quoted(name)}; it takes: {list_names(name, names)}")


def lists(**words: Iterable[str]) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Let a docstring list words that are known elsewhere: ``{kinds}`` in it becomes those of `kinds`."""

    def fill(function: Callable[P, R]) -> Callable[P, R]:
        for name, known in words.items():
            *most, last = [f'``"{word}"``' for word in known]
            function.__doc__ = (function.__doc__ or "").replace(
                f"{{{name}}}", f"{', '.join(most)} or {last}" if most else last
            )
        return function

    return fill


def door(function: Callable[P, R]) -> Callable[P, R]:
    """Make a function read its arguments by their declared types before anything else happens.

    An argument of another type is an `InvalidInput` with the argument's name; a truth value, a number or text
    comes in as Python's own. One that the function does not have, or that is missing, is a TypeError that
    lists what it takes.
    """
    parameters = list(inspect.signature(function).parameters.values())
    open_ended = any(one.kind is one.VAR_KEYWORD for one in parameters)
    plain = [one for one in parameters if one.kind not in (one.VAR_KEYWORD, one.VAR_POSITIONAL)]
    names = tuple(one.name for one in plain if one.name not in _OWNERS)
    positional = tuple(one.name for one in plain if one.kind is not one.KEYWORD_ONLY)
    needed = tuple(one.name for one in plain if one.default is one.empty and one.name not in _OWNERS)
    declared = {one.name: one.annotation for one in plain if isinstance(one.annotation, str)}

    @functools.cache
    def readings() -> dict[str, Reading]:  # at the first call: the package is not whole yet
        return {name: found for name, kind in declared.items() if (found := reading(kind)) is not None}

    @functools.wraps(function)
    def call(*args: P.args, **kwargs: P.kwargs) -> R:
        if not open_ended:
            refuse_unknown(function.__name__, kwargs, names)
        missing = [name for name in needed if name not in kwargs and name not in positional[: len(args)]]
        if missing:
            came = " and ".join(f"'{name}'" for name in missing)
            raise TypeError(f"{function.__name__}() needs {came}; it takes: {', '.join(names)}")
        known = readings()
        read = [
            known[name](value, name) if name in known else value
            for name, value in zip(positional, args, strict=False)
        ]
        named = {name: known[name](value, name) if name in known else value for name, value in kwargs.items()}
        return function(*read, *args[len(read) :], **named)  # type: ignore[arg-type]

    return call
