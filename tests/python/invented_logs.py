"""Invented logs for the tests of detection: simulated meat in a made-up pit, with or without each event.

Everything here is invented data. The meat is simulated; the pit's trace is a formula: set point, ripple, sags
of the fire, an opened lid as a fall that comes back exponentially, lag and noise of a probe, and rounding.
"""

from dataclasses import dataclass, field

import numpy as np

import libcook as lc

MINUTE, HOUR = 60.0, 3600.0
ROOM = 22.0  # °C


@dataclass
class Scene:
    """What happens in one invented cook, and its log."""

    log: lc.Log = None
    truth: list[tuple[str, float]] = field(default_factory=list)

    def times(self, *kinds: str) -> list[float]:
        return [when for kind, when in self.truth if kind in kinds]


def invented_log(
    seed: int,
    wrap: bool = True,
    lids: bool = True,
    spritz: bool = False,
    probe: bool = False,
    pulled: str = "",
    raised: bool = False,
) -> Scene:
    """Make a log from a seed. `pulled`: "" (ends in the pit), "pit falls" or "pit stays"."""
    rng = np.random.default_rng(seed)
    scene = Scene()
    air = rng.uniform(107.0, 135.0)
    meat = lc.brisket(mass=rng.uniform(4.0, 7.5))
    rhythm = rng.uniform(30.0, 75.0) * MINUTE
    first = rng.uniform(1.5, 2.5) * HOUR
    looks = sorted(rng.uniform(0.8 * HOUR, 9.0 * HOUR, rng.integers(1, 4))) if lids else []
    to_wrap = rng.uniform(64.0, 75.0)
    until = lc.core(to_wrap if wrap else 94.0)
    pit = lc.pit("drum", air=(np.array([0.0, 1e6]), np.array([air, air])))
    later = lc.pit("drum", air=air + (15.0 if raised else 0.0))
    sprays = lc.spritz(every=rhythm, first=first, lid_open="40 s") if spritz else None
    stages = [lc.Stage("smoke", pit, until=until, spritz=sprays, lid=[(at, "1 min") for at in looks])]
    if wrap:
        cover = "foil" if rng.random() < 0.5 else "butcher paper"
        stages.append(lc.Stage("wrapped", later, until=lc.core(94.0), wrap=cover))
    if pulled:
        stages.append(lc.Stage("rest", lc.counter(ROOM), wrap="foil", until=lc.elapsed("100 min")))
    out = lc.simulate(lc.Plan(meat, stages))
    ends = [end.time for end in out.stage_ends]
    done = ends[-2] if pulled else ends[-1]
    every = float(rng.choice([15.0, 30.0, 60.0, 120.0, 180.0, 300.0]))
    time = np.arange(0.0, out.time[-1], every)
    core = np.interp(time, out.time, out.core)
    base = air + rng.uniform(1.0, 5.0) * np.sin(2.0 * np.pi * time / (rng.uniform(8.0, 25.0) * MINUTE))
    base += (15.0 if raised else 0.0) * np.clip(
        (time - (ends[0] if wrap else 5 * HOUR)) / (20.0 * MINUTE), 0.0, 1.0
    )
    for at in rng.uniform(HOUR, done, rng.integers(0, 3)):  # sags of the fire
        base -= rng.uniform(5.0, 15.0) * np.exp(
            -0.5 * ((time - at) / (rng.uniform(15.0, 30.0) * MINUTE)) ** 2
        )
    base = ROOM + (base - ROOM) * (1.0 - np.exp(-time / (6.0 * MINUTE)))  # it was lit cold
    opened = [("lid opened", at, rng.uniform(0.5, 2.0)) for at in looks if at < ends[0] - HOUR / 4]
    if spritz:
        rounds = np.arange(first, ends[0] - HOUR / 6, rhythm)
        opened = [one for one in opened if np.abs(rounds - one[1]).min() > HOUR / 4]
        opened += [("spritzed", at + rng.uniform(-2.0, 2.0) * MINUTE, rng.uniform(0.4, 1.0)) for at in rounds]
    if wrap:
        opened.append(("wrapped", ends[0], rng.uniform(1.5, 4.0)))
    if pulled == "pit stays":
        opened.append(("pulled", done, rng.uniform(0.5, 1.5)))
    for kind, at, minutes in opened:
        depth, back = rng.uniform(0.35, 0.8), rng.uniform(2.5, 8.0) * MINUTE
        share = np.where(
            time < at,
            0.0,
            np.minimum(1.0, (time - at) / 20.0) * np.exp(-np.maximum(time - at - 60.0 * minutes, 0.0) / back),
        )
        base -= depth * share * (base - ROOM)
        scene.truth.append((kind, float(at)))
    if pulled == "pit falls":
        base = np.where(
            time < done,
            base,
            ROOM + (base - ROOM) * np.exp(-(time - done) / (rng.uniform(1.0, 20.0) * MINUTE)),
        )
        scene.truth.append(("pulled", float(done)))
    if probe:
        at, length = rng.uniform(3.0 * HOUR, 0.9 * done), rng.uniform(3.0, 25.0) * MINUTE
        out_of_it = (time >= at) & (time < at + length)
        to = ROOM if rng.random() < 0.6 else air
        core = np.where(out_of_it, to + (core - to) * np.exp(-np.maximum(time - at, 0.0) / 40.0), core)
        scene.truth.append(("probe pulled", float(at)))
    lag = 1.0 - np.exp(-every / rng.uniform(10.0, 50.0))
    shown = base.copy()
    for i in range(1, shown.size):
        shown[i] = shown[i - 1] + lag * (base[i] - shown[i - 1])
    step = float(rng.choice([0.1, 5.0 / 9.0]))
    core = step * np.round((core + rng.normal(0.0, 0.15, time.size)) / step)
    shown = step * np.round((shown + rng.normal(0.0, 0.5, time.size)) / step)
    text = "\n".join(
        [
            "time [s],core [C],pit [C]",
            *(f"{t:.0f},{c:.3f},{p:.3f}" for t, c, p in zip(time, core, shown, strict=True)),
        ]
    )
    scene.log = lc.read_log(text + "\n")
    return scene
