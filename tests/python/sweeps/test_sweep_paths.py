"""Paths into a plan: what they reach, and what is said of a wrong one."""

import numpy as np
import pytest
from sweep_samples import plan

import libcook as lc
from libcook.sweeps.paths import every_path, resolve


def reached(made, path, value):
    for target in resolve(made, path):
        target.bound(made)(value)
    return made


def with_everything():
    made = plan()
    made.stages[0].spritz = lc.spritz()
    made.stages[0].lid = [("1 h", "1 min")]
    made.meat.section = lc.brisket_section(made.meat)
    made.stages[0].surroundings = lc.breathing(lc.pit("kettle", air="121 °C"), pan="2 kg")
    return made


@pytest.mark.parametrize(
    ("path", "value", "read"),
    [
        ("stages[0].surroundings.air", 130.0, lambda p: p.stages[0].surroundings.air.value[0]),
        ("stages.smoke.surroundings.air", 130.0, lambda p: p.stages[0].surroundings.air.value[0]),
        ("stages['smoke'].at_most", 7e4, lambda p: p.stages[0].at_most),
        ('plan.stages["rest"].at_most', 7e4, lambda p: p.stages[2].at_most),
        ("meat.tissue.mobility.expressed", 2e-8, lambda p: p.meat.tissue.mobility.expressed),
        ("meat.section.seam_thickness", 0.01, lambda p: p.meat.section.seam_thickness),
        ("meat.section.point.composition.fat", 0.2, lambda p: p.meat.section.point.composition.fat),
        ("stages[0].until[0].value", 61.0, lambda p: p.stages[0].until[0].value),
        ("stages[0].until[0].core", 61.0, lambda p: p.stages[0].until[0].value),
        ("stages[0].spritz.every", 900.0, lambda p: p.stages[0].spritz.every),
        ("stages[0].lid[0].duration", 45.0, lambda p: p.stages[0].lid[0].duration),
        ("stages[0].surroundings.air.ripple_amplitude", 3.0,
         lambda p: p.stages[0].surroundings.air.ripple_amplitude),
        ("stages[0].surroundings.pit_air.pan.water", 3.0,
         lambda p: p.stages[0].surroundings.pit_air.pan.water),
        ("stages[1].wrap.top.vapour_resistance", 99.0, lambda p: p.stages[1].wrap.top.vapour_resistance),
        ("clock_start", 3600.0, lambda p: p.start),
    ],
)  # fmt: skip
def test_a_path_sets_what_it_names_and_nothing_else(path, value, read):
    before, made = with_everything(), with_everything()
    assert read(before) != value
    reached(made, path, value)
    assert read(made) == value
    back = read(before)
    assert reached(made, path, back) == before


def test_the_pit_is_every_stage_on_the_heat():
    made = reached(plan(), "pit.vapour_pressure", 5000.0)
    assert [stage.surroundings.vapour_pressure.value[0] for stage in made.stages[:2]] == [5000.0, 5000.0]
    assert made.stages[2] == plan().stages[2]
    made = reached(made, "pit.film", 12.0)
    faces = [getattr(stage.surroundings, face) for stage in made.stages[:2] for face in ("bottom", "top")]
    assert [(film.kind, film.value) for film in faces] == 4 * [("given", 12.0)]
    made = reached(made, "pit.film.value", 13.0)
    assert made.stages[1].surroundings.top.value == 13.0


@pytest.mark.parametrize("make", [lc.brisket, lc.pork_shoulder])
def test_the_mass_and_the_thickness_reshape_as_the_cut_does(make):
    for path, value in (("meat.mass", 5.0), ("meat.thickness", 0.07)):
        made = plan()
        made.meat = make(mass=2.0)
        reached(made, path, value)
        kept = make(mass=5.0) if path == "meat.mass" else made.meat
        assert made.meat.shape.thickness == pytest.approx(kept.shape.thickness, rel=1e-12)
        assert made.meat.mass == pytest.approx(5.0 if path == "meat.mass" else 2.0, rel=1e-12)
        assert made.meat.shape.extent == pytest.approx(kept.shape.extent, rel=1e-12)


