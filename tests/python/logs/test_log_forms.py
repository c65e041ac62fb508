"""Forms of times, headers, units and files, one at a time, on invented logs: a row every 15 min."""

import datetime as dt
import io
import zipfile

import numpy as np
import pytest
from log_samples import of_kind, refused

from libcook.errors import InvalidInput
from libcook.logs import Event, Log, read_log

FIRST = dt.datetime(2026, 11, 14, 22, 50)  # over midnight, and over noon where the clock has twelve hours
ROWS = 14


def moment(i: int) -> dt.datetime:
    return FIRST + dt.timedelta(minutes=15 * i)


def core_at(i: int) -> float:
    return round(4.0 + 1.5 * i, 1)


def pit_at(i: int) -> float:
    return 118.0 + 1.5 * (i % 4)


def text(header: str, row: object, mark: str = ";", ending: str = "") -> str:
    """A log; `row` makes the cells of one row before those of core and pit."""
    rows = [f"{row(i)}{mark}{core_at(i)}{ending}{mark}{pit_at(i)}{ending}" for i in range(ROWS)]
    return "\n".join([header, *rows]) + "\n"


def assert_read(log: Log) -> None:
    np.testing.assert_allclose(log.time, 900.0 * np.arange(ROWS), atol=0.2)
    np.testing.assert_allclose(log.core, [core_at(i) for i in range(ROWS)])
    np.testing.assert_allclose(log.pit, [pit_at(i) for i in range(ROWS)])


def german(when: dt.datetime) -> str:
    return f"{when.day}. November {when:%Y %H:%M}"


STAMPS = {
    "month and comma": lambda when: f"{when:%b %d, %Y %I:%M %p}",
    "whole month, seconds": lambda when: f"{when:%B %d, %Y %I:%M:%S %p}",
    "day of the week": lambda when: f"{when:%A, %B %d, %Y %I:%M:%S %p}",
    "ordinal": lambda when: f"Nov {when.day}th, {when:%Y %H:%M}",
    "day first, month": lambda when: f"{when:%d %b %Y %H:%M}",
    "dashes, month": lambda when: f"{when:%d-%b-%y %H:%M}",
    "year first, month": lambda when: f"{when:%Y-%b-%d %H:%M}",
    "German": german,
    "German, with the day and o'clock": lambda when: f"Samstag, {german(when)} Uhr",
    "French": lambda when: f"{when.day} nov. {when:%Y à %Hh%M}",
    "Spanish": lambda when: f"{when.day} de noviembre de {when:%Y %H:%M}",
    "two-digit year, points": lambda when: f"{when:%d.%m.%y %H:%M}",
    "points in the clock": lambda when: f"{when:%d.%m.%Y %H.%M}",
    "two-digit year, slashes": lambda when: f"{when:%m/%d/%y %I:%M %p}",
    "pm with points and a blank": lambda when: f"{when:%d/%m/%Y %I:%M }{'a' if when.hour < 12 else 'p'}. m.",
    "narrow no-break space": lambda when: f"{when:%m/%d/%Y, %I:%M:%S}\u202f{when:%p}",
    "as C writes it": lambda when: f"{when:%a %b %d %H:%M:%S %Y}",
    "basic ISO": lambda when: f"{when:%Y%m%dT%H%M%S}",
    "digits alone": lambda when: f"{when:%Y%m%d%H%M%S}",
    "milliseconds": lambda when: f"{when:%Y-%m-%dT%H:%M:%S}.250",
    "guarded": lambda when: f'="{when:%Y-%m-%d %H:%M}"',
}


@pytest.mark.parametrize("form", STAMPS)
def test_a_stamp_of_this_form_is_read(form: str) -> None:
    log = read_log(text("time;core (C);pit (C)", lambda i: STAMPS[form](moment(i))))
    assert_read(log)
    assert log.start_clock.replace(microsecond=0) == FIRST


