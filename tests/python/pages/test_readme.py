"""The README's examples run and print what it shows; its commands, files and names exist.

After a change that moves the numbers, ``python tests/python/pages/test_readme.py`` writes outputs and figures
anew.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
import textwrap
from pathlib import Path

import pytest
from pictures import assert_same_picture

import libcook as lc

ROOT = Path(__file__).resolve().parents[3]
README = ROOT / "README.md"
FIGURES = ROOT / "examples" / "figures"
# where ./tests/run installs the C++ library for its outside consumer; COOK_PREFIX names another place
PREFIX = Path(os.environ.get("COOK_PREFIX", ROOT / "build" / "tests" / "tests" / "consumer-prefix"))


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", README.read_text(encoding="utf-8"), re.S | re.M)


def run_python(folder: Path, *sequels: int) -> str:
    """Run the first block, and blocks that go on from it; returns what the last one prints."""
    code = "\nprint('next block')\n".join(blocks("python")[i] for i in (0, *sequels))
    environment = {**os.environ, "MPLBACKEND": "Agg", "PYTHONIOENCODING": "utf-8"}
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", code],
        cwd=folder, env=environment, capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return done.stdout.split("next block\n")[-1]


def run_cpp(folder: Path) -> str:
    (folder / "CMakeLists.txt").write_text(blocks("cmake")[0], encoding="utf-8")
    (folder / "main.cpp").write_text(blocks("cpp")[0], encoding="utf-8")
    build = folder / "build"
    configure = ["cmake", "-S", folder, "-B", build, "-G", "Ninja", f"-DCMAKE_PREFIX_PATH={PREFIX}"]
    for command in (configure, ["cmake", "--build", build]):
        done = subprocess.run(command, capture_output=True, encoding="utf-8", check=False)
        assert done.returncode == 0, done.stdout + done.stderr
    return subprocess.run([build / "mycook"], capture_output=True, encoding="utf-8", check=True).stdout


def indented(first: str) -> str:
    """Return the indented block that begins with a line."""
    text = README.read_text(encoding="utf-8")
    block = re.search(rf"^    {re.escape(first)}.*\n(?:    .*\n)*", text, re.M)
    assert block, first
    return textwrap.dedent(block[0])


@pytest.fixture(scope="module")
def ran(tmp_path_factory):
    folder = tmp_path_factory.mktemp("readme")
    return folder, run_python(folder)


def test_the_ten_lines_print_what_is_shown(ran):
    assert ran[1].split() == blocks("text")[0].split()  # the README breaks its lines


def test_the_ten_lines_are_about_ten():
    assert len([line for line in blocks("python")[0].splitlines() if line]) <= 11


def test_the_figure_is_the_one_that_is_saved(ran):
    assert_same_picture(FIGURES / "brisket.png", ran[0] / "brisket.png")


@pytest.mark.parametrize("sequel", [1, 2, 3], ids=["what-if", "sweep", "best plan"])
def test_what_goes_on_from_the_ten_lines_prints_what_is_shown(tmp_path, sequel):
    assert len(blocks("python")) == 4
    assert run_python(tmp_path, sequel).split() == blocks("text")[sequel].split()


@pytest.mark.parametrize(
    ("first", "begun"),
    [("import libcook as lc", ""), ('log = lc.read_log("last_month.csv")', "the ten lines")],
)
def test_the_short_blocks_run_as_they_stand(first, begun, tmp_path):
    for name, data in (("last_month", "last_week"), ("tonight_so_far", "tonight")):
        shutil.copy(ROOT / "examples" / "data" / f"{data}.csv", tmp_path / f"{name}.csv")
    done = subprocess.run(
        [sys.executable, "-c", (blocks("python")[0] if begun else "") + indented(first)],
        cwd=tmp_path, env={**os.environ, "MPLBACKEND": "Agg", "PYTHONIOENCODING": "utf-8"},
        capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr


def test_the_cpp_example_finds_the_installed_library_and_prints_what_is_shown(tmp_path):
    if not PREFIX.is_dir() or not shutil.which("ninja"):
        pytest.skip("the C++ library is not installed here; ./tests/run does it first")
    assert run_cpp(tmp_path) == blocks("text")[-1]


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md"])
def test_links_lead_somewhere(name):
    links = re.findall(r"\]\(([^)#]+)\)", (ROOT / name).read_text(encoding="utf-8"))
    assert links
    assert [link for link in links if not (ROOT / link).exists()] == []


def test_commands_and_presets_exist():
    text = README.read_text(encoding="utf-8")
    commands = re.findall(r"^    (\./\S+)", text, re.M)
    assert {"./examples/run", "./tests/run"} <= set(commands)
    assert all(os.access(ROOT / command, os.X_OK) for command in commands)
    presets = (ROOT / "CMakePresets.json").read_text(encoding="utf-8")
    assert all(f'"{preset}"' in presets for preset in re.findall(r"--preset (\w+)", text))


def test_every_name_that_is_mentioned_exists():
    text = README.read_text(encoding="utf-8")
    names = set(re.findall(r"\blc\.(\w+)", text))
    assert len(names) > 15
    assert [name for name in names if not hasattr(lc, name)] == []
    attributes = set(re.findall(r"\bout\.(\w+)", text))
    assert attributes
    assert [name for name in attributes if not hasattr(lc.Outcome, name)] == []


def update() -> None:
    """Write outputs and figures anew."""
    FIGURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as one, tempfile.TemporaryDirectory() as two:
        shown = [
            run_python(Path(one)),
            run_python(Path(one), 1),
            run_python(Path(one), 2),
            run_python(Path(one), 3),
            run_cpp(Path(two)) if PREFIX.is_dir() else blocks("text")[-1],
        ]
        example = ROOT / "examples" / "wrap_or_wait.py"
        subprocess.run([sys.executable, example, "--figures", one], stdout=subprocess.DEVNULL, check=True)
        for name in ("brisket.png", "wrap_or_wait.png"):
            shutil.copy(Path(one) / name, FIGURES)
    parts = re.split(r"(^```text\n.*?^```$)", README.read_text(encoding="utf-8"), flags=re.S | re.M)
    wrapped = ["\n".join(textwrap.fill(line, 110) for line in text.splitlines()) for text in shown]
    parts[1::2] = [f"```text\n{text}\n```" for text in wrapped]
    README.write_text("".join(parts), encoding="utf-8")


if __name__ == "__main__":
    update()
