"""What every cook has and no model asks for: restless pits, sagging charcoal, lids, biased and lost readings.

The sizes are common practice and the notes of validation/field ("a probe is 1 to 3 K off, a pit 5 to 15
K, a clock 5 to 15 minutes"); the pit's error is drawn smaller than there, for a log is better than a
told figure.
"""

from __future__ import annotations

import numpy as np

from .cook import Array

STEP = 60.0  # s between the points of all true courses
CHARCOAL = ("drum", "offset", "kettle", "ceramic")


def wander(count: int, spread: float, memory: float, dice: np.random.Generator) -> Array:
    """An Ornstein-Uhlenbeck process on the grid of time, begun in its own spread; memory in s."""
    keep = float(np.exp(-STEP / memory))
    kicks = spread * np.sqrt(1.0 - keep**2) * dice.standard_normal(count)
    out = np.empty(count)
    off = spread * dice.standard_normal()
    for i in range(count):
        off = keep * off + kicks[i]
        out[i] = off
    return out


def _bump(count: int, start: float, rise: float, stay: float, fall: float) -> Array:
    """A trapezium of height 1; times in s."""
    at = STEP * np.arange(count)
    return np.asarray(
        np.interp(at, [start, start + rise, start + rise + stay, start + rise + stay + fall], [0, 1, 1, 0]),
        dtype=float,
    )


def _sag(count: int, dice: np.random.Generator) -> Array:
    """Charcoal that burns down slowly and is refuelled at once [K]."""
    out = np.zeros(count)
    at = float(dice.uniform(3.0, 8.0)) * 3600.0
    while at < STEP * count:
        slide = float(dice.uniform(0.7, 2.5)) * 3600.0
        out -= dice.uniform(6.0, 25.0) * _bump(
            count, at, slide, 600.0 * dice.random(), dice.uniform(600.0, 1800.0)
        )
        at += slide + float(dice.uniform(2.5, 8.0)) * 3600.0
    return out


def _lids(count: int, cooker: str, dice: np.random.Generator) -> Array:
    """Lids lifted every hour or few: the air falls and comes back within a quarter of an hour [K]."""
    out = np.zeros(count)
    at, every = 0.0, float(dice.uniform(1.0, 5.0)) * 3600.0
    recovery = 500.0 if cooker in CHARCOAL else 300.0
    while True:
        at += every * float(dice.uniform(0.5, 1.6))
        first = int(at / STEP)
        if first >= count:
            return out
        after = STEP * np.arange(count - first)
        out[first:] -= dice.uniform(15.0, 50.0) * np.exp(-after / recovery)


def air(set_point: float, cooker: str, count: int, dice: np.random.Generator) -> Array:
    """The true air about the meat, a point a minute [°C]."""
    out = np.full(count, set_point + 3.0 * dice.standard_normal())
    if cooker in CHARCOAL:
        out += wander(count, float(dice.uniform(2.5, 6.0)), 2400.0, dice) + _sag(count, dice)
    else:
        beat = float(dice.uniform(900.0, 2400.0))
        out += dice.uniform(2.0, 6.0) * np.sin(2.0 * np.pi * STEP * np.arange(count) / beat)
        out += wander(count, 1.5, 3600.0, dice)
    out += _lids(count, cooker, dice)
    if dice.random() < 0.4:  # put on before it was hot
        out -= (out[0] - dice.uniform(40.0, 90.0)) * np.exp(
            -STEP * np.arange(count) / dice.uniform(600.0, 1500.0)
        )
    return np.asarray(np.maximum(out, 25.0))


def pit_log(true: Array, end: float, dice: np.random.Generator) -> tuple[Array, Array]:
    """What the user's pit thermometer shows: off by a level, a lag, noise."""
    every = float(dice.choice([60.0, 120.0, 300.0]))
    time = np.arange(0.0, end + 1.0, every)
    lag = float(dice.uniform(30.0, 240.0))
    shown = np.interp(time - lag, STEP * np.arange(true.size), true)
    return time, np.round(shown + 3.0 * dice.standard_normal() + 0.5 * dice.standard_normal(time.size), 1)


def core_log(
    displayed: Array, wrapped: list[float], end: float, dice: np.random.Generator
) -> tuple[Array, Array]:
    """The core thermometer's readings: noise, rounding, gaps (also while the meat is wrapped)."""
    every = float(dice.choice([120.0, 180.0, 300.0]))
    time = np.arange(every * dice.random(), end + 1.0, every)
    shown = np.interp(time, STEP * np.arange(displayed.size), displayed)
    shown += dice.uniform(0.05, 0.4) * dice.standard_normal(time.size)
    keep = dice.random(time.size) > 0.01
    for at in wrapped:  # the probe is pulled and pushed in again
        keep &= (time < at) | (time > at + dice.uniform(120.0, 600.0))
    for _ in range(int(dice.integers(0, 4))):
        begun = end * dice.random()
        keep &= (time < begun) | (time > begun + dice.uniform(600.0, 3600.0))
    keep |= time > end - 900.0
    grain = float(dice.choice([0.1, 0.5, 0.56]))
    return time[keep], np.round(np.round(shown[keep] / grain) * grain, 2)
