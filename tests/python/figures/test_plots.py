import matplotlib
import matplotlib.pyplot as plt
import numpy as np
import pytest
from figure_texts import collisions, line
from invented_outcome import invented_outcome
from said import durations, quantities

import libcook as lc
from libcook import plots
from libcook.figures import style

matplotlib.use("Agg")


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


def words(ax):
    return [text.get_text() for text in ax.texts]


def test_lines_are_the_traces():
    out = invented_outcome()
    ax = plots.plot_outcome(out)
    for name, values in (("core", out.core), ("surface", out.surface[:, 1]), ("air", out.air)):
        np.testing.assert_allclose(line(ax, name).get_xdata(), out.time / 3600.0)
        np.testing.assert_array_equal(line(ax, name).get_ydata(), values)
    assert "[°C]" in ax.get_ylabel() and "[h]" in ax.get_xlabel()


def test_fahrenheit_reaches_lines_axis_and_words():
    ax = plots.plot_outcome(invented_outcome(), units="F")
    assert line(ax, "core").get_ydata()[0] == pytest.approx(39.2)  # 4 °C
    assert "[°F]" in ax.get_ylabel()
    text = " ".join(words(ax))
    assert "pull  201.2 °F" in text and "near 154 °F" in text and "°C" not in text  # 94 °C and 68 °C


def test_everything_is_inside_the_limits():
    out = invented_outcome()
    ax = plots.plot_outcome(out)
    low, high = ax.get_ylim()
    assert low < min(out.core.min(), out.air.min()) and high > out.air.max()
    assert ax.get_xlim() == (0.0, out.time[-1] / 3600.0)


def test_stall_stages_pull_and_peak_are_marked():
    ax = plots.plot_outcome(invented_outcome())
    shaded = ax.collections[0].get_paths()[0].vertices
    assert shaded[:, 0].min() == pytest.approx(3.3) and shaded[:, 0].max() == pytest.approx(6.0)
    text = words(ax)
    assert {"smoke", "wrapped (butcher paper)", "rest (foil)", "core", "surface", "air"} <= set(text)
    stall, pull, peak = (next(t for t in text if t.startswith(word)) for word in ("stall", "pull", "peak"))
    assert durations(stall) == [162] and quantities(stall, "°C") == [68.0]
    assert durations(pull) == [600] and quantities(pull, "°C") == [94.0]
    assert durations(peak) == [24] and quantities(peak, "°C") == [95.5]
    points = [(each.get_xdata()[0], each.get_ydata()[0]) for each in ax.lines if each.get_marker() in "o^"]
    assert points == [(10.0, 94.0), (10.4, 95.5)]


def test_nothing_is_marked_that_did_not_happen():
    ax = plots.plot_outcome(invented_outcome(stall=False, rest=False, spritz=False))
    text = " ".join(words(ax))
    assert not [word for word in ("stall", "peak", "pull", "spritz", "rest") if word in text]
    assert "end  94.0 °C\n10 h" in text and not ax.collections


def test_events_have_a_row_of_ticks_for_each_kind():
    ax = plots.plot_outcome(invented_outcome())
    np.testing.assert_allclose(line(ax, "spritz").get_xdata(), [2, 3, 4, 5])
    np.testing.assert_allclose(line(ax, "lid").get_xdata(), [5.5])
    assert line(ax, "spritz").get_ydata()[0] != line(ax, "lid").get_ydata()[0]


def test_clock_times_stand_below_the_hours():
    ax = plots.plot_outcome(invented_outcome(clock_start=22 * 3600.0))
    labels = [label.get_text() for label in ax.get_xticklabels()]
    assert labels[:2] == ["0\n22:00", "2\n00:00"]


@pytest.mark.parametrize(
    "options",
    [
        {},
        {"clock_start": 18000.0},
        {"rest": False},
        {"stall": False, "spritz": False},
        {"cylinder": True, "shift": 4.0},
        {
            "names": (
                "a first stage with a long name",
                "the second one, long as well",
                "a long rest on the counter",
            )
        },
    ],
    ids=str,
)
def test_no_text_covers_another_or_leaves_the_figure(options):
    out = invented_outcome(**options)
    assert collisions(plots.plot_outcome(out, units="F")) == []
    assert collisions(plots.plot_budget(out)) == []


def test_a_figure_of_the_users_own_is_used():
    _, ax = plt.subplots()
    assert plots.plot_outcome(invented_outcome(), ax=ax) is ax
    assert plots.plot_budget(invented_outcome(), ax=plt.subplots()[1]) is not ax


def test_budget_bands_stack_up_to_what_enters_the_meat():
    out = invented_outcome()
    ax = plots.plot_budget(out)
    budget = out.heat_budget(1)
    into = line(ax, "into the meat")
    np.testing.assert_array_equal(into.get_ydata(), budget.into_meat)
    np.testing.assert_allclose(into.get_xdata(), budget.time / 3600.0)
    # at 4 h the bands reach from the sum of what is taken to the sum of what arrives
    at = np.abs(budget.time / 3600.0 - 4.0).argmin()
    x = budget.time[at] / 3600.0
    corners = np.concatenate([band.get_paths()[0].vertices for band in ax.collections])
    heights = corners[np.isclose(corners[:, 0], x)][:, 1]
    assert heights.max() == pytest.approx(budget.convection[at] + budget.radiation[at])
    assert heights.min() == pytest.approx(-budget.evaporation[at])
    assert heights.max() + heights.min() == pytest.approx(budget.into_meat[at])
    assert "[W/m²]" in ax.get_ylabel()
    assert {"convection", "radiation", "evaporation"} <= set(words(ax))


