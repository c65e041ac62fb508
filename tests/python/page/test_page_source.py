"""The page's source: its colours are the figures', its files are small, and it says what the project says."""

import importlib.machinery
import importlib.util
import re
from pathlib import Path

import pytest
from teaching_page import PAGE, ROOT

from libcook.figures.style import THEMES

MOST_LINES, MOST_COLUMNS = 400, 120
SOURCES = [path for path in sorted(PAGE.rglob("*")) if path.is_file() and "__pycache__" not in path.parts]


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_colours_are_those_of_the_figures(theme):
    css = (PAGE / "page.css").read_text(encoding="utf-8")
    light, dark = re.findall(r":root \{(.*?)\}", css, re.S)
    told = dict(re.findall(r"--([\w-]+): (#\w{6})", light if theme == "light" else dark))
    for name in ("paper", "ink", "core", "surface", "air", "stall", "evaporation", "radiation", "convection"):
        assert told[name] == getattr(THEMES[theme], name), name


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.name)
def test_files_are_small(path):
    lines = path.read_text(encoding="utf-8").splitlines()
    assert len(lines) <= (250 if path.suffix == ".hpp" else MOST_LINES)
    if path.suffix in (".js", ".hpp", ".cpp"):
        assert max(map(len, lines)) <= MOST_COLUMNS


def test_what_is_said_of_checks_stands_in_their_reports():
    loader = importlib.machinery.SourceFileLoader("page_build", str(PAGE / "build"))
    build = importlib.util.module_from_spec(importlib.util.spec_from_loader("page_build", loader))
    loader.exec_module(build)
    report = (ROOT / "validation" / "BEST_PLAN.md").read_text(encoding="utf-8")
    told = build.hidden()
    assert f"## {told['cooks']} hidden cooks of other worlds" in report
    assert f"{told['kept']} are on time, {told['promised']} were promised" in report
    assert int(told["worst"].removesuffix(" %")) <= int(told["kept"].removesuffix(" %"))
    assert told["worlds"] == "5"
    honesty = (ROOT / "validation" / "HONESTY.md").read_text(encoding="utf-8")
    for number in build.measured().values():
        assert f" {number} |" in honesty


def test_it_loads_nothing_and_follows_nobody():
    for path in SOURCES:
        if path.suffix in (".js", ".html", ".css"):
            text = path.read_text(encoding="utf-8")
            for word in (
                "http:",
                "https:",
                "fetch(",
                "XMLHttpRequest",
                "sendBeacon",
                "localStorage",
                "document.cookie",
                "@import",
                "url(",
            ):
                assert word not in text, (path.name, word)


def test_the_build_says_what_is_missing(tmp_path):
    import os
    import subprocess
    import sys

    done = subprocess.run(
        [sys.executable, PAGE / "build", "--to", tmp_path], env={**os.environ, "PATH": str(tmp_path)},
        capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert done.returncode == 1 and "apt-get install emscripten" in done.stdout
    assert not any(tmp_path.iterdir())


def test_readme_and_the_documents_name_it():
    for document in ("README.md", "DEVELOPERS.md"):
        assert "python/page/build" in (ROOT / document).read_text(encoding="utf-8"), document
    assert Path(PAGE / "build").stat().st_mode & 0o111
