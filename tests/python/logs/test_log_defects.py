"""Logs: every defect of a logged series on its own, with the line of the summary or the message it makes.

All logs here are invented data: smooth curves with one defect put in by hand.
"""

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from log_samples import (
    HEADER,
    MINUTES,
    assert_clean,
    cells,
    clock,
    core_at,
    finding,
    lines,
    of_kind,
    pit_at,
    refused,
    text_of,
    told,
    with_times,
)
from said import durations

from libcook.logs import Event, read_log

# ---- time


@pytest.mark.parametrize(
    ("header", "scale"),
    [
        ("time [s]", 1),
        ("seconds", 1),
        ("minutes", 60),
        ("time (min)", 60),
        ("hours", 3600),
        ("elapsed_h", 3600),
    ],
)
def test_unit_of_time_from_the_header(header: str, scale: int) -> None:
    rows = with_times([str(60 * i / scale) for i in range(MINUTES)])
    log = read_log(text_of(rows, f"{header},core (C),pit (C)"))
    assert_clean(log)
    assert log.summary == ()


@pytest.mark.parametrize(("word", "scale"), [("seconds", 1), ("minutes", 60), ("hours", 3600)])
def test_unit_of_time_is_guessed_and_said(word: str, scale: int) -> None:
    rows = with_times([f"{60 * i / scale:.6g}" for i in range(MINUTES)])
    log = read_log(text_of(rows, "time,core (C),pit (C)"))
    np.testing.assert_allclose(log.time, 60.0 * np.arange(MINUTES), rtol=1e-5)
    assert f"'time' has no unit; taken as {word}" in of_kind(log, "unit").text


@pytest.mark.parametrize("form", ["2024-05-11T{}", "2024-05-11 {}", "2024/05/11 {}", "11.05.2024 {}"])
def test_time_stamps(form: str) -> None:
    log = read_log(text_of(with_times([form.format(clock(720 + i)) for i in range(MINUTES)])))
    assert_clean(log)
    assert log.start_clock == dt.datetime(2024, 5, 11, 12, 0)


def test_time_stamps_with_zone() -> None:
    times = [f"2024-05-11T{clock(720 + i)}:00Z" for i in range(150)]
    times += [f"2024-05-11T{clock(840 + i)}:00+02:00" for i in range(150, MINUTES)]
    log = read_log(text_of(with_times(times)))
    assert_clean(log)
    assert log.start_clock == dt.datetime(2024, 5, 11, 12, 0, tzinfo=dt.timezone.utc)


def test_mixed_zones_are_refused() -> None:
    times = [f"2024-05-11T{clock(i, True)}" + "Z" * (i % 2) for i in range(60)]
    refused(text_of(with_times(times)), "mixes time stamps with and without a time zone")


def test_posix_time() -> None:
    log = read_log(text_of(with_times([str(1715428800 + 60 * i) for i in range(MINUTES)])))
    assert_clean(log)
    assert log.start_clock == dt.datetime(2024, 5, 11, 12, 0, tzinfo=dt.timezone.utc)
    assert "POSIX" in lines(log)


def test_date_in_its_own_column() -> None:
    rows = [
        [f"2024-05-{11 + (1380 + i) // 1440}", clock(1380 + i), *row[1:]] for i, row in enumerate(cells())
    ]
    log = read_log(text_of(rows, "date,time,core (C),pit (C)"))
    assert_clean(log)
    assert log.start_clock == dt.datetime(2024, 5, 11, 23, 0)


def test_clock_crosses_midnight() -> None:
    log = read_log(text_of(with_times([clock(1380 + i) for i in range(MINUTES)])))
    assert_clean(log)
    assert log.start_clock == dt.time(23, 0)
    assert finding(log, "passes midnight").times == (3600.0,)
    said = of_kind(log, "no date").text
    assert "23:00" in said and "date=" in said


def test_clock_with_am_and_pm() -> None:
    times = [
        f"{(660 + i) // 60 % 12 or 12}:{i % 60:02d} {'am' if 660 + i < 720 else 'pm'}" for i in range(MINUTES)
    ]
    log = read_log(text_of(with_times(times)))
    assert_clean(log)
    assert log.start_clock == dt.time(11, 0)


