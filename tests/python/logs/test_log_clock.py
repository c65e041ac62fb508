"""Logs: clocks with a time zone, across daylight saving in both directions, and dates in any order.

All logs here are invented data. The clock changes are those of the tz database: Europe/Berlin on 31 March and
27 October 2024, America/Chicago on 10 March and 3 November 2024.
"""

import datetime as dt
import pickle
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from log_samples import (
    MINUTES,
    assert_clean,
    clock,
    finding,
    of_kind,
    refused,
    text_of,
    told,
    with_times,
)

from libcook.logs import Event, read_log

UTC = dt.timezone.utc
CHANGES = {  # zone, true start (UTC) two hours before the change, on the wall
    "back": [
        ("Europe/Berlin", dt.datetime(2024, 10, 26, 23, 0)),
        ("America/Chicago", dt.datetime(2024, 11, 3, 5, 0)),
    ],
    "forward": [
        ("Europe/Berlin", dt.datetime(2024, 3, 30, 23, 0)),
        ("America/Chicago", dt.datetime(2024, 3, 10, 6, 0)),
    ],
}


def wall(zone: str, start: dt.datetime, form: str = "%Y-%m-%d %H:%M", count: int = MINUTES) -> list[str]:
    """What a clock on the wall shows each minute."""
    first = start.replace(tzinfo=UTC)
    return [(first + dt.timedelta(minutes=i)).astimezone(ZoneInfo(zone)).strftime(form) for i in range(count)]


@pytest.mark.parametrize(("zone", "start"), CHANGES["back"])
def test_an_hour_that_comes_twice_is_placed_by_the_zone(zone: str, start: dt.datetime) -> None:
    times = wall(zone, start)
    assert len(set(times)) == MINUTES - 60
    log = read_log(text_of(with_times(times)), timezone=zone)
    assert_clean(log)
    assert log.start_clock == start.replace(tzinfo=UTC)
    assert str(log.start_clock.tzinfo) == zone
    second = [i for i in range(MINUTES) if times.index(times[i]) != i]
    hour = "02:00" if "Berlin" in zone else "01:00"
    one = finding(log, f"mended: the hour from {hour} comes twice in {zone}; 60 rows read as the second time")
    assert one.count == 60 and one.lines == tuple(i + 2 for i in second)
    assert one.times == tuple(60.0 * i for i in second)


@pytest.mark.parametrize(("zone", "start"), CHANGES["forward"])
def test_an_hour_that_is_left_out_is_no_gap_with_the_zone(zone: str, start: dt.datetime) -> None:
    log = read_log(text_of(with_times(wall(zone, start))), timezone=zone)
    assert_clean(log)
    (one,) = log.summary
    assert (one.action, one.lines) == ("found", (122,)) and "01:59" in one.text and zone in one.text


@pytest.mark.parametrize(("zone", "start"), CHANGES["back"] + CHANGES["forward"])
def test_clock_times_with_a_date_for_the_first_and_a_zone(zone: str, start: dt.datetime) -> None:
    times = wall(zone, start, "%H:%M")
    day = start.replace(tzinfo=UTC).astimezone(ZoneInfo(zone)).date()
    log = read_log(text_of(with_times(times)), timezone=ZoneInfo(zone), date=day)
    assert_clean(log)
    assert log.start_clock == start.replace(tzinfo=UTC)


@pytest.mark.parametrize(("zone", "start"), CHANGES["back"] + CHANGES["forward"])
@pytest.mark.parametrize("dated", [True, False])
def test_without_a_zone_the_change_is_found_and_said(zone: str, start: dt.datetime, dated: bool) -> None:
    start -= dt.timedelta(minutes=30)  # a clock that begins at 00:00 would be taken as elapsed time
    log = read_log(text_of(with_times(wall(zone, start, "%Y-%m-%d %H:%M" if dated else "%H:%M"))))
    assert_clean(log)
    way = "back" if "Oct" in f"{start:%b}" or "Nov" in f"{start:%b}" else "forward"
    one = of_kind(log, f"clock {way}")
    assert one.action == "mended" and len(one.lines) == 1


