"""Hypothesis strategies for plans that a cook could carry out, and how many of them to try.

`COOK_HYPOTHESIS_EXAMPLES` sets the number, drawn anew each time; by default a fixed few, the same at every
run, and fewer under the sanitizers.
"""

import os

from cook_samples import roll
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

import libcook as lc

FEW = 8 if "COOK_SANITIZED" in os.environ else 60


def examples(share: float = 1.0) -> settings:
    """Settings for one property; `share` of the usual number of examples."""
    asked = os.environ.get("COOK_HYPOTHESIS_EXAMPLES")
    return settings(
        max_examples=max(1, round(share * int(asked or FEW))),
        derandomize=asked is None,
        database=None,
        deadline=None,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    )


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    # Rounded: readable when a test fails.
    return st.floats(low, high).map(lambda x: min(max(round(x, 4), low), high))


@st.composite
def meats(draw, slab_only=False, fat=("down", "up", "none")):
    start = draw(numbers(0.0, 25.0))
    if not slab_only and draw(st.booleans()):
        make = draw(st.sampled_from([roll, lc.pork_shoulder]))
        return make(draw(numbers(0.5, 6.0)), draw(st.none() | numbers(0.05, 0.18)), start)
    mass = draw(numbers(0.5, 9.0))
    return lc.brisket(mass, draw(st.none() | numbers(0.02, 0.09)), start, fat=draw(st.sampled_from(fat)))


@st.composite
def courses(draw, low, high):
    """Air temperature: steady, rippled, scheduled or logged."""
    kind = draw(st.sampled_from(["steady", "steady", "ripple", "schedule", "log"]))
    mean = draw(numbers(low, high))
    if kind == "steady":
        return mean
    if kind == "ripple":
        return lc.ripple(mean, draw(numbers(0.5, 8.0)), draw(numbers(120.0, 3600.0)))
    if kind == "schedule":
        return lc.schedule([(0.0, mean), (draw(numbers(1800.0, 14400.0)), draw(numbers(low, high)))])
    steps = draw(st.lists(numbers(5.0, 1800.0), min_size=1, max_size=12))
    times = [sum(steps[:i]) for i in range(len(steps) + 1)]
    values = draw(st.lists(numbers(low, high), min_size=len(times), max_size=len(times)))
    return times, values


def films():
    return st.one_of(
        st.none(),
        numbers(2.0, 60.0),
        st.builds(
            lambda speed, along: lc.Film("forced", speed, along), numbers(0.05, 4.0), numbers(0.05, 0.6)
        ),
    )


@st.composite
def heated(draw):
    """A pit or an oven, hot."""
    if draw(st.booleans()):
        return lc.oven(draw(courses(85.0, 180.0)), draw(st.booleans()))
    made = lc.pit(
        draw(st.sampled_from(["kettle", "drum", "offset", "pellet", "ceramic", "cabinet"])),
        draw(courses(85.0, 160.0)),
        vapour_pressure=draw(st.none() | numbers(500.0, 25000.0)),
        film=draw(films()),
        radiant_top=draw(st.none() | numbers(-20.0, 60.0)),
        view=draw(st.none() | numbers(0.0, 1.0)),
        ambient=draw(st.none() | numbers(-10.0, 40.0)),
    )
    if draw(st.integers(0, 5)) == 0:
        made.air_below = draw(numbers(60.0, 180.0))
    return made


WRAPS = ["none", "none", "none", "butcher paper", "foil", "pan", "foil tent", "towels"]


def ends_of_cooking():
    return st.one_of(
        st.builds(lc.core, numbers(20.0, 98.0)),
        st.builds(lc.elapsed, numbers(60.0, 6 * 3600.0)),
        st.builds(lc.bark, numbers(0.1, 1.5)),
        st.builds(lc.tender, numbers(0.05, 0.9)),
    )


@st.composite
def cooking_stages(draw, name):
    ends = draw(st.lists(ends_of_cooking(), min_size=1, max_size=2))
    surroundings = draw(heated())
    # A core never hotter than the air can make it, nor one reached before the stage begins.
    limit = surroundings.air.maximum - 1.0
    ends = [lc.core(min(end.value, limit)) if end.kind == "core" else end for end in ends]
    made = lc.Stage(name, surroundings, wrap=draw(st.sampled_from(WRAPS)), until=ends, at_most=16 * 3600.0)
    if draw(st.integers(0, 3)) == 0:
        made.spritz = lc.spritz(
            draw(numbers(900.0, 7200.0)), draw(numbers(0.0, 7200.0)), draw(numbers(0.005, 0.2)), lid_open=20.0
        )
    if draw(st.integers(0, 3)) == 0:
        openings = draw(
            st.lists(st.tuples(numbers(0.0, 10000.0), numbers(5.0, 900.0)), min_size=1, max_size=4)
        )
        made.lid = [lc.LidOpening(at, duration) for at, duration in openings]
    return made


@st.composite
def resting_stages(draw):
    room = draw(numbers(5.0, 35.0))
    place = (
        lc.counter(room)
        if draw(st.booleans())
        else lc.insulated_box(
            room,
            start=draw(numbers(10.0, 70.0)),
            heat_capacity=draw(numbers(800.0, 20000.0)),
            loss=draw(numbers(0.1, 5.0)),
        )
    )
    end = draw(
        st.one_of(st.builds(lc.elapsed, numbers(60.0, 3 * 3600.0)), st.builds(lc.cooled, numbers(45.0, 70.0)))
    )
    return lc.Stage("rest", place, wrap=draw(st.sampled_from(WRAPS)), until=end, at_most=8 * 3600.0)


@st.composite
def plans(draw):
    """One to three stages of cooking, perhaps a rest."""
    count = draw(st.integers(1, 3))
    stages = [draw(cooking_stages(f"stage {i + 1}")) for i in range(count)]
    if draw(st.booleans()):
        stages.append(draw(resting_stages()))
    return lc.Plan(draw(meats()), stages)
