"""Where should the probe go? Read it 1 cm off in every direction, and in all places at once."""

from __future__ import annotations

import numpy as np
from kitchen import (
    DONE,
    DONE_C,
    MEAT,
    PIT,
    Figure,
    coldest,
    cook,
    degrees,
    hours,
    lc,
    mark,
    panels,
    reaches,
    show,
    smoke,
)  # fmt: skip

QUESTION = "Where should the probe go?"

OFF = 0.01  # m
WAYS = {"higher": (0, 1), "lower": (0, -1), "to the flat end": (-1, 0), "to the point": (1, 0)}


def signed(difference: float) -> str:
    """Write a difference of two readings."""
    return f"{1.8 * difference:+.1f} °F"


def answer() -> tuple[list[str], Figure]:
    """Cook with five probes in the flat."""
    x, z = lc.brisket_section(MEAT).place("flat")
    probes = [lc.Probe(name, x=x + OFF * dx, z=z + OFF * dz) for name, (dx, dz) in WAYS.items()]
    short = lc.Probe("short", x=x, z=z, stem=lc.stem_error("2 cm"))
    out = cook(MEAT, [lc.Stage("smoke", PIT, until=lc.core(DONE), probe="flat")], [*probes, short])
    plain = smoke(MEAT, PIT)  # the same cook, without the probes that would hide each other on the map
    end = len(out.time) - 1
    climb = int(np.argmax(out.core >= 50.0))
    errors = {
        at: {name: float(out.probes[name].temperature[at] - out.core[at]) for name in WAYS}
        for at in (climb, end)
    }
    first = {name: reaches(out.time, out.probes[name].temperature, DONE_C) for name in WAYS}
    earliest = min((name for name in WAYS if np.isfinite(first[name])), key=lambda n: first[n], default="")
    all_readings = ", ".join(f"{name} {signed(error)}" for name, error in errors[climb].items())
    worst = max(errors[end], key=lambda name: abs(errors[end][name]))
    along, height, low = coldest(out, end)
    gap = float(out.core[end]) - low
    calls = (
        f"and the one {earliest} calls it done {hours(out.time[-1] - first[earliest])} early"
        if earliest and first[earliest] < out.time[-1] - 60.0
        else "and none of them calls it done early"
    )
    advice = "Use a second probe in the thick middle:" if gap > 3.0 else "One probe in the flat will do:"
    sentences = [
        f"Against the flat's probe at {degrees(out.core[climb])}, one 1 cm off reads {all_readings}; "
        f"at {DONE} the largest difference is {signed(errors[end][worst])} ({worst}), {calls}.",
        f"{advice} the coldest place deeper than 1 cm is then {100 * along:.0f} cm from the flat end and "
        f"{100 * height:.1f} cm up, at {degrees(low)}, and a stem only 2 cm deep adds "
        f"{signed(float(out.probes['short'].temperature[climb] - out.core[climb]))} to a reading at "
        f"{degrees(out.core[climb])}.",
    ]
    figure, axes = panels(1.0, 1.0, size=(9.4, 5.8), stacked=True)
    for ax, at in zip(axes, (climb, end), strict=True):
        lc.section_plots.probe_map(plain, at=float(out.time[at]), within=OFF, units="F", ax=ax)
    axes[0].set_xlabel("")
    axes[1].set_title("", loc="right")  # said once
    mark(axes[1], "coldest", along, height, per_metre=1000.0)
    return sentences, figure


if __name__ == "__main__":
    show("whole_cut_probe_place", QUESTION, answer)
