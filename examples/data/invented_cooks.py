"""Invent the two logs of the calibration notebook: last week's whole cook, and the first hours of tonight's.

python examples/data/invented_cooks.py [--to FOLDER]

No real cook, cooker or meat: a lengthwise section of a brisket is simulated with numbers that the notebook
does not know, in a pit made by a formula (a level, a drift, an opened lid as a fall that comes back), and
written as a cheap thermometer would: clock times, tenths of °F, noise, readings that are missing. Being
invented, the logs show how to use the library; they check nothing.
"""

from __future__ import annotations

import argparse
import datetime as dt
from dataclasses import dataclass
from pathlib import Path

import numpy as np

import libcook as lc
from libcook.units import celsius_to_fahrenheit, fahrenheit_to_celsius

HERE = Path(__file__).resolve().parent
MINUTE, HOUR = 60.0, 3600.0  # s
EVERY = 2.0 * MINUTE  # between readings
PROBE = 0.5  # of the length, from the flat end
ROOM = 18.0  # °C, what an opened lid lets in


@dataclass(frozen=True)
class Night:
    """One invented cook: what is hidden from the notebook, and what the thermometer wrote."""

    file: str
    title: str
    start: dt.time
    mass: str
    set_point: str
    done: str  # core
    looks: tuple[float, ...]  # s, lid opened for a look
    silent: tuple[float, float]  # s, no reading from the meat
    seed: int
    until: float = np.inf  # s, the log so far


LAST_WEEK = Night(
    "last_week.csv", "a whole night", dt.time(20, 40), "14 lb", "250 °F", "203 °F",
    (2.6 * HOUR,), (8.35 * HOUR, 8.55 * HOUR), 11,
)  # fmt: skip
TONIGHT = Night(
    "tonight.csv", "the first four hours", dt.time(21, 15), "12 lb", "250 °F", "203 °F",
    (2.1 * HOUR,), (1.2 * HOUR, 1.2 * HOUR), 12, 4.0 * HOUR,
)  # fmt: skip
NIGHTS = (LAST_WEEK, TONIGHT)
WRAP_AT = "160 °F"
FILM, VAPOUR = "6.2 W/(m²·K)", "9.5 kPa"  # hidden: of the cooker
READS_HIGH = 3.0  # K, the pit's probe hangs in a hotter place than the meat
MOBILITY = 1.25  # hidden: of the meat, times what is usual
FRIDGE = "43 °F"


def air(
    night: Night, opened: tuple[float, ...], random: np.random.Generator
) -> tuple[np.ndarray, np.ndarray]:
    """Make up what the pit's probe shows, but for its noise: times [s] and temperatures [°C]."""
    time = np.arange(0.0, 30.0 * HOUR, MINUTE)
    memory = np.exp(-1.0 / 20.0)  # a drift that lasts 20 minutes
    off = np.zeros(time.size)
    for i in range(1, time.size):
        off[i] = memory * off[i - 1] + 2.2 * np.sqrt(1.0 - memory**2) * random.standard_normal()
    shown = float(fahrenheit_to_celsius(float(night.set_point.split()[0]))) + off
    for at, share, back in ((0.0, 0.4, 12.0), *((at, 0.5, 5.0) for at in opened)):
        since = time - at
        shown -= np.where(since < 0.0, 0.0, share * np.exp(-since / (back * MINUTE))) * (shown - ROOM)
    return time, shown


def invent(night: Night) -> str:
    """Simulate the cook and write down what the thermometer showed, as CSV."""
    wrapped = np.inf
    for _ in range(3):  # the lid is opened to wrap, which itself moves the moment of wrapping a little
        random = np.random.default_rng(night.seed)
        opened = (*night.looks, *((wrapped,) if np.isfinite(wrapped) else ()))
        time, shown = air(night, opened, random)
        out = lc.simulate(_truth(night, (time, shown - READS_HIGH)), grid="cross-section", keep_fields=False)
        if abs(out.stage_ends[0].time - wrapped) < MINUTE:
            break
        wrapped = out.stage_ends[0].time
    read = np.arange(0.0, min(out.stage_ends[1].time, night.until) + 1.0, EVERY)
    core = np.interp(read, out.time, out.core) + 0.25 * random.standard_normal(read.size)
    pit = np.interp(read, time, shown) + 0.5 * random.standard_normal(read.size)
    return "\n".join([*_head(night), *_rows(night, read, core, pit)]) + "\n"


def _truth(night: Night, pit: tuple[np.ndarray, np.ndarray]) -> lc.Plan:
    meat = lc.brisket(mass=night.mass, start=FRIDGE)
    meat.tissue.mobility.expressed *= MOBILITY
    section = lc.brisket_section(meat)
    x = PROBE * section.length
    place = lc.pit("drum", air=pit, film=FILM, vapour_pressure=VAPOUR)
    probe = lc.Probe("tip", x=x, z=0.5 * section.thickness_at(x) + 0.004)
    return lc.Plan(
        meat,
        [
            lc.Stage("smoke", place, until=lc.core(WRAP_AT), probe=probe),
            lc.Stage("wrapped", place, wrap="butcher paper", until=lc.core(night.done), probe=probe),
        ],
    )


def _head(night: Night) -> list[str]:
    return [
        f"# Invented data: {night.title} of a made-up {night.mass} brisket, simulated and given noise by",
        "# examples/data/invented_cooks.py. No real cook, no real pit, no real meat. Times are clock times.",
        "Clock,Meat (°F),Pit (°F)",
    ]


def _rows(night: Night, read: np.ndarray, core: np.ndarray, pit: np.ndarray) -> list[str]:
    begin = dt.datetime.combine(dt.date(2000, 1, 1), night.start)
    rows = []
    for t, c, p in zip(read, celsius_to_fahrenheit(core), celsius_to_fahrenheit(pit), strict=True):
        meat = "---" if night.silent[0] <= t < night.silent[1] else f"{c:.1f}"
        rows.append(f"{begin + dt.timedelta(seconds=float(t)):%H:%M},{meat},{p:.1f}")
    return rows


def main() -> None:
    """Write the logs."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--to", type=Path, default=HERE, help="folder for the logs")
    folder = parser.parse_args().to
    for night in NIGHTS:
        (folder / night.file).write_text(invent(night), encoding="utf-8")
        print(folder / night.file)


if __name__ == "__main__":
    main()
