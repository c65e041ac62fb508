"""Finds the cases, runs them and keeps what they gave.

A case is a file in `cases` with a docstring whose first line is the title and whose rest states the
problem, a function `rows()` that yields `evidence.Row`, and, if it has pictures, a function `figures()`
that yields `evidence.Figure`.
"""

from __future__ import annotations

import importlib
import pkgutil
import traceback
from functools import cache

import cases
from evidence import Case, Row


def names() -> list[str]:
    return sorted(module.name for module in pkgutil.iter_modules(cases.__path__))


@cache
def run(name: str, with_figures: bool = False) -> Case:
    """Run a case; one that cannot be computed is kept with its traceback, and fails."""
    title, statement = name.replace("_", " "), ""
    rows: tuple[Row, ...] = ()
    try:
        module = importlib.import_module(f"cases.{name}")
        title, _, statement = (module.__doc__ or title).strip().partition("\n")
        rows = tuple(module.rows())
        figures = tuple(module.figures()) if with_figures and hasattr(module, "figures") else ()
    except Exception:
        return Case(name, title.rstrip("."), statement.strip(), rows, (), traceback.format_exc())
    return Case(name, title.rstrip("."), statement.strip(), rows, figures)
