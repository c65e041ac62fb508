"""A cook on a cross-section: shape, probes, what it can be turned into, what is refused."""

import pickle

import numpy as np
import pytest
from section_samples import COARSE, section_outcome, section_plan

import libcook as lc


def test_the_mesh_is_columns_of_rows():
    out = section_outcome()
    assert out.columns == 21 and out.temperature.shape == (out.time.size, 21 * 11)
    x, z = (values.reshape(21, 11) for values in (out.along, out.position))
    assert (np.diff(x[:, 5]) > 0.0).all() and (np.diff(z, axis=1) > 0.0).all()
    assert z[-1, -1] > 1.5 * z[0, -1]  # the point is thicker
    assert set(out.region) == {0, 1, 2} and out.node_volume.sum() == pytest.approx(1.0)


def test_ledgers_close():
    ledger = section_outcome().ledger
    assert abs(ledger.heat_residual) < 1e-9 and abs(ledger.water_residual) < 1e-9


def test_probes_by_name_and_by_place():
    out = section_outcome()
    assert list(out.probes) == ["flat", "point", "mine"]
    mine = out.probes["mine"]
    assert (mine.x, mine.z) == pytest.approx((0.20, 0.02))
    np.testing.assert_array_equal(out.probe("mine"), mine.temperature)
    np.testing.assert_allclose(out.probe(("20 cm", "20 mm")), mine.temperature, atol=1e-9)
    node = 10 * 11 + 5
    place = (float(out.along[node]), float(out.position[node]))
    np.testing.assert_allclose(out.probe(place), out.temperature[:, node], atol=1e-9)
    np.testing.assert_array_equal(out.probe("core"), out.core)


def test_the_core_is_the_flat_until_the_probe_is_moved():
    plan = section_plan(60.0)
    plan.stages[1].probe = "point"
    out = lc.simulate(plan, **COARSE)
    smoke = out.time <= 3600.0
    np.testing.assert_array_equal(out.core[smoke], out.probes["flat"].temperature[smoke])
    np.testing.assert_array_equal(out.core[~smoke], out.probes["point"].temperature[~smoke])


def test_a_stem_adds_its_share_of_air_minus_meat():
    share = lc.stem_error("20 mm")
    exact, read = (
        lc.simulate(section_plan(30.0, probes=[lc.Probe("p", x="20 cm", z="20 mm", stem=stem)]), **COARSE)
        for stem in (0.0, share)
    )
    meat = exact.probes["p"].temperature
    np.testing.assert_allclose(read.probes["p"].temperature, meat + share * (exact.air - meat), atol=1e-6)


@pytest.mark.parametrize("immersion", [0.02, 0.06])
def test_stem_error_is_the_tip_of_a_fin(immersion):
    # Incropera et al., Fundamentals of Heat and Mass Transfer, table 3.4 case B (from memory), solid rod
    m = np.sqrt(200.0 * np.pi * 0.004 / (16.0 * np.pi * 0.002**2))
    assert lc.stem_error(immersion, wall=0.0) == pytest.approx(1.0 / np.cosh(m * immersion), rel=1e-12)


def test_a_measured_section_is_the_same_piece():
    mine = lc.Section(
        length="45 cm", width="28 cm", at=["0 cm", "20 cm", "45 cm"], thickness=["35 mm", "45 mm", "80 mm"]
    )
    meat = lc.with_section(lc.brisket(), mine)
    assert meat.section == mine and meat.shape.extent == pytest.approx(0.45 * 0.28)
    assert meat.shape.thickness == pytest.approx(mine.area / 0.45)
    assert mine.thickness_at(0.20) == pytest.approx(0.045) and mine.volume == pytest.approx(mine.area * 0.28)
    plan = section_plan(20.0)
    plan.meat = meat
    out = lc.simulate(plan, **COARSE)
    assert set(out.region) == {0}  # no point, no seam
    assert out.position.max() == pytest.approx(0.08, rel=0.02)


