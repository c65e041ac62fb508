"""libcook.physics: the C++ functions over numbers and arrays."""

from __future__ import annotations

import numpy as np
import pytest

import libcook as lc
from libcook import physics

ATM = 101325.0


def test_float_for_float_and_array_for_array() -> None:
    one = physics.saturation_pressure(60.0)
    assert type(one) is float
    several = physics.saturation_pressure([60.0, 100.0])
    assert isinstance(several, np.ndarray)
    assert several[0] == one


def test_arguments_broadcast() -> None:
    air = np.array([[93.3], [121.1]])
    vapour = physics.vapour_pressure_from_humidity_ratio([0.01, 0.02, 0.05])
    wet = physics.wet_bulb(air, vapour)
    assert wet.shape == (2, 3)
    assert (np.diff(wet, axis=0) > 0.0).all() and (np.diff(wet, axis=1) > 0.0).all()
    assert wet[1, 1] == physics.wet_bulb(121.1, vapour[1])


def test_pressure_has_a_default() -> None:
    assert physics.humidity_ratio(2000.0) == physics.humidity_ratio(2000.0, ATM)
    assert physics.humidity_ratio(2000.0, pressure=80e3) > physics.humidity_ratio(2000.0)


def test_inverses() -> None:
    for t in (5.0, 40.0, 95.0):
        assert physics.dew_point(physics.saturation_pressure(t)) == pytest.approx(t, abs=1e-6)
    w = physics.humidity_ratio(6000.0)
    assert physics.vapour_pressure_from_humidity_ratio(w) == pytest.approx(6000.0, rel=1e-12)


def test_wet_surface_without_radiation_is_colder_and_balances() -> None:
    shone_on = physics.wet_surface(air_temperature=121.1, vapour_pressure=3200.0)
    psychrometer = physics.wet_surface(air_temperature=121.1, vapour_pressure=3200.0, emissivity=0.0)
    assert psychrometer.temperature < shone_on.temperature - 5.0
    assert psychrometer.radiation == 0.0
    heat = shone_on.convection + shone_on.radiation
    assert heat == pytest.approx(shone_on.evaporation * physics.latent_heat(shone_on.temperature), rel=1e-6)


def test_walls_radiate_at_air_temperature_unless_given() -> None:
    usual, same, coals = (
        physics.wet_surface(air_temperature=121.1, radiant_temperature=radiant).temperature
        for radiant in (None, 121.1, 200.0)
    )
    assert usual == same < coals


def test_components_and_mixtures() -> None:
    water = physics.component_conductivity("water", [20.0, 60.0])
    assert water == pytest.approx([0.60366, 0.65271], abs=1e-5)
    flat = lc.Composition(water=0.6989, protein=0.2032, fat=0.0929, carbohydrate=0.0, ash=0.0098)
    low, ours, high = (
        f(flat, 60.0)
        for f in (physics.conductivity_series, physics.mixture_conductivity, physics.conductivity_parallel)
    )
    assert low < ours < high
    assert ours == flat.conductivity(60.0)


def test_lethality_has_its_cautious_edges() -> None:
    assert physics.lethality_rate(54.0) == 0.0
    assert physics.lethality_rate(80.0) == physics.lethality_rate(70.0)
    assert physics.lethality_rate(60.0) * physics.decimal_reduction_time(60.0) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: physics.saturation_pressure(float("nan")), "temperature"),
        (lambda: physics.saturation_pressure([20.0, 2000.0]), "temperature"),
        (lambda: physics.wet_bulb(400.0, 1000.0), "temperature"),
        (lambda: physics.humidity_ratio(2.0 * ATM), "vapour_pressure"),
        (lambda: physics.humidity_ratio(-1.0), "vapour_pressure"),
        (lambda: physics.humidity_ratio(1000.0, 0.0), "pressure"),
        (lambda: physics.vapour_pressure_from_relative_humidity(20.0, 50.0), "relative_humidity"),
        (lambda: physics.component_density("water", 500.0), "temperature"),
        (lambda: physics.component_density("bone", 20.0), "component"),
        (lambda: physics.mixture_density(lc.Composition(water=70.0), 20.0), "composition"),
        (lambda: physics.nusselt_sphere(-1.0, 0.7), "rayleigh"),
        (lambda: physics.nusselt_sphere(1e6, 0.0), "prandtl"),
        (lambda: physics.natural_plate(60.0, 107.0, 0.06, "sideways"), "facing"),
        (lambda: physics.forced_plate(1.0, 0.0, 80.0), "length"),
        (lambda: physics.wet_surface(emissivity=90.0), "emissivity"),
    ],
)
def test_bad_input_is_named(call, field: str) -> None:
    with pytest.raises(lc.InvalidInput) as caught:
        call()
    assert field in caught.value.field


def test_everything_is_documented() -> None:
    for name in physics.__all__:
        assert getattr(physics, name).__doc__, name
