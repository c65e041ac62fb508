"""Which is done first, flat or point, and why? Cook a brisket, an even one, and one of a single tissue."""

from __future__ import annotations

import numpy as np
from kitchen import (
    DONE,
    DONE_C,
    FLAT,
    HOUR,
    MEAT,
    PIT,
    POINT,
    Figure,
    coldest,
    cook,
    degrees,
    fahrenheit,
    hours,
    lc,
    mark,
    panels,
    reaches,
    section_map,
    show,
)  # fmt: skip

QUESTION = "Which is done first, the flat or the point, and why?"


def until_both(meat: lc.Meat) -> lc.Outcome:
    """Cook until flat and point are done, whichever is later."""
    stages = [lc.Stage(where, PIT, until=lc.core(DONE), probe=where) for where in ("flat", "point")]
    return cook(meat, stages)


def done(out: lc.Outcome) -> tuple[float, float]:
    """Return when flat and point are done [s]."""
    flat, point = (reaches(out.time, out.probes[name].temperature, DONE_C) for name in ("flat", "point"))
    return flat, point


def order(lead: float) -> str:
    """Say which of the two is done first."""
    first, second = ("flat", "point") if lead > 0.0 else ("point", "flat")
    return f"the {first} is done {hours(lead)} before the {second}"


def answer() -> tuple[list[str], Figure]:
    """Compare the brisket with two that lack one difference between flat and point."""
    section = lc.brisket_section(MEAT)
    even = section.replace(thickness=[section.area / section.length] * len(section.at))
    lean = section.replace(point=MEAT.tissue, seam=MEAT.tissue)
    out = until_both(MEAT)
    leads = {"as it is": np.subtract(*done(out)[::-1])}
    for name, one in (("even thickness", even), ("same tissue", lean)):
        leads[name] = np.subtract(*done(until_both(lc.with_section(MEAT, one)))[::-1])
    real, thickness, tissue = leads.values()
    flat, point = out.probes["flat"], out.probes["point"]
    i = int(np.argmax(flat.temperature >= DONE_C))
    x, z, low = coldest(out, i)
    main = "thickness" if abs(real - thickness) > abs(real - tissue) else "fatter tissue"
    sentences = [
        f"At the probes {order(real)}, and when the flat reaches {DONE} the point reads "
        f"{degrees(point.temperature[i])} and the coldest place {degrees(low)}; the meat is "
        f"{100 * section.thickness_at(flat.x):.1f} cm thick at the one and "
        f"{100 * section.thickness_at(point.x):.1f} cm at the other.",
        f"It is mostly the {main}: in a piece of even thickness {order(thickness)}, and with the same lean "
        f"tissue throughout {order(tissue)}.",
    ]
    figure, (above, below) = panels(1.0, 1.35, size=(7.6, 5.4), stacked=True)
    levels = np.arange(5.0 * (fahrenheit(low) // 5.0), 216.0, 5.0)
    filled = section_map(above, out, fahrenheit(out.temperature[i]), levels, "inferno")
    figure.colorbar(
        filled, ax=above, location="right", shrink=0.85, fraction=0.05, pad=0.02, label="temperature [°F]"
    )
    above.set_title(f"when the flat reaches {DONE}", fontsize=10, loc="left")
    for name, at_x, at_z in (("flat", flat.x, flat.z), ("point", point.x, point.z), ("coldest", x, z)):
        mark(above, name, at_x, at_z)
    for probe, colour in ((flat, FLAT), (point, POINT)):
        below.plot(out.time / HOUR, fahrenheit(probe.temperature), color=colour, lw=2)
    for name, colour, at, (dx, dy) in (("flat", FLAT, 2.0, (-10, 8)), ("point", POINT, 3.0, (12, -14))):
        y = fahrenheit(float(np.interp(at * HOUR, out.time, out.probes[name].temperature)))
        below.annotate(name, (at, y), (dx, dy), textcoords="offset points", color=colour, fontsize=10)
    line = fahrenheit(DONE_C)
    below.axhline(line, color="#6A6F76", lw=0.8, ls="--")
    ends = [moment / HOUR for moment in done(out)]
    below.plot(ends, [line, line], color="#1F2328", lw=2.5, solid_capstyle="butt")
    below.annotate(
        hours(HOUR * (ends[1] - ends[0])), (0.5 * sum(ends), line), (0, 6), textcoords="offset points",
        ha="center", fontsize=9,
    )  # fmt: skip
    below.set_xlabel("time [h]")
    below.set_ylabel("temperature [°F]")
    below.set_xlim(0.0, out.time[-1] / HOUR)
    below.set_ylim(top=line + 20.0)
    return sentences, figure


if __name__ == "__main__":
    show("whole_cut_flat_first", QUESTION, answer)