@pytest.mark.parametrize("form", ["month and comma", "day of the week", "narrow no-break space"])
def test_a_stamp_that_its_commas_divide_is_put_together(form: str) -> None:
    log = read_log(text("time,core (C),pit (C)", lambda i: STAMPS[form](moment(i)), ","))
    assert_read(log)
    assert log.start_clock == FIRST
    one = of_kind(log, "joined date")
    assert (one.action, one.count, one.lines) == ("mended", ROWS, tuple(range(2, ROWS + 2)))


def test_a_divided_stamp_before_an_empty_cell_is_put_together() -> None:
    lines = text("time,core (C),pit (C)", lambda i: STAMPS["month and comma"](moment(i)), ",").splitlines()
    lines[5] = lines[5].rpartition(",")[0] + ","
    log = read_log("\n".join(lines))
    assert len(log) == ROWS and np.flatnonzero(np.isnan(log.pit)).tolist() == [4]


def test_a_date_is_put_together_without_a_header_too() -> None:
    rows = text("", lambda i: f"{moment(i):%b %d, %Y %H:%M}", ",").lstrip("\n")
    log = read_log(rows, units="C")
    assert_read(log)
    assert log.start_clock == FIRST and of_kind(log, "joined date").count == ROWS


def test_date_and_time_in_two_columns_are_not_put_together() -> None:
    log = read_log(text("date,time,core (C),pit (C)", lambda i: f"{moment(i):%Y-%m-%d,%H:%M}", ","))
    assert_read(log)
    wrong = text("date,time,core (C),pit (C)", lambda i: f"{moment(i):%Y-%m-%d,%H:%M},7", ",")
    refused(wrong, "line 2 has 5 cells for 4 columns")


@pytest.mark.parametrize(
    ("form", "offset"),
    [
        ("{:%Y-%m-%d %H:%M:%S} UTC", 0),
        ("{:%Y-%m-%d %H:%M:%S}+01", 1),
        ("{:%a %b %d %Y %H:%M:%S} GMT-0600 (a zone of its own)", -6),
        ("{:%a, %d %b %Y %H:%M:%S} +0200", 2),
    ],
)
def test_offsets(form: str, offset: int) -> None:
    log = read_log(text("time;core (C);pit (C)", lambda i: form.format(moment(i))))
    assert_read(log)
    assert log.start_clock == FIRST.replace(tzinfo=dt.timezone(dt.timedelta(hours=offset)))


@pytest.mark.parametrize(
    ("size", "word"),
    [(1, "seconds"), (10**3, "milliseconds"), (10**6, "microseconds"), (10**9, "nanoseconds")],
)
def test_counts_since_1970(size: int, word: str) -> None:
    first = int(FIRST.replace(tzinfo=dt.timezone.utc).timestamp())
    log = read_log(text("x;core (C);pit (C)", lambda i: str((first + 900 * i) * size)))
    assert_read(log)
    assert log.start_clock == FIRST.replace(tzinfo=dt.timezone.utc)
    assert any(f"counts {word} from 1970" in one.text for one in log.summary)
    assert of_kind(log, "guess").text == "column 'x' taken as the time"


ELAPSED = {
    "h:mm": (lambda i: f"{15 * i // 60}:{15 * i % 60:02d}", {}),
    "mm:ss as told": (lambda i: f"{15 * i}:00", {"units": {"elapsed": "mm:ss"}}),
    "words": (lambda i: f"{15 * i // 60}h {15 * i % 60:02d}m", {}),
    "German words": (lambda i: f"{15 * i // 60} Std. {15 * i % 60} Min.", {}),
    "minutes": (lambda i: f"{15 * i} min", {}),
    "days": (lambda i: f"{0} days {15 * i // 60:02d}:{15 * i % 60:02d}:00", {}),
    "number as told": (lambda i: f"{0.25 * i}", {"units": {"elapsed": "h"}}),
    "thousands": (lambda i: f"{900 * i:,}", {"units": {"time": "s"}}),
}


