"""The front: a few plans that really differ, with their prices.

Each beats the chosen one in something, or is the best of those who hold by another wrap.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from libcook.planner.cooks import Cooks
from libcook.planner.limits import HOUR
from libcook.planner.measure import Measured, Seen
from libcook.planner.recipe import Recipe
from libcook.planner.wishes import Wishes
from libcook.planner.words import recipe_form

LEAST, MOST = 3, 6  # plans of a front, where there are so many
APART = {"room": 0.5 * HOUR, "kept": 0.01, "bark": 0.3, "wait": 0.5 * HOUR}  # what a cook would notice
BEST_AT = {
    "kept": "the most weight",
    "bark": "the most bark",
    "room": "the shortest day",
    "wait": "the least waiting",
}
BY_WRAP = {"butcher paper": "the best in paper", "foil": "the best in foil", "none": "the best unwrapped"}
LEAST_SURE = 0.05  # share that a plan of the front may be less often on time than is wished


@dataclass(frozen=True, repr=False)
class Option:
    """A plan of the front.

    Attributes
    ----------
    name : str
        What it is best at.
    recipe : Recipe
        What is done.
    measured : Measured
        What it comes to on cooks that had no part in the search.
    cooks : Seen
        Those cooks.
    """

    name: str
    recipe: Recipe
    measured: Measured
    cooks: Seen

    def __repr__(self) -> str:
        """Return what is done, in a line."""
        return f"{self.name}: {recipe_form(self.recipe)}"


def promised(recipes: Sequence[Recipe], cooks: Cooks, wishes: Wishes) -> list[Option]:
    """Measure recipes on the cooks kept for it; what breaks a limit of safety there is left out."""
    made = []
    for recipe, one in zip(recipes, cooks.see(recipes, "promise"), strict=True):
        if one is not None:
            measured = cooks.at_best_start(one, wishes)
            if measured.safe:
                made.append(Option("", recipe, measured, one))
    return made


def _value(option: Option, what: str) -> float:
    """More is better."""
    m = option.measured
    return {"room": -m.room, "kept": m.kept, "bark": m.bark, "wait": -m.wait}[what]


def differs(a: Option, b: Option) -> bool:
    """Whether a cook would notice, in what is done and in what comes of it."""
    one, other = a.recipe, b.recipe
    done = (
        one.wrap != other.wrap
        or abs(one.pit - other.pit) >= 8.0
        or abs(one.wrapped_pit - other.wrapped_pit) >= 8.0
        or one.wrap_at[0] != other.wrap_at[0]
        or (one.wrap_at[0] == "core" and abs(one.wrap_at[1] - other.wrap_at[1]) >= 4.0)
        or one.hold != other.hold
        or abs(one.rest - other.rest) >= 0.5 * HOUR
    )
    return done and any(abs(_value(a, what) - _value(b, what)) >= step for what, step in APART.items())


def front(options: Sequence[Option], wishes: Wishes) -> list[Option]:
    """Return the chosen plan, and others that beat it in something that a cook would notice.

    Parameters
    ----------
    options : sequence of Option
        Safe ones.
    wishes : Wishes
        By which one is chosen.
    """
    if not options:
        return []
    ranked = sorted(options, key=lambda one: (-wishes.score(one.measured), options.index(one)))
    chosen = ranked[0]
    found = [_named(chosen, "the best for your wishes")]
    sure = chosen.measured.on_time - LEAST_SURE
    open_ones = [one for one in ranked[1:] if one.measured.on_time >= sure]
    for what, name in BEST_AT.items():
        better = [one for one in open_ones if _value(one, what) >= _value(chosen, what) + APART[what]]
        for one in sorted(better, key=lambda one: -_value(one, what)):
            if all(differs(one, other) for other in found):
                found.append(_named(one, name))
                break
    for wrap, name in BY_WRAP.items():
        own = [one for one in ranked if one.recipe.wrap == wrap]
        if own and all(one.recipe.wrap != wrap for one in found):
            found.append(_named(own[0], name))
    middle = [one for one in open_ones if not any(_dominates(other, one) for other in ranked)]
    for one in middle:
        if len(found) >= LEAST:
            break
        if all(differs(one, other) for other in found):
            found.append(_named(one, "in between"))
    return found[:MOST]


def _dominates(a: Option, b: Option) -> bool:
    gains = np.array([_value(a, what) - _value(b, what) for what in APART])
    return bool((gains >= 0.0).all() and (gains > 0.0).any())


def _named(option: Option, name: str) -> Option:
    return Option(name, option.recipe, option.measured, option.cooks)
