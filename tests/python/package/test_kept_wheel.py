"""The same sources are compiled once: the build backend hands over the wheel that it kept."""

from __future__ import annotations

import importlib.util
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

ROOT = Path(__file__).parents[3]


def load_backend() -> ModuleType:
    spec = importlib.util.spec_from_file_location(
        "libcook_build", ROOT / "python" / "backend" / "libcook_build.py"
    )
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def backend(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """The backend in a small tree of sources, with a compiler that only counts."""
    pytest.importorskip("scikit_build_core")
    module = load_backend()
    for name in (
        "CMakeLists.txt",
        "README.md",
        "pyproject.toml",
        "libcook/engine.cpp",
        "python/libcook/words.py",
    ):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(name)
    module.compiled = []

    def compile_all(wheel_directory: str, *_: Any) -> str:
        module.compiled.append(wheel_directory)
        Path(wheel_directory, "libcook-1-any.whl").write_text(f"number {len(module.compiled)}")
        return "libcook-1-any.whl"

    monkeypatch.setattr(module._maker, "build_wheel", compile_all)
    monkeypatch.chdir(tmp_path)
    return module


def wheel_of(backend: ModuleType, settings: dict[str, Any] | None = None) -> str:
    folder = Path(f"wheels{len(list(Path().glob('wheels*')))}")
    folder.mkdir()
    return (folder / backend.build_wheel(str(folder), settings)).read_text()


def test_the_same_sources_are_compiled_once(backend: ModuleType) -> None:
    assert wheel_of(backend) == wheel_of(backend) == "number 1"


@pytest.mark.parametrize(
    "change",
    [
        lambda patch: Path("libcook/engine.cpp").write_text("another"),
        lambda patch: Path("python/libcook/words.py").write_text("another"),
        lambda patch: Path("libcook/engine.cpp").rename("libcook/motor.cpp"),
        lambda patch: Path("pyproject.toml").write_text("another"),
        lambda patch: patch.setenv("CXXFLAGS", "-march=native"),
        lambda patch: patch.setenv("CMAKE_ARGS", "-DCOOK_NATIVE=ON"),
        lambda patch: patch.setenv("CXX", "no-such-compiler"),
    ],
)
def test_any_change_compiles_again(
    backend: ModuleType, monkeypatch: pytest.MonkeyPatch, change: Callable[[pytest.MonkeyPatch], object]
) -> None:
    wheel_of(backend)
    change(monkeypatch)
    assert wheel_of(backend) == "number 2"


def test_settings_count_and_the_number_of_jobs_does_not(
    backend: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert wheel_of(backend) != wheel_of(backend, {"cmake.define.COOK_WERROR": "ON"})
    monkeypatch.setenv("CMAKE_BUILD_PARALLEL_LEVEL", "7")
    assert wheel_of(backend) == "number 1"


def test_only_the_last_few_are_kept(backend: ModuleType) -> None:
    for turn in range(7):
        Path("libcook/engine.cpp").write_text(f"{turn}")
        wheel_of(backend)
    assert len(list(Path("build/kept").iterdir())) == 4
    assert wheel_of(backend) == "number 7"


def test_a_tree_that_cannot_be_written_still_gives_a_wheel(
    backend: ModuleType, capsys: pytest.CaptureFixture[str]
) -> None:
    Path("build").write_text("a file where the folder should be")
    assert wheel_of(backend) == "number 1"
    assert "not kept" in capsys.readouterr().out
