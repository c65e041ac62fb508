"""Properties from composition.

Thermal properties from composition, against a reference library, printed values and measurements on beef.

Conductivity, density and specific heat of the components are correlations in temperature; the handbook's
print of the specific heat of water has another constant (4.1289) than the original (4.1762), of which the
second agrees with real water, and is the one taken here.
"""

from collections.abc import Iterator

import CoolProp.CoolProp as cp
import figures as draw
import numpy as np
import sources
from evidence import Figure, Row, Worst

import libcook as lc
from libcook import physics

ATM = 101325.0
NAMES = {
    "protein": "FoodProtein",
    "fat": "FoodFat",
    "carbohydrate": "FoodCarbohydrate",
    "fibre": "FoodFiber",
    "ash": "FoodAsh",
    "water": "FoodWater",
}
PROPERTIES = (
    ("conductivity", "L", physics.component_conductivity, "W/(m·K)"),
    ("density", "D", physics.component_density, "kg/m³"),
    ("specific heat", "C", physics.component_specific_heat, "J/(kg·K)"),
)
LEAN = lc.Composition(water=0.745, protein=0.22, fat=0.025, carbohydrate=0.0, ash=0.01)
FATTY = lc.Composition(water=0.51, protein=0.16, fat=0.32, carbohydrate=0.0, ash=0.01)
FLAT = lc.Composition(water=0.6989, protein=0.2032, fat=0.0929, carbohydrate=0.0, ash=0.0098)


def library(what: str, component: str, celsius: float) -> float:
    return float(cp.PropsSI(what, "T", celsius + 273.15, "P", ATM, f"INCOMP::{NAMES[component]}"))


def rows() -> Iterator[Row]:
    for name, what, ours, unit in PROPERTIES:
        worst = Worst()
        for component in NAMES:
            if (name, component) == ("specific heat", "water"):
                continue
            for t in np.linspace(1.0, 120.0, 18):
                worst.add(ours(component, t), library(what, component, t), f"{component}, {t:g} °C")
        why = "the same constants: rounding"
        text = f"{name} of the components, 1 to 120 °C"
        yield worst.row(text, unit, sources.coolprop_food, 1e-6, why, relative=True)
    # The handbook's other constant for water is not ours: its distance is known and kept in sight.
    yield Row(
        "specific heat of water at 60 °C, as the handbook prints it",
        "J/(kg·K)",
        sources.coolprop_food,
        library("C", "water", 60.0),
        physics.component_specific_heat("water", 60.0),
        1e-6,
        "the same constants",
        relative=True,
        known_miss="the handbook prints 4.1289; the original's 4.1762 is taken, as it agrees with real water",
    )
    for name, what, ours, unit, allowed in (
        ("conductivity", "L", physics.component_conductivity, "W/(m·K)", 0.025),
        ("density", "D", physics.component_density, "kg/m³", 0.005),
        ("specific heat", "C", physics.component_specific_heat, "J/(kg·K)", 0.01),
    ):
        worst = Worst()
        for t in np.linspace(5.0, 95.0, 19):
            worst.add(ours("water", t), cp.PropsSI(what, "T", t + 273.15, "P", ATM, "Water"), f"{t:g} °C")
        why = "a parabola in temperature against real water; furthest off near freezing"
        yield worst.row(f"{name} of water, 5 to 95 °C", unit, sources.coolprop, allowed, why, relative=True)
    for component, printed in (("water", 995.74), ("protein", 1319.53), ("fat", 917.23)):
        ours = physics.component_density(component, 20.0)
        text = f"density of {component} at 20 °C"
        yield Row(text, "kg/m³", sources.choi_okos, printed, ours, 0.01, "printed to 0.01")
    yield from beef()


def beef() -> Iterator[Row]:
    mean = (physics.mixture_enthalpy(LEAN, 100.0) - physics.mixture_enthalpy(LEAN, 0.0)) / 1e5
    scatter = "the table's own rows for like beef differ by 5 to 10 %"
    yield Row(
        "specific heat of lean beef, 0 to 100 °C",
        "kJ/(kg·K)",
        sources.james,
        3.43,
        mean,
        0.07,
        scatter,
        relative=True,
    )
    cold = physics.mixture_specific_heat(LEAN, 5.0) / 1e3
    text = "specific heat of lean beef, 74.5 % water, 0 to 10 °C"
    yield Row(text, "kJ/(kg·K)", sources.james, 3.6, cold, 0.05, scatter, relative=True)
    fatty = (physics.mixture_enthalpy(FATTY, 100.0) - physics.mixture_enthalpy(FATTY, 0.0)) / 1e8 * 1e3
    yield Row(
        "specific heat of fatty beef, 51 % water, 0 to 100 °C",
        "kJ/(kg·K)",
        sources.james,
        2.89,
        fatty,
        0.10,
        f"{scatter}; the measured value holds the fat's melting, ours adds that apart",
        relative=True,
    )
    solids = 1.0 - FLAT.water
    formula = 4.19 - 2.30 * solids - 0.628 * solids**3
    ours = physics.mixture_specific_heat(FLAT, 20.0) / 1e3
    text = "specific heat of a brisket flat above freezing"
    yield Row(
        text, "kJ/(kg·K)", sources.chen, formula, ours, 0.03, "two correlations of one table", relative=True
    )
    worst = "the range of the measured values; grain direction is inside the 7 % of the correlations"
    for t in (3.0, 20.0):
        ours = physics.mixture_conductivity(LEAN, t)
        yield Row(
            f"conductivity of lean beef at {t:g} °C",
            "W/(m·K)",
            sources.ashrae_beef,
            (0.48, 0.51),
            ours,
            0.02,
            worst,
        )


def figures() -> Iterator[Figure]:
    ax = draw.axes("temperature [°C]", "conductivity [W/(m·K)]")
    t, some = np.linspace(1.0, 120.0, 60), np.linspace(1.0, 120.0, 10)
    for colour, component in zip(draw.COLOURS, ("water", "ash", "protein", "fat"), strict=False):
        ax.plot(t, physics.component_conductivity(component, t), color=colour, label=component)
        ax.plot(some, [library("L", component, x) for x in some], color=colour, **draw.REFERENCE)
    ax.plot(t, physics.mixture_conductivity(FLAT, t), color=draw.COLOURS[4], label="brisket flat")
    yield draw.finish(ax, "Conductivity of what meat is made of. Lines: libcook; circles: CoolProp.")
