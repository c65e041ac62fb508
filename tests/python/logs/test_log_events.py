"""Logs: events from a column, from a call, and accepted proposals.

All logs here are invented data: smooth curves with notes put in by hand.
"""

import datetime as dt
import pickle

import numpy as np
import pytest
from log_samples import HEADER, cells, clock, finding, of_kind, text_of, told, with_times
from said import quantities

import libcook as lc
from libcook.errors import InvalidInput
from libcook.logs import Event, Log, read_log
from libcook.logs.events import KINDS, kinds_of


def noted(notes: dict[int, str], times: list[str] | None = None) -> Log:
    rows = cells() if times is None else with_times(times)
    return read_log(text_of([[*row, notes.get(i, "")] for i, row in enumerate(rows)], HEADER + ",notes"))


@pytest.mark.parametrize(
    ("note", "kinds"),
    [
        ("wrapped", ["wrapped"]),
        ("Wrapped in butcher paper", ["wrapped"]),
        ("into foil now", ["wrapped"]),
        ("unwrapped", ["wrap opened"]),
        ("opened the foil", ["wrap opened"]),
        ("SPRITZ", ["spritzed"]),
        ("sprayed w/ cider, wrapped", ["spritzed", "wrapped"]),
        ("lid", ["lid opened"]),
        ("opened lid to spritz", ["lid opened", "spritzed"]),
        ("moved to the oven", ["moved"]),
        ("rotated 180", ["moved"]),
        ("pulled it, resting", ["pulled"]),
        ("pulled probe", ["probe pulled"]),
        ("probe fell out", ["probe pulled"]),
        ("meat on", ["meat on"]),
        ("put on the grate", ["meat on"]),
        ("not wrapped yet", []),
        ("wrap soon?", []),
        ("will spritz later", []),
        ("added charcoal", []),
        ("wraparound porch", []),
    ],
)
def test_notes_are_read_as_kinds(note: str, kinds: list[str]) -> None:
    assert list(kinds_of(note)) == kinds


def test_every_kind_is_its_own_note() -> None:
    for kind in KINDS[:-1]:
        assert kinds_of(kind) == (kind,)


def test_notes_of_a_column_become_events_and_are_said() -> None:
    log = noted({0: "meat on", 120: "spritz", 180: "spritz", 200: "fed the fire", 240: "lid open, wrapped"})
    assert log.events == (
        Event("meat on", 0.0, "file", "meat on"),
        Event("spritzed", 7200.0, "file", "spritz"),
        Event("spritzed", 10800.0, "file", "spritz"),
        Event("note", 12000.0, "file", "fed the fire"),
        Event("lid opened", 14400.0, "file", "lid open, wrapped"),
        Event("wrapped", 14400.0, "file", "lid open, wrapped"),
    )
    assert told(log) == [
        ("mended", "joined", 1, (242,)),
        ("found", "event", 1, (2,)),
        ("found", "event", 2, (122, 182)),
        ("found", "note", 1, (202,)),
        ("found", "event", 1, (242,)),
    ]


def test_a_note_without_a_time_is_said_to_be_lost() -> None:
    log = noted({100: "wrapped"}, ["?" if i == 100 else str(60 * i) for i in range(300)])
    assert log.events == ()
    finding(log, "ignored: 1 note in rows without a readable time ('wrapped') (line 102)")


def test_a_list_in_the_call_comes_on_top_of_the_column() -> None:
    rows = [[*row, "wrapped" if i == 240 else ""] for i, row in enumerate(cells())]
    log = read_log(text_of(rows, HEADER + ",notes"), events=[("1 h", "fed the fire"), (7200.0, "spritz")])
    assert log.events == (
        Event("note", 3600.0, "call", "fed the fire"),
        Event("spritzed", 7200.0, "call", "spritz"),
        Event("wrapped", 14400.0, "file", "wrapped"),
    )


# ---- from a call


def made(start: object = None) -> Log:
    return Log(np.arange(0.0, 10.5 * 3600.0, 600.0), core=np.linspace(4.0, 90.0, 63), start_clock=start)


