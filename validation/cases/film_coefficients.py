"""Film coefficients.

Nusselt-number correlations against worked examples and a reference library.

What is checked is that the correlations are the published ones; how well they describe a cooker is another
matter (10 to 25 % on clean bodies).
"""

from collections.abc import Iterator

import sources
from evidence import Row

from libcook import physics


def rows() -> Iterator[Row]:
    exact = "the same correlation: the digits of the reference"
    air = 0.69 * 2.63e9
    water = 5.54 * 3.21e8
    for text, reference, ours, allowed in (
        ("vertical plate, Pr 0.69, Gr 2.63e9", 147.16185, physics.nusselt_vertical_plate(air, 0.69), 1e-4),
        (
            "horizontal cylinder, Pr 0.69, Gr 2.63e9",
            139.13493,
            physics.nusselt_horizontal_cylinder(air, 0.69),
            1e-4,
        ),
        ("plate, buoyant side, Pr 5.54, Gr 3.21e8", 181.73121, physics.nusselt_plate_buoyant(water), 1e-4),
        ("plate, stable side, Pr 5.54, Gr 3.21e8", 55.44564, physics.nusselt_plate_stable(water), 1e-4),
        ("sphere, Pr 0.7, Gr 1e7", 25.67087, physics.nusselt_sphere(0.7e7, 0.7), 1e-4),
        (
            "cylinder across, Re 6071, Pr 0.7",
            40.63709,
            physics.nusselt_cross_flow_cylinder(6071.0, 0.7),
            1e-4,
        ),
    ):
        yield Row(f"Nusselt number: {text}", "-", sources.heat_library, reference, ours, allowed, exact)
    why = "printed to three digits"
    ours = physics.nusselt_vertical_plate(air, 0.69)
    yield Row(
        "Nusselt number: glass door, example 9.2", "-", sources.incropera_convection, 147.0, ours, 0.5, why
    )
    ours = physics.nusselt_cross_flow_cylinder(6071.0, 0.7)
    yield Row(
        "Nusselt number: cylinder across, example 7.4",
        "-",
        sources.incropera_convection,
        40.6,
        ours,
        0.05,
        why,
    )
