"""The sensitivity example runs, and its two sentences follow from its numbers."""

import importlib.util
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

import libcook as lc

SCRIPT = Path(__file__).resolve().parents[3] / "examples" / "sensitivity.py"


@pytest.fixture(scope="module")
def example():
    spec = importlib.util.spec_from_file_location("sensitivity", SCRIPT)
    module = importlib.util.module_from_spec(spec)
    sys.modules["sensitivity"] = module  # dataclasses look their module up
    spec.loader.exec_module(module)
    yield module
    del sys.modules["sensitivity"]


@pytest.fixture(scope="module")
def ran(tmp_path_factory):
    folder = tmp_path_factory.mktemp("figures")
    done = subprocess.run(
        [sys.executable, "-X", "utf8", "-W", "error", SCRIPT, "--figures", folder],
        capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return folder, done.stdout.splitlines()


def test_it_answers_in_two_sentences_and_a_figure(ran):
    question, *sentences, wrote = ran[1]
    assert "?" in question and "invented" in question.lower() and len(sentences) == 2
    assert all(re.search(r"\d", one) and one.endswith(".") for one in sentences)
    assert not re.search(r"\bnan\b|\binf\b", " ".join(sentences))
    assert (ran[0] / "sensitivity.png").read_bytes().startswith(b"\x89PNG") and wrote.startswith("wrote ")


def test_measuring_narrows_it_down_and_the_pit_decides_before(ran):
    spans = [tuple(map(int, one)) for one in re.findall(r"(\d+) to (\d+) h", " ".join(ran[1]))]
    assert len(spans) == 2 and spans[1][1] - spans[1][0] < spans[0][1] - spans[0][0]
    assert "pit temperature (" in ran[1][1]


def test_the_ranges_are_those_of_the_table(example):
    every = {one.name: one for one in example.inputs()}
    assert len(every) >= 10 and all(one.low < one.high for one in every.values())
    row = lc.parameter("tissue.mobility.expressed")
    assert (every["speed of the juice"].low, every["speed of the juice"].high) == (row.low, row.high)
    low, high = example.film_range()
    assert 2.0 < low < 1.2 * low < high < 30.0  # still air, and a draught: textbook orders of magnitude


def test_shares_of_a_function_that_is_known(example, monkeypatch):
    # time = 2 a + b with equal ranges: the variances stand as 4 to 1, without interactions
    inputs = [example.Input("a", ("a",), 0.0, 1.0), example.Input("b", ("b",), 0.0, 1.0)]

    def swept(_plan, frame, readings):
        import xarray as xr

        return xr.Dataset({readings: ("cook", 3600.0 * (2.0 * frame["a"] + frame["b"]).to_numpy())})

    monkeypatch.setattr(example.lc, "sweep", swept)
    shares = example.decide(inputs, 1024)
    np.testing.assert_allclose(shares.alone, [0.8, 0.2], atol=0.02)
    np.testing.assert_allclose(shares.total, [0.8, 0.2], atol=0.02)
    assert shares.ranked() == [0, 1] and example.span(shares) == "0 to 3 h"  # 0.45 to 2.55


def test_the_words_turn_with_the_numbers(example):
    inputs = tuple(example.Input(name, (name,), 0.0, 1.0) for name in ("a", "b", "c", "d"))
    none = np.zeros(4)

    def shares(*total):
        return example.Shares(inputs, none, np.array(total), none, none + 0.01, np.array([10.0, 20.0]))

    first, second = example.sentences(shares(0.1, 0.7, 0.2, 0.0), shares(0.5, 0.01, 0.3, 0.2))
    assert first.endswith("goes with b (70 ± 1 %) and c (20 ± 1 %).")
    assert second.endswith(
        "a (50 ± 1 %), c (30 ± 1 %) and d (20 ± 1 %); 1 of the 4 inputs: less than 5 % each."
    )
    assert example.sentences(shares(1, 1, 1, 1), shares(1, 1, 1, 1))[1].endswith("%).")


def test_a_cook_without_a_finish_time_is_an_error(example, monkeypatch):
    hopeless = example.PLAN.replace()
    hopeless.stages[1].at_most = "1 min"
    monkeypatch.setattr(example, "PLAN", hopeless)
    with pytest.warns(lc.SweepWarning), pytest.raises(RuntimeError, match="cooks have no finish time"):
        example.decide(example.inputs()[:2], 2)