@pytest.mark.parametrize("form", ELAPSED)
def test_an_elapsed_time_of_this_form_is_read(form: str) -> None:
    row, call = ELAPSED[form]
    log = read_log(text("elapsed;core (C);pit (C)", row), **call)
    assert_read(log)
    assert log.start_clock is None


def test_hours_with_a_point_are_times_of_day_where_that_makes_rows_even() -> None:
    log = read_log(text("Uhrzeit;Kern (C);Garraum (C)", lambda i: f"{moment(i):%H.%M}"))
    assert_read(log)
    assert log.start_clock == FIRST.time()
    decimal = read_log(text("hours;core (C);pit (C)", lambda i: f"{0.25 * i:.2f}"))
    assert_read(decimal)


# ---- headers

ENGLISH = """
Meat|Smoker, Internal|Chamber, Food|Ambient, Brisket|BBQ, Pork butt|Grate,
Probe 1 (Meat)|Probe 2 (Pit), Meat probe|Pit probe, Food probe|Grill probe,
meatTemp|pitTemp, MEAT_TEMP|OVEN_TEMP, probes.meat|probes.air,
Roast|Oven"""
GERMAN = """
Kern|Garraum, Kerntemperatur|Grillraumtemperatur, Fleisch|Ofen, Braten|Umgebung,
Gargut|Räucherofen, Fleischkerntemperatur|Kammer, Kernfühler|Grill"""
FRENCH = """Cœur|Four, Température à cœur|Température du four, Viande|Fumoir, Sonde|Enceinte"""
SPANISH = """Carne|Horno, Núcleo|Parrilla, Pecho|Ahumador, Sonda|Cámara"""
WORDS = [
    tuple(pair.strip().split("|"))
    for words in (ENGLISH, GERMAN, FRENCH, SPANISH)
    for pair in words.split(",")
]


@pytest.mark.parametrize(("meat", "pit"), WORDS)
@pytest.mark.parametrize("time", ["Time", "Zeit", "Horodatage", "Hora"])
def test_columns_are_known_by_the_words_of_a_cook(time: str, meat: str, pit: str) -> None:
    log = read_log(text(f"{time};{meat};{pit}", lambda i: f"{moment(i)}"), units="C")
    assert_read(log)
    assert list(log.columns) == ["core", "pit"]
    guessed = {one.column for one in log.summary if one.kind == "guess"}
    literal = {name for name in (meat, pit) if {"core", "pit"} & set(name.lower().replace("_", " ").split())}
    assert guessed | {meat, pit} == {meat, pit} and not literal & guessed


@pytest.mark.parametrize(
    ("header", "scale"),
    [
        ("°C", "C"), ("C", "C"), ("deg C", "C"), ("degrees C", "C"), ("Celsius", "C"),
        ("Grad Celsius", "C"),
        ("in °C", "C"), ("ºC", "C"), ("℃", "C"), ("Â°C", "C"), ("\ufffdC", "C"),
        ("°F", "F"), ("℉", "F"), ("Fahrenheit", "F"), ("DEG F", "F"), ("K", "K"),
    ],
)  # fmt: skip
def test_units_of_the_header(header: str, scale: str) -> None:
    change = {"C": lambda x: x, "F": lambda x: 1.8 * x + 32.0, "K": lambda x: x + 273.15}[scale]
    rows = [f"{900 * i};{change(core_at(i)):.2f};{change(pit_at(i)):.2f}" for i in range(ROWS)]
    log = read_log("\n".join([f"time [s];core ({header});pit [{header}]", *rows]))
    assert log.summary == () and log.units == ("F" if scale == "F" else "C")
    np.testing.assert_allclose(log.core, [core_at(i) for i in range(ROWS)], atol=0.01)


