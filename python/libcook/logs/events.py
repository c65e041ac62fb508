"""What happened during a cook: kinds of events, and the words of notes that stand for them."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from libcook.arguments.plain import is_one_of, items, number, text, two
from libcook.arguments.quote import quoted
from libcook.errors import invalid
from libcook.logs.findings import Finding, Rows, count_of
from libcook.units import format_duration, to_si
from libcook.units.clock import DAY, parse_clock

Start = dt.datetime | dt.time | None

KINDS = (
    "meat on", "wrapped", "wrap opened", "spritzed", "lid opened", "moved", "pulled", "probe pulled", "note",
)  # fmt: skip
SOURCES = ("file", "call", "proposed", "accepted")
_BEYOND = 3600.0  # s; an event can lie this far outside the readings
_SAME = 900.0  # s; two events of a kind closer than this are one

# Words of the trade (common practice, no source). A note can hold several.
_WORDS = (
    ("wrap opened", r"\bunwrap\w*|\bwrap(?:per)? (?:was )?(?:opened|off|removed)"),
    ("wrap opened", r"\bopen(?:ed|ing)? (?:the |its )?(?:wrap|foil|paper)"),
    ("wrap opened", r"\b(?:foil|paper) (?:off|opened|removed)|\bvent(?:ed|ing)?\b"),
    ("probe pulled", r"\bprobe\b[\w ]*\b(?:out|pulled|fell|slipped|moved|removed|reseated|reinserted)\b"),
    ("probe pulled", r"\b(?:pull|pulled|moved|removed|reseated) (?:the )?probe\b"),
    ("wrapped", r"\b(?:re)?wrap(?:ped|ping)?\b|\bfoiled\b|\bin(?:to)? (?:foil|(?:butcher )?paper)\b"),
    ("spritzed", r"\bspritz\w*|\bspray\w*|\bmopp?(?:ed|ing)?\b|\bbast(?:e|ed|ing)\b"),
    ("moved", r"\bmoved?\b|\brotat\w+|\bturned\b|\bflipp?\w*|\b(?:in)?to (?:the )?oven\b|\btransferred\b"),
    ("pulled", r"\bpull(?:ed)?\b|\bmeat off\b|\boff the (?:pit|heat|grate|smoker)\b|\brest(?:ing|ed)?\b"),
    ("pulled", r"\btook (?:it |the meat )?(?:off|out)\b|\btaken (?:off|out)\b"),
    ("meat on", r"\bmeat (?:is )?(?:on|in)\b|\bput on\b|\bon the (?:pit|grate|smoker)\b"),
    ("lid opened", r"\b(?:lid|door)\b|\bpeek\w*|\blooked\b"),
)
_PATTERNS = tuple((kind, re.compile(pattern)) for kind, pattern in _WORDS)
# A note that asks, plans or denies tells nothing that happened.
_UNSURE = re.compile(
    r"\?|\b(?:not|no|never|before|until|maybe|should|will|plan\w*|next|later|soon|don't|didn't)\b"
)


@dataclass(frozen=True)
class Event:
    """Something that happened, or is proposed to have happened, during a cook.

    Attributes
    ----------
    kind : str
        ``"meat on"``, ``"wrapped"``, ``"wrap opened"``, ``"spritzed"``, ``"lid opened"``, ``"moved"``,
        ``"pulled"`` (the meat, from the pit), ``"probe pulled"``, or ``"note"`` for anything else.
    time : float
        When [s on the log's own time axis].
    source : {"file", "call", "proposed", "accepted"}
        A column of the file, the call, the traces, or the traces with a yes of the user.
    note : str
        The words of the file or the call, or what the traces show.
    """

    kind: str
    time: float
    source: str = "call"
    note: str = ""

    def __post_init__(self) -> None:
        """Check kind and source."""
        if not is_one_of(self.kind, KINDS):
            raise _unknown("event.kind", self.kind)
        if not is_one_of(self.source, SOURCES):
            came = f"{quoted(self.source)} is no source of events"
            raise invalid("event.source", self.source, came, f"accepted: {', '.join(SOURCES)}")
        time = number(self.time, "event.time", "finite seconds are accepted")
        if not abs(time) < 1e11:
            came = f"{quoted(self.time)} is no time"
            raise invalid("event.time", self.time, came, "finite seconds are accepted")
        object.__setattr__(self, "time", time)
        object.__setattr__(self, "note", text(self.note, "event.note"))

    def __str__(self) -> str:
        """Return such as "5 h: wrapped, proposed (the core rises faster)"."""
        sure = ", proposed" if self.source == "proposed" else ""
        said = f" ({self.note})" if self.note and self.note != self.kind else ""
        return f"{format_duration(self.time)}: {self.kind}{sure}{said}"


def _unknown(field: str, kind: Any) -> Exception:
    near = get_close_matches(kind.lower()[:40], KINDS, 1) if isinstance(kind, str) else []
    meant = f"'{near[0]}'" if near else ""
    return invalid(field, kind, f"{quoted(kind)} is no kind of event", f"accepted: {', '.join(KINDS)}", meant)


def kinds_of(note: str) -> tuple[str, ...]:
    """Read a note: the kinds of events it tells of, in the order of its words; none where it is not clear."""
    text = " ".join(note.lower().split())
    if _UNSURE.search(text):
        return ()
    hits: list[tuple[int, str]] = []
    for kind, pattern in _PATTERNS:
        match = pattern.search(text)
        if match:
            hits.append((match.start(), kind))
            text = pattern.sub(lambda found: "~" * len(found[0]), text)  # "unwrapped" is not "wrapped" too
    return tuple(dict.fromkeys(kind for _, kind in sorted(hits)))


def from_note(time: float, note: str, source: str) -> list[Event]:
    """Make the events of one note; a note that tells of none stays a note."""
    return [Event(kind, time, source, note) for kind in kinds_of(note) or ("note",)]


def from_column(cells: Sequence[str], rows: Rows) -> tuple[list[Event], list[Finding]]:
    """Make events of the notes of a file, and say how each was understood; cells in order of time."""
    events: list[Event] = []
    at: dict[tuple[str, ...], list[int]] = {}
    for i, note in enumerate(cells):
        if note:
            made = from_note(float(rows.times[i]), note, "file")
            events += made
            at.setdefault(tuple(event.kind for event in made), []).append(i)
    findings = []
    for kinds, where in at.items():
        words = list(dict.fromkeys(f"{quoted(cells[i])}" for i in where))
        shown = ", ".join(words[:3]) + (f" and {len(words) - 3} more" if len(words) > 3 else "")
        known = kinds != ("note",)
        what = f"read as {' and '.join(kinds)}" if known else "tell of no known event; kept as they are"
        if len(where) == 1:
            what = what.replace("tell of", "tells of").replace("they are", "it is")
        text = f"{count_of(len(where), 'note')} ({shown}) {what}"
        kind = "event" if known else "note"
        findings.append(Finding("found", text, len(where), kind=kind, **rows.at(where)))
    return events, findings


def from_list(
    given: Any, span: tuple[float, float], start: Start, changes: Sequence[Finding] = ()
) -> list[Event]:
    """Make events of what a call gives: `Event` objects, or pairs of a time and what happened.

    A proposed event that is given back counts as accepted.
    """
    accepted = "events, or pairs such as [('5 h', 'wrapped')], are accepted"
    events: list[Event] = []
    for i, item in enumerate(items(given, "events", accepted)):
        if isinstance(item, Event):
            source = "accepted" if item.source == "proposed" else item.source
            events.append(Event(item.kind, inside(item.time, span, f"events[{i}]"), source, item.note))
            continue
        when, what = two(item, f"events[{i}]", accepted)
        what = text(what, f"events[{i}]")
        time = read_moment(when, span, start, changes, f"events[{i}]")
        events += [event if event.note != event.kind else Event(event.kind, time)
                   for event in from_note(time, what, "call")]  # fmt: skip
    return events


def named(kind: Any, field: str = "kind") -> str:
    """Return the kind that a word means, such as "wrapped" for "wrap"."""
    if is_one_of(kind, KINDS):
        return str(kind)
    kinds = kinds_of(kind) if isinstance(kind, str) else ()
    if len(kinds) != 1:
        raise _unknown(field, kind)
    return kinds[0]


def in_time(events: Iterable[Event]) -> tuple[Event, ...]:
    """Sort by time, then kind; leave out what is there twice."""
    return tuple(sorted(dict.fromkeys(events), key=lambda event: (event.time, event.kind)))


def is_known(event: Event, events: Sequence[Event]) -> bool:
    """Tell whether an event is in a list already, at about the same time.

    Wrapping, spritzing, moving and pulling open the lid as well.
    """
    opened = ("wrapped", "wrap opened", "spritzed", "moved", "pulled", "meat on", "lid opened")
    same = opened if event.kind in ("lid opened", "spritzed") else (event.kind,)
    return any(other.kind in same and abs(other.time - event.time) <= _SAME for other in events)


def inside(time: float, span: tuple[float, float], field: str) -> float:
    """Refuse a time that lies more than an hour outside the readings."""
    low, high = span
    if not low - _BEYOND <= time <= high + _BEYOND:
        came = f"{format_duration(time) if abs(time) < 1e9 else time} lies outside the log"
        log = f"{format_duration(low)} to {format_duration(high)}, and an hour more, is accepted"
        meant = f"'{time:g} h'" if 0.0 < time <= 48.0 and high > 3600.0 else ""
        raise invalid(field, time, came, log, meant)
    return time


def read_moment(
    when: Any, span: tuple[float, float], start: Start, changes: Sequence[Finding], field: str
) -> float:
    """Read when something happened: a duration on the log's time axis, or a time of day.

    Parameters
    ----------
    when : float, str, datetime.time, datetime.datetime
        Such as ``"5 h"``, ``18000.0``, ``"23:10"``.
    span : (float, float)
        First and last reading [s].
    start : datetime.datetime, datetime.time or None
        When the first reading was.
    changes : sequence of Finding
        Clock changes that were mended without a zone.
    field : str
        Name used in messages.
    """
    clocked = isinstance(when, (dt.datetime, dt.time)) or (
        isinstance(when, str) and re.search(r":|\d\s*[ap]\.?m|noon|midnight", when.lower()) is not None
    )
    if not clocked:
        return inside(to_si(when, "duration", field), span, field)
    if start is None:
        came = f"{quoted(str(when))} is a time of day, and the log does not say when it starts"
        raise invalid(field, when, came, "a time since the start such as '5 h' is accepted")
    first = span[0]
    if isinstance(when, dt.datetime):
        if not isinstance(start, dt.datetime) or (when.tzinfo is None) != (start.tzinfo is None):
            zone = "with" if isinstance(start, dt.datetime) and start.tzinfo else "without"
            came = f"{when} cannot be compared with the start of the log, {start}"
            raise invalid(field, when, came, f"a date and time {zone} a time zone is accepted")
        return inside(first + (when - start).total_seconds(), span, field)
    seconds = parse_clock(when, field)
    if isinstance(start, dt.datetime) and start.tzinfo is not None:
        midnight = dt.datetime.combine(start.date(), dt.time(), start.tzinfo)
        for day in range(3):
            local = midnight + dt.timedelta(days=day, seconds=seconds)  # on the wall, not elapsed
            gone = (local.astimezone(dt.timezone.utc) - start.astimezone(dt.timezone.utc)).total_seconds()
            if gone >= 0.0:
                return inside(first + gone, span, field)
    time = first + (seconds - parse_clock(start, field)) % DAY
    for change in changes:
        if change.kind in ("clock back", "clock forward") and change.times and time > change.times[0]:
            time += 3600.0 if change.kind == "clock back" else -3600.0
    return inside(time, span, field)
