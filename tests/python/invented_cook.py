"""A cook with a log that never took place: simulated with known parameters, noise put on. Invented."""

import numpy as np

import libcook as lc


def plan(start="06:00"):
    """A drum until 68 °C, paper until 92 °C, an hour of rest."""
    drum = lc.pit("drum", air="122 °C")
    return lc.Plan(
        lc.brisket(mass="5 kg"),
        [
            lc.Stage("smoke", drum, until=lc.core("68 °C")),
            lc.Stage("wrapped", drum, wrap="butcher paper", until=lc.core("92 °C")),
            lc.Stage("rest", lc.counter(21.0), wrap="foil", until=lc.elapsed("60 min")),
        ],
        start=start,
    )


def cook(thickness=1.06, share=1.0, seed=1):
    """Return a log up to a share of the cook, the end of the cook [s] and when it was wrapped [s]."""
    made = plan()
    made.meat.shape.thickness = made.meat.shape.thickness * thickness
    out = lc.simulate(made, keep_fields=False)
    wrapped, end = out.stage_ends[0].time, out.stage_ends[1].time
    random = np.random.default_rng(seed)
    time = np.arange(0.0, share * end, 60.0)
    core = np.interp(time, out.time, out.core) + 0.2 * random.standard_normal(time.size)
    pit = 122.0 + random.standard_normal(time.size)
    events = [(wrapped, "wrapped")] if wrapped < time[-1] else []
    return lc.Log(time=time, core=core, pit=pit, events=events), end, wrapped
