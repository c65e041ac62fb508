"""How a log shows itself: one line of text, or a small table for a notebook. Both carry the same facts."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import numpy as np

from libcook.logs.findings import count_of
from libcook.units import format_duration, format_temperature
from libcook.words import page

if TYPE_CHECKING:
    from libcook.logs.log import Log


def _span(log: Log, name: str) -> tuple[str, str]:
    finite = log.columns[name][np.isfinite(log.columns[name])]
    low, high = float(finite.min()), float(finite.max())
    return format_temperature(low, log.units), format_temperature(high, log.units)


def _start(log: Log) -> str:
    if log.start_clock is None:
        return ""
    return (
        f" from {log.start_clock:%Y-%m-%d %H:%M}"
        if isinstance(log.start_clock, dt.datetime)
        else (f" from {log.start_clock:%H:%M}")
    )


def _head(log: Log) -> str:
    return f"{count_of(len(log), 'reading')} over {format_duration(log.duration)}{_start(log)}"


def text(log: Log) -> str:
    """Return the one-line form."""
    parts = [_head(log), *(f"{name} {' to '.join(_span(log, name))}" for name in log.columns)]
    if log.events:
        parts.append(count_of(len(log.events), "event"))
    if log.summary:
        lost = sum(one.action == "ignored" and one.kind == "column" for one in log.summary)
        out = f", {count_of(lost, 'column')} left out: see .report()" if lost else ""
        parts.append(f"{count_of(len(log.summary), 'finding')} in .summary{out}")
    return f"Log({'; '.join(parts)})"


def full(log: Log) -> str:
    """Return columns, events and summary, one fact a line."""
    lines = [_head(log)]
    for name, values in log.columns.items():
        missing = int(np.count_nonzero(~np.isfinite(values)))
        low, high = _span(log, name)
        lines.append(f"  {name}: {low} to {high}" + (f", {missing} missing" if missing else ""))
    for title, items in _lists(log):
        lines += [title, *(f"  {item}" for item in items)]
    return "\n".join(lines)


def _lists(log: Log) -> list[tuple[str, list[str]]]:
    lists = [("Events", [str(event) for event in log.events]), ("Summary", [str(one) for one in log.summary])]
    return [(title, items) for title, items in lists if items]


def html(log: Log) -> str:
    """Return the notebook form: columns, events, and the summary in full."""
    rows = []
    for name, values in log.columns.items():
        finite = values[np.isfinite(values)]
        last = format_temperature(float(finite[-1]), log.units)
        rows.append((name, str(finite.size), str(values.size - finite.size), *_span(log, name), last))
    head = ("column", "readings", "missing", "lowest", "highest", "last")
    lists = "".join(f"<p>{title}</p>{page.listed(items)}" for title, items in _lists(log))
    return page.page(page.table(rows, head, numbers=True), lists, title=f"Log: {_head(log)}")