@pytest.mark.parametrize(("path", "value"), [("meat.mass", 3.0), ("meat.thickness", 0.05)])
def test_a_section_is_reshaped_along(path, value):
    made = plan()
    made.meat.section = lc.brisket_section(made.meat)
    old = made.meat.section
    reached(made, path, value)
    made.meat.validate()  # its volume still fits
    section = made.meat.section
    assert made.meat.mass == pytest.approx(3.0 if path == "meat.mass" else 2.0, rel=1e-9)
    np.testing.assert_allclose(
        np.divide(section.thickness, section.thickness[0]), np.divide(old.thickness, old.thickness[0])
    )
    assert section.length / section.width == pytest.approx(old.length / old.width)


def test_mass_and_thickness_go_together_in_any_order():
    paths = {"meat.thickness": ["4 cm", "5 cm"], "meat.mass": ["2 kg", "3 kg"]}
    found = lc.sweep(plan(), paths, readings=["raw_mass", "finish_time"])
    np.testing.assert_allclose(found["raw_mass"], [[2.0, 3.0], [2.0, 3.0]], rtol=1e-12)
    turned = lc.sweep(plan(), dict(reversed(paths.items())), readings=["raw_mass", "finish_time"])
    np.testing.assert_array_equal(found["finish_time"].values, turned["finish_time"].values.T)


def test_every_listed_path_can_be_read():
    made = with_everything()
    listed = every_path(made)
    assert len(listed) > 150 and len(set(listed)) == len(listed)
    for path in listed:
        for target in resolve(made, path):
            target.get(made)


@pytest.mark.parametrize(
    ("path", "nearest"),
    [
        ("stages[0].untill", "stages[0].until"),
        ("stages.smok.until", "stages['smoke'].until"),
        ("stages['wraped'].wrap", "stages['wrapped'].wrap"),
        ("meat.tissue.mobility.expresed", "meat.tissue.mobility.expressed"),
        ("meat.tisue.mobility.expressed", "meat.tissue.mobility.expressed"),
        ("meat.thicknes", "meat.thickness"),
        ("pit.airs", "pit.air"),
        ("Pit.air", "pit.air"),
        ("stages[7].wrap", "stages[2].wrap"),
        ("meat..start", "meat.start"),
        ("stages[0]until[", "stages[0].until"),
    ],
)  # fmt: skip
def test_a_wrong_path_names_the_nearest(path, nearest):
    with pytest.raises(lc.InvalidInput) as told:
        lc.sweep(plan(), {path: [1.0]})
    assert str(told.value).startswith(f"parameters['{path}']: no such path in this plan; ")
    assert f"did you mean '{nearest}'?" in str(told.value)


@pytest.mark.parametrize(
    ("paths", "message"),
    [
        ({"stages[0].spritz.every": ["1 h"]}, r"stages\[0\].spritz is not set in this plan"),
        ({"pit": [1.0]}, "a shortcut without a field came"),
        ({3: [1.0]}, "parameters: 3 came; a path such as"),
        ({"": [1.0]}, "no such path"),
        ({"pit.air": [120.0], "stages.smoke.surroundings.air": [110.0]}, "it sets what 'pit.air' sets too"),
        ({"stages[1].wrap.name": ["x"], "stages[1].wrap": ["foil"]}, "what 'stages.*.wrap.name' sets"),
        ({"meat.mass": [2.0], "meat.shape.extent": [0.1]}, "it sets what 'meat.mass' sets too"),
    ],
)  # fmt: skip
def test_paths_that_cannot_be_used(paths, message):
    with pytest.raises(lc.InvalidInput, match=message):
        lc.sweep(plan(), paths)


def test_a_plan_without_a_pit_has_no_shortcut_to_it():
    cold = lc.Plan(lc.brisket(), [lc.Stage("wait", lc.counter(), until=lc.elapsed("1 h"))])
    with pytest.raises(lc.InvalidInput, match="this plan has no stage on the heat"):
        lc.sweep(cold, {"pit.air": [100.0]})
