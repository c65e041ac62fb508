"""Short cooks on a coarse cross-section; invented."""

import functools

import libcook as lc

COARSE = {"grid": "cross-section", "columns": 21, "rows": 11, "output_every": "300 s"}


def section_plan(minutes=60.0, cooker=None, **plan):
    """A pit and a counter, bare."""
    return lc.Plan(
        lc.brisket(mass=3.0),
        [
            lc.Stage("smoke", cooker or lc.pit("drum", air=120.0), until=lc.elapsed(60.0 * minutes)),
            lc.Stage("rest", lc.counter(21.0), until=lc.elapsed("20 min")),
        ],
        **plan,
    )


@functools.cache
def section_outcome():
    """One cook that several tests look at, with a probe of its own."""
    return lc.simulate(section_plan(240.0, probes=[lc.Probe("mine", x="20 cm", z="20 mm")]), **COARSE)
