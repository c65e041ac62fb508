"""Samples of the space of parameters, spread more evenly than chance would."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import numpy.typing as npt

from libcook.arguments.door import door
from libcook.arguments.optional import need
from libcook.arguments.plain import array, choice, count, mapping
from libcook.arguments.quantity import Word
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.sweeps.size import Size

_HOW = ("sobol", "latin")


@dataclass(frozen=True)
class Sample:
    """Cooks spread over ranges; made by `sample`, read by `sweep`.

    Attributes
    ----------
    ranges : dict
        What each parameter varies over, as it was given.
    unit : numpy.ndarray
        Shape (cooks, parameters): where in its range each parameter is, 0 to 1.
    how, seed
        As they were given.
    """

    ranges: dict[str, Any]
    unit: npt.NDArray[np.float64] = field(repr=False)
    how: str
    seed: int

    def __post_init__(self) -> None:
        """Check what came."""
        for path, span in mapping(self.ranges, "ranges", "a mapping of paths to ranges is accepted").items():
            _check(span, f"ranges[{quoted(path)}]")
        unit = array(self.unit, "unit", "shares of the ranges, 0 to 1, are accepted")
        if unit.ndim != 2 or unit.shape[1] != len(self.ranges) or not ((unit >= 0.0) & (unit <= 1.0)).all():
            came = f"an array of shape {unit.shape} came"
            accepted = f"shares of the ranges, 0 to 1, of shape (cooks, {len(self.ranges)}) are accepted"
            raise invalid("unit", self.unit, came, accepted)
        object.__setattr__(self, "unit", unit)
        choice(self.how, _HOW, "how")
        object.__setattr__(self, "seed", count(self.seed, "seed"))

    def __len__(self) -> int:
        """How many cooks."""
        return len(self.unit)


@door
def sample(ranges: Mapping[str, Any], n: int, how: Word = "sobol", seed: int = 0) -> Sample:
    """Spread cooks over ranges of parameters, for `sweep`; needs SciPy.

    Parameters
    ----------
    ranges : mapping of str to tuple, list, mapping or distribution
        For each path (see `sweep`) what it varies over: ``(low, high)``, evenly; ``(low, high, "log")``,
        evenly in the logarithm; a list, or a mapping of names to values, to choose from; or a frozen
        distribution of ``scipy.stats``, in SI or °C.
    n : int
        How many cooks. For ``"sobol"`` a power of two: the sequence is even only then.
    how : str
        ``"sobol"``: a scrambled Sobol sequence. ``"latin"``: a Latin hypercube. Both are SciPy's
        (``scipy.stats.qmc``).
    seed : int
        The same seed gives the same cooks, so that a sweep that was cut short can go on.

    Returns
    -------
    Sample

    Raises
    ------
    InvalidInput
        When something else came; names it.
    ImportError
        When SciPy is not installed.

    Examples
    --------
    >>> len(sample({"pit.air": ("107 °C", "135 °C"), "meat.thickness": ("45 mm", "80 mm")}, n=64))
    64
    """
    choice(how, _HOW, "sample.how")
    cooks, start = count(n, "sample.n"), count(seed, "sample.seed")
    accepted = 'a mapping such as {"pit.air": ("107 °C", "135 °C")} is accepted'
    for path, given in mapping(ranges, "sample.ranges", accepted).items():
        _check(given, f"sample.ranges[{quoted(path)}]")
    if cooks < 1:
        raise invalid("sample.n", n, f"{n} cooks came", "1 and more are accepted")
    Size(len(ranges), "piece", True).check((cooks,), "sample.n")
    if how == "sobol" and cooks & (cooks - 1):
        low = 1 << (cooks.bit_length() - 1)
        raise invalid(
            "sample.n",
            n,
            f"{n} is not a power of two, and a Sobol sequence is even only at powers of two",
            f"such as {low} or {2 * low} is accepted, or any number with how='latin'",
        )
    qmc = need("scipy.stats.qmc", "sweep", "sample")
    engine = qmc.Sobol if how == "sobol" else qmc.LatinHypercube
    # SciPy 1.15 renamed seed to rng
    try:
        spread = engine(len(ranges), rng=np.random.default_rng(start))
    except TypeError:
        spread = engine(len(ranges), seed=np.random.default_rng(start))
    return Sample(dict(ranges), np.asarray(spread.random(cooks), dtype=np.float64), how, start)


def _check(given: Any, name: str) -> None:
    if isinstance(given, tuple):
        if len(given) == 2 or (len(given) == 3 and given[2] == "log"):
            return
        raise invalid(name, given, f"{quoted(given)} came", "(low, high) or (low, high, 'log') is accepted")
    if isinstance(given, (list, Mapping)) and given:
        return
    if not hasattr(given, "ppf"):
        raise invalid(
            name,
            given,
            f"{quoted(given)} came",
            "a range (low, high), a list to choose from or a scipy.stats distribution is accepted",
        )
