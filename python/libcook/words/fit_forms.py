"""Fits, forecasts and schedules in words: for the console, and as HTML for a notebook."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from html import escape
from typing import Any, NamedTuple

from libcook.units import format_clock, format_duration
from libcook.words.page import box, listed, page, table
from libcook.words.two_scales import BOTH, in_scale, moment, quantity, span


def plain(name: str) -> str:
    """Write a name as words."""
    return name.replace("_", " ")


def told(learned: float) -> str:
    """Say in words how much a log told of a number."""
    if learned < 0.2:
        return "little learned"
    return "some learned" if learned < 0.5 else "much learned"


def free_form(name: str, median: float | None, spread: float | None) -> str:
    """Write a free parameter as it is made."""
    parts = [repr(name)]
    if median is not None:
        parts.append(f"median={median:g}")
    if spread is not None:
        parts.append(f"spread={spread:g}")
    return f"prior({', '.join(parts)})"


class _Estimated(NamedTuple):
    """An estimate as text."""

    name: str
    value: str
    interval: str
    before: str
    learned: str

    def __str__(self) -> str:
        return f"{self.name}: {self.value} (90 %: {self.interval}; before: {self.before}; {self.learned})"


def _estimated(e: Any, units: str | None, log: str = "") -> _Estimated:
    return _Estimated(
        plain(e.name) + log,
        quantity(e.value, e.unit, units),
        span(e.interval90, e.unit, units),
        quantity(e.prior, e.unit, units),
        told(e.learned),
    )


def estimate_form(e: Any) -> str:
    """Write an estimate in a line; alone it does not know the scale of its log, and speaks both."""
    return str(_estimated(e, None))


def alternative_form(a: Any) -> str:
    """Write an alternative in a line."""
    return f"{a.what}: {format_duration(a.sooner)} sooner"


def _estimates(fit: Any) -> list[_Estimated]:
    several = len(fit.series) > 1
    return [
        _estimated(e, fit.units, f" ({fit.series[e.log].name})" if several and e.log >= 0 else "")
        for e in fit.estimates
    ]


def fit_form(fit: Any) -> str:
    """Write a fit: how well, the estimates, the notes."""
    logs, within = len(fit.series), quantity(fit.rms, "K", fit.units, ".1f")
    head = (
        f"Fit of {len(fit.estimates)} numbers to {logs} log{'s' if logs > 1 else ''}: follows within {within}"
    )
    return _lines(head, map(str, _estimates(fit)), _told(fit.notes, fit.units))


def fit_html(fit: Any) -> str:
    """Write a fit for a notebook."""
    head = ("number", "best value", "90 % interval", "before", "from the log")
    within = quantity(fit.rms, "K", fit.units, ".1f")
    notes = listed(_told(fit.notes, fit.units))
    return page(table(_estimates(fit), head), notes, title=f"Fit: follows the log within {within}")


def _lines(head: str, facts: Iterable[str], notes: Iterable[str]) -> str:
    return "\n  ".join([head, *facts, *(f"note: {note}" for note in notes)])


def _told(notes: Sequence[str], units: str | None) -> list[str]:
    return [in_scale(note, units) for note in notes]


def _forecast_rows(ahead: Any) -> list[tuple[str, str]]:
    start = None if ahead.plan.start is None else float(ahead.plan.start)
    q = ahead.finish_quantile
    name = ahead.plan.stages[ahead.done].name
    rows = [
        ("now", moment(ahead.now, start)),
        (f"done ('{name}' ends)", moment(q(0.5), start)),
        ("half of the possible cooks", f"{moment(q(0.25), start)} to {moment(q(0.75), start)}"),
        ("nine of ten", f"{moment(q(0.05), start)} to {moment(q(0.95), start)}"),
    ]
    if ahead.done + 1 < len(ahead.plan.stages):
        last = ahead.plan.stages[len(ahead.plan.stages) - 1].name
        rows.append((f"ready ('{last}' ends)", moment(q(0.5, last), start)))
    if ahead.versus is not None:
        gain = ahead.gain_quantile(0.5)
        words = "sooner" if gain >= 0.0 else "later"
        low, high = sorted(abs(ahead.gain_quantile(p)) for p in (0.05, 0.95))
        same = (ahead.gain_quantile(0.05) >= 0.0) == (ahead.gain_quantile(0.95) >= 0.0)
        reach = f", nine of ten {format_duration(low)} to {format_duration(high)}" if same else ""
        rows.append(("against the plan", f"{format_duration(abs(gain))} {words}{reach}"))
    return rows


def forecast_form(ahead: Any) -> str:
    """Write when it will be done."""
    facts = (f"{name}: {value}" for name, value in _forecast_rows(ahead))
    head = f"Forecast from {len(ahead.weight)} possible cooks"
    return _lines(head, facts, _told(ahead.notes, ahead.units))


def forecast_html(ahead: Any) -> str:
    """Write a forecast for a notebook."""
    notes = listed(_told(ahead.notes, ahead.units))
    return page(table(_forecast_rows(ahead)), notes, title="When will it be done")


def remedy_form(r: Any) -> str:
    """Write a remedy in a line."""
    return f"below {BOTH.degrees(r.core, 0)} after {format_duration(r.by)}: {r.what}"


def stage_time_form(t: Any) -> str:
    """Write when a stage ends in a line."""
    return f"'{t.name}' ends after {moment(t.median)}; in good time {moment(t.sure)}"


def day_clock(seconds: float) -> str:
    """Write a time of day, and in words which day before or after dinner's it is."""
    if not math.isfinite(seconds):
        return "never"
    day = math.floor((seconds + 30.0) / 86400.0)
    words = {0: "", -1: " the day before", 1: " the day after"}
    return format_clock(seconds) + words.get(day, f" {abs(day)} days {'before' if day < 0 else 'after'}")


