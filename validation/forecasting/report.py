"""How honest forecasts are on cooks that the library did not invent: writes FORECASTS.md.

    python -m forecasting.report [--cooks 200]     in validation; writes FORECASTS.md

Measured cooks are scored leave-one-out: where rules by hand are joined, their weights are learned without the
cook that is scored. The five numbers of the model's errors are the same for all: they were taken from a
handful of sets by the loss of their bands over all measured cooks, and the sets near the best differ by some
2 % in it. Cooks of the other worlds are invented and were never learned from; they show what happens on
truths that are not the library's, not that the world is like that.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from fieldwork.cooks import HOUR

from forecasting import answers as answers_of
from forecasting import cases, learn
from forecasting.answers import Answer

HERE = Path(__file__).resolve().parents[1]
SLOWEST = 0.5  # K/h: a slower core says nothing about time
WORDS = {0.0: "before any reading", 0.25: "at 25 %", 0.5: "at 50 %", 0.75: "at 75 %"}
HEAD = (
    "|  | forecasts | 90 % band holds | 50 % band holds | median off | bias | straight line "
    "| minutes by mass | population at the stage | of the best rule |\n|" + "---|" * 10
)


def line_left(answer: Answer) -> float:
    """Time left by a straight line through the last two readings, the start being one [h]."""
    log = answer.case.log
    if log is None:
        return float("nan")
    if isinstance(log, dict):
        seen = [(float(t.split()[0]), float(c.split()[0])) for t, c in log.items()]
    else:
        time, core = np.asarray(log.time) / HOUR, np.asarray(log.core)
        good = np.isfinite(core)
        seen = list(zip(time[good], core[good], strict=True))
    seen = [(0.0, answer.case.plan.meat.start), *seen] if seen[0][0] > 0.0 else seen
    if len(seen) < 2:
        return float("nan")
    (a, b), (c, d) = seen[-2:]
    return (answer.case.target - d) / max((d - b) / max(c - a, 1e-9), SLOWEST)


def by_hand_off(told: Sequence[Answer]) -> dict[str, float]:
    """Median error of each rule, as a share of the time left."""

    def off(left: Sequence[float]) -> float:
        error = [abs(v / a.case.left - 1.0) for v, a in zip(left, told, strict=True) if np.isfinite(v)]
        return float(np.median(error)) if error else float("nan")

    def rule(name: str) -> list[float]:
        return [a.by_hand.get(name, float("nan")) / HOUR for a in told]

    return {
        "line": off(
            [a.by_hand["last_hour"] / HOUR if a.by_hand and learn.is_dense(a) else line_left(a) for a in told]
        ),
        "population": off(rule("population")),
        "stage": off(rule("stage")),
    }


def row(name: str, told: Sequence[Answer]) -> str:
    n = len(told)
    held = [sum(a.in90 for a in told) / n, sum(a.in50 for a in told) / n]
    off = float(np.median([abs(a.off) for a in told]))
    hand = by_hand_off(told)
    best = min((v for v in hand.values() if np.isfinite(v)), default=float("nan"))

    def percent(value: float) -> str:
        return f"{100.0 * value:.0f} %" if np.isfinite(value) else ""

    return (
        f"| {name} | {n} | {percent(held[0])} | {percent(held[1])} | {percent(off)} "
        f"| {100.0 * float(np.median([a.off for a in told])):+.0f} % | {percent(hand['line'])} "
        f"| {percent(hand['population'])} | {percent(hand['stage'])} | {off / best:.2f} |"
    )


def consistency(told: Sequence[Answer]) -> str:
    """How often a cook's later middle lies in its earlier bands."""
    by_cook: dict[str, dict[float, Answer]] = {}
    for a in told:
        if not a.refused:
            by_cook.setdefault(a.case.cook, {})[a.case.share] = a
    parts = []
    for early, late in ((0.0, 0.25), (0.25, 0.5), (0.5, 0.75)):
        pairs = [(c[early], c[late]) for c in by_cook.values() if early in c and late in c]
        if pairs:
            in90 = np.mean([e.quantiles[0] <= x.quantiles[2] <= e.quantiles[4] for e, x in pairs])
            in50 = np.mean([e.quantiles[1] <= x.quantiles[2] <= e.quantiles[3] for e, x in pairs])
            parts.append(
                f"{WORDS[late]} in the bands {WORDS[early]}: {100 * in90:.0f} and {100 * in50:.0f} %"
            )
    return "; ".join(parts)


