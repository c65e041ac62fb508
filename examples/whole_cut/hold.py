"""Can it hold until dinner? Counter, towel-lined insulated box, holding oven; and leftovers."""

from __future__ import annotations

import numpy as np
from kitchen import (
    CAUTION,
    DONE,
    FLAT,
    GREY,
    HOUR,
    MEAT,
    PIT,
    POINT,
    Figure,
    cook,
    fahrenheit,
    hours,
    lc,
    panels,
    show,
)  # fmt: skip

QUESTION = "Can it hold until dinner?"

LIMIT = 57.0  # hot holding, FDA Food Code 3-501.16 [°C]
SLICING = 65.0  # of the hottest part; common practice, no source [°C]
LOW, TWO_STEPS = (21.0, 5.0), (2.0 * HOUR, 6.0 * HOUR)  # FDA Food Code 3-501.14 [°C], [s]
COOK = [
    lc.Stage("smoke", PIT, until=lc.core("150 °F")),
    lc.Stage("wrapped", PIT, wrap="butcher paper", until=lc.core(DONE)),
]
RESTS = {
    "counter, foil tent": (lc.counter("70 °F"), "foil tent", GREY),
    "insulated box, towels": (lc.insulated_box("70 °F"), "towels", FLAT),
    "holding oven, 150 °F": (lc.holding_oven("150 °F"), "foil", POINT),
}


def after(moment: float | None, pulled: float) -> str:
    """Write how long after the pull something happens."""
    return "not within 12 h" if moment is None else f"after {hours(moment - pulled)}"


def cooling(out: lc.Outcome) -> list[float]:
    """Return how long the hottest part takes from 57 °C to 21 and to 5 °C [s]; infinite when it does not."""
    hottest = np.asarray(out.hottest)
    below = [np.flatnonzero((hottest < t) & (out.time > out.hot_hold().pulled_at)) for t in (LIMIT, *LOW)]
    start = out.time[below[0][0]] if below[0].size else float("inf")
    return [float(out.time[b[0]] - start) if b.size else float("inf") for b in below[1:]]


def answer() -> tuple[list[str], Figure]:
    """Rest in three ways, then put the counter's piece whole into a refrigerator."""
    rests = {
        name: cook(MEAT, [*COOK, lc.Stage("rest", place, wrap=wrap, until=lc.elapsed("12 h"))])
        for name, (place, wrap, _) in RESTS.items()
    }
    holds = {name: out.hot_hold(slicing=SLICING) for name, out in rests.items()}
    cold = cook(
        MEAT,
        [
            *COOK,
            lc.Stage("rest", lc.counter("70 °F"), wrap="foil tent", until=lc.elapsed("1 h")),
            lc.Stage("refrigerator", lc.counter("3 °C"), until=lc.elapsed("24 h")),
        ],
    )
    told = [
        f"{name}: {after(hold.coldest_until, hold.pulled_at)}, sliced {after(hold.slice_at, hold.pulled_at)}"
        for name, hold in holds.items()
    ]
    steps = cooling(cold)
    kept = all(took <= most for took, most in zip(steps, TWO_STEPS, strict=True))
    took = [f"{hours(step)}" if np.isfinite(step) else "more than a day" for step in steps]
    sentences = [
        f"The coldest part falls below 135 °F, and the hottest to 149 °F to be sliced: {'; '.join(told)}.",
        f"Put whole into a 37 °F refrigerator, the hottest part takes {took[0]} from 135 to 70 °F "
        f"and {took[1]} to 41 °F, which {'keeps' if kept else 'breaks'} the limits of 2 h and 6 h in all "
        "(FDA Food Code 3-501.14)"
        + ("." if kept else ": slice leftovers and spread them thin, so that they cool faster."),
        CAUTION,
    ]
    figure, (ax,) = panels(1.0, size=(8.6, 4.2))
    for name, out in rests.items():
        pulled, colour = holds[name].pulled_at, RESTS[name][2]
        rest = out.time >= pulled
        x = (out.time[rest] - pulled) / HOUR
        hot, coldest = (fahrenheit(np.asarray(v)[rest]) for v in (out.hottest, out.coldest))
        ax.fill_between(x, coldest, hot, color=colour, alpha=0.25, lw=0)
        ax.plot(x, coldest, color=colour, lw=2)
        ax.annotate(name, (12.0, 0.5 * (coldest[-1] + hot[-1])), (6, 0), textcoords="offset points",
                    color=colour, fontsize=9, va="center", annotation_clip=False)  # fmt: skip
    ax.axhline(fahrenheit(LIMIT), color="#1F2328", lw=0.9, ls="--")
    ax.text(11.9, fahrenheit(LIMIT) - 2, "135 °F, hot holding", ha="right", va="top", fontsize=9)
    ax.axhline(fahrenheit(SLICING), color=GREY, lw=0.9, ls=":")
    ax.text(
        11.9, fahrenheit(SLICING) - 2, "149 °F, to be sliced", ha="right", va="top", fontsize=9, color=GREY
    )
    ax.set_xlim(0.0, 12.0)
    ax.set_xlabel("time after the pull [h]; line: coldest part, band: up to the hottest")
    ax.set_ylabel("temperature [°F]")
    return sentences, figure


if __name__ == "__main__":
    show("whole_cut_hold", QUESTION, answer)
