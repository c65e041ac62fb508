"""The examples run, and what they print and draw holds together."""

import math
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from pictures import assert_same_picture

import libcook as lc

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"
FIGURES = (
    "wrap_or_wait", "core_225", "core_logged", "core_275",
    "logged_pit", "where_the_heat_goes", "inside_the_meat",
)  # fmt: skip
# as the table's columns stand, from the left
COLUMNS = (
    "pull", "stall_start", "stall_end", "plateau", "carryover",
    "peak", "loss", "evaporated", "held", "tenderness",
)  # fmt: skip


@pytest.fixture(scope="module")
def ran(tmp_path_factory):
    folder = tmp_path_factory.mktemp("figures")
    done = subprocess.run(
        [sys.executable, "-X", "utf8", "-W", "error", EXAMPLES / "wrap_or_wait.py", "--figures", folder],
        capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return folder, done.stdout


@pytest.fixture(scope="module")
def table(ran):
    rows = {}
    for line in ran[1].splitlines():
        match = re.match(r"(.*(?:225|logged 250|275) °F), (\S.*?)  +(\d.*)$", line)
        if match:
            # a dash where there is no stall
            numbers = [math.nan if one == "–" else float(one) for one in match[3].split()]
            rows[match[1], match[2]] = dict(zip(COLUMNS, numbers, strict=True))
    return rows


def test_one_table_holds_five_ways_in_three_pits(table):
    assert len(table) == 15
    assert len({pit for pit, _ in table}) == 3


def test_wrapping_early_and_in_foil_is_sooner_and_loses_less(table):
    for pit in ("225 °F", "logged 250 °F", "275 °F"):
        bare, paper, foil, late = (
            table[pit, way]
            for way in ("never wrapped", "paper at 150 °F", "foil at 150 °F", "foil at 165 °F")
        )
        assert foil["pull"] < paper["pull"] < bare["pull"]
        assert foil["pull"] < late["pull"] < bare["pull"]
        assert foil["loss"] < bare["loss"] and foil["evaporated"] < 0.6 * bare["evaporated"]


def test_a_hotter_pit_is_sooner_and_stalls_for_less_time(table):
    cold, hot = table["225 °F", "never wrapped"], table["275 °F", "never wrapped"]
    assert hot["pull"] < table["logged 250 °F", "never wrapped"]["pull"] < cold["pull"]
    assert hot["stall_end"] - hot["stall_start"] < cold["stall_end"] - cold["stall_start"]


def test_answer_words_and_caution_are_printed(ran):
    text = ran[1]
    assert text.count("Wrapped:") == 3 and "foil at 150 °F: " in text
    assert "The core stalls for" in text
    assert "Follow your local food-safety rules" in text and "invented" in text.lower()
    assert not re.search(r"\bnan\b|\binf\b", text)


def test_figures_are_written(ran):
    for name in FIGURES:
        assert (ran[0] / f"{name}.png").read_bytes().startswith(b"\x89PNG")
        assert "</svg>" in (ran[0] / f"{name}.svg").read_text(encoding="utf-8")


def test_the_readme_shows_the_figure_that_is_drawn(ran):
    shown = EXAMPLES / "figures" / "wrap_or_wait.png"
    assert_same_picture(shown, ran[0] / "wrap_or_wait.png")


def test_committed_figures_are_small():
    assert all(path.stat().st_size < 150_000 for path in (EXAMPLES / "figures").iterdir())


def test_the_log_says_that_it_is_invented_and_has_its_gap_and_dips():
    path = EXAMPLES / "data" / "pit_log.csv"
    assert "invented" in path.read_text(encoding="utf-8").splitlines()[0].lower()
    log = lc.read_log(path)
    found = " ".join(str(finding) for finding in log.summary)
    assert "1 gap" in found and "dips" in found
    assert np.median(np.diff(log.time)) == 120.0
    # around 250 °F = 121 °C, long enough for the slowest of its cooks
    assert float(np.median(log.pit)) == pytest.approx(121.0, abs=3.0) and log.duration > 18 * 3600.0


@pytest.mark.parametrize("name", ["last_week", "tonight"])
def test_the_logs_of_the_notebook_are_invented_and_are_what_the_script_writes(name, tmp_path):
    script = EXAMPLES / "data" / "invented_cooks.py"
    subprocess.run([sys.executable, script, "--to", tmp_path], check=True, capture_output=True)
    shown, made = (folder / f"{name}.csv" for folder in (EXAMPLES / "data", tmp_path))
    assert "invented data" in shown.read_text(encoding="utf-8").splitlines()[0].lower()
    log, again = lc.read_log(shown), lc.read_log(made)
    np.testing.assert_array_equal(log.time, again.time)
    for column in ("core", "pit"):  # but for the last digits of another machine
        np.testing.assert_allclose(log[column], again[column], rtol=0.0, atol=0.2)
