import sys

import matplotlib
import matplotlib.pyplot as plt
import numpy as np
import pytest
from html_reader import Reader
from invented_outcome import invented_outcome
from matplotlib.text import Text

from libcook.compare import compare

matplotlib.use("Agg")


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


@pytest.fixture
def three():
    return {
        "paper": invented_outcome(),
        "late & bare": invented_outcome(shift=2.0),
        "no rest": invented_outcome(stall=False, rest=False),
    }


def test_rows_hold_what_the_outcomes_say(three):
    first, second, third = compare(three).table
    assert first["cook"] == "paper" and first["pull [h]"] == pytest.approx(10.0)
    assert first["stall start [h]"] == pytest.approx(3.3) and first["stall end [h]"] == pytest.approx(6.0)
    assert first["stall plateau [°C]"] == pytest.approx(68.0)
    assert first["carryover [°C]"] == pytest.approx(1.5) and first["peak after pull [min]"] == pytest.approx(
        24.0
    )
    assert first["weight loss [%]"] == pytest.approx(40.0) and first["evaporated [kg]"] == 1.6
    assert first["held at 60 °C [h]"] == pytest.approx(3.0) and first["still held"]
    assert first["tenderness [%]"] == pytest.approx(90.0)
    assert second["pull [h]"] == pytest.approx(12.0)
    nothing = [name for name, value in third.items() if value is None]
    assert nothing == [
        "stall start [h]", "stall end [h]", "stall plateau [°C]", "carryover [°C]", "peak after pull [min]",
        "held at 60 °C [h]",
    ]  # fmt: skip


def test_fahrenheit_converts_levels_and_differences(three):
    row = compare(three, units="F", hold="140 °F").table[0]
    assert row["stall plateau [°F]"] == pytest.approx(154.4)
    assert row["carryover [°F]"] == pytest.approx(2.7)  # a difference: no 32 in it
    assert "held at 140 °F [h]" in row


def test_a_hold_that_ends_in_the_rest_is_no_lower_bound(three):
    row = compare(three, hold=80.0).table[0]
    assert not row["still held"] and 1.5 < row["held at 80 °C [h]"] < 3.0


def test_plain_table_is_aligned(three):
    lines = repr(compare(three)).splitlines()
    rule = next(i for i, text in enumerate(lines) if set(text) == {"-"})
    rows = lines[rule + 1 : rule + 4]
    assert [row.split("  ")[0] for row in rows] == ["paper", "late & bare", "no rest"]
    assert len({len(row) for row in lines[2:rule] + rows}) == 1
    assert "3.0+" in rows[0] and "–" in rows[2]
    assert lines[rule + 4].startswith("+ the core was still")


def test_html_table_is_well_formed_and_escaped(three):
    fragment = compare(three)._repr_html_()
    reader = Reader.of(fragment)
    assert reader.open == [] and "late & bare" in reader.text and "late & bare" not in fragment
    assert fragment.count("<tr>") == 4


def test_frame_has_a_row_for_each_cook(three):
    frame = compare(three).to_frame()
    assert list(frame.index) == ["paper", "late & bare", "no rest"]
    assert np.isnan(frame.loc["no rest", "stall start [h]"])
    assert frame.loc["paper", "still held"]


def test_figure_draws_every_core_with_its_name(three):
    ax = compare(three, units="F").plot()
    for name, out in three.items():
        drawn = next(each for each in ax.lines if each.get_label() == name)
        np.testing.assert_allclose(drawn.get_ydata(), out.core * 1.8 + 32.0)
        assert name in [text.get_text() for text in ax.texts]
        dots = (each for each in ax.lines if each.get_marker() == "o")
        dot = next(each for each in dots if each.get_markeredgecolor() == drawn.get_color())
        assert f"{dot.get_xdata()[0]:.1f} h" in [text.get_text() for text in ax.texts]
    assert ax.get_xlim() == (0.0, 15.0) and "[°F]" in ax.get_ylabel()
    ax.figure.canvas.draw()
    hours = [text.get_window_extent() for text in ax.texts if text.get_text().endswith(" h")]
    assert not any(a.overlaps(b) for i, a in enumerate(hours) for b in hours[:i])


def test_more_cooks_than_colours_stay_apart():
    ax = compare({f"cook {i}": invented_outcome(shift=0.25 * i) for i in range(12)}).plot()
    drawn = [each for each in ax.lines if str(each.get_label()).startswith("cook")]
    assert (
        len({(each.get_color(), each.get_linestyle(), each._dash_pattern[1] is None) for each in drawn}) == 12
    )
    ax.figure.canvas.draw()
    boxes = sorted(
        (Text.get_window_extent(text) for text in ax.texts if text.get_text().startswith("cook")),
        key=lambda b: b.y0,
    )
    assert all(above.y0 >= below.y1 - 0.5 for below, above in zip(boxes, boxes[1:], strict=False))


def test_plans_are_simulated(monkeypatch):
    seen = []
    module = sys.modules[compare.__module__]
    monkeypatch.setattr(module, "simulate", lambda plan: seen.append(plan) or invented_outcome())
    plan = invented_outcome().plan
    result = compare({"a plan": plan, "an outcome": invented_outcome(shift=1.0)})
    assert seen == [plan] and list(result.outcomes) == ["a plan", "an outcome"]


def test_what_an_outcome_notes_stands_below_the_table():
    text = repr(compare({"one": invented_outcome(), "other": invented_outcome()}))
    assert text.count("invented for the tests") == 2 and "other: invented for the tests" in text


@pytest.mark.parametrize("cooks", [{}, [invented_outcome()], None])
def test_what_is_no_mapping_is_refused(cooks):
    with pytest.raises(ValueError, match="cooks: "):
        compare(cooks)


def test_what_is_no_cook_is_named():
    with pytest.raises(ValueError, match=r"cooks\['x'\]: str came; a plan or an outcome is accepted"):
        compare({"x": "brisket"})


@pytest.mark.parametrize("hold", ["140", 140.0, "60 kg", float("nan")])
def test_a_hold_that_is_no_meat_temperature_is_refused(hold):
    with pytest.raises(ValueError, match="hold: "):
        compare({"x": invented_outcome()}, hold=hold)