def test_newest_first_across_the_change() -> None:
    zone, start = CHANGES["back"][0]
    rows = with_times(wall(zone, start))[::-1]
    assert_clean(read_log(text_of(rows), timezone=zone))
    assert_clean(read_log(text_of(rows)))


def test_uneven_readings_across_a_repeated_hour() -> None:
    zone, start = CHANGES["back"][0]
    true = np.cumsum(np.random.default_rng(7).integers(20, 120, MINUTES)).astype(float)
    true -= true[0]
    stamps = [(start.replace(tzinfo=UTC) + dt.timedelta(seconds=t)).astimezone(ZoneInfo(zone)) for t in true]
    text = text_of(with_times([f"{stamp:%Y-%m-%d %H:%M:%S}" for stamp in stamps]))
    np.testing.assert_allclose(read_log(text, timezone=zone).time, true)
    log = read_log(text)
    finding(log, "mended: clock put back one hour after 03:00 (daylight saving?)")
    assert np.abs(log.time - true).max() < 2.0 * 120.0  # an hour is taken out; to the second needs the zone


def test_uneven_readings_across_a_missing_hour_ask_for_the_zone() -> None:
    zone, start = CHANGES["forward"][0]
    true = np.cumsum(np.random.default_rng(8).integers(20, 120, MINUTES)).astype(float)
    true -= true[0]
    stamps = [(start.replace(tzinfo=UTC) + dt.timedelta(seconds=t)).astimezone(ZoneInfo(zone)) for t in true]
    text = text_of(with_times([f"{stamp:%Y-%m-%d %H:%M:%S}" for stamp in stamps]))
    np.testing.assert_allclose(read_log(text, timezone=zone).time, true)
    log = read_log(text)
    finding(
        log, "found: about an hour without rows after 01:59: a gap, or clocks put forward; say timezone=..."
    )
    assert log.duration == pytest.approx(true[-1] + 3600.0)


def test_a_clock_that_nobody_put_forward() -> None:
    times = [f"2024-03-31 {clock(i)}" for i in range(MINUTES)]  # shows 02:00 to 02:59, which Berlin left out
    log = read_log(text_of(with_times(times)), timezone="Europe/Berlin")
    assert_clean(log)
    one = finding(log, "found: 60 rows in an hour that does not exist in Europe/Berlin, from 02:00: ")
    assert one.lines == tuple(range(122, 182))


def test_a_clock_that_nobody_put_back() -> None:
    times = [f"2024-10-27 {clock(i)}" for i in range(MINUTES)]  # passes 02:00 to 02:59 once only
    log = read_log(text_of(with_times(times)), timezone="Europe/Berlin")
    assert_clean(log)
    one = finding(
        log, "found: 60 rows pass once through the hour from 02:00, which comes twice in Europe/Berlin"
    )
    assert one.kind == "clock not changed"


@pytest.mark.parametrize(("hour", "which"), [(0, "first"), (1, "second")])
def test_a_log_that_begins_in_the_doubled_hour(hour: int, which: str) -> None:
    start = dt.datetime(2024, 10, 27, hour, 30)  # UTC: 02:30 for the first or the second time
    log = read_log(text_of(with_times(wall("Europe/Berlin", start))), timezone="Europe/Berlin")
    assert_clean(log)
    assert log.start_clock.astimezone(UTC) == start.replace(tzinfo=UTC)
    again = pickle.loads(pickle.dumps(log))
    assert again == log and again.start_clock.fold == hour
    if which == "second":
        finding(
            log,
            "found: 30 rows in the hour from 02:00, which comes twice in Europe/Berlin, read as the second",
        )


