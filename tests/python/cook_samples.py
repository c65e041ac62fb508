"""Short cooks that several test files run; invented."""

import math

import libcook as lc


def short_plan(minutes=90.0, **meat):
    """A pit and a counter, bare."""
    return lc.Plan(
        lc.brisket(mass=2.0, thickness="40 mm", **meat),
        [
            lc.Stage(
                "smoke",
                lc.pit("drum", air=120.0),
                until=lc.elapsed(60.0 * minutes),
                spritz=lc.spritz("30 min", "30 min"),
            ),
            lc.Stage("rest", lc.counter(21.0), until=lc.elapsed("30 min")),
        ],
        start="23:00",
    )


def roll(mass=3.5, thickness=None, start=4.0):
    """A shoulder rolled and tied: a cylinder, by default half as long again as it is thick."""
    meat = lc.pork_shoulder(mass, start=start)
    volume = meat.mass / meat.tissue.raw_density
    thickness = thickness or (volume / (math.pi / 4.0 * 1.5)) ** (1.0 / 3.0)
    shape = lc.Shape("cylinder", thickness, volume / (math.pi / 4.0 * thickness**2))
    return meat.replace(shape=shape)


def cylinder_plan():
    """A bare roll for half an hour."""
    meat = lc.pork_shoulder().replace(shape=lc.Shape("cylinder", 0.11, 0.2))
    return lc.Plan(meat, [lc.Stage("roast", lc.oven(120.0), until=lc.elapsed("30 min"))])
