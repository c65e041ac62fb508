"""What a plan comes to on the possible cooks, for a start."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

import numpy as np
import numpy.typing as npt

from libcook import _core
from libcook.planner import limits
from libcook.planner.limits import HOUR
from libcook.units.clock import DAY

FloatArray = npt.NDArray[np.float64]
WAITS = tuple(h * HOUR for h in (0.0, 0.5, 1.0, 2.0, 3.0, 4.0, 6.0, 8.0, 12.0))  # s at which the wait is read
DARK = 2.0  # index of the bark that counts in full


@dataclass(frozen=True)
class Seen:
    """Possible cooks under one plan: a row each; times in s since the start of the cook."""

    weight: FloatArray  # (cooks,), they add up to 1
    actions: FloatArray  # (cooks, actions): wrapped, pit changed, pulled
    ready: FloatArray  # (cooks,): the rest is over
    shown: FloatArray  # (cooks, looks) [°C]
    bark: FloatArray  # (cooks,)
    come_up: FloatArray
    lethal_before: FloatArray
    kept: FloatArray  # (cooks, WAITS)
    tenderness: FloatArray
    coldest: FloatArray
    stretch: FloatArray  # (cooks,): what each takes over what the model says of this plan, see `sobered`

    @property
    def pulled(self) -> FloatArray:
        """When each comes off the heat [s], shape (cooks,)."""
        return self.actions[:, -1]

    def with_rows(self, rows: npt.NDArray[np.bool_], other: Seen) -> Seen:
        """Return these cooks with some of them as another plan has them."""
        wide = max(self.actions.shape[1], other.actions.shape[1])

        def padded(one: FloatArray) -> FloatArray:
            more = wide - one.shape[1]
            return np.column_stack([*[one[:, :1]] * more, one]) if more else one

        def mixed(mine: FloatArray, theirs: FloatArray) -> FloatArray:
            return np.where(rows if mine.ndim == 1 else rows[:, None], theirs, mine)

        return replace(
            self,
            actions=mixed(padded(self.actions), padded(other.actions)),
            ready=mixed(self.ready, other.ready),
            bark=mixed(self.bark, other.bark),
            come_up=mixed(self.come_up, other.come_up),
            lethal_before=mixed(self.lethal_before, other.lethal_before),
            kept=mixed(self.kept, other.kept),
            tenderness=mixed(self.tenderness, other.tenderness),
            coldest=mixed(self.coldest, other.coldest),
            stretch=mixed(self.stretch, other.stretch),
        )

    def part(self, rows: npt.NDArray[np.bool_]) -> Seen:
        """Return some of the cooks; their weights add up to 1 again."""
        weight = self.weight[rows]
        taken = {one.name: getattr(self, one.name)[rows] for one in fields(self)}
        return Seen(**{**taken, "weight": weight / weight.sum()})


def seen(futures: _core.Futures, weight: FloatArray) -> Seen:
    """Take what the core read off the cooks."""
    ends = np.asarray(futures.stage_end)
    names = ("shown", "bark", "come_up", "lethal_before", "kept", "tenderness", "coldest")
    read = {name: np.asarray(getattr(futures, name)) for name in names}
    return Seen(weight / weight.sum(), ends[:, :-2], ends[:, -2], **read, stretch=np.ones(len(ends)))


def sobered(one: Seen, usual: FloatArray, share: FloatArray, now: float) -> Seen:
    """Believe of what a plan saves against the usual one no more than is known.

    The model says how much a change saves, and other models of the same cook say otherwise: on each possible
    cook another share of its saving, in the logarithm of the time left, comes true.

    Parameters
    ----------
    one : Seen
        The cooks as the model has them.
    usual : numpy.ndarray
        When each comes off the heat by the usual plan [s].
    share : numpy.ndarray
        Of the saving that comes true [-].
    now : float
        Of a cook that is under way [s].
    """
    both = np.isfinite(usual) & np.isfinite(one.pulled)
    left = np.maximum(np.where(both, one.pulled, 1.0 + now) - now, 60.0)
    other = np.maximum(np.where(both, usual, 1.0 + now) - now, 60.0)
    stretch = np.where(both, (other / left) ** (1.0 - share), 1.0)
    actions = now + (one.actions - now) * stretch[:, None]
    rested = np.where(np.isfinite(one.ready), one.ready - np.where(both, one.pulled, 0.0), np.inf)
    ready = np.where(both, actions[:, -1] + rested, one.ready)
    return replace(one, actions=actions, ready=ready, stretch=stretch)


@dataclass(frozen=True)
class Measured:
    """What a plan comes to for a start.

    Attributes
    ----------
    room : float
        From the start to dinner [s].
    on_time, tender, awake, never : float
        Shares of the possible cooks: ready in time; tender at dinner and not past it; that ask for a hand in
        the quiet hours; that never get done.
    kept : float
        Share of the raw weight that is left at dinner, in the mean of the cooks that get there.
    bark, dark : float
        Mean index of the bark; and mean of it up to 2, as a share.
    wait, wait95 : float
        How long the meat waits ready: mean, and longest in 19 of 20 cooks [s].
    pulled50, ready50, ready90 : float
        Middle of when it comes off the heat; middle and nine of ten of when it is ready [s since the start].
    unsafe : dict of str to float
        Shares of the cooks that break a limit, by its name.
    """

    room: float
    on_time: float
    tender: float
    awake: float
    never: float
    kept: float
    bark: float
    dark: float
    wait: float
    wait95: float
    pulled50: float
    ready50: float
    ready90: float
    unsafe: dict[str, float]

    @property
    def safe(self) -> bool:
        """Whether no limit of safety is broken by more cooks than far tails are."""
        return all(share <= limits.UNSAFE_SHARE + 1e-9 for share in self.unsafe.values())


def quantile(value: FloatArray, weight: FloatArray, q: float) -> float:
    """Return the value that a share of the weight lies at or below: a cook's own, infinite ones among them.

    A step from cook to cook, where the core's ``weighted_quantile`` draws a line between them. A start is set
    by it, and the share on time is then counted over the same cooks: of a step just as many as were asked for
    are ready, of a line up to one cook fewer. And next to a cook that never gets there is no line to draw.
    """
    order = np.argsort(value, kind="stable")
    passed = np.cumsum(weight[order])
    return float(value[order][min(int(np.searchsorted(passed, q - 1e-12)), value.size - 1)])


def _at(table: FloatArray, wait: FloatArray) -> FloatArray:
    """Read a table of the wait, each cook at its own moment."""
    grid = np.array(WAITS)
    k = np.clip(np.searchsorted(grid, wait, side="right") - 1, 0, grid.size - 2)
    share = np.clip((wait - grid[k]) / (grid[k + 1] - grid[k]), 0.0, 1.0)
    rows = np.arange(wait.size)
    return np.asarray(table[rows, k] * (1.0 - share) + table[rows, k + 1] * share)


def quiet(clock: FloatArray, hours: tuple[float, float]) -> npt.NDArray[np.bool_]:
    """Say which times [s] lie in the quiet hours of a day."""
    begin, end = hours
    length = (end - begin) % DAY
    into = np.where(np.isfinite(clock), np.mod(np.where(np.isfinite(clock), clock, 0.0) - begin, DAY), DAY)
    return np.asarray(into < length)


def measure(
    one: Seen,
    room: float,
    serve: float,
    tender: tuple[float, float],
    sleep: tuple[float, float] | None,
    now: float = 0.0,
) -> Measured:
    """Say what a plan comes to.

    Parameters
    ----------
    one : Seen
        The cooks.
    room : float
        From the start of the cook to dinner [s].
    serve : float
        Dinner [s after midnight].
    tender : tuple of float
        Collagen converted [-]: from and to.
    sleep : tuple of float or None
        Quiet hours [s after midnight].
    now : float
        Of a cook that is under way [s since its start]; its start is no action any more.
    """
    weight = one.weight
    there = np.isfinite(one.ready)
    known = float(weight[there].sum())
    never = 1.0 - known
    done = one.part(there) if known > 0.0 else one
    long = np.maximum(room - np.where(np.isfinite(done.ready), done.ready, room), 0.0)
    on_hold = np.minimum(long, limits.LONGEST_HOLD)  # what is read; an oven changes little after that
    soft = _at(done.tenderness, on_hold)
    cold = np.minimum.reduce(
        [
            _at(done.coldest, on_hold),
            *(np.where(on_hold >= w, done.coldest[:, k], np.inf) for k, w in enumerate(WAITS)),
        ]
    )
    awake = 0.0
    if sleep is not None:
        clock = one.actions + serve - room
        hands = quiet(clock, sleep) & (one.actions > now)
        awake = float(weight[hands.any(axis=1)].sum())
        if now <= 0.0 and bool(quiet(np.array([serve - room]), sleep)[0]):
            awake = 1.0
    w = done.weight

    def mean(value: FloatArray) -> float:
        return float(w @ value) if known > 0.0 else float("nan")

    unsafe = {
        "never done": max(never, 0.0),
        "too long in the danger zone": known * mean((done.come_up > limits.COME_UP).astype(float)),
        "too little heat to be safe": known * mean((done.lethal_before < 0.0).astype(float)),
        f"its surface below {limits.KEPT_HOT} before dinner": known
        * mean((cold < limits.HOT_HOLDING).astype(float)),
    }
    if known <= 0.0:
        unsafe = {"never done": 1.0}
    return Measured(
        room=room,
        on_time=float(weight[one.ready <= room].sum()),
        tender=known * mean(((soft >= tender[0]) & (soft <= tender[1])).astype(float))
        if known > 0.0
        else 0.0,
        awake=awake,
        never=max(never, 0.0),
        kept=mean(_at(done.kept, on_hold)),
        bark=mean(done.bark),
        dark=mean(np.minimum(done.bark / DARK, 1.0)),
        wait=mean(long),
        wait95=quantile(long, w, 0.95),
        pulled50=quantile(one.pulled, weight, 0.5),
        ready50=quantile(one.ready, weight, 0.5),
        ready90=quantile(one.ready, weight, 0.9),
        unsafe=unsafe,
    )
