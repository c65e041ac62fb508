"""Figures of a cross-section."""

import matplotlib
import matplotlib.pyplot as plt
import numpy as np
import pytest
from cook_samples import short_plan
from section_samples import section_outcome

import libcook as lc
from libcook import section_plots as plots
from libcook.readings.section_field import Mesh, largest_change, mesh_of, values_at

matplotlib.use("Agg")


@pytest.fixture(autouse=True)
def close_figures():
    yield
    plt.close("all")


def words(ax):
    return [text.get_text() for text in ax.texts]


def test_a_panel_for_each_time_to_scale_with_the_probes():
    out = section_outcome()
    axes = out.plot_section(at=("1 h", "2 h", "4 h"))
    assert [ax.get_title("left") for ax in axes] == ["1 h, smoke", "2 h, smoke", "4 h, smoke"]
    assert all(ax.get_aspect() == 1.0 for ax in axes)
    flat = out.probes["flat"]
    assert f"flat  {np.interp(3600.0, out.time, flat.temperature):.0f} °C" in words(axes[0])
    dots = [line.get_xydata()[0] for line in axes[0].lines if line.get_marker() == "o"]
    np.testing.assert_allclose(dots[0], (1000.0 * flat.x, 1000.0 * flat.z))
    assert "seam" in axes[0].get_title("right")


@pytest.mark.parametrize(("what", "unit"), [("temperature", "°F"), ("water", "kg/kg"), ("tenderness", "%")])
def test_every_field_can_be_drawn(what, unit):
    axes = section_outcome().plot_section(what, units="F", theme="dark")
    assert len(axes) == 2  # the ends of the two stages
    assert any(unit in ax.get_ylabel() for ax in axes[0].figure.axes)


def test_tenderness_at_the_end_is_what_the_core_computes():
    out = section_outcome()
    mine = values_at(out, "tenderness", float(out.time[-1]))
    np.testing.assert_allclose(mine.ravel(), out.tenderness_by_node(), rtol=1e-9, atol=1e-15)


def test_fields_between_stored_times_lie_between_the_rows():
    out = section_outcome()
    middle = 0.25 * out.time[3] + 0.75 * out.time[4]
    expected = 0.25 * out.temperature[3] + 0.75 * out.temperature[4]
    np.testing.assert_allclose(values_at(out, "temperature", middle).ravel(), expected)


def test_the_change_in_a_straight_gradient_is_gradient_times_distance():
    x, z = np.meshgrid(np.linspace(0.0, 0.4, 41), np.linspace(0.0, 0.06, 13), indexing="ij")
    middle = np.array([0.2]), np.array([0.03])
    found = largest_change(Mesh(x, z), 500.0 * z, *middle, np.array([15.0]), 0.01)
    assert found[0] == pytest.approx(5.0, rel=0.01)  # 500 K/m over 10 mm


def test_a_probe_near_a_face_minds_more_than_one_in_the_middle():
    out = section_outcome()
    top = lc.brisket_section(out.plan.meat).thickness_at(0.12)
    face, middle = (plots.probe_shift(out, (0.12, share * top), "1 h") for share in (0.9, 0.5))
    assert face > 1.5 * middle > 0.0
    assert plots.probe_shift(out, (0.12, 0.5 * top), "1 h", within="5 mm") < middle


def test_probe_map_shows_the_number_at_each_probe():
    out = section_outcome()
    ax = out.probe_map("1 h", units="F")
    assert "10 mm" in ax.get_title("left") and any(word.startswith("flat  ") for word in words(ax))
    assert any("°F" in other.get_ylabel() for other in ax.figure.axes)


@pytest.mark.parametrize("kind", ["gif", "html"])
def test_animations_are_written(tmp_path, kind):
    path = plots.animate(section_outcome(), tmp_path / "new" / f"cook.{kind}", frames=3)
    content = path.read_bytes()
    assert 1000 < len(content) < 3_000_000
    if kind == "gif":
        from PIL import Image

        with Image.open(path) as film:
            assert film.n_frames == 3
    else:
        assert content.count(b"iVBORw0KGgo") == 3 and b"http" not in content


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda out: out.plot_section("fat"), "what"),
        (lambda out: out.plot_section(at=("1 h", "40 h")), "at[1]"),
        (lambda out: out.plot_section(at=()), "at"),
        (lambda out: plots.animate(out, "cook.mp4"), "path"),
        (lambda out: plots.animate(out, "cook.gif", frames=1), "frames"),
        (lambda out: plots.probe_shift(out, (0.1, 0.02), "1 h", within=10), "within"),
        (lambda out: plots.probe_shift(out, "flat", "1 h"), "place"),
    ],
)
def test_what_cannot_be_drawn_is_refused(make, field):
    with pytest.raises(lc.InvalidInput) as caught:
        make(section_outcome())
    assert caught.value.field == field


def test_one_dimension_has_no_section():
    with pytest.raises(lc.InvalidInput, match="cross-section"):
        mesh_of(lc.simulate(short_plan(10.0)))