def test_the_default_section_has_the_volume_of_its_slab():
    meat = lc.brisket(mass=4.0)
    section = lc.brisket_section(meat)
    assert section.volume == pytest.approx(meat.shape.volume)
    assert section.point == lc.brisket_point_tissue() and section.seam == lc.brisket_seam_tissue()
    assert section.place("point")[0] > section.place("flat")[0]


def test_pickles_keep_the_section():
    out = section_outcome()
    other = pickle.loads(pickle.dumps(out))
    assert other.columns == out.columns and repr(other) == repr(out)
    for name in ("along", "region", "temperature", "water", "vapour_pressure", "pan_water"):
        np.testing.assert_array_equal(getattr(other, name), getattr(out, name))
    np.testing.assert_array_equal(other.probes["mine"].tenderness, out.probes["mine"].tenderness)


def test_json_keeps_the_section():
    out = section_outcome()
    other = lc.Outcome.from_json(out.to_json(fields=True))
    assert other.columns == out.columns and list(other.probes) == list(out.probes)
    for name in ("along", "region", "temperature", "vapour_pressure"):
        np.testing.assert_array_equal(getattr(other, name), getattr(out, name))
    np.testing.assert_array_equal(other.probes["mine"].temperature, out.probes["mine"].temperature)


def test_plans_with_probes_and_sections_come_back_from_json():
    plan = section_plan(probes=[lc.Probe("a", x="10 cm", z="2 cm", tip="5 mm")])
    plan.meat = lc.with_section(plan.meat, lc.brisket_section(plan.meat))
    assert lc.Plan.from_json(plan.to_json()) == plan


def test_text_and_page_name_grid_flat_and_point():
    out = section_outcome()
    for form in (repr(out), out._repr_html_()):
        assert "cross-section of 21 x 11 nodes" in form and "flat " in form and "point " in form


def test_tables_carry_places_and_probes():
    out = section_outcome()
    frame, data = out.to_frame("F"), out.to_xarray()
    np.testing.assert_allclose(frame["probe point [°F]"], out.probes["point"].temperature * 1.8 + 32.0)
    np.testing.assert_array_equal(frame["vapour pressure [Pa]"], out.vapour_pressure)
    np.testing.assert_array_equal(data["x"], out.along)
    np.testing.assert_array_equal(data["z"], out.position)
    np.testing.assert_array_equal(data["reading"].sel(probe="mine"), out.probes["mine"].temperature)
    assert data["temperature"].dims == ("time", "node")


@pytest.mark.parametrize(
    ("make", "field", "says"),
    [
        (lambda: section_outcome().probe(("20 cm", "20 cm")), "probe", "outside the meat"),
        (lambda: section_outcome().probe("20 mm"), "probe", "needs a place"),
        (lambda: lc.simulate(section_plan(), grid="cross section"), "grid", "did you mean 'cross-section'"),
        (lambda: lc.simulate(section_plan(), **{**COARSE, "rows": 10}), "rows", "odd"),
        (
            lambda: lc.simulate(section_plan(probes=[lc.Probe("a", x=200, z=20)]), **COARSE),
            "probe.x",
            "'120 mm'",
        ),
        (
            lambda: lc.with_section(
                lc.brisket(), lc.Section(length=450, width=0.28, at=[0, 450], thickness=[0.04, 0.08])
            ),
            "section.length",
            "'400 mm'",
        ),
        (lambda: lc.with_section(lc.brisket(), "flat"), "section", "libcook.Section"),
        (lambda: lc.brisket_section("brisket"), "meat", "libcook.Meat"),
        (lambda: lc.Stage("x", lc.oven(110.0), probe="pont"), "stage.probe", "did you mean 'point'"),
        (lambda: section_plan(probes=["flat", 3]), "plan.probes[0]", "libcook.Probe"),
    ],
)
def test_messages_name_the_field_and_the_slip(make, field, says):
    with pytest.raises(lc.InvalidInput) as caught:
        make()
    assert caught.value.field == field and says in str(caught.value)