def measured_part() -> list[str]:
    cooks = learn.measured()
    shares = tuple(WORDS)
    alone = answers_of.ask(cases.at_shares(cooks, shares), join_rules=False)
    readings = answers_of.ask(cases.at_readings(cooks), join_rules=False)
    joins = any(w[:-1].any() for w in learn.weights_now_and_then(readings).values())
    told = learn.held_out(alone, readings) if joins else alone
    every = learn.held_out(readings, readings) if joins else readings
    lines = ["## Measured cooks", "",
             "Read now and then, they are " + ("joined with" if joins else "better without")
             + " the rules by hand, on cooks held out.", "", HEAD]  # fmt: skip
    lines += [row(WORDS[s], [a for a in told if a.case.share == s]) for s in shares]
    lines.append(row("at every reading", every))
    lines += [
        row(f"... {phase}", [a for a in every if a.by_hand.get("phase") == phase]) for phase in learn.PHASES
    ]
    lines += [
        "",
        f"Smallest effective number of possible cooks: "
        f"{min(a.effective for a in [*alone, *readings] if not a.refused):.0f} of 200.", "",
    ]  # fmt: skip
    return lines


def worlds_part(count: int) -> list[str]:
    import worlds

    from forecasting import other_worlds

    lines = ["## Other worlds", "", f"{count} invented cooks each, none of them learned from.", "", HEAD]
    stories = []
    for name in worlds.WORLDS:
        told = answers_of.ask(other_worlds.of(name, range(count), tuple(WORDS)))
        lines += [row(f"{name}, {WORDS[s]}", [a for a in told if a.case.share == s]) for s in WORDS]
        stories.append(f"- {name}: {consistency(told)}")
        print(name, flush=True)
    return [*lines, "", "## The same cook at successive times", "",
            "How often the later middle lies in the earlier 90 % and 50 % bands: at least as often as the "
            "bands promise of the end itself, where the story is consistent.", "", *stories, ""]  # fmt: skip


def page(measured: Sequence[str], worlds: Sequence[str]) -> str:
    return "\n".join([
        "# Forecasts of cooks that the library did not invent", "",
        "Written by `python -m forecasting.report` (in validation); nothing here is typed in.", "",
        *__doc__.split("\n\n", 2)[2].strip().splitlines(), "",
        "Errors are medians, as a share of the time left. Straight line: through the last two readings of a "
        "measured cook, through the last hour where it was read often. Minutes by mass: what measured cooks "
        "of the same mass, pit, target and wrap took. Sampling error of a share: 5 points of 35 cooks at "
        "90 %, 8 at 50 %; 3 and 5 points of 100.", "",
        *measured, *worlds,
    ])  # fmt: skip


def main(arguments: Sequence[str]) -> int:
    parser = argparse.ArgumentParser(description="Score forecasts on measured cooks and other worlds.")
    parser.add_argument("--cooks", type=int, default=200, help="of each world")
    parser.add_argument(
        "--measured", action="store_true", help="only the measured cooks; the worlds' part stays"
    )
    wanted = parser.parse_args(arguments)
    file = HERE / "FORECASTS.md"
    if wanted.measured:
        text = file.read_text(encoding="utf-8")
        worlds = text[text.index("## Other worlds") :].rstrip("\n").splitlines()
    else:
        worlds = worlds_part(wanted.cooks)
    file.write_text(page(measured_part(), [*worlds, ""]), encoding="utf-8")
    print(HERE / "FORECASTS.md")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
