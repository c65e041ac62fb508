"""BEST_PLAN.md: what the checks found, in words and tables that are computed."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from best_plan import hidden, optimisers, promises, small
from best_plan.promises import Dinner, Score
from best_plan.small import Found
from best_plan.speed import Cost

BETTER_BY = 0.15  # in the share on time, over the habit
SECONDS = (20.0, 20.0, 10.0)  # asked for, on two cores
INTRO = """# The best plan, checked

Written by `cd validation; python -m best_plan`. All cooks are invented. That nothing unsafe is proposed is
tried on 500 random wishes in `tests/python/planner/test_wishes.py`; that the search finds an enumerated
optimum, in `tests/python/planner/test_search.py` too.
"""


def percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"


def _yes(held: bool) -> str:
    return "yes" if held else "**no**"


def _table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    rule = "|---|" + "--:|" * (len(head) - 1)
    return [f"| {' | '.join(head)} |", rule, *(f"| {' | '.join(row)} |" for row in rows), ""]


def enumerated(found: Sequence[Found]) -> list[str]:
    return [
        "## The search finds the enumerated optimum", "",
        "Three choices small enough to judge every plan: the search is given a part of them.", "",
        *_table(
            ("case", "plans", "tried", "points short of the best", "rank of what it found"),
            [(f.case.name, str(f.all), str(f.tried), f"{f.best - f.found:.2f}", str(f.rank)) for f in found],
        ),
    ]  # fmt: skip


def side_by_side(points: dict[str, list[float] | None], tries: int) -> list[str]:
    rows = [
        (name, "not installed", "", "") if found is None
        else (name, f"{np.median(found):.2f}", f"{min(found):.2f}", f"{max(found):.2f}")
        for name, found in points.items()
    ]  # fmt: skip
    return [
        "## Optimisers on the same budget", "",
        f"Points of the best of {tries} plans tried of {optimisers.WHOLE.name}, on the same "
        f"{small.MEMBERS // 3} possible cooks; more is better, and a point is a hundredth of the raw "
        f"weight.", "",
        *_table(("optimiser", "middle of the seeds", "worst", "best"), rows),
        "SciPy is taken: nothing here finds more by what a cook would notice, and it brings nothing "
        "along.", "",
    ]  # fmt: skip


HEAD = (
    "world", "cooks", "promised", "on time", "promised with rules", "on time with rules", "habit, same start",
    "habit by 75 min a pound", "habit, started as sure", "wait of those in time, h", "weight, points",
)  # fmt: skip


def _row(name: str, s: Score) -> tuple[str, ...]:
    shares = (
        s.promised, s.kept_promise, s.promised_with_rules, s.with_rules, s.habit_same_start, s.habit_by_thumb,
        s.habit_as_sure,
    )  # fmt: skip
    weight = f"{100.0 * s.weight:+.0f}" if np.isfinite(s.weight) else ""
    return (name, str(s.count), *(percent(one) for one in shares), f"{s.wait:.1f}", weight)


def hidden_cooks(dinners: list[Dinner]) -> list[str]:
    every = promises.score(dinners)
    rows = [_row(name, promises.score(dinners, name)) for name in hidden.WORLDS]
    early = [d.best.habit.measured.room - d.best.measured.room for d in dinners]
    return [
        f"## {every.count} hidden cooks of other worlds", "",
        f"{len(dinners)} users know cut, mass, start and cooker ({len({d.known.mass for d in dinners})} "
        f"masses, "
        f"brisket and pork, {len({d.known.cooker for d in dinners})} cookers) and ask for dinner at "
        f"18:00. Each plan "
        f"is then cooked on {promises.EACH} hidden cooks of each of the five worlds, whose physics is not "
        f"the "
        "library's.", "",
        *_table(HEAD, [*rows, _row("all", every)]),
        "The habit is 250 °F, paper at 165 °F, 203 °F and an hour. By 75 minutes a pound and the hour is "
        "a rule of "
        "thumb (common practice, no source). As sure: started so early that its own forecast promises "
        "what is wished, "
        f"which is {np.median(early) / 3600.0:.1f} h earlier in the middle of the users. Weight: what "
        f"evaporation "
        "leaves by the chosen plan, less what it leaves by the habit, in hundredths of the raw weight, in "
        "the four "
        "worlds that have water; none of them knows the juice that is pressed out.", "",
        *_findings(every, dinners), "",
        "The chosen plan is on time more often from the same start because it is quicker, not because it "
        "knows more: "
        "what is believed of one cook stays as wide. The worlds' foil stops evaporation altogether, as "
        "the library's "
        "does.", "",
    ]  # fmt: skip


def _findings(every: Score, dinners: list[Dinner]) -> list[str]:
    two = 2.0 * every.error
    kept, said = every.kept_promise, every.promised
    gain, thumb = kept - every.habit_same_start, kept - every.habit_by_thumb
    own = [100.0 * (d.best.measured.kept - d.best.habit.measured.kept) for d in dinners]
    ruled = sum(d.best.policy is not None for d in dinners)
    return [
        f"- The promise is met within two sampling errors ({100.0 * two:.0f} points): "
        f"{_yes(abs(kept - said) <= two)}; "
        f"{percent(kept)} are on time, {percent(said)} were promised. It is not fallen short of by more: "
        f"{_yes(kept >= said - two)}.",
        f"- On time at least {100.0 * BETTER_BY:.0f} points more often than the habit from the same start: "
        f"{_yes(gain >= BETTER_BY)} ({100.0 * gain:+.0f}); than the habit by the rule of thumb: "
        f"{_yes(thumb >= BETTER_BY)} ({100.0 * thumb:+.0f}).",
        f"- No worse weight in the worlds: {_yes(every.weight >= 0.0)} ({100.0 * every.weight:+.1f} "
        f"points); by the "
        f"library's own count, juice and fat included: {_yes(min(own) >= 0.0)} ({np.median(own):+.1f} in "
        f"the middle of "
        f"the users, {min(own):+.1f} at worst).",
        f"- With the rules for the day {percent(every.with_rules)} are on time, "
        f"{percent(every.promised_with_rules)} "
        f"were promised: met within two sampling errors: {_yes(every.rules_met)}. Those in time wait "
        f"{every.wait_with_rules:.1f} h instead of {every.wait:.1f} h. {ruled} of the {len(dinners)} "
        f"plans have rules.",
    ]


def speed(costs: Sequence[Cost]) -> list[str]:
    rows = [
        (c.what, f"{c.seconds:.0f}", f"{c.seconds / 2.0:.0f}", f"{most:.0f}", str(c.cooks))
        for c, most in zip(costs, SECONDS, strict=True)
    ]
    return [
        "## What it costs", "",
        "Processor time over all threads, halved: what two free cores take. Times move with the machine.", "",
        *_table(("answer", "processor, s", "on two cores, s", "asked for, s", "cooks simulated"), rows),
    ]  # fmt: skip


def page(
    found: Sequence[Found],
    points: dict[str, list[float] | None],
    tries: int,
    dinners: list[Dinner],
    costs: Sequence[Cost],
) -> str:
    """The whole page."""
    parts = [*hidden_cooks(dinners), *enumerated(found), *side_by_side(points, tries), *speed(costs)]
    return "\n".join([INTRO, *parts]).rstrip() + "\n"
