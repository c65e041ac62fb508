"""BEST_PLAN.md: what the checks found, in words and tables that are computed."""

from __future__ import annotations

import numpy as np

from best_plan import hidden, optimisers, promises, small
from best_plan.promises import Dinner, Score
from best_plan.small import Found
from best_plan.speed import Cost

HEAD = "# The best plan, checked"
BETTER_BY = 0.15  # in the share on time, that the issue asked for over the habit
SECONDS = (20.0, 20.0, 10.0)  # asked for, on two cores


def percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"


def _yes(held: bool) -> str:
    return "yes" if held else "**no**"


def enumerated(found: list[Found]) -> list[str]:
    lines = [
        "## The search finds the enumerated optimum", "",
        "Three choices small enough to judge every plan: the search is given a part of them.", "",
        "| case | plans | tried | points short of the best | rank of what it found |", "|---|--:|--:|--:|--:|",
    ]  # fmt: skip
    lines += [f"| {f.case.name} | {f.all} | {f.tried} | {f.best - f.found:.2f} | {f.rank} |" for f in found]
    return [*lines, ""]


def side_by_side(points: dict[str, list[float] | None], tries: int) -> list[str]:
    lines = [
        "## Optimisers on the same budget", "",
        f"Points of the best of {tries} plans tried of {optimisers.WHOLE.name}, on the same {small.MEMBERS // 3} "
        "possible cooks; more is better, and a point is a hundredth of the raw weight.", "",
        "| optimiser | middle of the seeds | worst | best |", "|---|--:|--:|--:|",
    ]  # fmt: skip
    for name, found in points.items():
        if found is None:
            lines.append(f"| {name} | not installed | | |")
        else:
            lines.append(f"| {name} | {np.median(found):.2f} | {min(found):.2f} | {max(found):.2f} |")
    return [
        *lines,
        "",
        "SciPy is taken: nothing found more by what a cook would notice, and it brings nothing along.",
        "",
    ]


def _row(name: str, s: Score) -> str:
    return (
        f"| {name} | {s.count} | {percent(s.promised)} | {percent(s.kept_promise)} | {percent(s.promised_with_rules)} "
        f"| {percent(s.with_rules)} | {percent(s.habit_same_start)} | {percent(s.habit_by_thumb)} | "
        f"{percent(s.habit_as_sure)} | {s.wait:.1f} | "
        + (f"{100.0 * s.weight:+.0f} |" if np.isfinite(s.weight) else "|")
    )


def hidden_cooks(dinners: list[Dinner]) -> list[str]:
    every = promises.score(dinners)
    rows = [_row(name, promises.score(dinners, name)) for name in hidden.WORLDS]
    error = every.error
    gain = every.kept_promise - every.habit_same_start
    thumb = every.kept_promise - every.habit_by_thumb
    early = [d.best.habit.measured.room - d.best.measured.room for d in dinners]
    kept = [d.best.measured.kept - d.best.habit.measured.kept for d in dinners]
    return [
        "## 200 hidden cooks of other worlds", "",
        f"{len(dinners)} users know cut, mass, start and cooker ({len({d.known.mass for d in dinners})} masses, brisket and "
        f"pork, {len({d.known.cooker for d in dinners})} cookers) and ask for dinner at 18:00. Each plan is then cooked on "
        f"{promises.EACH} hidden cooks of each of the five worlds, whose physics is not the library's.", "",
        "| world | cooks | promised | on time | promised with rules | on time with rules | habit, same start "
        "| habit by 75 min a pound | habit, started as sure | wait of those in time, h | weight, points |",
        "|---|" + "--:|" * 10, *rows, _row("all", every), "",
        "The habit is 250 °F, paper at 165 °F, 203 °F and an hour. By 75 minutes a pound and the hour is a rule of thumb "
        "(common practice, no source). As sure: started so early that its own forecast promises what the chosen plan's does, "
        f"which is {np.median(early) / 3600.0:.1f} h earlier in the middle of the users. Weight: what evaporation leaves "
        "by the chosen plan, less what it leaves by the habit, in hundredths of the raw weight, in the four worlds that have "
        "water; none of them knows the juice that is pressed out.", "",
        f"- The promise is kept within two sampling errors ({percent(2.0 * error)}): "
        f"{_yes(abs(every.kept_promise - every.promised) <= 2.0 * error)}; it is {percent(every.kept_promise)} against "
        f"{percent(every.promised)}; not fallen short of by more than that: "
        f"{_yes(every.kept_promise >= every.promised - 2.0 * error)}.",
        f"- On time at least {percent(BETTER_BY)} more often than the habit from the same start: {_yes(gain >= BETTER_BY)} "
        f"({100.0 * gain:+.0f} points); than the habit by the rule of thumb: {_yes(thumb >= BETTER_BY)} ({100.0 * thumb:+.0f}).",
        f"- No worse weight in the worlds: {_yes(every.weight >= 0.0)} ({100.0 * every.weight:+.1f} points); by the library's "
        f"own count, juice and fat included: {_yes(float(np.min(kept)) >= 0.0)} ({100.0 * float(np.median(kept)):+.1f} in the "
        f"middle of the users, {100.0 * float(np.min(kept)):+.1f} at worst).",
        f"- With the rules for the day {percent(every.with_rules)} are on time, {percent(every.promised_with_rules)} were "
        f"promised; those in time wait {every.wait_with_rules:.1f} h instead of {every.wait:.1f} h. "
        f"{sum(d.best.policy is not None for d in dinners)} of the {len(dinners)} plans have rules.",
        "", "A plan that is as sure as the habit saves time because it is quicker, not because it knows more: the width of "
        "what is believed of one cook stays. The worlds' foil stops evaporation altogether, as the library's does.", "",
    ]  # fmt: skip


def speed(costs: list[Cost]) -> list[str]:
    lines = [
        "## What it costs", "",
        "Processor time over all threads, halved: what two free cores take. Times move with the machine.", "",
        "| answer | processor, s | on two cores, s | asked for, s | cooks simulated |", "|---|--:|--:|--:|--:|",
    ]  # fmt: skip
    for cost, most in zip(costs, SECONDS, strict=True):
        lines.append(
            f"| {cost.what} | {cost.seconds:.0f} | {cost.seconds / 2.0:.0f} | {most:.0f} | {cost.cooks} |"
        )
    return [*lines, ""]


def page(
    found: list[Found],
    points: dict[str, list[float] | None],
    tries: int,
    dinners: list[Dinner],
    costs: list[Cost],
) -> str:
    """The whole page."""
    lines = [
        HEAD, "",
        "Written by `cd validation; python -m best_plan`. All cooks are invented. That nothing unsafe is proposed is "
        "tried on 500 random wishes in `tests/python/planner/test_wishes.py`, that the search finds an enumerated "
        "optimum in `tests/python/planner/test_search.py` too.", "",
        *hidden_cooks(dinners), *enumerated(found), *side_by_side(points, tries), *speed(costs),
    ]  # fmt: skip
    return "\n".join(lines)
