"""A cook from start to slice: stages, each somewhere, under something, until something is reached."""

from __future__ import annotations

import json
from typing import Any

from libcook import _core
from libcook._core import LidOpening, Plan, Spritz, Stage
from libcook.arguments.door import door
from libcook.arguments.quantity import Quantity

__all__ = ["LidOpening", "Plan", "Spritz", "Stage", "schema", "spritz"]


@door
def spritz(
    every: Quantity = "1 h",
    first: Quantity = "2 h",
    amount: Quantity = 0.05,
    temperature: Quantity = 20.0,
    lid_open: Quantity = "30 s",
) -> Spritz:
    """Return a rhythm of spritzing for a stage.

    The defaults, with range and source: ``libcook.parameters()``, rows ``spritz.*``.

    Parameters
    ----------
    every : float, str or pint.Quantity
        Interval; a plain number is in s.
    first : float, str or pint.Quantity
        First time, after the start of the stage; a plain number is in s.
    amount : float, str or pint.Quantity
        Liquid each time, such as ``"50 g/m²"``; a plain number is in kg/m². The default is common practice,
        no source: about 5 g for each 1000 cm² of face.
    temperature : float, str or pint.Quantity
        Of the liquid; a plain number is in °C.
    lid_open : float, str or pint.Quantity
        How long the lid stays open for it; a plain number is in s.

    Returns
    -------
    Spritz
    """
    return Spritz(every, first, amount, temperature, lid_open)


def schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of what `Plan.to_json` writes and `Plan.from_json` reads."""
    content: dict[str, Any] = json.loads(_core.plan_schema())
    return content
