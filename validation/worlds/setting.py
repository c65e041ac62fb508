"""What a user sets out to do, and the loop that turns a world's truth into a cook."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from . import nuisance
from .cook import Array, Cook, Wrap

STEP = nuisance.STEP
LONGEST = 30 * 60  # steps: cooks that are not done by then are drawn again
STAYS = 15  # steps that the display must stay at the target to be done
AFTER = 15  # steps that the log goes on when it is done
TRIES = 60
COOKERS = ("drum", "offset", "kettle", "ceramic", "cabinet", "oven")
SHARES = (0.3, 0.12, 0.1, 0.1, 0.3, 0.08)  # roughly those of validation/field, pellets as cabinets
TARGETS = (90.6, 92.0, 93.3, 95.0, 96.1)
KILOGRAMS = {"brisket": (3.0, 7.5), "pork": (2.5, 5.0)}
PIT = (105.0, 140.0)


@dataclass(frozen=True, eq=False)
class Setting:
    """What is to be cooked and how; the truth that no world may know better is in `start` and `air`."""

    cut: str
    mass: float  # kg
    start: float  # °C, true
    cooker: str
    air: Array  # °C, true, a point each STEP
    wrap_kind: str  # "" if it stays bare
    wrap_core: float  # °C displayed
    bias: float  # K of the core probe
    target: float  # °C displayed


@dataclass(frozen=True, eq=False)
class Truth:
    """The core where the probe is, a point each STEP from the start, and the steps of its wraps."""

    core: Array
    wrapped: tuple[int, ...]


@dataclass(frozen=True)
class Scale:
    """The numbers of a world that are not of one cook; `python -m worlds.tune` prints them."""

    brisket: float  # what the world says of it
    pork: float
    spread: float  # standard deviation of its logarithm from cook to cook

    def draw(self, cut: str, dice: np.random.Generator) -> float:
        return float(
            (self.brisket if cut == "brisket" else self.pork) * np.exp(self.spread * dice.standard_normal())
        )


World = Callable[[Setting, Scale, np.random.Generator], Truth]


def settings(cut: str, dice: np.random.Generator) -> tuple[Setting, float]:
    """A setting, and the start that the user believes."""
    cooker = str(dice.choice(COOKERS, p=SHARES))
    told = float(dice.choice([2.0, 4.0, 4.0, 5.0, 8.0, 12.0]))
    wraps = dice.random() < 0.5 and dice.random() > 0.2  # one planned wrap in five never happens
    low, high = PIT
    wanted = low + (high - low) * dice.beta(1.1, 1.8)
    setting = Setting(
        cut,
        float(np.round(dice.uniform(*KILOGRAMS[cut]), 2)),
        told + 1.5 * float(dice.standard_normal()),
        cooker,
        nuisance.air(float(wanted), cooker, LONGEST + 1, dice),
        str(dice.choice(["butcher paper", "foil"])) if wraps else "",
        float(np.round(dice.uniform(62.0, 78.0))),
        float(dice.choice([-1.0, 1.0]) * dice.uniform(0.1, 1.0)),
        float(dice.choice(TARGETS)),
    )
    return setting, told


def march(setting: Setting, step: Callable[[float, str], float]) -> Truth:
    """Drive a body minute by minute: step(air, wrap) gives the core at its end [°C]."""
    core = [setting.start]
    wrap, wrapped, above = "", [], 0
    for i in range(LONGEST):
        core.append(step(float(setting.air[i]), wrap))
        shown = core[-1] + setting.bias
        if setting.wrap_kind and not wrap and shown >= setting.wrap_core:
            wrap = setting.wrap_kind
            wrapped.append(i + 1)
        above = above + 1 if shown >= setting.target else 0
        if above > STAYS + AFTER:
            break
    return Truth(np.array(core), tuple(wrapped))


def done(displayed: Array, target: float) -> int | None:
    """The first step from which the display stays at the target for STAYS steps, None if there is none."""
    above = np.concatenate([[0], np.cumsum(displayed >= target)])
    full = np.flatnonzero(above[STAYS + 1 :] - above[: -STAYS - 1] == STAYS + 1)
    return int(full[0]) if full.size else None


def invent(seed: int, name: int, world: World, scale: Scale, cut: str | None = None) -> Cook:
    """The cook of this seed; cooks that are not done within LONGEST steps are drawn again."""
    dice = np.random.default_rng([seed, name])
    for _ in range(TRIES):
        kind = str(dice.choice(["brisket", "pork"])) if cut is None else cut
        setting, told = settings(kind, dice)
        truth = world(setting, scale, dice)
        displayed = truth.core + setting.bias
        ended = done(displayed, setting.target)
        if ended is None:
            continue
        end = STEP * (ended + AFTER)
        times = [STEP * at for at in truth.wrapped if at <= ended]
        pit_time, pit = nuisance.pit_log(setting.air, end, dice)
        core_time, core = nuisance.core_log(displayed[: ended + AFTER + 1], times, end, dice)
        knows = dice.random() < 0.7
        wraps = tuple(Wrap(setting.wrap_core if knows else None, at, setting.wrap_kind) for at in times)
        return Cook(
            kind,
            setting.mass,
            told,
            setting.cooker,
            pit_time,
            pit,
            wraps,
            core_time,
            core,
            setting.target,
            STEP * ended,
        )
    raise RuntimeError(f"world {name}, seed {seed}: no cook was done within 30 h in {TRIES} draws")
