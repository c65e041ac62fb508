"""Wrong arguments, told to a cook: what the function takes, and what was probably meant."""

from __future__ import annotations

import functools
import inspect
from collections.abc import Callable, Iterable, Sequence
from typing import ParamSpec, TypeVar

from libcook._coerce import list_names

P = ParamSpec("P")
R = TypeVar("R")


def refuse_unknown(function: str, given: Iterable[str], names: Sequence[str]) -> None:
    """Refuse an argument that a function does not have, with those that it has."""
    for name in given:
        if name not in names:
            raise TypeError(f"{function}() has no '{name}'; it takes: {list_names(name, names)}")


def named(function: Callable[P, R]) -> Callable[P, R]:
    """Make a function list its arguments when one comes that it does not have."""
    parameters = inspect.signature(function).parameters
    names = tuple(parameters)
    positional = [p.name for p in parameters.values() if p.kind is not inspect.Parameter.KEYWORD_ONLY]
    needed = [p.name for p in parameters.values() if p.default is inspect.Parameter.empty]

    @functools.wraps(function)
    def call(*args: P.args, **kwargs: P.kwargs) -> R:
        refuse_unknown(function.__name__, kwargs, names)
        missing = [name for name in needed if name not in positional[: len(args)] and name not in kwargs]
        if missing:
            came = " and ".join(f"'{name}'" for name in missing)
            raise TypeError(f"{function.__name__}() needs {came}; it takes: {', '.join(names)}")
        return function(*args, **kwargs)

    return call