@pytest.mark.parametrize("header", ["elapsed", "time"])
def test_elapsed_time(header: str) -> None:
    log = read_log(
        text_of(with_times([clock(i, True) for i in range(MINUTES)]), f"{header},core (C),pit (C)")
    )
    assert_clean(log)
    assert log.start_clock is None
    assert ("elapsed time" in lines(log)) == (header == "time")


def test_elapsed_beyond_a_day_keeps_its_start() -> None:
    times = [f"{(1410 + i) // 60}:{i % 60 + 30 if i % 60 < 30 else i % 60 - 30:02d}" for i in range(MINUTES)]
    log = read_log(text_of(with_times(times)))
    assert log.time[0] == 1410 * 60.0
    assert log.duration == 60.0 * (MINUTES - 1)


def test_clock_set_back_in_the_night() -> None:
    times = [f"2024-10-27 {clock(i if i < 180 else i - 60)}" for i in range(MINUTES)]
    log = read_log(text_of(with_times(times)))
    assert_clean(log)
    one = finding(log, "mended: clock put back one hour after 02:59 (daylight saving?)")
    assert one.times == (179 * 60.0,)


def test_clock_set_forward_in_the_night() -> None:
    times = [clock(1380 + (i if i < 180 else i + 60)) for i in range(MINUTES)]
    log = read_log(text_of(with_times(times)))
    assert_clean(log)
    finding(log, "mended: clock put forward one hour after 01:59 (daylight saving?)")


def test_an_hour_missing_by_day_is_a_gap() -> None:
    times = [f"2024-05-11 {clock(600 + (i if i < 180 else i + 60))}" for i in range(MINUTES)]
    log = read_log(text_of(with_times(times)))
    assert log.time[-1] == 60.0 * (MINUTES - 1 + 60)
    assert told(log) == [("found", "gap", 1, (181,))] and durations(lines(log)) == [61, 179]


def test_rows_out_of_order() -> None:
    rows = cells()
    rows[100], rows[101] = rows[101], rows[100]
    log = read_log(text_of(rows))
    assert_clean(log)
    assert told(log) == [("mended", "unsorted", 1, (103,))] and "1 h 40 min" in lines(log)


def test_newest_first() -> None:
    log = read_log(text_of(with_times([clock(1380 + i) for i in range(MINUTES)])[::-1]))
    assert_clean(log)
    assert of_kind(log, "newest first").action == "mended" and of_kind(log, "newest first").count == MINUTES


def test_double_times() -> None:
    rows = cells()
    rows.insert(51, [rows[50][0], str(core_at(50) + 1.0), rows[50][2]])
    log = read_log(text_of(rows))
    assert log.time.size == MINUTES
    assert log.core[50] == pytest.approx(core_at(50) + 0.5)
    same = "1 row with the time of another (up to 0.5 °C from their mean), at 50 min"
    assert lines(log) == f"mended: {same}; averaged (line 53)"


def test_equal_double_rows() -> None:
    rows = cells()
    rows.insert(51, rows[50])
    log = read_log(text_of(rows))
    assert_clean(log)
    assert told(log) == [("mended", "double", 1, (53,))] and "equal" in lines(log)


def test_unreadable_time_of_one_row() -> None:
    rows = cells()
    rows[-1][0] = "stopped"
    log = read_log(text_of(rows))
    assert_clean(log, MINUTES - 1)
    assert told(log) == [("ignored", "no time", 1, (301,))] and "'stopped'" in lines(log)


def test_a_clock_that_was_not_set_at_first() -> None:
    times = [f"1970-01-01 {clock(i)}" for i in range(3)]
    times += [f"2024-05-11 {clock(600 + i)}" for i in range(3, MINUTES)]
    log = read_log(text_of(with_times(times)))
    np.testing.assert_allclose(log.core, [core_at(i) for i in range(3, MINUTES)])
    assert log.start_clock == dt.datetime(2024, 5, 11, 10, 3)
    finding(log, "ignored: 3 rows more than 30 days from most others ('1970-01-01 00:00') (lines 2 to 4)")


def test_two_cooks_in_one_file_are_refused() -> None:
    times = [f"2024-0{5 + i // 150}-01 {clock(600 + i)}" for i in range(MINUTES)]
    refused(
        text_of(with_times(times)), "time: 150 rows more than 30 days from most others ('2024-05-01 10:00')"
    )


