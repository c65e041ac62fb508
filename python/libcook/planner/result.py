"""What a search found."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from libcook._core import Plan
from libcook.arguments.door import door
from libcook.arguments.quantity import Word
from libcook.planner.cooks import Cooks
from libcook.planner.figure import draw
from libcook.planner.front import Option
from libcook.planner.limits import CAUTION
from libcook.planner.measure import Measured, Seen
from libcook.planner.policies import Policy
from libcook.planner.recipe import Recipe
from libcook.planner.words import best_form, best_html, reason_form
from libcook.words.fit_forms import day_clock

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["BestPlan"]


@dataclass(frozen=True)
class Habit:
    """What would be done without a search.

    Attributes
    ----------
    recipe : Recipe
        As a recipe.
    measured : Measured
        What it comes to, started so that it is ready as often as is wished.
    same_start : Measured
        What it comes to when it is started when the chosen plan is.
    cooks : Seen
        The same possible cooks.
    """

    recipe: Recipe
    measured: Measured
    same_start: Measured
    cooks: Seen


@dataclass(frozen=True, repr=False)
class Reason:
    """What one change of the habit alone does; times in s.

    Attributes
    ----------
    what : str
        In words.
    sooner : float
        That the meat comes off the heat, in the middle of the possible cooks.
    kept : float
        Share of the raw weight that it keeps more.
    bark : float
        Index of the bark that it brings.
    mass : float
        Of the raw piece [kg].
    within : Reason or None
        What it does in the chosen plan, against the same plan with this as the habit has it; for a change
        that is not worth it alone.
    """

    what: str
    sooner: float
    kept: float
    bark: float
    mass: float
    within: Reason | None = None

    def __repr__(self) -> str:
        """Return what it buys and what it costs, in a line."""
        return reason_form(self)


class BestPlan:
    """The best plan; made by `best_plan`.

    Attributes
    ----------
    plan : Plan
        What to do, rest included, with its start: `simulate`, `forecast` and `start_by` take it. Of a cook
        that is under way: what is left to do.
    start : float
        When [s after the midnight before dinner]; negative: the day before. `start_clock` is the same as
        text.
    serve : float
        Dinner [s after midnight].
    options : list of Option
        The front: the chosen plan first, then others that beat it in something. Each has ``name``,
        ``recipe``, ``measured`` and ``cooks``.
    habit : Habit
        The plan that was given, or the usual one, on the same possible cooks.
    reasons : list of Reason
        What each change of the habit alone brings.
    policy : Policy or None
        Rules for the day, and what they bring; None where none is worth it.
    better : float
        Share of the possible cooks that are ready sooner by the chosen plan than by the habit [0 to 1].
    notes : list of str
        In words.
    caution : str
        Shown with every plan.
    units : str or None
        ``"C"`` or ``"F"``, in which it speaks; None: both.
    simulated : int
        Cooks that were simulated.
    """

    plan: Plan
    start: float
    serve: float
    options: list[Option]
    habit: Habit
    reasons: list[Reason]
    policy: Policy | None
    better: float
    notes: list[str]
    units: str | None
    simulated: int
    cooks: Cooks
    caution: str = CAUTION
    _again: tuple[Callable[..., BestPlan], dict[str, Any]]

    def __init__(self, **found: Any) -> None:
        """Keep what a search found; `best_plan` makes it."""
        self.__dict__.update(found)

    @property
    def chosen(self) -> Option:
        """The plan of the front that suits the wishes best."""
        return self.options[0]

    @property
    def measured(self) -> Measured:
        """What the chosen plan comes to."""
        return self.chosen.measured

    @property
    def start_clock(self) -> str:
        """When to start, such as ``"21:40 the day before"``."""
        return day_clock(self.start)

    @property
    def under_way(self) -> bool:
        """Whether the cook has begun."""
        return self.cooks.table.room is not None

    @door
    def plot(self, units: Word | None = None, theme: Word = "light") -> Sequence[Axes]:
        """Draw the front, with each plan by its name, and the day of the chosen one with its bands.

        Parameters
        ----------
        units : str, optional
            ``"C"`` or ``"F"``; °F unless the plan speaks °C.
        theme : str
            ``"light"`` or ``"dark"``.

        Returns
        -------
        sequence of matplotlib.axes.Axes
            Of the front and of the day.
        """
        return draw(self, units, theme)

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle what it was made from: the same plan comes out again."""
        return _found_again, self._again

    def __repr__(self) -> str:
        """Return the plan, its price, the rules for the day, a line each."""
        return best_form(self)

    def _repr_html_(self) -> str:
        return best_html(self)


def _found_again(search: Callable[..., BestPlan], inputs: dict[str, Any]) -> BestPlan:
    return search(**inputs)
