import matplotlib
import matplotlib.pyplot as plt
import numpy as np
import pytest
from figure_texts import collisions, line

import libcook as lc
from libcook import plots
from libcook.figures import style

matplotlib.use("Agg")


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


def text(ax, name):
    return next(each for each in ax.texts if each.get_text() == name)


def test_each_curve_has_its_values_and_its_name():
    x = np.linspace(0.0, 10.0, 11)
    ax = plots.lines(x, {"a": x, "b": (x[:6], 10.0 - x[:6])}, "time [h]", "heat [W]")
    np.testing.assert_array_equal(line(ax, "a").get_ydata(), x)
    np.testing.assert_array_equal(line(ax, "b").get_xdata(), x[:6])
    assert ax.get_xlabel() == "time [h]" and ax.get_ylabel() == "heat [W]"
    assert text(ax, "b").xy == (5.0, 5.0)  # where it ends, within the axes
    assert text(ax, "a").xy == (10.0, 10.0)
    assert collisions(ax) == []


def test_names_stand_where_curves_leave_the_limits():
    x = np.linspace(0.0, 10.0, 101)
    ax = plots.lines(x, {"up": x**2, "flat": np.full(101, 5.0)}, "x [-]", "y [-]", ylim=(0.0, 25.0))
    assert text(ax, "up").xy == (pytest.approx(5.0), pytest.approx(25.0))
    assert ax.get_ylim() == (0.0, 25.0) and collisions(ax) == []


def test_names_of_ends_close_together_do_not_cover_each_other():
    ends = (4.0, 4.4, 4.8, 5.5, 6.5)
    curves = {f"a long name {i}": (np.array([0.0, x]), np.array([0.0, 90.0])) for i, x in enumerate(ends)}
    ax = plots.lines(None, curves, "time [h]", "core [°C]", xlim=(0.0, 12.0), ylim=(0.0, 100.0))
    assert collisions(ax) == []


def test_gaps_are_left_and_nothing_is_labelled_that_is_not_seen():
    x = np.arange(4.0)
    ax = plots.lines(x, {"gap": [0.0, np.nan, 2.0, np.nan], "none": np.full(4, np.nan)}, "x [-]", "y [-]")
    assert text(ax, "gap").xy == (2.0, 2.0)
    assert not [each for each in ax.texts if each.get_text() == "none"]


@pytest.mark.parametrize(
    ("curves", "field"), [({}, "curves"), ([1, 2], "curves"), ({"a": [1.0]}, r"curves\['a'\]")]
)
def test_curves_that_are_none(curves, field):
    with pytest.raises(lc.InvalidInput, match=field):
        plots.lines([0.0, 1.0], curves, "x [-]", "y [-]")


def test_a_map_has_its_values_on_its_lines():
    x, y = np.linspace(0.0, 1.0, 21), np.linspace(0.0, 2.0, 31)
    ax = plots.contours(
        x, y, 3.0 * x[None, :] + 0.0 * y[:, None], "x [m]", "y [m]", "depth [m]", levels=[0, 1, 2, 3]
    )
    numbers = {each.get_text(): each.get_position()[0] for each in ax.texts}
    assert numbers["1"] == pytest.approx(1.0 / 3.0, abs=0.01) and numbers["2"] == pytest.approx(
        2.0 / 3.0, abs=0.01
    )
    assert ax.get_title(loc="left") == "depth [m]" and ax.get_facecolor() == matplotlib.colors.to_rgba(
        "#FFFFFF"
    )


def test_a_map_of_the_wrong_shape_is_refused():
    with pytest.raises(lc.InvalidInput, match=r"\(2, 3\) is accepted"):
        plots.contours([0, 1, 2], [0, 1], np.zeros((3, 2)), "x [-]", "y [-]", "z [-]")


def test_themes_reach_lines_and_maps():
    x = np.linspace(0.0, 1.0, 5)
    for ax in (
        plots.lines(x, {"a": x}, "x [-]", "y [-]", theme="dark"),
        plots.contours(x, x, np.outer(x, x), "x [-]", "y [-]", "z [-]", theme="dark"),
    ):
        assert ax.get_facecolor() == matplotlib.colors.to_rgba(style.theme_of("dark").paper)
    with pytest.raises(lc.InvalidInput, match="theme"):
        plots.lines(x, {"a": x}, "x [-]", "y [-]", theme="sepia")