def test_a_title_that_names_the_other_scale_is_refused() -> None:
    said = text("Converted from °F\ntime;core;pit", lambda i: str(moment(i)))
    refused(said, "'Converted from °F' says °F, but it looks like °C")
    assert_read(read_log(said, units="C"))


def test_a_column_of_units_that_differs_from_the_header_is_refused() -> None:
    rows = "\n".join(f"{i};{core_at(i)};{pit_at(i)};F" for i in range(ROWS))
    refused(f"minutes;core (C);pit (C);unit\n{rows}", "column 'core (C)' says °C and its cells °F")


def test_air_that_never_gets_hot_is_no_pit() -> None:
    rows = "\n".join(f"{15 * i};{core_at(i)};{18 + i % 3}" for i in range(ROWS))
    log = read_log(f"minutes;core (C);ambient (C)\n{rows}")
    assert list(log.columns) == ["core", "ambient"]
    assert "pit='ambient (C)'" in of_kind(log, "guess").text
    assert "pit" in read_log(f"minutes;core (C);ambient (C)\n{rows}", pit="ambient (C)").columns
    outside = read_log(f"minutes;core (C);outside air (C)\n{rows}")
    assert list(outside.columns) == ["core", "outside_air"]


@pytest.mark.parametrize(
    ("name", "cell", "said"),
    [
        ("Row", lambda i: i, "'Row': not a temperature; say units={'Row': 'C'}"),
        ("Seq", lambda i: i + 1, "'Seq': counts the rows; say units={'Seq': 'C'}"),
        ("Lid open", lambda i: i % 2, "'Lid open': only 0 and 1"),
        ("Minutes", lambda i: 15 * i, "'Minutes': another column of times; say time='Minutes'"),
        ("Elapsed", lambda i: f"{i}:00", "'Elapsed': another column of times; say time='Elapsed'"),
        ("Mode", lambda i: "hold", "'Mode': holds no numbers but text such as 'hold'; say events="),
        ("Fan [rpm]", lambda i: 900, "'Fan [rpm]': not a temperature"),
        ("Pit target", lambda i: 120, "'Pit target': a setting, not a reading; say units={"),
    ],
)
def test_what_is_no_temperature_is_left_out_aloud(name: str, cell: object, said: str) -> None:
    rows = "\n".join(f"{moment(i)};{core_at(i)};{pit_at(i)};{cell(i)}" for i in range(ROWS))
    log = read_log(f"time;core (C);pit (C);{name}\n{rows}")
    assert list(log.columns) == ["core", "pit"]
    one = of_kind(log, "column")
    assert one.column == name and said in one.text and said in log.report()


@pytest.mark.parametrize("other", ["Grill fan", "Grill fan (%)", "Smoker power", "Pit target", "Oven [rpm]"])
def test_what_stands_beside_the_pit_is_not_taken_for_it(other: str) -> None:
    rows = "\n".join(f"{moment(i)};{core_at(i)};{pit_at(i)};{50 + i % 3}" for i in range(ROWS))
    assert_read(read_log(f"time;Meat (C);Grill temp (C);{other}\n{rows}"))
    alone = "\n".join(f"{moment(i)};{core_at(i)};{50 + i % 3}" for i in range(ROWS))
    assert list(read_log(f"time;Meat (C);{other}\n{alone}").columns) == ["core"]


def test_the_last_letter_names_a_probe_only_where_nothing_else_does() -> None:
    rows = "\n".join(f"{moment(i)};{core_at(i)};{core_at(i) + 2}" for i in range(ROWS))
    log = read_log(f"time;Meat probe C;Probe F\n{rows}")
    assert list(log.columns) == ["core", "probe_f"] and log["probe_f"][0] == 6.0
    assert of_kind(log, "unit").text.startswith("no unit for 'Probe F'; taken as °C: like the other")


