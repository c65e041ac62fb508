"""Fits, forecasts and start times in words: each fact said once, for the console and for a notebook."""

from __future__ import annotations

import math
from collections.abc import Sequence
from html import escape
from typing import Any, NamedTuple

from libcook.readings.fit_facts import EstimateFacts, FitFacts, ForecastFacts, ScheduleFacts, read_estimate
from libcook.units import format_clock, format_duration, format_percent
from libcook.words.page import box, listed, page, table
from libcook.words.phrases import Row
from libcook.words.two_scales import BOTH, in_scale, moment, quantity, span


class EstimateRow(NamedTuple):
    """An estimate in words."""

    name: str
    value: str
    interval: str
    before: str
    learned: str

    def __str__(self) -> str:
        """Write it in a line."""
        return f"{self.name}: {self.value} (90 %: {self.interval}; before: {self.before}; {self.learned})"


class Said(NamedTuple):
    """What is said of something: lines of a text, or a table with notes."""

    title: str
    rows: Sequence[Row | EstimateRow]
    notes: list[str]
    columns: tuple[str, ...] = ()
    caution: str = ""

    @property
    def lines(self) -> list[str]:
        """All but the title."""
        caution = [self.caution] if self.caution else []
        return [*map(str, self.rows), *(f"note: {note}" for note in self.notes), *caution]

    @property
    def text(self) -> str:
        """For the console."""
        return "\n  ".join([self.title, *self.lines])

    @property
    def html(self) -> str:
        """For a notebook."""
        caution = box(escape(self.caution)) if self.caution else ""
        return page(table(self.rows, self.columns), listed(self.notes), caution, title=self.title)


def _told(notes: Sequence[str], units: str | None) -> list[str]:
    return [in_scale(note, units) for note in notes]


def free_form(free: Any) -> str:
    """Write a free parameter as it is made."""
    given = {"median": free.median, "spread": free.spread}
    parts = [repr(free.name), *(f"{name}={value:g}" for name, value in given.items() if value is not None)]
    return f"prior({', '.join(parts)})"


def _estimate(e: EstimateFacts, units: str | None, log: str = "") -> EstimateRow:
    learned = "little" if e.learned < 0.2 else "some" if e.learned < 0.5 else "much"
    return EstimateRow(
        e.name.replace("_", " ") + log,
        quantity(e.value, e.unit, units),
        span((e.low90, e.high90), e.unit, units),
        quantity(e.prior, e.unit, units),
        f"{learned} learned",
    )


def estimate_form(e: Any) -> str:
    """Write an estimate in a line; alone it does not know the scale of its log, and speaks both."""
    return str(_estimate(read_estimate(e), None))


def fit_words(fit: FitFacts) -> Said:
    """Say how well a fit follows its logs, the estimates, the notes."""
    logs = f"{fit.logs} log{'s' if fit.logs > 1 else ''}"
    within = quantity(fit.rms, "K", fit.units, ".1f")
    return Said(
        f"Fit of {len(fit.estimates)} numbers to {logs}: follows within {within}",
        [_estimate(e, fit.units, f" ({e.log})" if fit.logs > 1 and e.log else "") for e in fit.estimates],
        _told(fit.notes, fit.units),
        ("number", "best value", "90 % interval", "before", "from the log"),
    )


def forecast_words(ahead: ForecastFacts) -> Said:
    """Say when it will be done."""

    def at(*times: float | None) -> str:
        return " to ".join(moment(time, ahead.clock_start) for time in times)

    lowest, low, middle, high, highest = ahead.done
    rows = [
        Row("now", at(ahead.now)),
        Row(f"done ('{ahead.stage}' ends)", at(middle)),
        Row("half of the possible cooks", at(low, high)),
        Row("nine of ten", at(lowest, highest)),
    ]
    if ahead.last is not None:
        rows.append(Row(f"ready ('{ahead.last}' ends)", at(ahead.ready)))
    if ahead.sooner is not None:
        least, gain, most = ahead.sooner
        ends = " to ".join(format_duration(size) for size in sorted((abs(least), abs(most))))
        reach = f", nine of ten {ends}" if (least >= 0.0) == (most >= 0.0) else ""
        word = "sooner" if gain >= 0.0 else "later"
        rows.append(Row("against the plan", f"{format_duration(abs(gain))} {word}{reach}"))
    title = f"Forecast from {ahead.members} possible cooks"
    return Said(title, rows, _told(ahead.notes, ahead.units))


