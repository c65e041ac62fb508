"""Input without limits: what is too large is told at once, with its size, and never repeated in full."""

import itertools
import re
import subprocess
import sys
import time

import numpy as np
import pandas as pd
import pytest
from cook_samples import short_plan

import libcook as lc
from libcook.arguments.quote import LONGEST, cut, listed, quoted
from libcook.sweeps.table import _distinct

GRIDS = ("slab", "cross-section")
HANG = 60.0  # s, after which something hangs
LONG = 10_000_000  # characters


@pytest.mark.parametrize(
    ("parameters", "says"),
    [
        ({"pit.air": range(10**9)}, "1,000,000,000 cooks came, some"),
        (
            {"pit.air": range(1000), "pit.view": range(1000), "meat.start": range(1000)},
            r"1,000,000,000 cooks \(1,000 x 1,000 x 1,000\) came, some",
        ),
        ({"pit.air": range(10**18), "pit.view": range(10**18)}, r"1e\+36 cooks .* years of work"),
    ],
)
def test_a_sweep_of_a_thousand_million_is_refused_with_its_size(parameters, says):
    begun = time.monotonic()
    with pytest.raises(lc.InvalidInput, match=says) as caught:
        lc.sweep(short_plan(), parameters)
    text = str(caught.value)
    assert time.monotonic() - begun < HANG
    assert text.startswith("parameters: ")
    assert "GB of results" in text and "of work for the" in text
    assert "up to 100,000,000 cooks are accepted; did you mean libcook.sample({...}, n=...)?" in text


def test_the_size_is_that_of_what_is_asked():
    def asked(**options):
        with pytest.raises(lc.InvalidInput) as caught:
            lc.sweep(short_plan(), {"pit.air": range(10**9)}, **options)
        return str(caught.value)

    # eight bytes for each number that is kept, and 72 beside
    assert "some 80 GB of results" in asked(readings="finish_time")
    assert "some 88 GB of results" in asked(readings=["finish_time", "yield"])
    assert "some 88 GB of results" in asked(readings="stage_core")  # of two stages
    hours = [re.search(r"and ([\d,]+) h", asked(readings="yield", grid=grid)) for grid in GRIDS]
    slab, section = (float(found[1].replace(",", "")) for found in hours)
    assert section > 100.0 * slab


def test_a_result_beyond_the_memory_is_refused_unless_it_goes_to_a_folder(monkeypatch, tmp_path):
    monkeypatch.setattr("libcook.sweeps.size._memory", lambda: 1000.0)
    values = {"pit.air": [100.0 + i for i in range(20)]}
    with pytest.raises(lc.InvalidInput, match="0 GB of memory is accepted; did you mean to='folder'"):
        lc.sweep(short_plan(minutes=5.0), values, readings="yield")
    folder = lc.sweep(short_plan(minutes=5.0), values, readings="yield", to=tmp_path / "x", load=False)
    with pytest.raises(lc.InvalidInput, match="folder: 20 cooks came"):
        lc.read_sweep(folder)


def test_samples_and_endless_lists_are_refused():
    with pytest.raises(lc.InvalidInput, match=r"sample.n: 1,073,741,824 cooks came, some"):
        lc.sample({"pit.air": (100.0, 120.0)}, 2**30)
    with pytest.raises(lc.InvalidInput, match=r"parameters\['pit.air'\]: more than 1,000,000 values came"):
        lc.sweep(short_plan(), {"pit.air": itertools.count()})
    with pytest.raises(lc.InvalidInput, match=r"plans\[0\]"):
        lc.simulate_many(map(str, range(3)))


def test_many_distinct_texts_take_time_in_proportion():
    words = [f"{100 + i * 1e-4:.4f} °C" for i in range(200_000)]
    begun = time.monotonic()
    distinct, codes = _distinct([*words, *words])
    assert time.monotonic() - begun < HANG  # a search through the list took hours
    assert distinct == words
    assert codes == [*range(200_000)] * 2


def test_values_that_cannot_be_looked_up_are_told_apart_too():
    ends = [lc.core(60.0), lc.core(70.0), lc.core(60.0), lc.core(70.0)]
    assert _distinct(ends) == ([ends[0], ends[1]], [0, 1, 0, 1])
    assert _distinct([1, 1.0, "1", None, None]) == ([1, "1", None], [0, 0, 1, 2, 2])