def test_ambiguous_dates_are_refused() -> None:
    times = [f"05/11/2024 {clock(i)}" for i in range(60)]
    refused(text_of(with_times(times)), "did you mean an ISO date, year first?")


# ---- temperatures


def fahrenheit(rows: list[list[str]]) -> list[list[str]]:
    return [[time, *(f"{float(cell) * 1.8 + 32:.6f}" for cell in rest)] for time, *rest in rows]


@pytest.mark.parametrize(
    "header", ["time [s],core °F,pit °F", "time [s],Core Temp (F),Pit Temp (F)", "time_s,core_F,pit_F"]
)
def test_fahrenheit_from_the_header(header: str) -> None:
    log = read_log(text_of(fahrenheit(cells()), header))
    assert_clean(log)
    assert log.summary == ()


def test_fahrenheit_from_the_call() -> None:
    log = read_log(text_of(fahrenheit(cells()), "time [s],core,pit"), units="°F")
    assert_clean(log)
    mixed = [[row[0], f"{float(row[1]) * 1.8 + 32:.6f}", row[2]] for row in cells()]
    assert_clean(read_log(text_of(mixed, "time [s],core,pit"), units={"core": "F", "pit": "C"}))


def test_call_against_header_is_said() -> None:
    log = read_log(text_of(fahrenheit(cells())), units="F")
    assert_clean(log)
    assert {(one.kind, one.column) for one in log.summary} >= {("unit", "core"), ("unit", "pit")}


def test_scale_is_guessed_and_said() -> None:
    log = read_log(text_of(fahrenheit(cells()), "time [s],core,pit"))
    assert_clean(log)
    finding(log, "found: no unit for 'core', 'pit'; taken as °F: the core reaches 1")
    log = read_log(text_of(cells(), "time [s],core,pit"))
    assert_clean(log)
    finding(log, "taken as °C: the pit is at 123 in the middle, which in the other scale is too cool")
    log = read_log(text_of(cells(), "time [s],core,pit (C)"))
    assert_clean(log)
    finding(log, "found: no unit for 'core'; taken as °C: like the other columns")


def test_scale_that_cannot_be_told_is_refused() -> None:
    rows = [[str(60 * i), str(40 + 0.1 * i)] for i in range(MINUTES)]
    refused(
        text_of(rows, "time [s],core"), "units: the columns do not say °C or °F and their range fits both"
    )


def test_fahrenheit_called_celsius_is_refused() -> None:
    rows = [[str(60 * i), str(80 + 0.4 * i)] for i in range(MINUTES)]
    refused(text_of(rows, "time [s],core (C)"), "did you mean °F")


@pytest.mark.parametrize(
    ("cell", "line"),
    [
        ("", "mended: 'core (C)': 1 reading blank, at 50 min; marked missing"),
        ("NaN", "mended: 'core (C)': 1 reading blank, at 50 min; marked missing"),
        ("--", "mended: 'core (C)': 1 reading blank, at 50 min; marked missing"),
        ("HH", "mended: 'core (C)': 1 reading not a number ('HH'), at 50 min; marked missing"),
        (
            "-999",
            "mended: 'core (C)': 1 reading of -999, a stand-in for no reading, at 50 min; marked missing",
        ),
        (
            "0",
            "mended: 'core (C)': 1 reading of exactly 0, far from neighbours, at 50 min; marked missing",
        ),
        (
            "-127",
            "mended: 'core': 1 reading such as -127 °C, outside -40 °C to 600 °C, at 50 min; marked missing",
        ),
    ],
)
def test_dropouts(cell: str, line: str) -> None:
    rows = cells()
    rows[50][1] = cell
    log = read_log(text_of(rows))
    assert lines(log) == f"{line} (line 52)"
    assert finding(log, line).lines == (52,) and finding(log, line).kind == "dropout"
    assert np.flatnonzero(~np.isfinite(log.core)).tolist() == [50]
    assert finding(log, "marked missing").times == (3000.0,)
    time, values = log.series("core")
    assert time.size == MINUTES - 1
    assert np.isfinite(values).all()
    assert (np.diff(time) > 0.0).all()


