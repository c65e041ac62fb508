"""The notebooks run from their text in a fresh kernel, and the pages in the repository are what they give.

After a change that moves the numbers, ``python examples/notebooks/render.py`` writes the pages anew.
"""

import re
import subprocess
import sys
from pathlib import Path

import pytest
from pictures import assert_same_picture

NOTEBOOKS = Path(__file__).resolve().parents[3] / "examples" / "notebooks"
PAGES = NOTEBOOKS / "pages"
TOOLS = ("blackboard", "render", "page_to_notebook")
NAMES = sorted(p.stem for p in NOTEBOOKS.glob("*.py") if p.stem not in TOOLS)


@pytest.fixture(scope="module")
def rendered(tmp_path_factory):
    """Run each notebook once; each has 60 s, which render.py sees to."""
    folder = tmp_path_factory.mktemp("pages")
    done = subprocess.run(
        [sys.executable, NOTEBOOKS / "render.py", "--to", folder, *NAMES],
        capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return folder


@pytest.mark.parametrize("name", NAMES)
def test_the_page_is_what_the_notebook_gives(rendered, name):
    shown, made = (folder / f"{name}.md" for folder in (PAGES, rendered))
    assert shown.read_text(encoding="utf-8") == made.read_text(encoding="utf-8")
    figures = {p.name for p in (rendered / name).iterdir()}
    assert figures and figures == {p.name for p in (PAGES / name).iterdir()}
    for figure in figures:
        assert_same_picture(PAGES / name / figure, rendered / name / figure)


@pytest.mark.parametrize("name", NAMES)
def test_a_file_that_opens_by_double_click_has_the_text_and_the_outputs(name, tmp_path):
    nbformat = pytest.importorskip("nbformat")
    command = [sys.executable, NOTEBOOKS / "render.py", "--notebooks", "--to", tmp_path, name]
    subprocess.run(command, check=True, capture_output=True)
    made = nbformat.read(tmp_path / f"{name}.ipynb", as_version=4)
    text = (NOTEBOOKS / f"{name}.py").read_text(encoding="utf-8")
    code = [cell for cell in made.cells if cell.cell_type == "code"]
    plain = re.sub(r"^# ?", "", text, flags=re.M)  # prose stands in comments there
    assert all(cell.source.strip() in (text if cell.cell_type == "code" else plain) for cell in made.cells)
    assert len(code) == len(re.findall(r"^# %%(?! \[markdown\])", text, re.M))
    outputs = [output for cell in code for output in cell.outputs]
    figures = [output for output in outputs if "image/png" in output.get("data", {})]
    assert len(figures) == len(list((PAGES / name).iterdir()))
    page = (PAGES / f"{name}.md").read_text(encoding="utf-8")
    said = [output.get("text") or output.data["text/plain"] for output in outputs]
    assert len(said) > 5 and all(words.strip() in page for words in said)


@pytest.mark.parametrize("name", NAMES)
def test_the_page_is_small_cautions_and_describes_its_figures(name):
    page = (PAGES / f"{name}.md").read_text(encoding="utf-8")
    size = sum(p.stat().st_size for p in (PAGES / name).iterdir()) + len(page)
    assert size < 1_000_000
    assert "follow your local food-safety rules" in page
    for words, target in re.findall(r"!\[(.*?)\]\((.*?)\)", page):
        assert len(words.split()) >= 6, target
        assert (PAGES / target).is_file()


def test_all_notebooks_are_rendered():
    text = (NOTEBOOKS / "render.py").read_text(encoding="utf-8")
    assert sorted(re.findall(r'"(\w+)"', re.search(r"NAMES = \((.*?)\)", text, re.S)[1])) == NAMES


def rows(rendered, name, heading):
    """Read the table that follows the first of its column heads: first cell to the others."""
    page = (rendered / f"{name}.md").read_text(encoding="utf-8")
    body = page[page.index(f"| {heading} |") :].split("\n\n")[0].splitlines()[2:]
    return {
        cells[0]: cells[1:] for cells in ([c.strip() for c in line.strip("|").split("|")] for line in body)
    }


def minutes(text):
    found = re.fullmatch(r"(?:(\d+) h )?(\d+) min(?: (sooner|later))?", text)
    return (-1 if found[3] == "later" else 1) * (60 * int(found[1] or 0) + int(found[2]))


def test_evaporation_makes_the_stall_and_fat_and_collagen_do_not(rendered):
    table = rows(rendered, "why_it_stalls", "switched off")
    assert table["no evaporation"][1] == "none" and minutes(table["as it is"][1]) > 240
    assert minutes(table["no evaporation"][0]) < 0.5 * minutes(table["as it is"][0])
    for name in ("no melting fat", "no cooking proteins", "neither of the two"):
        assert abs(minutes(table[name][1]) - minutes(table["as it is"][1])) < 15
        assert abs(minutes(table[name][0]) - minutes(table["as it is"][0])) < 20
    page = (rendered / "why_it_stalls.md").read_text(encoding="utf-8")
    small, large = re.search(
        r"together take \*\*([\d.]+) %\*\* of the heat that arrives; evaporation takes\s+(\d+) %", page
    ).groups()
    assert float(small) < 5.0 < 60.0 < float(large)


def test_wrapping_buys_time_for_bark(rendered):
    table = rows(rendered, "wrap_or_wait", "wrapped")
    early, late = (minutes(table[f"foil at {t} °F"][1]) for t in (150, 165))
    assert late > 60 and early > late + 60
    assert float(table["foil at 150 °F"][2]) < float(table["paper at 150 °F"][2]) < float(table["never"][2])


def test_hot_pits_are_done_at_a_higher_core(rendered):
    page = (rendered / "hot_and_fast_or_low_and_slow.md").read_text(encoding="utf-8")
    cool, hot = re.search(
        r"In paper the core is at (\d+) °F.*?when it is tender in the coolest pit, and at (\d+) °F",
        page,
        re.S,
    ).groups()
    assert int(cool) + 10 < int(hot)
    slow, fast = re.search(r"slow one has (\d+) % .*?fast one (\d+) %", page, re.S).groups()
    assert int(slow) > int(fast) + 10


def test_the_place_decides_how_long_it_may_wait(rendered):
    table = rows(rendered, "the_rest", "rest")
    counter, box = (minutes(table[n][3]) for n in ("counter, tented", "insulated box"))
    assert 30 < counter < box and table["holding oven 150 °F"][3] == "all 12 h"
    page = (rendered / "the_rest.md").read_text(encoding="utf-8")
    assert "FDA Food Code" in page and "USDA FSIS" in page


def test_a_log_tunes_the_plan_and_narrows_what_comes(rendered):
    page = (rendered / "calibrate_your_cooker.md").read_text(encoding="utf-8")
    assert page.count("invented") > 2
    for found in ("wrapped, proposed", "lid opened, proposed", "passes midnight", "marked missing"):
        assert found in page
    ahead, untuned = re.search(
        r"of these nine that is (\d+ h \d+ min)\..*?that span would be (\d+ h \d+ min)", page, re.S
    ).groups()
    assert minutes(ahead) < minutes(untuned)
    inside, misfit = re.search(r"and (\d+) % of the points.*?was expected is ([\d.]+):", page, re.S).groups()
    assert int(inside) > 85 and float(misfit) < 1.5
    start, late = re.search(
        r"\*\*Start at (\d\d:\d\d)\b.*?being late is then \*\*(\d+) %", page, re.S
    ).groups()
    assert re.fullmatch(r"\d\d:\d\d", start) and int(late) <= 10


def test_what_is_done_now_gains_time_and_both_gain_most(rendered):
    table = rows(rendered, "calibrate_your_cooker", "from now on")
    foil, pit, both = (minutes(table[name][2]) for name in ("wrap in foil now", "pit to 275 °F now", "both"))
    assert 0 < pit < foil < both < pit + foil


def test_every_fitted_number_has_its_interval_and_unit(rendered):
    table = rows(rendered, "calibrate_your_cooker", "number")
    assert len(table) == 8
    for before, value, interval, learned in table.values():
        low, high = re.fullmatch(r"(-?[\d.e+-]+) to (-?[\d.e+-]+) .*", interval).groups()
        assert float(low) < float(value.split()[0]) < float(high)
        assert before.split()[-1] == value.split()[-1] and 0 < int(learned.split()[0]) < 100
