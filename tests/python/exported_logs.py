"""What must come out of each file in ``data/logs/exports``: invented exports of logs, made by hand.

``READ`` are read without a word; ``ANSWERED`` with the argument that the refusal or a finding names;
``REFUSED`` are refused with the text given here.
"""

from dataclasses import dataclass, field
from pathlib import Path

EXPORTS = Path(__file__).parent / "data" / "logs" / "exports"


@dataclass(frozen=True)
class Case:
    """A file, and what its log holds.

    Attributes
    ----------
    file, units, start : str
        Name; scale; the first time as text, "None" where only elapsed times are known.
    minutes : float
        From the first to the last reading.
    values : dict
        First and last reading of each column, in the scale of the log; no other column is there.
    call : dict
        Arguments beside the file.
    missing : dict
        How many readings of a column are missing; 0 for the others.
    events : list of (kind, minute)
        What happened.
    said : str
        The findings in their order: action, kind, column or count, lines.
    """

    file: str
    units: str
    start: str
    minutes: float
    values: dict
    call: dict = field(default_factory=dict)
    missing: dict = field(default_factory=dict)
    events: list = field(default_factory=list)
    said: str = ""

    def __str__(self) -> str:
        return f"{self.file} {self.call or ''}".strip()


# fmt: off
READ = [
    Case("bom_and_sep_line.csv", "C", "None", 32.5, {"core": (4, 36.6), "pit": (118, 119.5)},
         said="ignored delimiter 1 line 1; found decimal comma 42; found guess 'Fleisch [°C]'; found guess "
         "'Ofen [°C]'"),
    Case("columns.json", "C", "None", 130, {"core": (4, 36.6), "pit": (118, 119.5)},
         said="found unit 2"),
    Case("cut_short.json", "C", "None", 12, {"core": (4, 34), "pit": (118, 118)},
         said="ignored no JSON 1 line 67"),
    Case("date_and_time_cells.xlsx", "C", "2026-11-14 19:10:00", 390,
         {"core": (5, 37.6), "pit": (118, 119.5)},
         missing={"pit": 2},
         said="ignored sheet 1; mended dropout 'Umgebung [°C]' lines 5 to 6; found guess 'Fleisch [°C]'; "
         "found guess 'Umgebung [°C]'"),
    Case("date_with_comma_bare.csv", "F", "2026-11-14 19:10:00", 130, {"core": (39, 98), "pit": (244, 247)},
         events=[("spritzed", 50)],
         said="mended joined date 14 lines 2 to 15; mended joined 1 line 7; found guess 'Meat °F'; found "
         "guess 'Grill °F'; found event 1 line 7"),
    Case("date_with_comma_quoted.csv", "F", "2026-11-14 19:10:00", 390,
         {"core": (41, 135), "pit": (244, 247)},
         said="found guess 'Food'; found guess 'Ambient'"),
    Case("display_switched.csv", "F", "None", 78, {"core": (39, 97.9), "pit": (244, 247.1)},
         said="found guess 'Meat'; found unit 'Meat'; found unit 'Pit'"),
    Case("elapsed_beyond_a_day.xlsx", "C", "None", 1430, {"core": (5.3, 37.9), "pit": (118, 119.5)},
         said="found decimal comma 28; found guess 'Kern'; found guess 'Grill'"),
    Case("elapsed_h_mm.csv", "C", "None", 65, {"core": (4, 36.6), "pit": (118, 119.5)},
         said="found unit 1"),
    Case("elapsed_in_words.csv", "C", "None", 260, {"core": (4, 36.6), "pit": (118, 119.5)},
         said="found decimal comma 28; found guess 'Kern °C'; found guess 'Garraum °C'"),
    Case("elapsed_mm_ss.csv", "C", "None", 65.5, {"core": (20, 30.5), "pit": (118, 119.5)}),
    Case("epoch_seconds.tsv", "C", "2026-11-14 19:10:00+00:00", 26, {"core": (4, 36.6), "pit": (118, 119.5)},
         said="found unit 1; found guess 'kern'; found guess 'ofen'; found unit 2"),
    Case("french.tsv", "C", "2026-11-14 19:10:00", 130, {"core": (7, 39.6), "pit": (121, 122.5)},
         events=[("note", 90)],
         said="found decimal comma 28; found guess 'Viande (°C)'; found guess 'Fumoir (°C)'; found note 1 "
         "line 11"),
    Case("gap_double_unsorted.csv", "C", "2026-11-14 19:10:00", 230, {"core": (4, 61.7), "pit": (118, 122.5)},
         missing={"core": 1},
         said="mended unsorted 1 line 6; mended dropout 'core (C)' line 13; mended double 1 line 10; found "
         "gap 1 line 15"),
    Case("header_in_comment.csv", "C", "None", 39, {"core": (4, 36.6), "pit": (118, 119.5)},
         said="ignored comment 2 lines 1 to 2; found header 1 line 2"),
    Case("kelvin.csv", "C", "None", 78, {"core": (4, 36.6), "pit": (118, 119.5)}),
    Case("latin1_two_digit_year.csv", "C", "2026-11-14 19:10:00", 390,
         {"core": (6, 38.6), "pit": (110.5, 112)},
         said="found encoding 1; found decimal comma 28; found guess 'Kerntemperatur (°C)'; found guess "
         "'Grilltemperatur (°C)'; ignored column 'Lüfter (%)'"),
    Case("lines.jsonl", "C", "2026-11-14 19:10:00+00:00", 130, {"core": (4, 36.6), "pit": (118, 119.5)},
         events=[("wrapped", 70)],
         said="ignored no JSON 1 line 15; found event 1 line 8"),
    Case("list.json", "C", "2026-11-14 19:10:00+01:00", 130, {"core": (3.5, 36.1), "pit": (118, 119.5)},
         missing={"core": 1, "pit": 1},
         said="mended dropout 'Brisket' line 26; mended dropout 'Grill' line 38; found guess 'Brisket'; "
         "found guess 'Grill'"),
    Case("locale_stamp.csv", "F", "2026-11-14 19:10:00", 130, {"core": (39, 98), "pit": (244, 247)},
         said="mended joined date 14 lines 2 to 15; found date order 14; found guess 'brisket'; found guess "
         "'smoker'; found unit 2"),
    Case("merged_titles.xlsx", "C", "2026-11-14 19:10:00", 130, {"core": (4, 36.6), "pit": (118, 119.5)},
         said="ignored blank 1 line 3; ignored title 2 lines 1 to 2; ignored no time 2 lines 19 to 20"),
    Case("milliseconds.csv", "F", "2026-11-14 19:10:00+00:00", 13, {"core": (39, 98), "pit": (244, 247)},
         said="found unit 1; found guess 'meatTempF'; found guess 'ambientTempF'"),
    Case("mojibake.csv", "C", "None", 65, {"core": (4, 36.6), "pit": (118, 119.5)}),
    Case("nested.json", "F", "2026-11-14 19:10:00+00:00", 65, {"core": (39, 98), "pit": (244, 247)},
         said="ignored title 2; found unit 1; found guess 'probes.meat'; found unit 2"),
    Case("newest_first.csv", "C", "2026-11-14 19:10:00-06:00", 91, {"core": (4, 36.6), "pit": (118, 119.5)},
         said="mended newest first 14"),
    Case("no_header.csv", "C", "2026-11-14 19:10:00", 130, {"core": (4, 36.6), "pit": (118, 119.5)},
         said="found no header 1; found guess 2; found unit 2"),
    Case("off_and_err.csv", "C", "None", 13, {"core": (10, 17.9), "pit": (118, 119.5)},
         missing={"core": 5},
         said="ignored no time 1 line 16; mended dropout 'probe °C' line 7; mended dropout 'probe °C' lines "
         "4 to 5, 10; mended dropout 'probe °C' line 8; found guess 'probe °C'"),
    Case("probe_pulled.csv", "F", "None", 145, {"core": (86, 138), "pit": (244, 247)},
         events=[("meat on", 0)],
         said="found event 1 line 2; found proposed 1"),
    Case("probes_in_brackets.csv", "F", "None", 195,
         {"core": (39, 110), "pit": (244, 247), "probe_3_flat": (43, 116)},
         said="found guess 'Probe 1 (Meat)'"),
    Case("python_timedelta.csv", "C", "None", 1560, {"core": (4, 36.6), "pit": (118, 119.5)}),
    Case("row_for_each_probe.csv", "F", "2026-11-14 19:10:00", 130, {"core": (39, 98), "pit": (244, 247)},
         said="found series 'sensor'; found guess 'Meat [°F]'"),
    Case("settings_and_others.csv", "C", "2026-11-14 19:10:00", 130,
         {"core": (4, 36.6), "ambient": (12, 13.3), "zorp": (40, 43)},
         said="found guess 'Ambient (C)'; ignored column 'No'; ignored column 'Target core (C)'; ignored "
         "column 'Fan (%)'; ignored column 'Battery'; ignored column 'State'; found unknown 'Zorp'; "
         "found unit 1"),
    Case("spanish.csv", "C", "2026-11-14 19:10:00", 65, {"core": (8.5, 24.2), "pit": (125.5, 127)},
         said="ignored title 1 line 1; found decimal comma 28; found date order 14; found guess 'Carne'; "
         "found guess 'Horno'; found unit 2"),
    Case("spreadsheet_days.csv", "C", "2026-11-14 19:10:00", 130, {"core": (4, 36.6), "pit": (118, 119.5)},
         said="found unit 1"),
    Case("thousands.csv", "F", "None", 26, {"core": (39, 98), "pit": (244, 247)},
         said="found thousands 5"),
    Case("titles_with_commas.csv", "F", "2026-11-14 19:10:00", 130, {"core": (39, 98), "pit": (244, 247)},
         said="ignored blank 1 line 4; ignored title 3 lines 1 to 3"),
    Case("twelve_hours.csv", "F", "19:10:00", 390, {"core": (39, 98), "pit": (244, 247)},
         said="found midnight 1 line 12; found no date 1"),
    Case("unit_of_each_row.csv", "F", "None", 78, {"core": (39, 97.9), "pit": (244, 247.1)},
         said="found unit 'core'; found unit 'pit'"),
    Case("units_below_and_rule.csv", "F", "None", 117, {"core": (39, 98), "pit": (244, 247)},
         said="ignored rule 1 line 3"),
    Case("units_in_cells_decimal_commas.csv", "C", "2026-11-14 19:10:00", 130,
         {"core": (5.3, 37.9), "pit": (118, 119.5)},
         said="found decimal comma 28; found guess 'Kern'; found guess 'Garraum'"),
    Case("utf16.txt", "F", "2026-11-14 19:10:00", 130, {"core": (39, 98), "pit": (244, 247)},
         said="found guess 'Internal (°F)'; found guess 'Chamber (°F)'"),
    Case("utf16_without_mark.csv", "C", "None", 52, {"core": (4, 36.6), "pit": (118, 119.5)},
         said="found encoding 1; found guess 'Meat (°C)'; found guess 'Smoker (°C)'"),
]
ANSWERED = [
    Case("two_logs.xlsx", "F", "None", 65, {"core": (41, 100), "pit": (244, 247)},
         call={"sheet": "Cook 2"}),
    Case("several_meats.csv", "F", "2026-11-14 19:10:00", 130,
         {"core": (45, 103), "pit": (244, 247), "meat_1": (39, 98)},
         call={"core": "Meat 2 (°F)"}),
    Case("either_order.csv", "C", "2026-11-05 19:10:00", 130, {"core": (4, 36.6), "pit": (118, 119.5)},
         call={"day_first": True}),
    Case("zone_letters.csv", "C", "2026-11-14 19:10:00-06:00", 130, {"core": (4, 36.6), "pit": (118, 119.5)},
         call={"timezone": "America/Chicago"},
         said="ignored zone letters 14"),
    Case("skip_said.csv", "C", "19:10:00", 130, {"core": (4, 36.6), "pit": (118, 119.5)},
         call={"skip": 5},
         said="ignored skip 5 lines 1 to 5; found no date 1"),
    Case("unit_open.csv", "F", "None", 130, {"core": (40, 66.1)},
         call={"units": "F"}),
    Case("left_and_right.csv", "C", "None", 130, {"core": (4, 36.6), "pit": (118, 119.5)},
         call={"core": "left", "pit": "right", "units": "C"}),
    Case("header_against_cells.csv", "F", "None", 78, {"core": (39, 98), "pit": (244, 247)},
         call={"units": "F"}),
    Case("lettered_probes.csv", "F", "None", 78,
         {"core": (41, 100), "pit": (244, 247), "probe_a": (39, 98), "probe_b": (43, 101)},
         call={"core": "Probe C", "units": "F"}),
    Case("unit_in_title.csv", "F", "2026-11-14 19:10:00", 130,
         {"core": (39, 98), "pit": (246, 249), "pork_shoulder": (43, 101)},
         call={"core": "Brisket"},
         said="ignored title 1 line 1; found guess 'BBQ'; found unit 3"),
    Case("epoch_seconds.tsv", "C", "2026-11-14 20:10:00+01:00", 26, {"core": (4, 36.6), "pit": (118, 119.5)},
         call={"timezone": "Europe/Berlin", "units": "C"},
         said="found unit 1; found guess 'kern'; found guess 'ofen'"),
    Case("twelve_hours.csv", "F", "2026-11-14 19:10:00", 390, {"core": (39, 98), "pit": (244, 247)},
         call={"date": "2026-11-14"},
         said="found midnight 1 line 12"),
    Case("elapsed_h_mm.csv", "C", "None", 1.08, {"core": (4, 36.6), "pit": (118, 119.5)},
         call={"units": {"Elapsed": "mm:ss"}},
         said="found proposed 1"),
    Case("settings_and_others.csv", "C", "2026-11-14 19:10:00", 130,
         {"core": (4, 36.6), "pit": (12, 13.3), "target_core": (95, 95), "zorp": (4.4, 6.1)},
         call={"units": {"Target core (C)": "C", "Zorp": "F"}, "pit": "Ambient (C)"},
         said="ignored column 'No'; ignored column 'Fan (%)'; ignored column 'Battery'; ignored column "
         "'State'"),
    Case("no_header.csv", "C", "2026-11-14 19:10:00", 130, {"core": (4, 36.6), "pit": (118, 119.5)},
         call={"core": 1, "pit": 2, "units": "C"},
         said="found no header 1"),
]
REFUSED = {
    "both_marks.csv":
        "decimal: both a comma ('4,0') and a point ('118.0') look like the decimal mark; say decimal",
    "decimal_commas_bare.csv": "line 2 has 5 cells for 3 columns (time [min], core, pit)",
    "either_order.csv":
        "'05/11/2026' in column 'time' leaves open which number is the day; say day_first=True or",
    "empty.csv": "log: the log is empty",
    "fahrenheit_called_celsius.csv":
        "core: half of the readings are above 160 °C, and wet meat stays below 100 °C",
    "formulas.xlsx": "column 'core (C)' holds formulas without their values",
    "header_against_cells.csv":
        "'Core (°C)' says °C and its cells °F ('39 °F'); say units={'Core (°C)': 'F'}",
    "header_only.csv": "the log has a header (time, core (C), pit (C)) but no rows",
    "left_and_right.csv": "the log has: 'minutes', 'left', 'right'; say core='...' and pit='...'",
    "lettered_probes.csv": "3 columns could be the core: 'Probe A', 'Probe B', 'Probe C'; say core='Probe A'",
    "old_workbook.xls": "the file is a workbook of the old kind (.xls)",
    "one_column.csv":
        "no delimiter divides the lines into columns (line 1: 'core'); a time and a temperature",
    "several_meats.csv": "2 columns could be the core: 'Meat 1 (°F)', 'Meat 2 (°F)'; say core='Meat 1 (°F)'",
    "skip_said.csv":
        "line 6 has 3 cells for 2 columns (time, alarm at); as many cells as columns are accepted; skip=",
    "two_logs.xlsx": "2 sheets could be the log: 'Cook 1', 'Cook 2'; say sheet='Cook 1'",
    "unit_in_title.csv": "2 columns could be the core: 'Brisket', 'Pork shoulder'; say core='Brisket'",
    "unit_open.csv":
        "units: the columns do not say °C or °F and their range fits both; say units='C' or units='F'",
    "without_year.csv": "'Nov 14 19:10' in column 'time' has no year; dates with a year are accepted",
    "zone_letters.csv":
        "ends in 'CST', which more than one zone is called; a name of the zone is accepted: say time",
}
# fmt: on
