"""Every call of the library that takes long, made to take long: for tests of Ctrl-C, exit and memory.

All cooks and logs in it are invented.
"""

from __future__ import annotations

import itertools
import tempfile
from collections.abc import Callable
from typing import Any

import numpy as np

import libcook as lc

Call = Callable[[], Any]


def plan(**changes: Any) -> lc.Plan:
    """Return a plan of two stages."""
    drum = lc.pit("drum", air=118.0)
    stages = [
        lc.Stage("smoke", drum, until=lc.core(66.0)),
        lc.Stage("wrapped", drum, wrap="foil", until=lc.core(93.0)),
    ]
    return lc.Plan(lc.brisket(**changes), stages)


def weeks() -> lc.Plan:
    """Return a plan of weeks, with a fast ripple."""
    air = lc.ripple(60.0, 5.0, "30 s")
    stage = lc.Stage("long", lc.pit("drum", air=air), until=lc.elapsed("28 d"), at_most="29 d")
    return lc.Plan(lc.brisket(), [stage])


def a_log(until: float = 1.0) -> lc.Log:
    """Return readings of a cook, every minute, to a share of its end."""
    out = lc.simulate(plan(thickness="70 mm"))
    time = np.arange(0.0, until * out.time[-1], 60.0)
    noise = np.random.default_rng(4).normal(0.0, 0.3, time.size)
    return lc.Log(time=time, core=np.interp(time, out.time, out.core) + noise, pit=np.full(time.size, 118.0))


def warm_up() -> None:
    """Import what is imported when first needed, by other libraries too, and let these start their threads.

    An interrupt within another library's import is that library's matter.
    """
    with tempfile.TemporaryDirectory() as folder:
        lc.sweep(plan(), lc.sample({"pit.air": (110.0, 120.0)}, n=2), to=folder, traces=["core"])
    lc.sentences(lc.simulate(plan()))


def again(call: Call) -> Call:
    """Return what calls it for ever."""

    def work() -> None:
        while True:
            call()

    return work


def simulate() -> Call:
    return lambda: lc.simulate(
        weeks(), nodes=501, tolerance=1e-4, max_steps=1_000_000_000, keep_fields=False, output_every="1 h"
    )


def simulate_short() -> Call:
    told = plan()
    return again(lambda: lc.simulate(told))


def simulate_section() -> Call:
    told = plan()
    return again(lambda: lc.simulate(told, grid="cross-section", columns=401, rows=201, keep_fields=False))


def simulate_many() -> Call:
    plans = [plan(thickness=0.05 + 1e-6 * i) for i in range(20_000)]
    return again(lambda: lc.simulate_many(plans))


def simulate_many_sections() -> Call:
    plans = [plan()] * 100
    return again(lambda: lc.simulate_many(plans, grid="cross-section"))


def simulate_many_done() -> Call:
    plans = [plan()] * 20_000
    return again(lambda: lc.simulate_many(plans, done=lambda _, result: result.core[-1]))


def calibrate() -> Call:
    told, log = plan(), a_log()
    free = ["thickness", "film_coefficient", "vapour_pressure", "start"]
    return again(lambda: lc.calibrate(told, log, free=free))


def sample_of_a_fit() -> Call:
    fit = lc.calibrate(plan(), a_log(), free=["thickness", "start"])
    return again(lambda: fit.sample(steps=100_000))


def forecast() -> Call:
    told, log, seeds = plan(), a_log(0.4), itertools.count()
    return again(lambda: lc.forecast(told, log, members=2000, seed=next(seeds)))


def what_if() -> Call:
    ahead = lc.forecast(plan(), a_log(0.4), members=2000)
    return again(lambda: ahead.what_if(wrap="butcher paper"))


def start_by() -> Call:
    told, seeds = plan(), itertools.count()
    return again(lambda: lc.start_by(told, serve="18:00", members=1000, seed=next(seeds)))


def sweep() -> Call:
    told, ranges = plan(), {"meat.thickness": ("50 mm", "90 mm"), "pit.air": (100.0, 140.0)}
    return again(lambda: lc.sweep(told, lc.sample(ranges, n=2**16, seed=1)))


def sweep_with_traces() -> Call:
    told, ranges = plan(), {"meat.thickness": ("50 mm", "90 mm")}
    return again(lambda: lc.sweep(told, lc.sample(ranges, n=2**16, seed=1), traces=["core"]))


def best_plan() -> Call:
    told = plan(thickness="70 mm")
    return lambda: lc.best_plan(told, "18:00", tries=100_000, members=5000)


def sweep_to_a_folder() -> Call:
    told, ranges = plan(), {"meat.thickness": ("50 mm", "90 mm")}

    def work() -> None:
        with tempfile.TemporaryDirectory() as folder:
            lc.sweep(told, lc.sample(ranges, n=2**16, seed=1), to=folder, chunk=256)

    return again(work)


def compare() -> Call:
    plans = {str(i): plan(thickness=0.05 + 1e-4 * i) for i in range(300)}
    return again(lambda: lc.compare(plans))


def sentences() -> Call:
    out = lc.simulate(plan())
    return again(lambda: lc.sentences(out))


def in_words() -> Call:
    out = lc.simulate(plan())
    return again(lambda: out.in_words())


CALLS: dict[str, Callable[[], Call]] = {
    make.__name__: make
    for make in (
        simulate,
        simulate_short,
        simulate_section,
        simulate_many,
        simulate_many_sections,
        simulate_many_done,
        calibrate,
        sample_of_a_fit,
        forecast,
        what_if,
        start_by,
        best_plan,
        sweep,
        sweep_with_traces,
        sweep_to_a_folder,
        compare,
        sentences,
        in_words,
    )
}
