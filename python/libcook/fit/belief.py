"""What is believed of a cook before any reading, and possible cooks drawn from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt

from libcook import _core
from libcook._core import ModelError, Plan
from libcook.arguments.door import door
from libcook.arguments.optional import need
from libcook.arguments.plain import whole
from libcook.fit.inputs import read_model_error

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["Belief", "Drawn", "belief"]

FloatArray = npt.NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Drawn:
    """Possible cooks, drawn from a `Belief`.

    Attributes
    ----------
    plans : list of Plan
        The plan with the numbers drawn written in, each with a pit of its own; `simulate_many` takes them.
    pace : numpy.ndarray
        What each takes over what its simulation says [-], shape (cooks,): multiply with it how long a stage
        lasts that waits for the meat. It is what the model itself may get wrong, with heavy tails; its middle
        is 1.
    names : list of str
        Of the numbers, as `free_names` has them.
    values : numpy.ndarray
        The numbers, in SI and °C, shape (cooks, names).
    """

    plans: list[Plan]
    pace: FloatArray
    names: list[str]
    values: FloatArray

    def to_frame(self) -> pd.DataFrame:
        """Return the numbers drawn and the pace as a table, one row a cook; needs pandas."""
        pandas: Any = need("pandas", "frames", "Drawn.to_frame")
        table: pd.DataFrame = pandas.DataFrame(self.values, columns=self.names)
        return table.assign(pace=self.pace)


class Belief(_core.Belief):
    """What is believed of a plan's numbers and of the model before any reading; made by `belief`.

    Forecasts, calibrations, start times and the ranges of `Outcome.in_words` all go by it.

    Attributes
    ----------
    names, units : list of str
        Of the numbers, and their units: SI and °C.
    median : numpy.ndarray
        As the plan has them, in their units, shape (names,).
    spread : numpy.ndarray
        Standard deviations, shape (names,): a share where `scales` says ``"logarithmic"``, else in the unit.
    scales : list of str
        ``"logarithmic"`` or ``"linear"``.
    correlation : numpy.ndarray
        Of the numbers on their scales [-], shape (names, names).
    model_error : ModelError
        How far the model is trusted.
    error_share : float
        Standard deviation of its error in the time until it is done, at its middling size [share].
    """

    @door
    def draw(self, count: int = 100, seed: int = 1) -> Drawn:
        """Draw possible cooks; one of each number in each slice of equal probability.

        Parameters
        ----------
        count : int
            How many, 1 to 100 000.
        seed : int
            The same one gives the same cooks.

        Returns
        -------
        Drawn
            `plans`, a list for `simulate_many`; `pace`, what each takes over what its simulation says where
            the meat decides, shape (count,) [-]; `names` and `values`, the numbers, shape (count, names).

        Examples
        --------
        >>> drawn = lc.belief(plan).draw(40)  # doctest: +SKIP
        >>> outcomes = lc.simulate_many(drawn.plans)  # doctest: +SKIP
        """
        plans, pace, values = self._draw(whole(count, "count", 1, 100_000), whole(seed, "seed", 0, 2**64 - 1))
        return Drawn(plans, pace, list(self.names), values)

    def __repr__(self) -> str:
        """Show each number with its median and spread."""
        lines = [
            f"  {name}: {median:.4g} {unit}, " + (f"±{100.0 * s:.0f} %" if share else f"±{s:.2g} {unit}")
            for name, unit, median, s, share in zip(
                self.names,
                self.units,
                self.median,
                self.spread,
                [scale == "logarithmic" for scale in self.scales],
                strict=True,
            )
        ]
        head = f"Belief before any reading; the model's time ±{100.0 * self.error_share:.0f} %, heavy-tailed:"
        return "\n".join([head, *lines])


@door
def belief(plan: Plan, *, model_error: ModelError | str | None = None) -> Belief:
    """Say what is believed of a cook before any reading.

    Numbers that a cook rarely knows are jointly normal on their scales, with the plan's values in the middle.
    Spreads and correlations come from measured cooks where those tell them, see validation/POPULATION.md;
    the source of each stands in ``libcook.parameters()``, rows ``free.*``.

    Parameters
    ----------
    plan : Plan
        The cook as it is thought to be; its mass is taken as weighed. It is simulated once.
    model_error : ModelError or str, optional
        How far the model is trusted, as in `forecast`.

    Returns
    -------
    Belief

    Raises
    ------
    InvalidInput
        When the plan cannot be used.
    """
    return Belief(_core.believe(plan, read_model_error(model_error)))