def test_a_core_at_freezing_stays() -> None:
    rows = [[str(60 * i), str(round(0.2 * i, 2)), str(pit_at(i))] for i in range(MINUTES)]
    log = read_log(text_of(rows))
    assert log.core[0] == 0.0
    assert log.summary == ()


def test_spike_when_the_probe_is_pulled() -> None:
    rows = cells()
    for i in (150, 151, 152):
        rows[i][1] = "95.0"
    log = read_log(text_of(rows))
    assert np.flatnonzero(~np.isfinite(log.core)).tolist() == [150, 151, 152]
    spike, proposed = log.summary
    assert told(log)[0] == ("mended", "spike", 3, (152, 153, 154)) and spike.column == "core"
    assert spike.times == (9000.0, 9060.0, 9120.0)
    assert proposed.kind == "proposed" and proposed.times == (9000.0,) and "propose_events()" in proposed.text


def test_lid_dips_of_the_pit_stay_and_flashes_go() -> None:
    rows = cells()
    rows[100][2] = "70"
    rows[200][2] = "300"
    log = read_log(text_of(rows))
    assert log.pit[100] == 70.0
    assert np.isnan(log.pit[200])
    dip, spike = of_kind(log, "dip"), of_kind(log, "spike")
    assert (dip.action, dip.column, dip.times) == ("found", "pit", (6000.0,))
    assert (spike.action, spike.column, spike.times) == ("mended", "pit", (12000.0,))


def test_lasting_steps_and_bends_are_not_spikes() -> None:
    core = [4 + 0.2 * i if i < 150 else 34 + 0.02 * (i - 150) for i in range(MINUTES)]
    rows = [[str(60 * i), f"{core[i]:.2f}", "120" if i < 200 else "22"] for i in range(MINUTES)]
    assert read_log(text_of(rows)).summary == ()


@settings(deadline=None)  # tests assert no times
@given(st.integers(0, 2**32 - 1))
def test_noise_alone_makes_no_spikes(seed: int) -> None:
    noise = np.random.default_rng(seed).normal(0.0, 0.5, MINUTES)
    rows = [[str(60 * i), f"{20 + 0.2 * i + noise[i]:.2f}", str(pit_at(i))] for i in range(MINUTES)]
    assert read_log(text_of(rows)).summary == ()


def test_gap() -> None:
    rows = cells()
    del rows[101:131]
    log = read_log(text_of(rows))
    assert told(log) == [("found", "gap", 1, (102,))] and durations(lines(log)) == [31, 100]


def test_gap_of_one_column() -> None:
    rows = cells()
    for row in rows[101:131]:
        row[1] = ""
    log = read_log(text_of(rows))
    finding(log, "found: 'core': 1 gap, the longest 31 min, at 1 h 40 min; left to interpolation")


def test_irregular_sampling_is_kept_and_said() -> None:
    times = np.cumsum(np.random.default_rng(3).uniform(20.0, 120.0, MINUTES)).round(1)
    rows = with_times([str(time) for time in times])
    log = read_log(text_of(rows))
    np.testing.assert_allclose(log.time, times)
    assert [one.kind for one in log.summary] == ["uneven"] and "28 s to 2 min" in lines(log)


def test_short_rows() -> None:
    rows = cells()
    rows[-1] = rows[-1][:2]
    log = read_log(text_of(rows))
    assert np.isnan(log.pit[-1])
    finding(log, "found: 1 row with fewer cells than columns; read as no reading (line 301)")


def test_columns_that_are_left_out_are_named() -> None:
    rows = [[*row, "55", "120", "", "x"] for row in cells()]
    log = read_log(text_of(rows, HEADER + ",humidity,pit set (C),spare (C),state"))
    assert set(log.columns) == {"core", "pit"}
    for part in (
        "'humidity': not a temperature",
        "'pit set (C)': a setting",
        "'spare (C)': empty",
        "'state': holds no",
    ):
        assert finding(log, part).action == "ignored"


def test_events_from_the_call() -> None:
    log = read_log(text_of(cells()), events=[("2 h", "wrapped"), (60.0, "meat on")])
    assert log.events == (Event("meat on", 60.0, "call"), Event("wrapped", 7200.0, "call"))
    refused(text_of(cells()), "events[0]: 'soon' does not start with a number", events=[("soon", "x")])
    refused(text_of(cells()), "events[0]: 3 came; events, or pairs", events=[3])