def _hundred(share: float) -> str:
    return f"{100.0 * share:.0f} of 100"


def _late_rows(s: Any) -> list[tuple[str, str]]:
    rows = []
    for r in s.remedies:
        if r.late < 0.005:
            continue
        gain = f", which saves {format_duration(r.sooner)} in the middle of them" if r.sooner >= 60.0 else ""
        rows.append(
            (
                "if late",
                f"core below {BOTH.degrees(r.core, 0)} at {day_clock(s.start + r.by)} "
                f"({_hundred(r.late)} cooks): {r.what} from then on{gain}",
            )
        )
    return rows


def _early_rows(s: Any) -> list[tuple[str, str]]:
    waits = f"{format_duration(s.hold50)} in the middle, up to {format_duration(s.hold95)} in 19 cooks of 20"
    rows = [("if early", f"hold it hot until dinner: it waits {waits}")]
    if s.stays_hot is not None:
        last = s.plan.stages[len(s.plan.stages) - 1].name
        lasts = f"{format_duration(s.stays_hot)} longer than the plan, if it just stays in '{last}'"
        rows.append(
            ("hot enough to serve", lasts if s.stays_hot >= 60.0 else f"no longer than '{last}' lasts")
        )
    return rows


def _schedule_rows(s: Any) -> list[tuple[str, str]]:
    sure = f"{100.0 * (1.0 - s.chance_late_with_remedies):.0f} % of the possible cooks"
    unchanged = f"{100.0 * (1.0 - s.chance_late):.0f} %"
    late = _late_rows(s)
    allowed = f"{format_duration(s.duration_with_remedies)} is allowed for"
    if late:
        sure += f" if late ones are hurried as below; in {unchanged} if nothing is done"
        allowed += f" ({format_duration(s.duration)} it would be if nothing is done)"
    rows = [
        ("start", f"{day_clock(s.start)}, dinner at {format_clock(s.serve)}"),
        ("on time", f"in {sure}"),
        ("the plan takes", f"{format_duration(s.duration50)} in the middle of the possible cooks; {allowed}"),
    ]
    percent = f"{100.0 * s.confidence:.0f} %"
    for t in s.stages:
        median, sure_by = day_clock(s.start + t.median), day_clock(s.start + t.sure)
        times = median if median == sure_by else f"{median} as likely as not, by {sure_by} in {percent}"
        rows.append((f"'{t.name}' ends", times))
    rows += late + _early_rows(s)
    for a in s.alternatives:
        later = f", so start at {day_clock(a.start)}" if a.start > s.start + 60.0 else ""
        rows.append((f"{a.what}, from the beginning", f"done {format_duration(a.sooner)} sooner{later}"))
    return [(in_scale(name, s.units), in_scale(value, s.units)) for name, value in rows]


def schedule_form(s: Any) -> str:
    """Write a start time and what goes with it."""
    lines = [f"{name}: {value}" for name, value in _schedule_rows(s)]
    lines += [f"note: {note}" for note in _told(s.warnings, s.units)]
    return "\n".join([*lines, in_scale(s.caution, s.units)])


def schedule_html(s: Any) -> str:
    """Write a schedule for a notebook."""
    notes, caution = listed(_told(s.warnings, s.units)), escape(in_scale(s.caution, s.units))
    return page(table(_schedule_rows(s)), notes, box(caution), title="When to start")