def test_a_probe_called_four_is_no_oven() -> None:
    rows = "\n".join(f"{moment(i)};{core_at(i)};{core_at(i) + 2}" for i in range(ROWS))
    log = read_log(f"time;Probe Three (C);Probe Four (C)\n{rows}", core="Probe Three")
    assert list(log.columns) == ["core", "probe_four"]


def test_a_unit_of_temperature_outweighs_words() -> None:
    rows = "\n".join(f"{moment(i)};{core_at(i)};{30 + i}" for i in range(ROWS))
    assert "fan" in read_log(f"time;core (C);fan temp (°C)\n{rows}").columns
    assert "probe_no_2" in read_log(f"time;core (C);probe no. 2\n{rows}").columns


def test_a_column_that_units_names_is_read() -> None:
    rows = "\n".join(f"{moment(i)};{core_at(i)};{pit_at(i)};{20 + i}" for i in range(ROWS))
    header = "time;core (C);pit (C);fan"
    assert "fan" in read_log(f"{header}\n{rows}", units={"fan": "C"}).columns
    with pytest.raises(InvalidInput, match="units: no column is called 'flat'; the log has: 'time'"):
        read_log(f"{header}\n{rows}", units={"flat": "C"})


# ---- the form of the file


def test_skip_counts_lines() -> None:
    log = text("time;core (C);pit (C)", lambda i: str(moment(i)))
    assert_read(read_log(f"a;b\n\n1;2\n{log}", skip=3))
    assert of_kind(read_log(f"a;b\n\n1;2\n{log}", skip=3), "skip").lines == (1, 2, 3)
    refused(log, "nothing is left of the log after 90 lines", skip=90)
    refused(log, "skip: -1 came", skip=-1)
    refused("[{}]", "skip: the log is JSON", skip=1)
    refused(log, "sheet: the log is no workbook", sheet="a")


def test_json_in_one_line_is_text_and_no_path() -> None:
    assert len(read_log('[{"s": 0, "core °C": 4}, {"s": 60, "core °C": 5}]')) == 2
    rows = read_log('[["time [s]", "core °C"], [0, 4.5], [60, 5.5]]')
    assert rows.core.tolist() == [4.5, 5.5]
    refused('{"a": [{"b": 1}], "c": [{"b": 1}]}', "holds 2 lists of records ('a', 'c')")
    refused('{"a": [1, 2], "c": [1, 2, 3]}', "lists of different lengths ('a': 2, 'c': 3)")
    refused('{"a": {"b": 3}}', "the JSON holds no list of records")
    refused("[" * 5000 + "\n", "the JSON cannot be read")


def test_json_with_events_among_its_lines() -> None:
    lines = [f'{{"time": "{moment(i)}", "core °C": {core_at(i)}}}' for i in range(ROWS)]
    lines.insert(6, f'{{"time": "{moment(5)}", "event": "wrapped"}}')
    log = read_log("\n".join(lines))
    assert log.events == (Event("wrapped", 4500.0, "file", "wrapped"),)


def test_rows_for_each_probe_are_never_averaged() -> None:
    def rows(names: tuple[str, str], shift: int) -> str:
        made = []
        for i in range(ROWS):
            made.append(f"{moment(i)},{names[0]},{core_at(i)}")
            made.append(f"{moment(i) + dt.timedelta(seconds=shift)},{names[1]},{pit_at(i)}")
        return "time,probe,value\n" + "\n".join(made) + "\n"

    assert_read(read_log(rows(("Meat", "Pit"), 0), units="C"))
    apart = read_log(rows(("Meat", "Pit"), 2), units="C")
    assert apart.series("core")[1].tolist() == [core_at(i) for i in range(ROWS)]
    assert apart.series("pit")[0].tolist() == [900.0 * i + 2.0 for i in range(ROWS)]
    refused(rows(("1", "2"), 0), "2 columns could be the core: 'probe 1', 'probe 2'")
    numbered = read_log(rows(("1", "2"), 0), core="probe 1", pit="probe 2", units="C")
    assert_read(numbered)


