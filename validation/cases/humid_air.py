"""Water vapour and humid air.

Water vapour and humid air against reference libraries, standards and handbook values.

Saturation pressure, latent heat, humidity ratio, dew point, wet-bulb temperature and the film properties of
air, at sea-level pressure and over the temperatures of pits and meat.
"""

from collections.abc import Iterator

import CoolProp.CoolProp as cp
import figures as draw
import numpy as np
import psychrolib
import sources
from evidence import Figure, Row, Worst

from libcook import physics

ATM = 101325.0
psychrolib.SetUnitSystem(psychrolib.SI)


def water(what: str, celsius: float, quality: float) -> float:
    return float(cp.PropsSI(what, "T", celsius + 273.15, "Q", quality, "Water"))


def twb_coolprop(celsius: float, w: float) -> float:
    return float(cp.HAPropsSI("Twb", "T", celsius + 273.15, "P", ATM, "W", w)) - 273.15


def rows() -> Iterator[Row]:
    yield from saturation()
    yield from humidity()
    yield from wet_bulb()
    yield from air()


def saturation() -> Iterator[Row]:
    for low, high, allowed in ((0.01, 100.0, 3e-4), (100.0, 150.0, 3e-4)):
        pressure, heat = Worst(), Worst()
        for t in np.linspace(low, high, 26):
            pressure.add(physics.saturation_pressure(t), water("P", t, 0), f"{t:.2f} °C")
            latent = water("H", t, 1) - water("H", t, 0)
            heat.add(physics.latent_heat(t), latent, f"{t:.2f} °C")
        span = f"{low:g} to {high:g} °C"
        why = "Hyland & Wexler (1983) against IAPWS-95: 0.02 % is the formulas' own distance"
        yield pressure.row(
            f"saturation pressure, {span}", "Pa", sources.coolprop, allowed, why, relative=True
        )
        why = (
            "a cubic fitted to IAPWS within 0.04 %; 0.1 % of the latent heat is nothing beside a film "
            "coefficient"
        )
        yield heat.row(f"latent heat, {span}", "J/kg", sources.coolprop, 1e-3, why, relative=True)
    worst = Worst()
    for t in np.linspace(0.1, 150.0, 31):
        worst.add(physics.saturation_pressure(t), psychrolib.GetSatVapPres(t), f"{t:.1f} °C")
    why = "the same formula, apart from the digits of the constants"
    yield worst.row("saturation pressure, 0.1 to 150 °C", "Pa", sources.psychrolib, 1e-4, why, relative=True)
    why = "the handbook's table is rounded and of a later equation; its own library is held to 3e-4"
    for t, printed in ((5, 872.6), (25, 3169.7), (50, 12351.3), (100, 101418.0)):
        ours = physics.saturation_pressure(t)
        text = f"saturation pressure at {t} °C"
        yield Row(text, "Pa", sources.ashrae_table, printed, ours, 3e-4, why, relative=True)
    yield Row(
        "saturation pressure at 300 K",
        "Pa",
        sources.if97,
        3536.58941,
        physics.saturation_pressure(26.85),
        3e-4,
        "as for CoolProp: two formulas of one substance",
        relative=True,
    )
    yield Row(
        "boiling point at 1 atm",
        "°C",
        sources.if97,
        99.974,
        physics.saturation_temperature(ATM),
        0.01,
        "0.02 % of the pressure is 6 mK",
    )


def humidity() -> Iterator[Row]:
    for t, printed in ((25, 0.020173), (50, 0.086863)):
        ours = physics.humidity_ratio(physics.saturation_pressure(t))
        why = "ideal gases; the handbook's table allows for real ones (0.4 to 0.6 %)"
        text = f"humidity ratio of saturated air at {t} °C"
        yield Row(text, "kg/kg", sources.ashrae_table, printed, ours, 7e-3, why, relative=True)
    ratio, real, dew, enthalpy = Worst(), Worst(), Worst(), Worst()
    for t in (20.0, 60.0, 107.2, 121.1):
        for p in (1000.0, 4000.0, 8000.0, 12000.0):
            if p > psychrolib.GetSatVapPres(t):
                continue
            where, ours = f"{t:g} °C, {p:g} Pa", physics.humidity_ratio(p)
            ratio.add(ours, psychrolib.GetHumRatioFromVapPres(p, ATM), where)
            real.add(ours, cp.HAPropsSI("W", "T", t + 273.15, "P", ATM, "P_w", p), where)
            enthalpy.add(physics.humid_air_enthalpy(t, ours), psychrolib.GetMoistAirEnthalpy(t, ours), where)
    for t in (5.0, 20.0, 40.0, 60.0, 80.0, 95.0):
        p = psychrolib.GetSatVapPres(t)
        dew.add(physics.dew_point(p), psychrolib.GetTDewPointFromVapPres(120.0, p), f"{t:g} °C")
    why = "the same equation; molar masses differ in the fifth digit"
    yield ratio.row(
        "humidity ratio of a vapour pressure", "kg/kg", sources.psychrolib, 1e-4, why, relative=True
    )
    why = "a partial pressure in a real mixture, by mole fraction: the molar masses only"
    yield real.row("humidity ratio of a vapour pressure", "kg/kg", sources.coolprop, 1e-3, why, relative=True)
    why = "the library stops its own search at 1 mK"
    yield dew.row("dew point", "°C", sources.psychrolib, 0.01, why)
    why = "the same equation"
    yield enthalpy.row("enthalpy of humid air", "J/kg", sources.psychrolib, 1e-4, why, relative=True)
    w = physics.humidity_ratio(physics.vapour_pressure_from_relative_humidity(40.0, 0.14))
    yield Row(
        "humidity ratio of air at 40 °C and 14 %, the handbook's example",
        "kg/kg",
        sources.ashrae_table,
        0.0065,
        w,
        1e-4,
        "read off a chart to 1e-4",
    )
    yield Row(
        "enthalpy of that air",
        "kJ/kg",
        sources.ashrae_table,
        56.7,
        physics.humid_air_enthalpy(40.0, 0.0065) / 1e3,
        0.4,
        "the humidity ratio of the example is read off a chart to 1e-4: 0.26 kJ/kg, and its rounding",
    )


