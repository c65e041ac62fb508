"""Does a water pan matter, and a tight cooker? Two cookers, alone, with a pan, and with two briskets."""

from __future__ import annotations

import numpy as np
from kitchen import (
    FLAT,
    GREY,
    HOUR,
    MEAT,
    OTHER,
    Figure,
    degrees,
    hours,
    lc,
    panels,
    show,
    smoke,
)  # fmt: skip

QUESTION = "Does a water pan matter, and does a tight cooker?"

AIR = "250 °F"
WAYS = {"nothing": {}, "5 kg of water": {"pan": "5 kg"}, "two briskets": {"pieces": 2}}
STYLES = {"nothing": "-", "5 kg of water": ":", "two briskets": "--"}
COLOURS = {"drum": GREY, "tight drum": OTHER, "ceramic": FLAT}
SETTLED = 600.0  # until then the air is still what stood in the cooker [s]
LITTLE = 300.0  # a change of the finish below this is called none [s]


def change(cooks: dict[tuple[str, str], lc.Outcome], one: tuple[str, str], other: tuple[str, str]) -> str:
    """Say how the finish moves between two cooks."""
    later = float(cooks[one].time[-1] - cooks[other].time[-1])
    if abs(later) < 30.0:
        return "is the same"
    how = f"{hours(later)} {'later' if later > 0.0 else 'sooner'}"
    return f"is hardly any different ({how})" if abs(later) < LITTLE else f"comes {how}"


def short(key: tuple[str, str]) -> str:
    """Name a cook in a few words."""
    added = {"nothing": "", "5 kg of water": ", pan", "two briskets": ", two briskets"}[key[1]]
    return key[0] + added


def plateau(out: lc.Outcome) -> str:
    """Write where the flat stalls."""
    stall = out.stall()
    return "no stall" if stall is None else f"{degrees(stall.plateau)} for {hours(stall.duration)}"


def stalls(cooks: dict[tuple[str, str], lc.Outcome], one: tuple[str, str], other: tuple[str, str]) -> str:
    """Say how the stall moves from one cook to another."""
    before, then = plateau(cooks[one]), plateau(cooks[other])
    return f"the stall stays at {before}" if before == then else f"the stall goes from {before} to {then}"


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
            f"from {humid[dry]:.0f} to {humid[wet]:.0f} kPa of vapour: {stalls(cooks, dry, wet)}, and the "
            f"finish {change(cooks, wet, dry)}"
        )
    sentences = [
        f"A pan of 5 kg takes the drum ({3.6e3 * flows['drum']:.1f} kg of air an hour) {words['drum']}; it "
        f"takes the tight ceramic cooker ({3.6e3 * flows['ceramic']:.1f} kg/h) {words['ceramic']}.",
        f"With tightness alone, the drum with the ceramic's air flow, there are {pressure} and the "
        f"finish {change(cooks, shut, loose)}; a second brisket in the ceramic brings {brought}, a stall "
        f"at {plateau(cooks[two])}, and the finish {change(cooks, two, alone)}.",
    ]
    figure, (left, right) = panels(1.0, 1.0, size=(9.6, 3.9))
    figure.get_layout_engine().set(w_pad=0.12)  # inches
    order = sorted(cooks, key=lambda key: humid[key])
    names = {key: short(key) for key in cooks}
    for key in order:
        colour, style = COLOURS[key[0]], STYLES[key[1]]
        out = cooks[key]
        settled = out.time >= SETTLED
        left.plot(
            out.time[settled] / HOUR, out.vapour_pressure[settled] / 1000.0, color=colour, ls=style, lw=1.9,
            label=names[key],
        )  # fmt: skip
    left.set_xlim(0.0, max(out.time[-1] for out in cooks.values()) / HOUR)
    left.set_ylim(0.0)
    left.set_xlabel("time [h]")
    left.set_ylabel("vapour in the cooker [kPa]")
    handles, labels = left.get_legend_handles_labels()
    left.legend(handles[::-1], labels[::-1], frameon=False, fontsize=8.5, loc="center left",
                bbox_to_anchor=(1.0, 0.5))  # fmt: skip
    for y, key in enumerate(order):
        end = cooks[key].time[-1] / HOUR
        right.barh(y, end, height=0.66, color=COLOURS[key[0]])
        stall = cooks[key].stall()
        told = f"{end:.1f} h" + ("" if stall is None else f", stall at {degrees(stall.plateau)}")
        right.text(end - 0.15, y, told, va="center", ha="right", color="white", fontsize=9)
    right.set_yticks(range(len(order)), [names[key] for key in order])
    right.set_xlabel("flat done [h]")
    return sentences, figure


if __name__ == "__main__":
    show("whole_cut_water_pan", QUESTION, answer)