def test_a_log_inside_the_doubled_hour_is_said_to_be_open() -> None:
    times = wall("Europe/Berlin", dt.datetime(2024, 10, 27, 0, 10), count=40)
    log = read_log(text_of(with_times(times)), timezone="Europe/Berlin")
    finding(
        log,
        "found: all rows lie in the hour from 02:00, which comes twice in Europe/Berlin; read as the first",
    )


def test_stamps_with_an_offset_are_shown_in_the_zone() -> None:
    times = [f"2024-05-11T{clock(720 + i)}:00Z" for i in range(MINUTES)]
    log = read_log(text_of(with_times(times)), timezone="America/Chicago")
    assert_clean(log)
    assert f"{log.start_clock:%H:%M}" == "07:00"
    log = read_log(
        text_of(with_times([str(1715428800 + 60 * i) for i in range(MINUTES)])), timezone="Europe/Paris"
    )
    assert f"{log.start_clock:%H:%M}" == "14:00"
    assert "Europe/Paris" in of_kind(log, "unit").text


def test_a_zone_without_use_is_said() -> None:
    log = read_log(text_of(with_times([str(60 * i) for i in range(MINUTES)])), timezone="Europe/Paris")
    assert told(log) == [("ignored", "timezone", 1, ())]
    log = read_log(text_of(with_times([clock(600 + i) for i in range(MINUTES)])), timezone="Europe/Paris")
    assert "date=" in of_kind(log, "timezone").text


@pytest.mark.parametrize("zone", ["Mars/Olympus", "../etc/passwd", "", 5])
def test_unknown_zones_are_refused(zone: object) -> None:
    refused(text_of(with_times([clock(i) for i in range(60)])), "timezone: ", timezone=zone)


def test_marks_by_the_clock_follow_the_change() -> None:
    zone, start = CHANGES["back"][0]
    for call in ({"timezone": zone}, {}):
        log = read_log(text_of(with_times(wall(zone, start))), **call)
        assert log.mark("wrapped", at="01:30").events == (Event("wrapped", 1800.0),)
        assert log.mark("wrapped", at="03:30").events == (Event("wrapped", 3.5 * 3600.0),)
    aware = read_log(text_of(with_times(wall(zone, start))), timezone=zone)
    moment = dt.datetime(2024, 10, 27, 1, 15, tzinfo=UTC)
    assert aware.mark("pulled", at=moment).events[0].time == 8100.0


# ---- dates with slashes


def test_slashes_are_told_by_a_day_beyond_twelve() -> None:
    log = read_log(text_of(with_times([f"5/13/2024 {clock(600 + i)}" for i in range(MINUTES)])))
    assert_clean(log)
    assert log.start_clock == dt.datetime(2024, 5, 13, 10, 0)
    finding(log, "such as '5/13/2024' taken as month/day/year: the other order makes months beyond 12")
    log = read_log(text_of(with_times([f"13/5/24 {clock(600 + i)}" for i in range(MINUTES)])))
    assert log.start_clock == dt.datetime(2024, 5, 13, 10, 0)


def test_slashes_are_told_by_the_length_of_the_log() -> None:
    times = [f"05/{11 + (1380 + i) // 1440}/2024 {clock(1380 + i)}" for i in range(MINUTES)]
    log = read_log(text_of(with_times(times)))
    assert_clean(log)
    assert log.start_clock == dt.datetime(2024, 5, 11, 23, 0)
    finding(log, "taken as month/day/year: the other order makes the log 30 days long")


@pytest.mark.parametrize(("day_first", "month"), [(True, 11), (False, 5)])
def test_slashes_are_told_by_the_call(day_first: bool, month: int) -> None:
    times = [f"05/11/2024 {clock(600 + i)}" for i in range(MINUTES)]
    log = read_log(text_of(with_times(times)), day_first=day_first)
    assert_clean(log)
    assert log.summary == () and log.start_clock.month == month
    refused(text_of(with_times(times)), "say day_first=True or day_first=False")
    refused(text_of(with_times(times)), "day_first: 'yes' of type str came", day_first="yes")
