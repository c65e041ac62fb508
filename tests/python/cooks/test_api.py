"""Plans as a cook writes them: units, names, shorthands, references."""

import copy
import subprocess
import sys

import numpy as np
import pytest

import libcook as lc


def smoke(**fields):
    return lc.Stage("smoke", lc.pit("drum", air=110.0), until=lc.elapsed("1 h"), **fields)


def test_importing_stays_light():
    code = (
        "import libcook, sys;"
        "print([m for m in ('pandas', 'matplotlib', 'pint', 'xarray', 'scipy') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_every_public_name_is_there_and_documented():
    for name in lc.__all__:
        assert getattr(lc, name).__doc__, name


def test_a_brisket_has_the_mass_it_was_given():
    # 1 lb = 0.45359237 kg exactly (NIST SP 811, from memory)
    assert lc.brisket(mass="14 lb").mass == pytest.approx(14 * 0.45359237)
    assert lc.brisket(mass=6.4, fat="none").mass == pytest.approx(6.4)
    assert lc.pork_shoulder(mass="8 lb").mass == pytest.approx(8 * 0.45359237)


def test_a_thickness_that_is_given_is_kept():
    assert lc.brisket(thickness="2.5 in").shape.thickness == pytest.approx(2.5 * 0.0254)
    assert lc.brisket(fat="up").fat_cap.side == "up"
    assert lc.pork_shoulder(thickness="9 cm").shape.thickness == pytest.approx(0.09)


def test_attributes_take_text_with_units_and_give_si():
    meat = lc.brisket()
    meat.start = "50 °F"
    meat.shape.thickness = "65 mm"
    meat.tissue.mobility.expressed = 3e-8
    assert meat.start == pytest.approx(10.0)
    assert meat.shape.thickness == pytest.approx(0.065)
    assert meat.tissue.mobility.expressed == 3e-8


def test_a_change_deep_in_a_plan_changes_the_plan():
    plan = lc.Plan(lc.brisket(), [smoke()])
    plan.meat.tissue.holding.midpoint = 64.0
    plan.stages[0].surroundings.air = "225 °F"
    plan.stages[0].until = lc.core(70.0)
    assert plan.meat.tissue.holding.midpoint == 64.0
    assert plan.stages[0].surroundings.air.value[0] == pytest.approx(107.2222222)
    assert plan.stages[0].until[0].kind == "core"


def test_stages_outlive_the_plan_they_came_from():
    stage = lc.Plan(lc.brisket(), [smoke(), smoke()]).stages[1]
    assert stage.name == "smoke"
    assert stage.surroundings.air.value == (110.0,)


def test_copies_are_independent():
    plan = lc.Plan(lc.brisket(), [smoke()])
    for other in (copy.copy(plan), copy.deepcopy(plan), plan.replace()):
        assert other == plan
        other.meat.start = 9.0
        assert other != plan
        assert plan.meat.start == 4.0


def test_replace_checks_what_it_makes():
    plan = lc.Plan(lc.brisket(), [smoke()])
    assert plan.replace(start="05:30").start == 5.5 * 3600.0
    with pytest.raises(lc.InvalidInput, match="stages: empty"):
        plan.replace(stages=[])


def test_pits_take_every_kind_of_air():
    log = lc.Log(time=[0.0, 600.0, 1200.0], core=[4.0, 5.0, 6.0], pit=[100.0, 120.0, 110.0])
    logged = lc.pit("drum", air=log).air
    assert logged.measured
    assert logged.at("5 min") == pytest.approx(110.0)
    pair = lc.pit("drum", air=(np.array([0.0, 600.0]), np.array([100.0, 120.0]))).air
    assert pair.measured
    assert pair.value == (100.0, 120.0)
    assert lc.pit("drum", air=log.series("pit")).air == logged
    assert not lc.pit("drum", air="250 °F").air.measured


def test_a_schedule_holds_and_then_moves():
    air = lc.schedule([("0 h", 107.0), ("4 h", 135.0), ("4 h 5 min", 120.0)])
    assert [
        air.at(t) for t in ("0 h", "3 h 59 min", "4 h", "4 h 5 min", "4 h 15 min", "9 h")
    ] == pytest.approx([107.0, 107.0, 107.0, 135.0, 120.0, 120.0])


def test_ripple_swings_about_its_mean():
    air = lc.ripple("250 °F", amplitude="10 °F", period="12 min")
    mean = (250 - 32) / 1.8
    assert air.at("3 min") == pytest.approx(mean + 10 / 1.8)
    assert air.minimum == pytest.approx(mean - 10 / 1.8)
    assert lc.ripple(lc.schedule([("0 h", 100.0), ("1 h", 120.0)]), 5.0).maximum == pytest.approx(125.0)


def test_a_pit_of_ones_own():
    own = lc.Pit(
        air=120.0, film=("12 W/(m²·K)", 8.0), radiant=("20 K", 0.0), vapour_pressure="9 kPa", name="hole"
    )
    assert (own.bottom.kind, own.bottom.value, own.top.value) == ("given", 12.0, 8.0)
    assert (own.radiant_bottom, own.radiant_top) == (20.0, 0.0)
    assert own.vapour_pressure.value == (9000.0,)
    assert own.kind == "hole"
    assert lc.pit("drum", air=120.0, film=10.0).top.value == 10.0


def test_ovens_counters_and_boxes():
    assert lc.oven("250 °F", fan=True).top.kind == "forced"
    assert lc.counter("70 °F").air.value[0] == pytest.approx(38 / 1.8)
    box = lc.insulated_box(room="21 °C", start="45 °C", loss=0.8)
    assert box.box is not None
    assert (box.box.start, box.box.loss) == (45.0, 0.8)


def test_ends_join_in_any_order():
    a, b, c = lc.core("160 °F"), lc.elapsed("6 h"), lc.tender("80 %")
    for joined in ((a | b) | c, a | (b | c), lc.FirstOf([a]) | lc.FirstOf([b, c])):
        assert tuple(joined) == (a, b, c)
    stage = lc.Stage("x", lc.oven(110.0), until=a | b | c)
    assert stage.until == (a, b, c)
    assert lc.Stage("x", lc.oven(110.0), until=[a, b, c]) == stage
    assert (lc.clock("6 pm").value, lc.bark().kind, lc.cooled("60 °C").value) == (
        64800.0,
        "bark",
        60.0,
    )


def test_stages_take_shorthands():
    stage = smoke(
        wrap="butcher paper", spritz=lc.spritz(every="45 min"), lid=[("3 h", "1 min")], at_most="10 h"
    )
    assert stage.wrap == lc.wrap("butcher paper")
    assert stage.spritz is not None
    assert stage.spritz.every == 2700.0
    assert stage.lid == (lc.LidOpening(10800.0, 60.0),)
    assert stage.at_most == 36000.0
    stage.spritz = None
    stage.wrap = None
    assert stage.spritz is None
    assert stage.wrap.name == "none"


def test_every_wrap_that_is_named_can_be_made():
    assert [lc.wrap(name).name for name in lc.wrap_names()] == lc.wrap_names()


def test_plans_go_through_json():
    plan = lc.Plan(
        lc.brisket(mass="6.4 kg"),
        [
            smoke(spritz=lc.spritz(), lid=[("10 min", "1 min")]),
            lc.Stage("rest", lc.insulated_box(), wrap="towels", until=lc.cooled(60.0) | lc.clock("18:00")),
        ],
        start="05:30",
    )
    assert lc.Plan.from_json(plan.to_json()) == plan


def test_the_schema_describes_what_to_json_writes():
    import json

    import jsonschema

    plan = lc.Plan(lc.pork_shoulder(), [smoke()])
    jsonschema.validate(json.loads(plan.to_json()), lc.schema())
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({"format": "libcook plan", "version": 1, "meat": 3}, lc.schema())


def test_text_forms_say_what_differs():
    plan = lc.Plan(lc.brisket(mass=6.0), [smoke(wrap="foil")], start="05:30")
    assert repr(plan).splitlines() == [
        "Plan: brisket 13.2 lb (6.00 kg), start 05:30",
        "  smoke: drum 230 °F (110 °C), foil, until 1 h",
    ]
    assert repr(lc.core(94.0) | lc.elapsed("6 h")) == "End(core 201 °F (94 °C)) | End(6 h)"
    assert repr(lc.Spritz(every=1800.0)) == "Spritz(every=1800)"
    assert repr(lc.ripple(110.0, 5.0, "12 min")) == "Signal(110, ±5 every 12 min)"


def test_tissue_curves_take_units():
    tissue = lc.brisket_tissue()
    assert tissue.held_water("149 °F") == tissue.held_water(65.0)
    assert 3.15 < tissue.raw_water_content < 3.4  # USDA SR 13904 gives 3.28 kg per kg protein + ash
    assert tissue.composition.conductivity(20.0) == pytest.approx(0.48, abs=0.05)


def test_every_default_says_where_it_comes_from():
    table = lc.parameters()
    assert len(table) > 30
    assert all(p.low <= p.value <= p.high and p.source and p.kind for p in table)
    one = lc.parameter("tissue.mobility.expressed")
    assert one.value == lc.brisket().tissue.mobility.expressed
    assert repr(one).startswith("tissue.mobility.expressed = ")
    with pytest.raises(lc.InvalidInput, match="expresed"):
        lc.parameter("tissue.mobility.expresed")
