"""An invented cook with a log, as a thermometer would have written it: made by simulation, not measured."""

from functools import cache

import numpy as np

import libcook as lc


def plan(**changes):
    """What the cook believes: nominal numbers."""
    place = lc.pit("drum", air=118.0)
    meat = lc.brisket(mass=5.5, thickness=changes.pop("thickness", "45 mm"))
    return lc.Plan(
        meat,
        [
            lc.Stage("smoke", place, until=lc.core(70.0)),
            lc.Stage("wrapped", place, wrap="butcher paper", until=lc.core(93.0)),
            lc.Stage("rest", lc.counter(21.0), wrap="foil", until=lc.elapsed("60 min")),
        ],
        **changes,
    )


HIDDEN = {"thickness": 0.049, "film_coefficient": 6.4, "vapour_pressure": 9500.0, "start": 6.0}


def hidden_plan():
    """What the meat and the cooker really are in this invented world."""
    made = plan()
    for name, value in HIDDEN.items():
        made = lc._core.with_value(made, name, value)
    return made


def pit_readings(seconds, set_point=118.0, seed=5):
    """A pit with ripple: first-order autoregression about its set point [°C]."""
    random = np.random.default_rng(seed)
    off, readings = 0.0, []
    for _ in seconds:
        off = 0.95 * off + 0.9 * random.standard_normal()
        readings.append(set_point + off)
    return np.array(readings)


@cache
def cook(seed=5):
    """Outcome of the hidden plan in the logged pit, and its log to the end of the wrapped stage."""
    seconds = np.arange(0.0, 48 * 3600.0, 120.0)
    air = pit_readings(seconds, seed=seed)
    truth = hidden_plan()
    for stage in truth.stages[:2]:
        stage.surroundings.air = (seconds, air)
    out = lc.simulate(truth)
    done = out.stage_ends[1].time
    keep = seconds <= done
    random = np.random.default_rng(seed + 1)
    core = np.interp(seconds[keep], out.time, out.core) + 0.2 * random.standard_normal(int(keep.sum()))
    events = [(out.stage_ends[0].time, "wrapped in paper")]
    return out, lc.Log(time=seconds[keep], core=core, pit=air[keep], events=events)


def log_until(hours, seed=5):
    """The log as far as it had come after some hours."""
    _, whole = cook(seed)
    keep = whole.time <= 3600.0 * hours
    events = [event for event in whole.events if event.time <= 3600.0 * hours]
    return lc.Log(time=whole.time[keep], core=whole.core[keep], pit=whole.pit[keep], events=events)
