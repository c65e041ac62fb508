"""Wet surface.

A saturated surface without radiation settles at the wet-bulb temperature. A thin slab, its bottom
insulated, its top face kept under a film of water, in moving air of given temperature and humidity: what
comes in by convection leaves as vapour, whatever the film coefficient. That is a psychrometer.

The thermodynamic wet-bulb of the libraries is the adiabatic saturation temperature, which a surface shares
only where the Lewis number is one. It is 0.86 for water vapour in air: a surface evaporates 10 % more than
that (0.86^(-2/3)) and settles lower. Besides, the engine takes the properties of the air film at a surface
of 65 °C, right for a stall, for the whole stage; at a surface of 20 to 45 °C that is another 3 to 8 %. So
the tolerance is what 20 % in the psychrometer coefficient does to the temperature, and 0.05 K.
"""

import json
from collections.abc import Iterator
from functools import cache

import CoolProp.CoolProp as cp
import figures as draw
import psychrolib
import sources
from evidence import Figure, Row

import libcook as lc
from libcook import physics

ATM = 101325.0
psychrolib.SetUnitSystem(psychrolib.SI)
AIRS = ((30.0, 0.01), (40.0, 0.02), (60.0, 0.02), (93.3, 0.02), (107.2, 0.02), (121.1, 0.02), (121.1, 0.05))
SHARE, LEAST = 0.20, 0.05
WHY = "what 20 % in the psychrometer coefficient does (Lewis number 0.86, film properties), and 0.05 K"


@cache
def run(celsius: float, w: float, film: float = 60.0) -> lc.Outcome:
    air = lc.Surroundings(
        kind="wind tunnel",
        air=celsius,
        vapour_pressure=float(physics.vapour_pressure_from_humidity_ratio(w)),
        bottom=lc.Film("given", 0.0),
        top=lc.Film("given", film),
    )
    shape = lc.Shape("slab", 0.005, 0.1)
    meat = lc.Meat(shape=shape, fat_cap=lc.FatCap(side="none", thickness=0.0), start=20.0)
    # Watered every 6 min with water about as warm as the surface, the last time 6 min before the end.
    tepid = psychrolib.GetTWetBulbFromHumRatio(celsius, w, ATM)
    wet = lc.Spritz(every="6 min", first="1 s", amount=2.0, temperature=tepid, lid_open=0.0)
    stage = lc.Stage("tunnel", air, until=lc.elapsed("30 min"), spritz=wet)
    plan = json.loads(lc.Plan(meat, [stage]).to_json())
    for face in ("bottom", "top"):  # keeps all the water that is sprayed on it
        plan["stages"][0]["wrap"][face]["juice_capacity"] = 50.0
    plan = lc.Plan.from_json(json.dumps(plan))
    return lc.simulate(plan, radiation=False, squeezing=False, sinks=False, tolerance=2e-3, output_every=10.0)


def settled(celsius: float, w: float, film: float = 60.0) -> float:
    return float(run(celsius, w, film).surface[-1, 1])


def twb(celsius: float, w: float) -> float:
    return float(cp.HAPropsSI("Twb", "T", celsius + 273.15, "P", ATM, "W", w)) - 273.15


def allowance(celsius: float, reference: float) -> float:
    """How far `SHARE` of the psychrometer coefficient moves its temperature [K].

    p_s(T) - p_v = A p (T_air - T), so dT = -dA p (T_air - T) / (dp_s/dT + A p); A = c_p / (0.622 L).
    """
    slope = 0.5 * (
        physics.saturation_pressure(reference + 1.0) - physics.saturation_pressure(reference - 1.0)
    )
    ideal = ATM * physics.air_specific_heat(reference) / (0.622 * physics.latent_heat(reference))
    return float(SHARE * ideal * (celsius - reference) / (slope + ideal)) + LEAST


def rows() -> Iterator[Row]:
    for t, w in AIRS:
        ours = settled(t, w)
        text = f"wet surface in air of {t:g} °C, {w:g} kg/kg"
        reference = psychrolib.GetTWetBulbFromHumRatio(t, w, ATM)
        allowed = allowance(t, reference)
        yield Row(text, "°C", sources.psychrolib, reference, ours, allowed, WHY)
    for t, w in AIRS[-2:]:
        reference = twb(t, w)
        allowed = allowance(t, reference) + 0.05
        why = f"{WHY}, and 0.05 K between real and ideal gases"
        yield Row(
            f"wet surface in air of {t:g} °C, {w:g} kg/kg",
            "°C",
            sources.coolprop,
            reference,
            settled(t, w),
            allowed,
            why,
        )
    spread = settled(121.1, 0.02, 100.0) - settled(121.1, 0.02, 20.0)
    why = "the film coefficient cancels; what is left is heat still going into the slab"
    yield Row(
        "change of it from a film of 20 to one of 100 W/(m²·K)",
        "K",
        sources.psychrolib,
        0.0,
        spread,
        0.1,
        why,
    )
    t, w = 40.0, 0.02
    vapour = physics.vapour_pressure_from_humidity_ratio(w)
    wet = physics.wet_surface(t, vapour, film_coefficient=60.0, emissivity=0.0).temperature
    coefficient = (physics.saturation_pressure(wet) - vapour) / (ATM * (t - wet))
    measured = 6.53e-4 * (1.0 + 9.44e-4 * wet)
    why = (
        "the analogy gives 0.90 of the ideal coefficient; aspirated bulbs are measured near the ideal one, "
        "part of "
        "their heat being radiation and conduction"
    )
    yield Row("psychrometer coefficient", "1/K", sources.wmo, measured, coefficient, 0.15, why, relative=True)


def figures() -> Iterator[Figure]:
    ax = draw.axes("time [min]", "surface [°C]")
    for colour, (t, w) in zip(draw.COLOURS, ((60.0, 0.02), (107.2, 0.02), (121.1, 0.05)), strict=False):
        out = run(t, w)
        ax.plot(out.time / 60.0, out.surface[:, 1], color=colour, label=f"libcook, air {t:g} °C, {w:g} kg/kg")
        level = psychrolib.GetTWetBulbFromHumRatio(t, w, ATM)
        ax.axhline(level, color=colour, linestyle=":", linewidth=1.2)
    yield draw.finish(
        ax, "A surface that is kept wet. Dotted: thermodynamic wet-bulb temperature (PsychroLib)."
    )
