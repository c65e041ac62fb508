"""Does a water pan matter, and a tight cooker? Two cookers, alone, with a pan, and with two briskets."""

from __future__ import annotations

import numpy as np
from kitchen import (
    FLAT,
    GREY,
    HOUR,
    MEAT,
    OTHER,
    POINT,
    Figure,
    degrees,
    fahrenheit,
    hours,
    lc,
    panels,
    show,
    smoke,
)  # fmt: skip

QUESTION = "Does a water pan matter, and does a tight cooker?"

AIR = "250 °F"
WAYS = {"nothing": {}, "5 kg of water": {"pan": "5 kg"}, "two briskets": {"pieces": 2}}
COLOURS = {"drum": GREY, "tight drum": OTHER, "ceramic": FLAT}
LITTLE = 300.0  # a change of the finish below this is called none [s]


def change(cooks: dict[tuple[str, str], lc.Outcome], one: tuple[str, str], other: tuple[str, str]) -> str:
    """Say how the finish moves between two cooks."""
    later = float(cooks[one].time[-1] - cooks[other].time[-1])
    how = f"{hours(later)} {'later' if later > 0.0 else 'sooner'}"
    return f"is hardly any different ({how})" if abs(later) < LITTLE else f"comes {how}"


def plateau(out: lc.Outcome) -> str:
    """Write where the flat stalls."""
    stall = out.stall()
    return "no stall" if stall is None else f"{degrees(stall.plateau)} for {hours(stall.duration)}"


def answer() -> tuple[list[str], Figure]:
    """Let the meat, the pan and the fuel humidify the cooker."""
    tight = lc.breathing(lc.pit("ceramic", air=AIR)).pit_air.air_flow
    cooks: dict[tuple[str, str], lc.Outcome] = {}
    for kind in ("drum", "ceramic"):
        for way, how in WAYS.items():
            cooks[kind, way] = smoke(MEAT, lc.breathing(lc.pit(kind, air=AIR), **how))
    cooks["tight drum", "nothing"] = smoke(MEAT, lc.breathing(lc.pit("drum", air=AIR), air_flow=tight))
    humid = {key: float(np.median(out.vapour_pressure)) / 1000.0 for key, out in cooks.items()}
    flows = {"drum": lc.breathing(lc.pit("drum", air=AIR)).pit_air.air_flow, "ceramic": tight}
    words = {}
    two, alone = ("ceramic", "two briskets"), ("ceramic", "nothing")
    loose, shut = ("drum", "nothing"), ("tight drum", "nothing")
    pressure, brought = (f"{humid[key]:.0f} kPa" for key in (shut, two))
    for kind in ("drum", "ceramic"):
        dry, wet = (kind, "nothing"), (kind, "5 kg of water")
        words[kind] = (
            f"{humid[dry]:.0f} to {humid[wet]:.0f} kPa of vapour, the stall from {plateau(cooks[dry])} to "
            f"{plateau(cooks[wet])}, and the finish {change(cooks, wet, dry)}"
        )
    sentences = [
        f"A pan of 5 kg takes the drum ({3.6e3 * flows['drum']:.1f} kg of air an hour) from {words['drum']}; "
        f"it takes the tight ceramic cooker ({3.6e3 * flows['ceramic']:.1f} kg/h) from {words['ceramic']}.",
        f"With tightness alone, the drum with the ceramic's air flow, there are {pressure} and the "
        f"finish {change(cooks, shut, loose)}; a second brisket in the ceramic brings {brought}, a stall "
        f"at {plateau(cooks[two])}, and the finish {change(cooks, two, alone)}.",
    ]
    figure, (left, right) = panels(1.15, 1.0)
    lines = {
        ("drum", "nothing"): (GREY, "-", "drum"), ("drum", "5 kg of water"): (GREY, ":", "drum, pan"),
        ("ceramic", "nothing"): (FLAT, "-", "ceramic"),
        ("ceramic", "5 kg of water"): (FLAT, ":", "ceramic, pan"),
        ("ceramic", "two briskets"): (POINT, "-", "ceramic, two briskets"),
    }  # fmt: skip
    for key, (colour, style, name) in lines.items():
        out = cooks[key]
        left.plot(out.time / HOUR, fahrenheit(out.core), color=colour, ls=style, lw=1.9, label=name)
    left.legend(frameon=False, fontsize=8.5, loc="lower right")
    left.set_ylim(120.0)
    left.set_xlim(1.0)
    left.set_xlabel("time [h]")
    left.set_ylabel("flat [°F]")
    offsets = {
        ("drum", "nothing"): (0, 9), ("drum", "5 kg of water"): (-6, -17), ("drum", "two briskets"): (-6, 20),
        ("tight drum", "nothing"): (26, 9), ("ceramic", "nothing"): (8, -17),
        ("ceramic", "5 kg of water"): (4, -17),
    }  # fmt: skip
    for (kind, way), out in cooks.items():
        marker = {"nothing": "o", "5 kg of water": "s", "two briskets": "D"}[way]
        right.plot(humid[kind, way], out.time[-1] / HOUR, marker, ms=7, color=COLOURS[kind])
        name = kind if way == "nothing" else f"{kind}, {'pan' if way.endswith('water') else 'two'}"
        right.annotate(
            name, (humid[kind, way], out.time[-1] / HOUR), offsets.get((kind, way), (0, -14)),
            textcoords="offset points", fontsize=8.5, ha="center",
        )  # fmt: skip
    right.margins(0.2, 0.22)
    right.set_xlabel("vapour in the cooker, median [kPa]")
    right.set_ylabel("flat done [h]")
    return sentences, figure


if __name__ == "__main__":
    show("whole_cut_water_pan", QUESTION, answer)