def test_mark_gives_a_new_log() -> None:
    log = made()
    marked = log.mark("wrapped", at="5 h", note="paper").mark("spritz", at=3600)
    assert log.events == ()
    assert marked.events == (Event("spritzed", 3600.0), Event("wrapped", 18000.0, "call", "paper"))
    assert marked != log and marked.mark("wrapped", at="5 h", note="paper") == marked  # once is enough
    assert pickle.loads(pickle.dumps(marked)) == marked
    assert lc.Event is Event


@pytest.mark.parametrize(
    ("start", "at", "seconds"),
    [
        (dt.time(20, 0), "23:10", 11400.0),
        (dt.time(20, 0), "1 am", 18000.0),
        (dt.datetime(2024, 5, 11, 20, 0), "midnight", 14400.0),
        (dt.datetime(2024, 5, 11, 20, 0), dt.time(21, 30), 5400.0),
        (dt.datetime(2024, 5, 11, 20, 0), dt.datetime(2024, 5, 12, 2, 0), 21600.0),
    ],
)
def test_times_of_day_follow_the_start(start: object, at: object, seconds: float) -> None:
    assert made(start).mark("moved", at=at).events == (Event("moved", seconds),)


@pytest.mark.parametrize(
    ("call", "part"),
    [
        ({"kind": "wraped", "at": "5 h"}, "kind: 'wraped' is no kind of event; accepted: meat on, wrapped"),
        ({"kind": "wraped", "at": "5 h"}, "did you mean 'wrapped'?"),
        ({"kind": "fed the fire", "at": "5 h"}, "kind: 'fed the fire' is no kind of event"),
        ({"kind": "wrapped", "at": "23:10"}, "the log does not say when it starts"),
        ({"kind": "wrapped", "at": "50 h"}, "at: 50 h lies outside the log; 0 s to 10 h 20 min, and an hour"),
        ({"kind": "wrapped", "at": -4000}, "lies outside the log"),
        ({"kind": "wrapped", "at": 5000000}, "lies outside the log"),
        ({"kind": "wrapped", "at": "soon"}, "at: 'soon' does not start with a number"),
        ({"kind": "wrapped", "at": dt.datetime(2024, 5, 11)}, "the log does not say when it starts"),
        ({"kind": 3, "at": "5 h"}, "kind: 3 is no kind of event"),
    ],
)
def test_mark_refuses(call: dict, part: str) -> None:
    with pytest.raises(InvalidInput) as caught:
        made().mark(**call)
    assert part in str(caught.value)


def test_hours_typed_as_seconds_are_taken_at_their_word_and_hours_too_many_are_not() -> None:
    assert made().mark("wrapped", at=5).events[0].time == 5.0
    with pytest.raises(InvalidInput, match="a date and time without a time zone is accepted"):
        made(dt.datetime(2024, 5, 11)).mark("moved", at=dt.datetime(2024, 5, 11, 2, tzinfo=dt.timezone.utc))


def test_with_events_takes_events_and_pairs_and_accepts_proposals() -> None:
    proposed = Event("lid opened", 7200.0, "proposed", "the pit fell 40 K")
    log = made(dt.time(20, 0)).with_events([("23:00", "spritz"), proposed, ("1 h", "windy")])
    assert log.events == (
        Event("note", 3600.0, "call", "windy"),
        Event("lid opened", 7200.0, "accepted", "the pit fell 40 K"),
        Event("spritzed", 10800.0, "call", "spritz"),
    )
    assert str(log.events[0]) == "1 h: note (windy)"
    assert str(proposed) == "2 h: lid opened, proposed (the pit fell 40 K)"