def test_budget_says_what_it_leaves_out():
    out = invented_outcome()
    budget = out.heat_budget(1)
    budget.convection[0] = 9000.0
    out.heat_budget = lambda face: budget
    ax = plots.plot_budget(out)
    assert ax.get_ylim()[1] < 2000.0
    assert f"short peaks up to {9000.0 + budget.radiation[0]:.0f} W/m² not shown" in words(ax)


@pytest.mark.parametrize(("cylinder", "face"), [(False, "side"), (True, "bottom")])
def test_budget_refuses_a_face_that_is_not_there(cylinder, face):
    with pytest.raises(ValueError, match=f"face: '{face}'"):
        plots.plot_budget(invented_outcome(cylinder=cylinder), face=face)


def test_profiles_are_rows_of_the_fields():
    out = invented_outcome()
    warm, wet = plots.plot_profiles(out, ["6 h", 36000.0])
    row = np.flatnonzero(out.time == 6 * 3600.0)[0]
    np.testing.assert_allclose(line(warm, "6 h").get_ydata(), out.temperature[row])
    np.testing.assert_allclose(line(wet, "6 h").get_ydata(), out.water[row])
    np.testing.assert_allclose(line(wet, "10 h").get_xdata(), out.position * 1000.0)
    assert "[mm]" in warm.get_xlabel() and "[°C]" in warm.get_ylabel() and "[kg/kg" in wet.get_ylabel()
    assert collisions(warm, wet) == []


def test_profiles_between_stored_times_lie_between_the_rows():
    out = invented_outcome()
    middle = 0.25 * out.time[100] + 0.75 * out.time[101]
    warm, _ = plots.plot_profiles(out, [middle], units="F")
    expected = 0.25 * out.temperature[100] + 0.75 * out.temperature[101]
    np.testing.assert_allclose(warm.lines[0].get_ydata(), expected * 1.8 + 32.0)


@pytest.mark.parametrize("times", [["14 h"], [-1.0], [], "6 h"])
def test_profiles_refuse_times_outside_the_cook(times):
    with pytest.raises(ValueError, match="times"):
        plots.plot_profiles(invented_outcome(), times)


def test_profiles_need_the_fields():
    with pytest.raises(ValueError, match="fields were not kept"):
        plots.plot_profiles(invented_outcome(fields=False), ["2 h"])


@pytest.mark.parametrize("kind", ["png", "svg"])
def test_saving_twice_gives_the_same_bytes(tmp_path, kind):
    first = plots.savefig(plots.plot_outcome(invented_outcome()), tmp_path / "new folder" / f"a.{kind}")
    second = plots.savefig(plots.plot_outcome(invented_outcome()), tmp_path / f"b.{kind}")
    assert first.read_bytes() == second.read_bytes()
    assert first.read_bytes().startswith(b"\x89PNG" if kind == "png" else b"<?xml")


def test_saving_refuses_other_formats(tmp_path):
    with pytest.raises(ValueError, match="'.png' or '.svg'"):
        plots.savefig(plots.plot_outcome(invented_outcome()), tmp_path / "a.gif")


def test_unknown_theme_is_refused():
    with pytest.raises(ValueError, match="theme: 'sepia'"):
        plots.plot_outcome(invented_outcome(), theme="sepia")


def test_labels_are_spread_in_order_and_only_as_far_as_needed():
    assert style.spread([1.0, 5.0, 9.0], 2.0) == [1.0, 5.0, 9.0]
    assert style.spread([5.0, 5.0], 2.0) == [4.0, 6.0]
    moved = style.spread([5.2, 0.0, 5.0, 5.1], 1.0, low=0.0, high=6.0)
    assert moved[1] < moved[2] < moved[3] < moved[0]
    assert np.diff(sorted(moved)).min() >= 1.0 - 1e-9 and min(moved) >= 0.0 and max(moved) <= 6.0


def _luminance(colour):
    """Relative luminance, W3C Web Content Accessibility Guidelines 2.1 (from memory)."""
    channels = [int(colour[i : i + 2], 16) / 255.0 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _contrast(a, b):
    high, low = sorted((_luminance(a), _luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_text_stands_out_from_the_paper(theme):
    # The same guidelines ask for 4.5 to 1 between text and ground, and 3 to 1 for what carries meaning.
    colours = style.theme_of(theme)
    assert min(_contrast(colours.ink, ground) for ground in (colours.paper, colours.band)) > 7.0
    for colour in (colours.core, colours.surface, colours.air, *colours.series):
        assert _contrast(style.readable(colour, colours), colours.paper) >= 4.5, colour
    for colour in (colours.core, colours.surface, colours.air):
        assert _contrast(colour, colours.paper) >= 3.0


def test_an_outcome_draws_itself_in_both_themes():
    plan = lc.Plan(
        lc.brisket(mass="3 kg"), [lc.Stage("smoke", lc.pit("drum", air="120 °C"), until=lc.elapsed("3 h"))]
    )
    out = lc.simulate(plan)
    for theme in ("light", "dark"):
        paper = matplotlib.colors.to_rgba(style.theme_of(theme).paper)
        drawn = (
            out.plot("F", theme=theme),
            out.plot_budget(theme=theme),
            *out.plot_profiles(["1 h"], theme=theme),
        )
        assert [ax.get_facecolor() for ax in drawn] == [paper] * 4
    np.testing.assert_allclose(line(out.plot("F"), "core").get_ydata(), 1.8 * out.core + 32.0)
    into = line(out.plot_budget("bottom"), "into the meat").get_ydata()
    np.testing.assert_array_equal(into, out.heat_budget("bottom").into_meat)
