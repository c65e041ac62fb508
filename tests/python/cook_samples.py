"""Short cooks that several test files run; invented."""

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


def cylinder_plan():
    """A bare roll for half an hour."""
    roll = lc.pork_shoulder().replace(shape=lc.Shape("cylinder", 0.11, 0.2))
    return lc.Plan(roll, [lc.Stage("roast", lc.oven(120.0), until=lc.elapsed("30 min"))])