def test_a_workbook_of_another_kind_is_refused_in_words() -> None:
    kinds = {"mimetype": "a document of another kind than .xlsx", "cook.csv": "an archive of 1 file"}
    for name, said in kinds.items():
        raw = io.BytesIO()
        with zipfile.ZipFile(raw, "w") as archive:
            archive.writestr(name, "x")
        refused(raw.getvalue(), said)
    refused(b"\x1f\x8b\x08" + bytes(20), "the file is packed (gzip); unpack it first")
    refused(b"PK\x03\x04" + bytes(50), "a workbook or archive that is damaged or cut short")


# ---- one damaged cell among good ones


@pytest.mark.parametrize(
    ("header", "cell", "said"),
    [
        ("core;pit", "12.5 °F", "with a unit, such as '12.5 °F', among others without; marked missing"),
        ("core (C);pit (C)", "50 °F", "13 in °C as the header says; each read in its own unit"),
    ],
)
def test_one_cell_with_a_unit_does_not_decide_for_all(header: str, cell: str, said: str) -> None:
    lines = text(f"time;{header}", lambda i: str(moment(i))).splitlines()
    lines[4] = ";".join([*lines[4].split(";")[:2], cell])
    log = read_log("\n".join(lines))
    assert said in log.report() and log.units == "C"
    kept = [i for i in range(ROWS) if i != 3]
    np.testing.assert_allclose(log.pit[kept], [pit_at(i) for i in kept])
    assert np.isnan(log.pit[3]) if "(C)" not in header else log.pit[3] == pytest.approx(10.0)


def test_one_note_that_is_a_number_stays_a_note() -> None:
    notes = {3: "wrapped", 5: "spritz", 8: "45"}
    rows = "\n".join(f"{moment(i)};{core_at(i)};{notes.get(i, '')}" for i in range(ROWS))
    log = read_log(f"time;core (C);Bemerkung\n{rows}")
    assert [event.note for event in log.events] == ["wrapped", "spritz", "45"]
    assert list(log.columns) == ["core"]


def test_a_date_that_lost_its_time_is_left_out_and_midnight_is_not() -> None:
    lines = text("time;core (C);pit (C)", lambda i: str(moment(i))).splitlines()
    lost = [line.replace("2026-11-14 23:20:00", "2026-11-14") for line in lines]
    log = read_log("\n".join(lost))
    assert log.start_clock == FIRST and of_kind(log, "no time").lines == (4,)
    eleven = dt.datetime(2026, 11, 14, 23)
    midnight = "\n".join(f"{eleven + dt.timedelta(minutes=30 * i)};{i}" for i in range(6))
    log = read_log("time;core (C)\n" + midnight.replace("2026-11-15 00:00:00", "2026-11-15"))
    assert log.time.tolist() == [1800.0 * i for i in range(6)]


def test_one_damaged_count_moves_no_start() -> None:
    first = int(FIRST.replace(tzinfo=dt.timezone.utc).timestamp())
    cells = [str(first + 900 * i) for i in range(ROWS)]
    cells[7] = "125"
    log = read_log(text("ts;core (C);pit (C)", lambda i: cells[i]))
    assert log.start_clock == FIRST.replace(tzinfo=dt.timezone.utc) and len(log) == ROWS - 1
    days = [f"{46340.95 + i / 96:.6f}" for i in range(ROWS)]
    days[7] = "999"
    log = read_log(text("date;core (C);pit (C)", lambda i: days[i]))
    assert len(log) == ROWS - 1 and log.start_clock == dt.datetime(2026, 11, 14, 22, 48)


def test_a_comma_that_would_be_both_marks_is_refused() -> None:
    rows = [f"{120 * i:,};{40 + i};{250 + i}" for i in range(12)]
    rows[3] = "360;12,5;253"
    refused("seconds;core (F);pit (F)\n" + "\n".join(rows), "of '1,080' and '12,5'; say decimal=','")
