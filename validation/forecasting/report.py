"""How honest forecasts are on cooks that the library did not invent: two parts of HONESTY.md.

Measured cooks are scored leave-one-out: each cook's numbers of the model's errors are those of a grid that
lose least on all other cooks, and where rules by hand are joined, their weights are learned without it. Cooks
of the other worlds are invented and were never learned from; they show what happens on truths that are not
the library's, not that the world is like that.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from fieldwork.cooks import HOUR

import libcook as lc
from forecasting import answers as answers_of
from forecasting import errors, learn
from forecasting.answers import Answer

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


def rank(quantiles: Sequence[float], value: float) -> float:
    """Where a value lies among the quantiles told, 0 to 1; beyond the outer ones half way to the end."""
    if value <= quantiles[0] or value >= quantiles[-1]:
        return 0.5 * answers_of.QUANTILES[0] if value <= quantiles[0] else 1.0 - 0.5 * answers_of.QUANTILES[0]
    return float(np.interp(value, quantiles, answers_of.QUANTILES))


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
            ranks = [rank(e.quantiles, x.quantiles[2]) for e, x in pairs]
            parts.append(
                f"{WORDS[late]} in the bands {WORDS[early]}: {100 * in90:.0f} and {100 * in50:.0f} %, "
                f"mean rank {np.mean(ranks):.2f}"
            )
    return "; ".join(parts)


def measured_part() -> list[str]:
    """Leave-one-out scores of the measured cooks, and of the default beside them."""
    default = lc.ModelError()
    sets = errors.tried([default, *(e for e in errors.grid() if e != default)])
    picked = errors.chosen_without(sets)
    readings = errors.held_out(sets, "readings")
    joins = any(w[:-1].any() for w in learn.weights_now_and_then(readings).values())

    def joined(part: list[Answer]) -> list[Answer]:
        return learn.held_out(part, readings) if joins else part

    told = joined([*errors.held_out(sets, "before"), *errors.held_out(sets, "shares")])
    every = joined(readings)
    lines = ["## Measured cooks, leave-one-out", "",
             "Read now and then, they are " + ("joined with" if joins else "better without")
             + " the rules by hand, on cooks held out.", "", HEAD]  # fmt: skip
    lines += [row(WORDS[s], [a for a in told if a.case.share == s]) for s in WORDS]
    lines.append(row("at every reading", every))
    lines += [
        row(f"... {phase}", [a for a in every if a.by_hand.get("phase") == phase]) for phase in learn.PHASES
    ]
    lines += ["", "With the default errors for all, which were chosen on all of them:", "", HEAD]
    own = [*sets[0].before, *sets[0].shares]
    lines += [row(WORDS[s], [a for a in own if a.case.share == s]) for s in WORDS]
    lines.append(row("at every reading", sets[0].readings))
    losses = {one.name: float(np.mean(list(one.losses().values()))) for one in sets}
    names = sorted(losses, key=losses.__getitem__)
    lines += ["", f"Sets of errors tried: {len(sets)}; each cook left out, the others choose: "
              + "; ".join(f"{name} ({sum(p.name == name for p in picked.values())} cooks)"
                          for name in names if any(p.name == name for p in picked.values()))
              + f". Loss of the default over the best's: {losses[sets[0].name] / losses[names[0]]:.3f}.",
              "", "Smallest effective number of possible cooks: "
              f"{min(a.effective for a in [*own, *sets[0].readings] if not a.refused):.0f} of 200.", "",
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
            "bands promise of the end itself, where the story is consistent. Its rank among what was told "
            "earlier is 0.5 in the mean where forecasts do not drift one way; ranks are uniform only as far "
            "as the later readings tell all that the earlier ones left open, and bunch about the middle "
            "before.", "", *stories, ""]  # fmt: skip


OPENING = (
    "Errors are medians, as a share of the time left. Straight line: through the last two readings of a "
    "measured cook, through the last hour where it was read often. Minutes by mass: what measured cooks of "
    "the same mass, pit, target and wrap took. Sampling error of a share: 5 points of 35 cooks at 90 %, 8 at "
    "50 %; 2 and 4 points of 200."
)


def parts(count: int) -> list[str]:
    """Measured cooks and other worlds, as Markdown.

    Parameters
    ----------
    count : int
        Cooks of each world.
    """
    how = __doc__.split("\n\n", 1)[1].strip().splitlines()
    return [*how, "", OPENING, "", *measured_part(), *worlds_part(count)]
