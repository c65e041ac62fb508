"""A calibrated plan: what `calibrate` gives."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt

from libcook import _core
from libcook._core import Estimate, FreeParameter, Plan
from libcook.arguments.door import door
from libcook.arguments.files import read_text
from libcook.arguments.optional import need
from libcook.arguments.plain import close, whole
from libcook.arguments.quantity import Quantity, Word
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.fit.forecast import Forecast, forecast
from libcook.logs import Log
from libcook.readings.fit_facts import read_fit
from libcook.words.fit_forms import fit_words

if TYPE_CHECKING:
    import pandas as pd
    from matplotlib.axes import Axes

FloatArray = npt.NDArray[np.float64]


class Fit(_core.Fit):
    """A calibrated plan; made by `calibrate`, does not change.

    Attributes
    ----------
    plan : Plan
        The tuned plan (of the last log, where there are several).
    plans : list of Plan
        The tuned plan of each log.
    estimates : list of Estimate
        Every number: ``value``, ``interval50``, ``interval90``, ``learned``. Also by name: ``fit["start"]``.
    series : list of FitSeries
        Observed and fitted core of each log.
    rms : float
        Of observed - fitted [K].
    misfit : float
        Mean square of the residuals against what is expected [-]; about 1 or less.
    notes : list of str
        In words: what the logs cannot tell apart, and what else to know; quantities in both scales.
    units : str
        ``"C"`` or ``"F"``: the scale of the (last) log, in which the fit speaks and is drawn.
    """

    _inputs: tuple[list[Plan], list[_core.CookLog], list[FreeParameter]] | None = None

    @property
    def units(self) -> str:
        """``"C"`` or ``"F"``, the scale of the last log."""
        return self.series[-1].units

    def __getitem__(self, name: str) -> Estimate:
        """Return an estimate by name; of the last log that has it."""
        names = [e.name for e in self.estimates]
        if name not in names:
            raise invalid(
                "fit",
                name,
                f"{quoted(name)} was not fitted",
                f"fitted: {', '.join(dict.fromkeys(names))}",
                close(name, names),
            )
        return self._estimate(name)

    @property
    def correlations(self) -> FloatArray:
        """Correlations of the estimates [-], shape (estimates, estimates)."""
        deviation = np.sqrt(np.diag(self.covariance))
        return self.covariance / np.outer(deviation, deviation)

    @door
    def forecast(
        self, log: Log | Mapping[Quantity, Quantity] | None = None, plan: Plan | None = None, **options: Any
    ) -> Forecast:
        """Forecast a cook that is under way in the calibrated cooker.

        The cooker's numbers are taken as known as the fit has them; the piece's own are learned from the new
        log, beginning from the plan.

        Parameters
        ----------
        log : Log or mapping of duration to temperature
            The readings so far, as of `libcook.forecast`.
        plan : Plan, optional
            Of this cook; by default the one that was calibrated, as it was given.
        **options
            As of `libcook.forecast`.
        """
        return forecast(self.asked[-1] if plan is None else plan, log, fit=self, **options)

    @door
    def sample(
        self, steps: int = 600, walkers: int | None = None, seed: int = 1, discard: int | None = None
    ) -> dict[str, FloatArray]:
        """Draw from the posterior with a sampler, to check the intervals; needs the package emcee.

        The affine-invariant ensemble sampler of Goodman & Weare, Comm. Appl. Math. Comp. Sci. 5 (2010) 65, as
        implemented by emcee. Takes ``steps x walkers`` cooks.

        Parameters
        ----------
        steps, walkers : int
            Of the sampler; walkers are four for each number by default.
        seed : int
            Of its random numbers.
        discard : int, optional
            Steps at the beginning that do not count; a third by default.

        Returns
        -------
        dict of str to numpy.ndarray
            Draws of every number, in its unit, by name.

        Raises
        ------
        ImportError
            When emcee is not installed.
        InvalidInput
            When the fit was read from JSON, which does not hold the logs.
        """
        if self._inputs is None:
            raise invalid(
                "fit",
                None,
                "it was read from JSON, which does not hold the logs",
                "calibrate again to sample",
            )
        emcee = need("emcee", "sampler", "Fit.sample")
        steps = whole(steps, "steps", 10, 1_000_000)
        count = len(self.estimates)
        walkers = whole(4 * count if walkers is None else walkers, "walkers", 2 * count, 10_000)
        skip = steps // 3 if discard is None else whole(discard, "discard", 0, steps - 1)
        density = _core.LogPosterior(*self._inputs, self.model_error, 0)
        centre = self._deviations()
        density(centre[None, :])  # the errors of the readings are those at the optimum
        random = np.random.RandomState(whole(seed, "seed", 0, 2**31))
        root = np.linalg.cholesky(self.covariance)
        begin = centre + 0.5 * random.standard_normal((walkers, count)) @ root.T
        watched = _Watched(density)
        sampler = emcee.EnsembleSampler(walkers, count, watched, vectorize=True)
        sampler.random_state = random.get_state()
        # A walker that begins where nothing can be, and looks at another such place, stays: to emcee the
        # difference of their densities is no number, which it says on standard error.
        with np.errstate(invalid="ignore"):
            for _ in sampler.sample(begin, iterations=steps, skip_initial_state_check=True):
                watched.raise_what_came()
        chain = sampler.get_chain(discard=skip, flat=True)
        names: dict[str, FloatArray] = {}
        for i, e in enumerate(self.estimates):
            shown = e.name if e.log < 0 or len(self.plans) == 1 else f"{e.name}[{e.log}]"
            scale = e.scale == "logarithmic"
            drawn = chain[:, i] * e.prior_spread
            kind = _core.free_kind(e.name)
            value = e.prior * np.exp(drawn) if scale else e.prior + drawn
            names[shown] = np.clip(value, kind.low, kind.high)
        return names

    def _deviations(self) -> FloatArray:
        """Estimates in standard deviations beforehand."""
        return np.array(
            [
                (np.log(e.value / e.prior) if e.scale == "logarithmic" else e.value - e.prior)
                / e.prior_spread
                for e in self.estimates
            ]
        )

    @door
    def to_json(self, indent: int = 2) -> str:
        """Return JSON text: everything but the logs."""
        return self._to_json(whole(indent, "indent", -1, 100))

    @classmethod
    @door
    def from_json(cls, text: str | os.PathLike[str]) -> Fit:
        """Read what `to_json` wrote: text, or the path of a file as a ``pathlib.Path``."""
        content = text if isinstance(text, str) else read_text(Path(text), "text")
        return cls(_core.fit_from_json(content))

    def to_frame(self) -> pd.DataFrame:
        """Return a pandas DataFrame with a row for each estimate; needs pandas."""
        pandas = need("pandas", "frames", "Fit.to_frame")
        frame: pd.DataFrame = pandas.DataFrame(read_fit(self).estimates).set_index("name")
        return frame

    @door
    def plot(self, log: int = -1, units: Word | None = None, theme: Word = "light") -> list[Axes]:
        """Draw a log with the fitted core, and below it what is left; needs matplotlib.

        In the log's own °C or °F, unless ``units`` says which.

        Returns
        -------
        list of matplotlib.axes.Axes
            Of the fit and of the residuals.
        """
        from libcook.figures.fit_plots import plot_fit

        return plot_fit(self, log, units, theme)

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle as JSON and the inputs."""
        return _rebuild, (self._to_json(-1), self._inputs)

    def __repr__(self) -> str:
        """Return the estimates and the notes, a line each."""
        return fit_words(read_fit(self)).text

    def _repr_html_(self) -> str:
        return fit_words(read_fit(self)).html


class _Watched:
    """A density whose errors wait: emcee prints a report of its own on all that is raised within it."""

    def __init__(self, density: Callable[[FloatArray], FloatArray]) -> None:
        self._density = density
        self._came: BaseException | None = None

    def __call__(self, points: FloatArray) -> FloatArray:
        if self._came is None:
            try:
                return self._density(points)
            except BaseException as error:  # a Ctrl-C too
                self._came = error
        return np.full(len(points), -np.inf)

    def raise_what_came(self) -> None:
        """Raise what was kept, if anything was."""
        if self._came is not None:
            raise self._came


def _rebuild(text: str, inputs: Any) -> Fit:
    made = Fit.from_json(text)
    made._inputs = inputs
    return made
