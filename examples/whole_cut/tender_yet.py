"""Is the flat tender yet? From 175 °F on, probe it every half hour, in a 225 °F and in a 275 °F pit."""

from __future__ import annotations

import numpy as np
from kitchen import FLAT, HOUR, MEAT, POINT, Figure, cook, degrees, hours, lc, panels, reaches, show

QUESTION = "Is the flat tender yet? Check again every half hour."

TENDER = 0.8
PITS = {"225 °F": FLAT, "275 °F": POINT}


def answer() -> tuple[list[str], Figure]:
    """Smoke, wrap, then check again every half hour until most of the flat's collagen is gelatin."""
    figure, (ax,) = panels(1.0, size=(8.0, 4.2))
    sentences = []
    for air, colour in PITS.items():
        pit, paper = lc.pit("drum", air=air), "butcher paper"
        out = cook(
            MEAT,
            [
                lc.Stage("smoke", pit, until=lc.core("150 °F")),
                lc.Stage("wrapped", pit, wrap=paper, until=lc.core("175 °F")),
                lc.Stage("probing", pit, wrap=paper, until=lc.tender(TENDER, every="30 min")),
            ],
        )
        flat, point, last = out.probes["flat"], out.probes["point"], out.stage_ends[-1]
        looks = np.arange(last.start, last.time + 60.0, 0.5 * HOUR)[1:]
        ready = reaches(out.time, flat.tenderness, TENDER)
        other = float(point.tenderness[-1])
        wait = last.time - ready
        passed = float(np.interp(ready, out.time, flat.temperature))
        name = f"{air} pit"
        late = f"{hours(wait)} after it was" if wait >= 60.0 else "as soon as it was"
        sentences.append(
            f"In the {name} the flat is tender at look {len(looks)}, {hours(last.time)} into the cook and "
            f"{late}: it passed {100 * TENDER:.0f} % gelatin at {degrees(passed)} and "
            f"is at {degrees(last.core)} when found, with the point at {100 * other:.0f} % "
            f"({'tender too' if other >= TENDER else 'not yet tender'})."
        )
        hour = out.time / HOUR
        for probe, style in ((flat, "-"), (point, ":")):
            ax.plot(hour, 100 * probe.tenderness, color=colour, ls=style, lw=2, label=f"{probe.name}, {name}")
        values = 100 * np.interp(looks, out.time, flat.tenderness)
        ax.plot(looks / HOUR, values, "o", ms=6, mfc="white", mec=colour, zorder=3)
    ax.axhline(100 * TENDER, color="#6A6F76", lw=0.8, ls="--")
    ax.text(0.1, 100 * TENDER + 1.5, "tender", fontsize=9, color="#6A6F76")
    ax.legend(frameon=False, fontsize=9, loc="center left")
    ax.set_xlabel("time [h]; circles: the flat is probed")
    ax.set_ylabel("collagen turned to gelatin [%]")
    ax.set_xlim(0.0)
    ax.set_ylim(0.0, 100.0)
    return sentences, figure


if __name__ == "__main__":
    show("whole_cut_tender_yet", QUESTION, answer)
