"""The ten recipes run as they stand, each by itself, and print what stands below them.

After a change that moves the numbers, ``python tests/python/pages/test_recipes.py`` writes the outputs anew.
"""

import os
import re
import subprocess
import sys
import tempfile
import textwrap
from pathlib import Path

import pytest

PAGE = Path(__file__).resolve().parents[3] / "python" / "docs" / "recipes.md"
RECIPE = re.compile(r"^## (.*?)\n(.*?)^```python\n(.*?)^```\n\n```text\n(.*?)^```$", re.S | re.M)
ASKED = [
    "Overnight",
    "Dinner at six",
    "Two cuts in one cooker",
    "Hot and fast",
    "A small flat",
    "A shoulder for twenty",
    "Hold it for hours",
    "Stuck at 160 °F",
    "The pit went out",
    "No thermometer log",
]


def recipes():
    found = RECIPE.findall(PAGE.read_text(encoding="utf-8"))
    return {title: (code, shown) for title, _, code, shown in found}


def run(code, folder):
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", code], cwd=folder, capture_output=True, encoding="utf-8",
        check=False, env={**os.environ, "MPLBACKEND": "Agg", "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_there_are_the_ten_that_are_asked_for():
    text = PAGE.read_text(encoding="utf-8")
    assert list(recipes()) == ASKED == re.findall(r"^## (.*)$", text, re.M)
    caution = text.partition("\n## ")[0]
    for words in ("probe", "local food-safety rules", "135 °F", "invented", "never"):
        assert words in caution


@pytest.mark.parametrize("title", ASKED)
def test_a_recipe_prints_what_is_shown(title, tmp_path):
    code, shown = recipes()[title]
    assert 5 <= len([line for line in code.splitlines() if line.strip()]) <= 17
    assert run(code, tmp_path).split() == shown.split()  # the page breaks long lines


@pytest.mark.parametrize("title", ASKED)
def test_a_recipe_shows_a_caution(title):
    shown = recipes()[title][1]
    assert re.search(r"food-safety\s+rules|[Pp]robe", shown), title


def update():
    """Write the outputs anew."""
    text = PAGE.read_text(encoding="utf-8")
    for title, (code, _) in recipes().items():
        with tempfile.TemporaryDirectory() as folder:
            lines = run(code, folder).splitlines()
        said = "\n".join(textwrap.fill(line, 110) for line in lines)
        place = text.index(f"## {title}\n")
        begin = text.index("```text\n", place) + len("```text\n")
        text = text[:begin] + said + "\n" + text[text.index("```", begin) :]
    PAGE.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    update()
