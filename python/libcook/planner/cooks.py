"""The possible cooks: drawn once, and the same for every plan that is tried."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from statistics import NormalDist

import numpy as np
import numpy.typing as npt

from libcook import _core
from libcook._core import Stage
from libcook.planner.measure import WAITS, FloatArray, Measured, Seen, measure, quantile, seen, sobered
from libcook.planner.recipe import Kitchen, Recipe, stages_of
from libcook.planner.wishes import Wishes

GRAIN = 900.0  # s to which a start is rounded
STARTS = 5  # starts that are looked at, each GRAIN earlier
LONGEST_DAY = 60 * 3600.0  # s from a start to dinner that is looked at
STARTS_SLEEPING = 20  # the same where somebody wants to sleep, each half an hour earlier
# How far a cook may save more or less by a change of the plan than the model says, as a share of the saving
# in the logarithm of the time: as single cooks of the five worlds of validation/worlds scatter about the
# model's, on seeds from 100 000 on, never scored. A judgement, for no measured pairs of cooks exist.
SAVING_SPREAD = 0.6
LEAST_SHARE, MOST_SHARE = -0.2, 2.2  # of a saving: beyond is no belief but a tail
BATCH = 24  # plans that are run at once, so that packs are full
Tick = Callable[[int], None]


@dataclass(frozen=True)
class Table:
    """When dinner is, and when a start may be."""

    serve: float  # [s after midnight]
    room: float | None = None  # fixed, where the cook is under way [s]
    now: float = 0.0  # of a cook that is under way [s]
    rooms: tuple[float, float] | None = None  # shortest and longest time from the start to dinner [s]

    def tried(self, ready: float, sleeping: bool) -> list[float]:
        """Return times from the start to dinner [s] that are worth a look.

        Parameters
        ----------
        ready : float
            When as many cooks are ready as is wanted [s]; may be infinite.
        sleeping : bool
            Whether the time of day matters.
        """
        if self.room is not None:
            return [self.room]
        short, long = self.rooms or (GRAIN, LONGEST_DAY)
        first = ready if np.isfinite(ready) else long
        # Starts are on quarters of an hour of the clock, not of dinner's.
        first = self.serve - np.floor((self.serve - first) / GRAIN) * GRAIN
        steps, apart = (STARTS_SLEEPING, 2.0 * GRAIN) if sleeping else (STARTS, GRAIN)
        return sorted({float(np.clip(first + k * apart, short, long)) for k in range(steps)})


@dataclass
class Cooks:
    """Possible cooks of a forecast, run under recipes, and kept.

    Attributes
    ----------
    ahead : Forecast
        Where they come from.
    screen, choose, promise : numpy.ndarray
        Which of them a first look takes, which decide, and which are kept for what is promised: those had no
        part in the search, so that nothing was chosen for suiting them by chance.
    """

    ahead: _core.Forecast
    kitchen: Kitchen
    table: Table
    wishes: Wishes
    wrapped: bool
    looks: list[float] = field(default_factory=list)
    tick: Tick = lambda cooks: None
    simulated: int = 0
    _usual: dict[int, float] = field(default_factory=dict)
    _kept: dict[tuple[Recipe, str], Seen] = field(default_factory=dict)
    _points: dict[tuple[Recipe, str, Wishes], float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Part the possible cooks: every third one chooses, the others promise."""
        count = len(self.ahead.weight)
        places = np.arange(count)
        heavy = np.asarray(self.ahead.weight) > 0.0
        deciding = places[(places % 3 == 0) & heavy]
        self.parts: dict[str, npt.NDArray[np.int_]] = {
            "screen": deciding[:: max(1, deciding.size // 24)][:24],
            "choose": deciding,
            "promise": places[(places % 3 != 0) & heavy],
        }
        # One share in each slice of equal probability, in an order of their own: the same for every plan.
        slices = (np.arange(count) + 0.5) / count
        normal = np.array([NormalDist().inv_cdf(float(one)) for one in slices])
        shares = 1.0 + SAVING_SPREAD * np.random.default_rng(count).permutation(normal)
        self._share: FloatArray = np.clip(shares, LEAST_SHARE, MOST_SHARE)

    def compare_with(self, stages: list[Stage]) -> None:
        """Take a plan as the usual one, whose times are believed as they are."""
        self._usual.clear()
        usual: dict[int, float] = {}
        for part in ("choose", "promise"):
            found = self.run([stages], part)[0]
            if found is not None:
                usual.update(zip(self.parts[part].tolist(), found.pulled.tolist(), strict=True))
        self._usual.update(usual)

    def stages(self, recipe: Recipe) -> list[Stage]:
        """Return what is left to do by a recipe."""
        return stages_of(recipe, self.kitchen, self.wrapped)

    def run(self, plans: Sequence[list[Stage]], part: str) -> list[Seen | None]:
        """Run plans; None for one that cannot be used."""
        members = self.parts[part]
        weight = np.asarray(self.ahead.weight)[members]
        made: list[Seen | None] = []
        for at in range(0, len(plans), BATCH):
            batch = [list(one) for one in plans[at : at + BATCH]]
            for one in _core.futures(self.ahead, batch, members.tolist(), self.looks, list(WAITS)):
                made.append(None if one.why else self._believed(seen(one, weight), members))
            self.simulated += len(batch) * members.size
            self.tick(len(batch) * members.size)
        return made

    def _believed(self, one: Seen, members: npt.NDArray[np.int_]) -> Seen:
        if not self._usual:
            return one
        usual = np.array([self._usual[int(member)] for member in members])
        return sobered(one, usual, self._share[members], self.table.now)

    def see(self, recipes: Sequence[Recipe], part: str) -> list[Seen | None]:
        """Run recipes, those that were not run before."""
        fresh = [one for one in dict.fromkeys(recipes) if (one, part) not in self._kept]
        for recipe, found in zip(fresh, self.run([self.stages(one) for one in fresh], part), strict=True):
            if found is not None:
                self._kept[recipe, part] = found
        return [self._kept.get((one, part)) for one in recipes]

    def at_best_start(self, one: Seen, wishes: Wishes | None = None) -> Measured:
        """Measure a plan for the start that suits the wishes best."""
        wanted = wishes or self.wishes
        ready = quantile(one.ready, one.weight, wanted.ready)
        rooms = self.table.tried(ready, wanted.sleep is not None)
        measured = [self.measure(one, room, wanted) for room in rooms]
        return max(measured, key=lambda m: (wanted.score(m), m.on_time, -m.room))

    def measure(self, one: Seen, room: float, wishes: Wishes | None = None) -> Measured:
        """Measure a plan for a start [s before dinner]."""
        wanted = wishes or self.wishes
        return measure(one, room, self.table.serve, wanted.tender, wanted.sleep, self.table.now)

    def judge(self, recipes: Sequence[Recipe], part: str, wishes: Wishes | None = None) -> list[float]:
        """Points of recipes; minus infinity where a limit of safety is broken, or the plan cannot be used."""
        wanted = wishes or self.wishes
        for recipe, one in zip(recipes, self.see(recipes, part), strict=True):
            if (recipe, part, wanted) not in self._points:
                points = -np.inf if one is None else wanted.score(self.at_best_start(one, wanted))
                self._points[recipe, part, wanted] = points
        return [self._points[recipe, part, wanted] for recipe in recipes]
