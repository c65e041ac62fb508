"""Text with a unit is taken wherever a quantity is: every field of every class, by the lists of fields."""

from __future__ import annotations

import pytest

import libcook as lc
from libcook import _core
from libcook.units import KINDS
from libcook.units.text import read_unit, registry

# What two kinds of field are, by what their owner is.
BY_OWNER = {
    ("Shape", "extent"): {"slab": "area", "cylinder": "length"},
    ("Film", "value"): {"given": "film_coefficient", "forced": "velocity"},
}
UNDEFINED = {"Signal.value", "Signal.ripple_amplitude"}  # in the unit of what the signal is for


def quantities():
    for class_name, fields in _core.FIELDS.items():
        for name, told in fields.items():
            if (class_name, name) in BY_OWNER:
                for kind, unit in BY_OWNER[class_name, name].items():
                    yield pytest.param(class_name, name, unit, kind, id=f"{class_name}.{name}-{kind}")
            elif told.kind in KINDS and told.kind != "number":
                yield pytest.param(class_name, name, told.kind, None, id=f"{class_name}.{name}")


def written(value: float, unit: str, kind: str) -> str:
    """Write a value [SI, °C] with another unit of its kind."""
    if kind == "temperature":
        return f"{1.8 * value + 32.0!r} °F"
    units = read_unit(unit, KINDS[kind], "", unit)
    return f"{registry().Quantity(value, KINDS[kind].unit).to(units).magnitude!r} {unit}"


def example(class_name: str):
    return lc.brisket_section(lc.brisket()) if class_name == "Section" else getattr(_core, class_name)()


def read(class_name: str, name: str, owner: str | None, value: object) -> float:
    told, made = _core.FIELDS[class_name][name], example(class_name)
    if owner is not None:
        made.kind = owner
    value = [value] if told.gives.startswith("tuple") else value
    if told.fixed:
        return getattr(made.replace(**{name: value}), name)
    setattr(made, name, value)
    return getattr(made, name)


def number(value) -> float:
    if isinstance(value, tuple):
        return value[0]
    return value.value[0] if isinstance(value, lc.Signal) else value


@pytest.mark.parametrize(("class_name", "name", "kind", "owner"), list(quantities()))
def test_a_quantity_takes_text_in_each_of_its_units(class_name, name, kind, owner):
    usual = getattr(example(class_name), name)
    value = number(usual) if usual not in (None, ()) else 0.5
    value = value if isinstance(value, float) and value != 0.0 else 0.5
    texts = [written(value, unit, kind) for unit in KINDS[kind].usual]
    for text in [f"{value!r} {KINDS[kind].symbol}".removesuffix(" 1"), *texts]:
        assert number(read(class_name, name, owner, text)) == pytest.approx(value, rel=1e-9), text


@pytest.mark.parametrize(("class_name", "name", "kind", "owner"), list(quantities()))
def test_a_quantity_refuses_a_unit_of_another_kind_by_name(class_name, name, kind, owner):
    other = "5 kg" if kind != "mass" else "5 m"
    with pytest.raises(lc.InvalidInput) as error:
        read(class_name, name, owner, other)
    assert other in str(error.value) and name in str(error.value)


def test_every_quantity_is_tried_or_has_a_unit_of_its_own():
    tried = {(each.values[0], each.values[1]) for each in quantities()}
    for class_name, fields in _core.FIELDS.items():
        for name, told in fields.items():
            if told.gives in ("float", "float | None", "Signal", "Signal | None", "tuple[float, ...]"):
                plain = told.kind in ("number", "clock", "") or f"{class_name}.{name}" in UNDEFINED
                assert (class_name, name) in tried or plain, f"{class_name}.{name} of kind {told.kind!r}"


def test_a_cylinder_is_as_long_and_a_slab_as_large_as_the_text_says():
    assert lc.Shape("cylinder", thickness="3 in", extent="4 in").extent == pytest.approx(0.1016)
    assert lc.Shape(extent="150 in²").extent == pytest.approx(0.0967740)
    with pytest.raises(lc.InvalidInput, match="shape.extent: '4 in' is no area but a length"):
        lc.Shape(thickness="2 in", extent="4 in")


@pytest.mark.parametrize(
    ("call", "text", "plain"),
    [
        (lambda v: lc.pit_air("drum", air=121.0, air_flow=v).air_flow, "1 g/s", 1e-3),
        (
            lambda v: lc.breathing(lc.pit("drum", air=121.0), air_flow=v).pit_air.air_flow,
            "8 lb/h",
            1.00798e-3,
        ),
        (lambda v: lc.pit_air("drum", air=121.0, wind=v).air_flow, "10 mph", 4.4704),
        (lambda v: lc.pit_air("drum", air=121.0, humidity=v).inlet_vapour_pressure, "30 %", 0.3),
        (lambda v: lc.holding_oven("150 °F", humidity=v).vapour_pressure.value[0], "30 %", 0.3),
        (lambda v: lc.insulated_box(heat_capacity=v).box.heat_capacity, "5 kJ/K", 5e3),
        (lambda v: lc.insulated_box(loss=v).box.loss, "1.5 W/K", 1.5),
        (lambda v: lc.pit("drum", air=121.0, view=v).view, "80 %", 0.8),
        (lambda v: lc.stem_error("4 cm", conductivity=v), "15 W/(m·K)", 15.0),
        (lambda v: lc.stem_error("4 cm", contact=v), "250 W/(m²·K)", 250.0),
    ],
    ids=range(10),
)
def test_functions_take_the_same_text(call, text, plain):
    assert call(text) == pytest.approx(call(plain), rel=1e-5)


def test_logged_courses_take_text_too():
    air = lc.pit("drum", air=(["0 h", "2 h", 9000.0], ["225 °F", "250 °F", 120.0])).air
    assert air.time == (0.0, 7200.0, 9000.0)
    assert air.value == pytest.approx((107.2222, 121.1111, 120.0), abs=1e-3)
    assert lc.Signal(time=["0 h", "90 min"], value=[100.0, 110.0]).time == (0.0, 5400.0)
