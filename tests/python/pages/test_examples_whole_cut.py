"""The examples of the whole cut run, answer in two sentences each, and the words follow the numbers."""

import importlib
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

FOLDER = Path(__file__).resolve().parents[3] / "examples" / "whole_cut"
NAMES = ("flat_first", "water_pan", "fat_side", "probe_place", "hold", "tender_yet")


@pytest.fixture(scope="module")
def ran(tmp_path_factory):
    folder = tmp_path_factory.mktemp("figures")
    done = subprocess.run(
        [sys.executable, "-X", "utf8", "-W", "error", FOLDER / "all.py", "--figures", folder],
        capture_output=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    parts = re.split(r"^wrote .*$", done.stdout, flags=re.M)
    assert len(parts) == len(NAMES) + 1
    return folder, {name: part.strip().split("\n") for name, part in zip(NAMES, parts, strict=False)}


@pytest.fixture
def example(monkeypatch):
    monkeypatch.syspath_prepend(str(FOLDER))
    yield importlib.import_module
    for name in (*NAMES, "kitchen"):
        sys.modules.pop(name, None)


def minutes(text: str) -> int:
    match = re.fullmatch(r"(?:(\d+) h )?(\d+) min", text)
    assert match, text
    return 60 * int(match[1] or 0) + int(match[2])


@pytest.mark.parametrize("name", NAMES)
def test_each_question_gets_two_sentences_and_a_figure(ran, name):
    question, *sentences = ran[1][name]
    assert "?" in question and "invented" in question
    assert len(sentences) == (3 if name == "hold" else 2)  # the hold adds the caution
    assert all(re.search(r"\d", one) and one.endswith(".") for one in sentences[:2])
    assert not re.search(r"\bnan\b|\binf\b", " ".join(sentences))
    assert (ran[0] / f"whole_cut_{name}.png").read_bytes().startswith(b"\x89PNG")


def test_holding_defers_to_the_local_rules(ran):
    assert "follow your local food-safety rules" in ran[1]["hold"][-1]


def test_which_leads_and_why_follows_from_the_three_cooks(ran):
    text = " ".join(ran[1]["flat_first"])
    lead, even, lean = re.findall(r"the (flat|point) is done ([\d hmin]+?) before", text)
    signs = {"flat": 1, "point": -1}
    signed = [signs[first] * minutes(length) for first, length in (lead, even, lean)]
    assert signed[0] > signed[1]  # a thicker point holds it back
    by_thickness = abs(signed[0] - signed[1]) > abs(signed[0] - signed[2])
    assert f"mostly the {'thickness' if by_thickness else 'fatter tissue'}" in ran[1]["flat_first"][2]


def test_a_better_insulated_rest_holds_longer(ran):
    text = ran[1]["hold"][1]
    counter, box = (
        minutes(re.search(rf"{name}: after ([\d hmin]+)", text)[1])
        for name in ("counter, foil tent", "insulated box, towels")
    )
    assert counter < box
    assert re.search(r"holding oven, 150 °F: not within 12 h", text)


def test_whether_the_two_steps_are_kept_follows_from_the_times(ran):
    text = ran[1]["hold"][2]
    first, both = re.search(r"takes (.+?) from 135 to 70 °F and (.+?) to 41 °F", text).groups()
    kept = "more" not in first + both and minutes(first) <= 120 and minutes(both) <= 360
    assert ("keeps the limits" in text) == kept and ("breaks the limits" in text) != kept


def test_the_looks_are_half_an_hour_apart_and_find_it_late_by_less(ran):
    for sentence in ran[1]["tender_yet"][1:]:
        late = re.search(r"and ([\d hmin]+) after it was", sentence)
        assert late is None or minutes(late[1]) <= 30
        share = int(re.search(r"point at (\d+) %", sentence)[1])
        assert ("not yet tender" in sentence) == (share < 80)


def test_words_turn_with_the_numbers(example):
    order, change = example("flat_first").order, example("water_pan").change
    assert order(600.0) == "the flat is done 10 min before the point"
    assert order(-600.0) == "the point is done 10 min before the flat"

    class Cook:
        def __init__(self, end):
            self.time = np.array([0.0, end])

    cooks = {"a": Cook(36000.0), "b": Cook(39600.0), "c": Cook(36060.0)}
    assert change(cooks, "b", "a") == "comes 1 h 00 min later"
    assert change(cooks, "a", "b") == "comes 1 h 00 min sooner"
    assert "hardly" in change(cooks, "c", "a")


def test_a_level_that_is_never_reached_is_not_a_number(example):
    reaches = example("kitchen").reaches
    time, values = np.array([0.0, 60.0, 120.0]), np.array([10.0, 20.0, 40.0])
    assert reaches(time, values, 30.0) == pytest.approx(90.0)
    assert np.isnan(reaches(time, values, 50.0))
