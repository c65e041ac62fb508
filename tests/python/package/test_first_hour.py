"""What a new user meets first: steps that say how far they are, a portable wheel, an sdist that builds."""

from __future__ import annotations

import importlib.util
import re
import shutil
import subprocess
import sys
import tarfile
from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[3]


def shell(script: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["bash", "-c", f"source '{ROOT}/tests/setup-env.sh'; {script}"],
        capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip


def test_a_long_step_says_at_once_how_long_it_takes_and_then_how_far_it_is() -> None:
    done = shell(
        "cook_watched compiling 90 bash -c 'echo [3/40] a.cpp; sleep 1.5; echo [7/40] b.cpp; sleep 1'"
    )
    assert done.returncode == 0, done.stderr
    first, *others = done.stdout.splitlines()
    assert first.strip() == "compiling: about 90 s on two free cores"
    assert any(re.search(r"compiling: \d s \[3/40\]", line) for line in others)
    assert re.search(r"compiling: done after \d s", others[-1]) and "a.cpp" not in done.stdout


def test_a_step_that_fails_shows_what_it_wrote_and_fails() -> None:
    done = shell("cook_watched installing 5 bash -c 'echo no such package; exit 3'; echo status $?")
    assert "status 3" in done.stdout and "no such package" in done.stderr


def test_the_examples_ask_for_packages_that_are_pinned() -> None:
    listed = shell("echo $cook_example_packages").stdout.split()
    pinned = (ROOT / "tests" / "requirements.txt").read_text(encoding="utf-8")
    assert len(listed) > 10
    assert [name for name in listed if not re.search(rf"^{name}==", pinned, re.M)] == []


def test_the_first_example_alone_is_the_default() -> None:
    text = (ROOT / "examples" / "run").read_text(encoding="utf-8")
    assert re.search(r"^\s+\./examples/run --all\b|--all +also", text, re.M)
    done = subprocess.run(
        [ROOT / "examples" / "run", "--help"], capture_output=True, encoding="utf-8", check=True
    )
    assert "--all" in done.stdout and "making .venv" not in done.stdout


@pytest.fixture(scope="module")
def wheel() -> ModuleType:
    loader = SourceFileLoader("portable_wheel", str(ROOT / "python" / "wheel"))
    spec = importlib.util.spec_from_loader("portable_wheel", loader)
    assert spec is not None
    module = importlib.util.module_from_spec(spec)
    loader.exec_module(module)
    return module


def test_the_wheel_that_is_there_asks_for_no_newer_c_library_than_its_name_says(wheel: ModuleType) -> None:
    found = sorted((ROOT / "dist").glob("libcook-*manylinux_*.whl"))
    if not found or not shutil.which("objdump"):
        pytest.skip("no portable wheel here; python/wheel makes one")
    for file in found:
        promised = re.findall(r"manylinux_(\d+)_(\d+)_", file.name)
        assert promised and wheel.newest_glibc(file) <= min((int(a), int(b)) for a, b in promised)


def test_the_newest_symbol_is_found_in_an_extension(
    wheel: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import zipfile

    from libcook import _core

    if not shutil.which("objdump"):
        pytest.skip("needs objdump")
    monkeypatch.setattr(wheel, "WORK", tmp_path)
    with zipfile.ZipFile(tmp_path / "made.whl", "w") as packed:
        packed.write(_core.__file__, f"libcook/{Path(_core.__file__).name}")
    newest = wheel.newest_glibc(tmp_path / "made.whl")
    assert (2, 2) < newest < (3, 0)


def test_an_sdist_holds_what_a_wheel_is_built_from(tmp_path: Path) -> None:
    pytest.importorskip("scikit_build_core")
    code = f"import libcook_build; libcook_build.build_sdist({str(tmp_path)!r})"
    path = ROOT / "python" / "backend"
    subprocess.run(
        [sys.executable, "-c", code],
        cwd=ROOT,
        env={"PYTHONPATH": str(path), "PATH": "/usr/bin:/bin"},
        check=True,
    )
    (made,) = tmp_path.glob("libcook-*.tar.gz")
    with tarfile.open(made) as packed:
        names = {name.partition("/")[2] for name in packed.getnames()}
    for name in (
        "CMakeLists.txt",
        "pyproject.toml",
        "README.md",
        "python/backend/libcook_build.py",
        "python/wheel",
    ):
        assert name in names
    sources = {str(file.relative_to(ROOT)) for file in (ROOT / "libcook").rglob("*.[ch]pp")}
    assert sources <= names
    assert not [name for name in names if name.startswith((".venv", "build", "dist"))]


def test_the_kinds_of_wheel_are_those_that_python_the_library_takes() -> None:
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    table = text[text.index("[tool.cibuildwheel]") :]
    assert 'requires-python = ">=3.10"' in text and 'build = "cp310-*' in table
    for system, archs in (("linux", "aarch64"), ("macos", "arm64"), ("windows", "AMD64")):
        assert archs in table.partition(f"[tool.cibuildwheel.{system}]")[2].partition("[tool")[0]