@pytest.mark.parametrize(
    ("events", "part"),
    [
        ([3], "events[0]: 3 came; events, or pairs"),
        ("wrapped", "came; events, or pairs such as"),
        (Event("wrapped", 60.0), "came; events, or pairs such as"),
        ([("soon", "x")], "events[0]: 'soon' does not start with a number"),
        ([("1 h", "spritz"), Event("wrapped", 1e6)], "events[1]: 277 h 47 min lies outside the log"),
    ],
)
def test_with_events_refuses(events: object, part: str) -> None:
    with pytest.raises(InvalidInput) as caught:
        made().mark("wrapped", at=60.0).with_events(events)
    assert part in str(caught.value)


@pytest.mark.parametrize(
    ("call", "part"),
    [
        ({"kind": "spritz", "time": 1.0}, "event.kind: 'spritz' is no kind of event"),
        ({"kind": "wrapped", "time": float("nan")}, "event.time: nan is not a finite number"),
        ({"kind": "wrapped", "time": "5 h"}, "event.time: '5 h' is not a number"),
        ({"kind": "wrapped", "time": 1.0, "source": "web"}, "event.source: 'web' is no source of events"),
    ],
)
def test_event_refuses(call: dict, part: str) -> None:
    with pytest.raises(InvalidInput) as caught:
        Event(**call)
    assert part in str(caught.value)


def test_an_event_does_not_change() -> None:
    with pytest.raises(AttributeError):
        Event("wrapped", 1.0).time = 2.0


def test_the_report_lists_columns_events_and_summary() -> None:
    times = [clock(1200 + i) for i in range(300)]
    text = noted({120: "spritz"}, times).report()
    head, *rest = text.splitlines()
    assert all(word in head for word in ("300", "4 h 59 min", "20:00"))
    assert next(line for line in rest if line.startswith("  core: ")).split()[1::3] == ["4.0", "63.8"]
    events, summary = (rest.index(title) for title in ("Events", "Summary"))
    assert rest[events + 1].startswith("  2 h: spritzed") and summary == events + 2
    assert any("midnight" in line and "(line 242)" in line for line in rest[summary:])


# Invented data: a core and a pit in °F, a double time, a reading no probe can give, and an opened lid.
IN_FAHRENHEIT = "minutes,core (°F),pit (°F)\n" + "".join(
    f"{minute},{40 + minute / 2:.1f},{200 if 100 < minute <= 104 else 250}\n" for minute in range(0, 240, 2)
).replace("50,65.0,250", "50,65.0,250\n50,67.0,250").replace("150,115.0", "150,1500.0")


def test_a_log_speaks_in_the_scale_of_its_file(tmp_path) -> None:
    log = read_log(IN_FAHRENHEIT)
    assert log.units == "F"
    assert all("40.0 °F to 159.0 °F" in form for form in (log.report(), repr(log)))
    assert "40.0 °F</td>" in log._repr_html_()
    assert "1.0 °F" in of_kind(log, "double").text
    assert quantities(of_kind(log, "dropout").text, "°F") == [1500.0, -40.0, 1112.0]
    (lid,) = log.propose_events()
    assert (lid.kind, lid.note.split(",")[0]) == ("lid opened", "the pit fell 50 °F")
    told = "°C", " K ", " K,"
    assert not any(word in text for text in (log.report(), lid.note) for word in told)
    again = [
        log.mark("wrapped", "1 h"),
        pickle.loads(pickle.dumps(log)),
        read_log(log.to_csv(tmp_path / "a.csv")),
    ]
    assert [one.units for one in again] == ["F", "F", "F"]
    figure = pytest.importorskip("matplotlib.figure").Figure()
    assert log.plot(ax=figure.subplots()).get_ylabel() == "temperature [°F]"
    assert log.plot("C", ax=figure.subplots()).get_ylabel() == "temperature [°C]"


def test_a_log_made_of_arrays_speaks_in_the_scale_it_is_told() -> None:
    assert "4.0 °C to 21.5 °C" in repr(Log([0.0, 60.0], core=[4.0, 21.5]))
    assert "39.2 °F to 70.7 °F" in repr(Log([0.0, 60.0], core=[4.0, 21.5], units="F"))
    with pytest.raises(InvalidInput, match="units"):
        Log([0.0, 60.0], core=[4.0, 21.5], units="kelvin")