def day_clock(seconds: float) -> str:
    """Write a time of day, and in words which day before or after dinner's it is."""
    if not math.isfinite(seconds):
        return "never"
    day = math.floor((seconds + 30.0) / 86400.0)
    words = {0: "", -1: " the day before", 1: " the day after"}
    return format_clock(seconds) + words.get(day, f" {abs(day)} days {'before' if day < 0 else 'after'}")


def _stage_end(t: Any, start: float | None = None, surely: str = "to be sure") -> Row:
    """Say when a stage ends: by the clock, or since the start where that is not known."""
    median, sure = (moment(at) if start is None else day_clock(start + at) for at in (t.median, t.sure))
    said = median if median == sure else f"{median} as likely as not, by {sure} {surely}"
    return Row(f"'{t.name}' ends", said)


def _late(r: Any, when: str, cooks: str = "", then: str = "") -> str:
    return f"core below {BOTH.degrees(r.core, 0)} {when}{cooks}: {r.what}{then}"


def _sooner(seconds: float) -> str:
    return f"{format_duration(seconds)} sooner"


def alternative_form(a: Any) -> str:
    """Write an alternative in a line."""
    return str(Row(a.what, _sooner(a.sooner)))


def remedy_form(r: Any) -> str:
    """Write a remedy in a line."""
    return _late(r, f"after {format_duration(r.by)}")


def stage_time_form(t: Any) -> str:
    """Write when a stage ends in a line."""
    return str(_stage_end(t))


def _if_late(r: Any, start: float) -> Row:
    gain = f", which saves {format_duration(r.sooner)} in the middle of them" if r.sooner >= 60.0 else ""
    cooks = f" ({100.0 * r.late:.0f} of 100 cooks)"
    return Row("if late", _late(r, f"at {day_clock(start + r.by)}", cooks, f" from then on{gain}"))


def _if_early(s: ScheduleFacts) -> list[Row]:
    middle, longest = format_duration(s.hold50), format_duration(s.hold95)
    waits = f"it waits {middle} in the middle, up to {longest} in 19 cooks of 20"
    rows = [Row("if early", f"hold it hot until dinner: {waits}")]
    if s.stays_hot is not None:
        lasts = f"{format_duration(s.stays_hot)} longer than the plan, if it just stays in '{s.last}'"
        no_longer = f"no longer than '{s.last}' lasts"
        rows.append(Row("hot enough to serve", lasts if s.stays_hot >= 60.0 else no_longer))
    return rows


def _quicker(a: Any, start: float) -> Row:
    later = f", so start at {day_clock(a.start)}" if a.start > start + 60.0 else ""
    return Row(f"{a.what}, from the beginning", f"done {_sooner(a.sooner)}{later}")


def schedule_words(s: ScheduleFacts) -> Said:
    """Say when to start, and what goes with it."""
    sure = f"in {format_percent(1.0 - s.chance_late_with_remedies)} of the possible cooks"
    allowed = f"{format_duration(s.duration_with_remedies)} is allowed for"
    if s.remedies:
        untouched = format_percent(1.0 - s.chance_late)
        sure += f" if late ones are hurried as below; in {untouched} if nothing is done"
        allowed += f" ({format_duration(s.duration)} it would be if nothing is done)"
    middle = f"{format_duration(s.duration50)} in the middle of the possible cooks"
    surely = f"in {format_percent(s.confidence)}"
    rows = [
        Row("start", f"{day_clock(s.start)}, dinner at {format_clock(s.serve)}"),
        Row("on time", sure),
        Row("the plan takes", f"{middle}; {allowed}"),
        *(_stage_end(t, s.start, surely) for t in s.stages),
        *(_if_late(r, s.start) for r in s.remedies),
        *_if_early(s),
        *(_quicker(a, s.start) for a in s.alternatives),
    ]
    return Said(
        "When to start",
        [Row(*(in_scale(part, s.units) for part in row)) for row in rows],
        _told(s.warnings, s.units),
        caution=in_scale(s.caution, s.units),
    )
