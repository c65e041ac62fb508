"""The site builds without warnings, needs no network, has every public name, and its code runs."""

import os
import re
import shutil
import subprocess
import sys
import zlib
from pathlib import Path

import pytest

import libcook as lc

ROOT = Path(__file__).resolve().parents[3]
DOCS = ROOT / "python" / "docs"


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    folder = tmp_path_factory.mktemp("site")
    done = subprocess.run(
        [sys.executable, DOCS / "build", "--to", folder], capture_output=True, encoding="utf-8", check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return folder / "html"


def names_of(site):
    """Read what the reference describes from the site's own inventory."""
    raw = (site / "objects.inv").read_bytes()
    text = zlib.decompress(raw[raw.index(b"zlib.\n") + 6 :]).decode()
    return {line.split(" ")[0] for line in text.splitlines()}


def test_every_public_name_is_in_the_reference(site):
    described = names_of(site)
    for name in set(lc.__all__) - {"physics"}:
        assert f"libcook.{name}" in described, name
    for name in lc.physics.__all__:
        assert f"libcook.physics.{name}" in described, name


def test_compiled_functions_show_their_arguments(site):
    whole = ""
    for page in (site / "reference").glob("*.html"):
        text = re.sub(r"<[^>]+>", "", page.read_text(encoding="utf-8"))
        assert not re.findall(r"libcook\.physics\.\w+\(\)", text), page.name
        whole += text
    assert "wet_bulb(temperature, vapour_pressure, pressure=...)" in whole
    assert "class libcook.Stall" in whole and "(*args, **kwargs)" not in whole  # made by the library alone


def test_nothing_is_fetched_from_a_network(site):
    pages = list(site.rglob("*.html"))
    assert len(pages) > 20
    for page in pages:
        text = page.read_text(encoding="utf-8")
        for tag in re.findall(r"<(?:script|img|link|iframe|source)\b[^>]*>", text):
            assert not re.search(r'(?:src|href)="(?:https?:)?//', tag), f"{page.name}: {tag}"
    for style in site.rglob("*.css"):
        assert not re.search(r"url\(['\"]?(?:https?:)?//", style.read_text(encoding="utf-8")), style.name


def test_links_within_the_site_lead_somewhere(site):
    for page in site.rglob("*.html"):
        for target in re.findall(r'href="([^"#:?]+)(?:#[^"]*)?"', page.read_text(encoding="utf-8")):
            assert (page.parent / target).exists(), f"{page.name}: {target}"


def test_places_within_a_page_that_links_name_exist(site):
    for page in site.rglob("*.html"):
        for target, place in re.findall(r'href="([^"#:?]*)#([^"]+)"', page.read_text(encoding="utf-8")):
            whole = (page.parent / target if target else page).read_text(encoding="utf-8")
            assert f'id="{place}"' in whole, f"{page.name}: {target}#{place}"


def test_the_teaching_page_is_there_or_how_to_build_it_is_told(site):
    told = (site / "teaching_page.html").read_text(encoding="utf-8")
    built, taken_in = ROOT / "build" / "page" / "index.html", site / "page" / "index.html"
    if built.is_file() and built.stat().st_mtime < (site / "objects.inv").stat().st_mtime - 60.0:
        assert taken_in.is_file()  # else another test may be building it just now
    if taken_in.is_file():
        assert 'href="page/index.html"' in told and taken_in.stat().st_size > 100_000
    else:
        assert "python/page/build" in told and 'href="page/' not in told


def test_equations_are_drawn_by_the_browser(site):
    theory = (site / "theory.html").read_text(encoding="utf-8")
    written = (DOCS / "theory.md").read_text(encoding="utf-8")
    assert theory.count('<div class="equation">') == len(re.findall(r"\$\$.*?\$\$", written, re.S)) > 12
    assert theory.count("<math") > 60 and "\\frac" not in theory


def test_the_parameters_are_the_librarys(site):
    page = re.sub(r"<[^>]+>", "", (site / "parameters.html").read_text(encoding="utf-8"))
    for row in lc.parameters():
        assert row.name in page
    assert f"{lc.parameter('tissue.holding.final_share').value:g}" in page


def test_cautions_name_fire_fat_and_the_limits(site):
    page = (site / "cautions.html").read_text(encoding="utf-8")
    for words in ("Carbon monoxide", "Never pour water on burning fat", "3-501.14", "3-501.16", "USDA FSIS"):
        assert words in page
    assert "local food-safety" in (site / "index.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("page", ["tutorial", "howto"])
def test_the_code_of_a_page_runs_as_it_stands(page, tmp_path):
    text = (DOCS / f"{page}.md").read_text(encoding="utf-8")
    blocks = re.findall(r"^```python\n(.*?)^```", text, re.S | re.M)
    assert len(blocks) == text.count("<!-- run:") > 4
    shutil.copy(ROOT / "examples" / "data" / "pit_log.csv", tmp_path)
    done = subprocess.run(
        [sys.executable, "-X", "utf8", "-W", "error", "-c", "\n".join(blocks)],
        cwd=tmp_path, env={**os.environ, "MPLBACKEND": "Agg"}, capture_output=True, encoding="utf-8",
        check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    if page == "tutorial":
        assert (tmp_path / "first.png").stat().st_size > 10_000
        assert "stalls for" in done.stdout and "paper" in done.stdout and "\nNone\n" in done.stdout


def test_the_first_figure_takes_three_lines():
    for page in ("index", "tutorial"):
        text = (DOCS / f"{page}.md").read_text(encoding="utf-8")
        first = re.search(r"^```python\n(.*?)^```", text, re.S | re.M)[1]
        assert len(first.strip().splitlines()) == 3 and "plot(" in first