def test_a_frame_with_twenty_thousand_texts_is_swept():
    texts = [f"{100 + i * 1e-3:.3f} °C" for i in range(20_000)]
    with pytest.raises(lc.InvalidInput, match="readings"):  # before any cook, after the column was read
        lc.sweep(short_plan(), pd.DataFrame({"pit.air": texts}), readings={"pit.air": len})


CALLS = {
    "a quantity": "lc.brisket(mass=text)",
    "a temperature": "lc.core(text)",
    "a duration": "lc.elapsed(text)",
    "a time of day": "lc.clock(text)",
    "a word": "lc.wrap(text)",
    "a kind": "lc.pit(text, air=110.0)",
    "a column": "lc.read_log('time [s],core [C]\\n0,4\\n60,5\\n', core=text)",
    "a path": "lc.read_log(text)",
    "a plan": "lc.Plan.from_json(text)",
    "a string of a plan": "lc.Plan.from_json('{\"stages\": \"' + text + '\"}')",
    "a path of a sweep": "lc.sweep(lc.Plan(lc.brisket(), [lc.Stage('x', lc.oven(110.0), "
    "until=lc.core(60.0))]), {text: [1]})",
    "a parameter": "lc.parameter(text)",
    "a kind of event": "lc.Event(text, 0.0)",
    "a free number": "lc.prior(text)",
    "a scale": "lc.units.temperature_unit(text)",
    "a kind of quantity": "lc.units.parse(1.0, text)",
    "a cell": "lc.read_log('time [s],core [C]\\n0,4\\n' + text + '\\n')",
}


LONG_TEXTS = {
    "digits": "'9' * n",
    "units": "'°F' * (n // 2)",
    "a fraction": "'5 ' + 'kg/' * (n // 3)",
    "many parts": "'1 lb ' * (n // 5)",
}


@pytest.mark.parametrize("text", LONG_TEXTS.values(), ids=LONG_TEXTS)
def test_ten_million_characters_are_refused_and_not_repeated(text):
    asks = ", ".join(f"{name!r}: lambda: {call}" for name, call in CALLS.items())
    code = f"""
import libcook as lc
n = {LONG}
text = {text}
for name, ask in {{{asks}}}.items():
    try:
        ask()
        print(name, "was accepted")
    except lc.InvalidInput as error:
        if max(len(str(error)), len(error.field)) > 1200:
            print(name, "says", str(error)[:300])
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=2 * HANG)
    assert done.returncode == 0, done.stderr[-2000:]
    assert done.stdout == ""


def test_text_is_quoted_as_it_is_up_to_a_limit():
    assert quoted("250 °F") == "'250 °F'"
    assert quoted("") == "''"
    assert quoted("x" * LONGEST) == f"'{'x' * LONGEST}'"
    assert quoted("x" * 1234) == f"'{'x' * LONGEST}…' (1,234 characters)"
    assert quoted("a… (b") == "'a… (b'"
    assert quoted("\ud800\n\0é") == r"'\ud800\n\x00é'"
    assert len(quoted("\ud800" * 10**6)) < 2 * LONGEST


def test_anything_else_is_quoted_in_its_short_form():
    class Unspeakable:
        def __repr__(self):
            raise ZeroDivisionError

    assert quoted(None) == "None" and quoted(3.5) == "3.5" and quoted(12) == "12"
    assert quoted(10**400) == quoted(-(10**400)) == "a whole number of about 401 digits"
    assert quoted(["a", [1.5, {"b": None}]]) == "['a', [1.5, {'b': None}]]"
    assert quoted(Unspeakable()) == "<an object of class Unspeakable>"
    assert quoted([[[[[[]]]]]]) == "[[[[...]]]]"
    assert "\n" not in quoted(np.zeros((40, 40)))
    for endless in (list(range(10**6)), {i: i for i in range(10**5)}, np.zeros(10**6), "x" * 10**7):
        assert len(quoted(endless)) < 2 * LONGEST


def test_names_are_listed_up_to_a_limit():
    assert listed(["core", "pit"]) == "core, pit"
    assert listed(map(str, range(100)), 3) == "0, 1, 2 and 97 more"
    assert cut("a" * 300).endswith("… (300 characters)")
