import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from html_reader import Reader
from invented_outcome import invented_outcome
from said import durations, quantities

from libcook.readings.facts import read_facts
from libcook.words.html import outcome_html
from libcook.words.phrases import rows
from libcook.words.safety_rows import LOCAL
from libcook.words.two_scales import Scale


def test_fragment_is_well_formed_and_says_the_facts():
    reader = Reader.of(outcome_html(invented_outcome(clock_start=6 * 3600.0)))
    assert reader.open == []
    facts = read_facts(invented_outcome(clock_start=6 * 3600.0))
    told = rows(facts, Scale("C"))
    assert all(name in reader.text and value in reader.text for name, value in told)
    assert "invented for the tests" in reader.text and "follow your local food-safety rules" in reader.text
    text = "; ".join(value for _, value in told)
    assert "12:00" in text and "wrapped (butcher paper)" in dict(told)
    assert {360, 600, 780, 162, 198, 24} <= set(durations(text))
    assert {70.0, 94.0, 68.0, 1.5, 95.5} <= set(quantities(text, "°C"))
    assert {40.0, 90.0} <= set(quantities(text, "%"))
    assert quantities(text, "kg") == [6.4, 1.6, 0.6, 0.36]


def test_fahrenheit_leaves_no_celsius_of_its_own():
    out = invented_outcome()
    out.stage_ends = [end._replace(reason="reached") for end in out.stage_ends]
    text = Reader.of(outcome_html(out, units="F")).text
    assert "°C" not in text and {2.7, 203.9} <= set(quantities(text, "°F")) and "14.1 lb" in text


def test_warnings_stand_in_the_safety_panel():
    fragment = outcome_html(invented_outcome(warnings=("The core warmed <too> slowly & long.",)))
    panel = fragment[fragment.index('role="note"') : fragment.index("invented for the tests")]
    assert "<li>The core warmed &lt;too&gt; slowly &amp; long.</li>" in panel
    assert "<ul" not in outcome_html(invented_outcome()).split('role="note"')[1].split("</div></div>")[0]


def test_names_from_the_user_are_escaped():
    fragment = outcome_html(invented_outcome(names=("<script>x</script>", 'a "b"', "c & d")))
    assert "<script" not in fragment
    reader = Reader.of(fragment)
    assert reader.open == [] and "<script>x</script>" in reader.text and "c & d" in reader.text


def test_it_runs_nothing_and_loads_nothing():
    fragment = outcome_html(invented_outcome())
    assert not re.search(r"<script|<style|<link|<img|\bsrc=|href=|url\(|\bon\w+=|\bid=", fragment)


def test_colours_come_from_the_page():
    colours = set(re.findall(r"#[0-9A-Fa-f]{6}\b", outcome_html(invented_outcome())))
    assert colours == {"#0072B2", "#D55E00"}  # mid tones for two lines; all else is currentColor
    assert "background:#" not in outcome_html(invented_outcome())


def test_figure_lines_stay_inside_and_follow_the_core():
    out = invented_outcome()
    reader = Reader.of(outcome_html(out))
    svg = next(attrs for tag, attrs in reader.elements if tag == "svg")
    width, height = map(float, svg["viewbox"].split()[2:])
    lines = [attrs for tag, attrs in reader.elements if tag == "polyline"]
    assert len(lines) == 3 and "96 °C" in svg["aria-label"]
    for attrs in lines:
        points = np.array([tuple(map(float, p.split(","))) for p in attrs["points"].split()])
        assert len(points) <= 250 and (np.diff(points[:, 0]) >= 0.0).all()
        assert points.min() >= 0.0 and points[:, 0].max() < width and points[:, 1].max() <= height
    core = np.array([tuple(map(float, p.split(","))) for p in lines[2]["points"].split()])
    assert core[:, 1].argmin() / len(core) == pytest.approx(10.4 / 13.0, abs=0.03)  # the peak, 10.4 h of 13 h
    heights = sorted(
        float(attrs["y"]) for tag, attrs in reader.elements if tag == "text" and attrs["y"] != "10.0"
    )
    assert (np.diff(heights) >= 12.9).all() and heights[-1] <= height


def test_without_stall_and_rest():
    text = Reader.of(outcome_html(invented_outcome(stall=False, rest=False))).text
    assert "stallnone" in text and "carryover" not in text


def test_it_needs_no_matplotlib():
    here = Path(__file__).parents[1]
    code = (
        "import sys; sys.modules['matplotlib'] = None\n"
        f"sys.path[:0] = {[str(here), *[p for p in sys.path if p]]!r}\n"
        "from invented_outcome import invented_outcome\n"
        "from libcook.words.html import outcome_html\n"
        "print(len(outcome_html(invented_outcome())))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    assert int(done.stdout) > 2000


def test_a_figure_without_matplotlib_says_how_to_get_it(monkeypatch):
    from libcook import plots

    monkeypatch.setitem(sys.modules, "matplotlib.pyplot", None)
    with pytest.raises(ImportError, match=r"a figure needs matplotlib.*pip install 'libcook\[plots\]'"):
        plots.plot_outcome(invented_outcome())


def test_the_safety_panel_names_each_limit_and_whose_it_is():
    page = outcome_html(invented_outcome())
    for text in ("6.5 log", "5 h", "6 h", "USDA FSIS", "FDA Food Code 3-501.16", "FDA Food Code 3-501.14"):
        assert text in page
    assert LOCAL in page
    assert 57.0 in quantities(page, "°C")
    assert "135 °F" in outcome_html(invented_outcome(), units="F")