def wet_bulb() -> Iterator[Row]:
    ideal, real = Worst(), Worst()
    for t in (30.0, 60.0, 93.3, 107.2, 121.1):
        for w in (0.005, 0.01, 0.02, 0.03, 0.05):
            p = physics.vapour_pressure_from_humidity_ratio(w)
            if p > 0.9 * physics.saturation_pressure(t):
                continue
            ours, where = physics.wet_bulb(t, p), f"{t:g} °C, {w:g} kg/kg"
            ideal.add(ours, psychrolib.GetTWetBulbFromHumRatio(t, w, ATM), where)
            # At 107.2 °C the library's search for dry air ends on another root, above 100 °C.
            if t != 107.2:
                real.add(ours, twb_coolprop(t, w), where)
    why = (
        "the same balance; the library stops its search at 1 mK and cuts the humidity ratio at its lower "
        "bound"
    )
    yield ideal.row("wet-bulb temperature", "°C", sources.psychrolib, 0.01, why)
    why = "constant specific heats and ideal gases against real ones"
    yield real.row("wet-bulb temperature", "°C", sources.coolprop, 0.1, why)
    p = physics.vapour_pressure_from_humidity_ratio(0.0192281274, 95461.0)
    yield Row(
        "wet-bulb temperature at 30 °C, 0.019228 kg/kg, 95461 Pa",
        "°C",
        sources.ashrae_table,
        25.0,
        physics.wet_bulb(30.0, p, 95461.0),
        0.01,
        "the tests of the library hold it to 3e-4 of the humidity ratio: 6 mK",
    )


def air() -> Iterator[Row]:
    for name, what, allowed, why in (
        ("air_density", "D", 2e-3, "ideal gas against real: 0.1 %"),
        ("air_specific_heat", "C", 3e-3, "a parabola through three printed values"),
        ("air_conductivity", "L", 0.02, "U.S. Standard Atmosphere against a newer correlation: 1 to 2 %"),
        ("air_viscosity", "V", 0.015, "Sutherland's law against a newer correlation: 1 %"),
    ):
        worst = Worst()
        for t in np.linspace(0.0, 160.0, 17):
            reference = cp.PropsSI(what, "T", t + 273.15, "P", ATM, "Air")
            worst.add(getattr(physics, name)(t), reference, f"{t:g} °C")
        yield worst.row(
            f"{name.replace('_', ' ')}, 0 to 160 °C", "SI", sources.coolprop, allowed, why, relative=True
        )
    yield Row(
        "viscosity at 15 °C",
        "Pa·s",
        sources.us_atmosphere,
        1.7894e-5,
        physics.air_viscosity(15.0),
        1e-4,
        "the table prints five digits",
        relative=True,
    )
    yield Row(
        "conductivity at 15 °C",
        "W/(m·K)",
        sources.us_atmosphere,
        2.5326e-2,
        physics.air_conductivity(15.0),
        1e-3,
        "the table prints five digits, on older units",
        relative=True,
    )
    yield Row(
        "diffusivity of vapour in air at 298 K",
        "m²/s",
        sources.incropera_tables,
        0.26e-4,
        physics.vapour_diffusivity(24.85),
        0.05,
        "printed to two digits; measurements scatter by 5 %",
        relative=True,
    )


def figures() -> Iterator[Figure]:
    ax = draw.axes("humidity ratio [kg/kg]", "wet-bulb temperature [°C]")
    ratios = np.linspace(0.0, 0.06, 31)
    some = ratios[1::3]
    for colour, t in zip(draw.COLOURS, (60.0, 93.3, 121.1), strict=False):
        vapour = physics.vapour_pressure_from_humidity_ratio(ratios)
        ax.plot(ratios, physics.wet_bulb(t, vapour), color=colour, label=f"libcook, air {t:g} °C")
        ax.plot(some, [twb_coolprop(t, w) for w in some], color=colour, **draw.REFERENCE)
    yield draw.finish(
        ax, "Wet-bulb temperature of pit air at 1 atm. Lines: libcook; circles: CoolProp (ASHRAE RP-1485)."
    )
