"""Published experiments.

Trends and end points of published experiments.

Papers rarely give everything a prediction needs, and of most of these only the abstract was read: so the
checks are of signs, shares and yields, with default parameters and no tuning. Where libcook misses, it says
so.
"""

from collections.abc import Iterator
from functools import cache

import sources
from cooks import hours
from evidence import Row

import libcook as lc
from libcook import physics

STEFAN_BOLTZMANN = 5.670374419e-8


def rows() -> Iterator[Row]:
    yield from oven_film()
    yield from fat_cap()
    yield from water_held()
    yield from yields()
    yield from roasts()


def oven_film() -> Iterator[Row]:
    """Share of radiation in an oven with nearly still air: dough of about 90 °C at the surface."""
    air, surface = 205.0, 90.0
    below = physics.natural_plate(surface, air, 0.06, "down")
    above = physics.natural_plate(surface, air, 0.06, "up")
    k_air, k_surface = air + 273.15, surface + 273.15
    radiation = 0.9 * STEFAN_BOLTZMANN * (k_air**2 + k_surface**2) * (k_air + k_surface)
    share = radiation / (radiation + 0.5 * (below + above))
    why = "conditions of 186 to 225 °C and 0.02 to 0.44 m/s taken at their middle, still air"
    yield Row("oven: share of radiation", "-", sources.baik, (0.75, 0.80), share, 0.08, why)
    total = radiation + 0.5 * (below + above)
    yield Row("oven: total coefficient", "W/(m²·K)", sources.baik, (20.0, 48.0), total, 2.0, why)


def fat_cap() -> Iterator[Row]:
    """Evaporation through a fat cap of 6 mm against that of a bare face, in still air."""
    cap = lc.FatCap()
    resistance = cap.thickness * cap.vapour_resistivity
    film = physics.natural_plate(50.0, 107.0, 0.06, "up")
    bare = 1.0 / (film * physics.lewis_factor(80.0))
    share = bare / (bare + resistance)
    why = (
        "'down to half', on mutton in a cooling tunnel: the default is set to it, so only its use is checked"
    )
    yield Row("evaporation through fat over that from lean", "-", sources.lovett, 0.5, share, 0.15, why)


def water_held() -> Iterator[Row]:
    """Water of braised brisket, which the water-holding curve never saw."""
    tissue = lc.brisket_tissue()
    why = "raw rows span 3.15 to 3.28: cuts and trims"
    yield Row(
        "raw brisket: water per fat-free solids",
        "kg/kg",
        sources.usda,
        (3.15, 3.28),
        tissue.raw_water_content,
        0.15,
        why,
    )
    why = "braised rows span 1.74 to 1.92; a temperature of 95 °C through and through is assumed"
    held = tissue.held_water(95.0)
    yield Row(
        "braised brisket: water per fat-free solids", "kg/kg", sources.usda, (1.74, 1.92), held, 0.1, why
    )
    share = held / tissue.raw_water_content
    yield Row(
        "braised brisket: share of the raw water kept",
        "-",
        sources.usda,
        (0.54, 0.61),
        share,
        0.02,
        "as above",
    )


@cache
def held_brisket(core: float) -> lc.Outcome:
    """Smoked to a core temperature, then kept there for three hours in foil."""
    place = lc.pit("offset", air=114.0)
    keep = lc.oven(core)
    stages = [
        lc.Stage("smoke", place, until=lc.core(core)),
        lc.Stage("hold", keep, wrap="foil", until=lc.elapsed("3 h")),
    ]
    return lc.simulate(lc.Plan(lc.brisket(mass=6.0), stages))


def yields() -> Iterator[Row]:
    for core, published in ((85.0, 0.593), (90.0, 0.560)):
        ours = held_brisket(core).loss.yield_
        why = (
            "pit, wrap and thickness are not in the abstract; fat that renders out is only in part in "
            "ours: 0.05"
        )
        text = f"yield of whole brisket smoked to {core:g} °C and held 3 h"
        yield Row(text, "-", sources.kerth, published, ours, 0.05, why)
    drop = held_brisket(85.0).loss.yield_ - held_brisket(90.0).loss.yield_
    why = "the sign: hotter costs more; the size within a factor of three"
    yield Row("yield lost from 85 to 90 °C", "-", sources.kerth, (0.011, 0.1), drop, 0.0, why)


@cache
def roast(air: float) -> lc.Outcome:
    """A bare slab of lean beef in an oven, to 70 °C."""
    meat = lc.Meat(
        shape=lc.Shape("slab", 0.06, 0.03), fat_cap=lc.FatCap(side="none", thickness=0.0), start=5.0
    )
    return lc.simulate(lc.Plan(meat, [lc.Stage("roast", lc.oven(air), until=lc.core(70.0))]))


def roasts() -> Iterator[Row]:
    ratio = hours(roast(225.0)) / hours(roast(175.0))
    why = "the abstract gives the sign: a hotter oven is faster"
    yield Row(
        "roast at 225 °C over one at 175 °C: time to 70 °C",
        "-",
        sources.bengtsson,
        (0.4, 0.95),
        ratio,
        0.0,
        why,
    )
    more = roast(225.0).loss.total / roast(225.0).loss.raw - roast(175.0).loss.total / roast(175.0).loss.raw
    why = "the abstract gives the sign: a hotter oven costs more weight"
    yield Row("the same: weight lost more", "-", sources.bengtsson, (0.0, 0.2), more, 0.0, why)
    meat = lc.Meat(
        shape=lc.Shape("slab", 0.10, 0.06), fat_cap=lc.FatCap(side="none", thickness=0.0), start=5.0
    )
    plan = lc.Plan(
        meat,
        [
            lc.Stage("roast", lc.oven(163.0), until=lc.core(65.0)),
            lc.Stage("rest", lc.counter(22.0), until=lc.elapsed("1 h")),
        ],
    )
    rise = lc.simulate(plan).carryover()
    why = "oven temperature, size and shape of the roasts are not given: a bare slab of 100 mm at 163 °C"
    ours = float("nan") if rise is None else rise.rise
    yield Row("rise of a rib roast pulled at 65 °C", "K", sources.lowe, (4.0, 5.0), ours, 4.0, why)
