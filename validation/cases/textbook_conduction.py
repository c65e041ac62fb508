"""Textbook conduction.

Worked examples of two textbooks.

Metals and temperatures outside what a plan takes are turned into the same dimensionless problem: conduction
with constant properties knows only Bi and Fo, so shifting and scaling temperatures changes nothing. The
check is against the exact series; the printed answers, read off charts or from the first term, are quoted
with the slack they need.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import exact
import numpy as np
import sources
from evidence import Row
from solids import Solid, at
from sources import Source

import libcook as lc


@dataclass(frozen=True)
class Example:
    """A body of half thickness or radius `size` from `start` to `air` [°C], looked at after `seconds`."""

    name: str
    source: Source
    size: float
    conductivity: float
    heat_capacity: float
    film: float
    start: float
    air: float
    seconds: float
    is_cylinder: bool = False

    @property
    def biot(self) -> float:
        return self.film * self.size / self.conductivity

    @property
    def fourier(self) -> float:
        return self.conductivity / self.heat_capacity * self.seconds / self.size**2

    def run(self) -> lc.Outcome:
        """The same problem between 0 and 100 °C."""
        return Solid(
            2 * self.size,
            self.conductivity,
            self.heat_capacity,
            self.film,
            0.0,
            100.0,
            is_cylinder=self.is_cylinder,
        ).run(self.seconds, nodes=321, outputs=4)

    def back(self, celsius: float) -> float:
        """A temperature of the run in the example's own."""
        return self.start + (self.air - self.start) * celsius / 100.0

    def ours(self, out: lc.Outcome, place: float) -> float:
        middle = 0.0 if self.is_cylinder else self.size
        return self.back(at(out, self.seconds, middle + place * self.size))

    def series(self, place: float) -> float:
        solution = exact.cylinder if self.is_cylinder else exact.wall
        return self.air + (self.start - self.air) * solution(self.biot, self.fourier, place)


PIPELINE = Example(
    "pipeline wall (example 5.5)",
    sources.incropera_conduction,
    0.04,
    63.9,
    7832 * 434.0,
    500.0,
    -20.0,
    60.0,
    480.0,
)
BRASS = Example("brass plate", sources.cengel, 0.02, 110.0, 110.0 / 33.9e-6, 120.0, 20.0, 500.0, 420.0)
SHAFT = Example(
    "long steel shaft", sources.cengel, 0.1, 14.9, 14.9 / 3.95e-6, 80.0, 600.0, 200.0, 45 * 60.0, True
)

ONE_TERM = "the book takes the first term of the series and rounds the constants to four digits"
CHART = "the book reads a chart; its answers lie up to 5 K from the series"
FINE = "3e-4 of the span from start to air: fine grid, exact series"


def rows() -> Iterator[Row]:
    for example, place, name, printed, slack, why in (
        (PIPELINE, 0.0, "insulated side", 42.9, 0.5, ONE_TERM),
        (PIPELINE, 1.0, "oil side", 45.2, 0.5, ONE_TERM),
        (BRASS, 1.0, "surface", 282.0, 5.0, CHART),
        (SHAFT, 0.0, "axis", 360.0, 5.0, CHART),
    ):
        ours, span = example.ours(example.run(), place), abs(example.air - example.start)
        text = f"{example.name}: {name}"
        yield Row(text, "°C", sources.carslaw, example.series(place), ours, 3e-4 * span, FINE)
        yield Row(f"{text}, as printed", "°C", example.source, printed, ours, slack, why)
    out = PIPELINE.run()
    flux = PIPELINE.film * (PIPELINE.air - PIPELINE.ours(out, 1.0))
    yield Row(
        "pipeline wall: flux from the oil, as printed", "W/m²", PIPELINE.source, 7400.0, flux, 150.0,
        "the printed wall temperature is rounded; 0.3 K times 500 W/(m²·K)",
    )  # fmt: skip
    # Heat per metre of a pipe of 1 m diameter: the wall is thin against it, so the book unrolls it.
    heat = (
        np.pi
        * 1.0
        * PIPELINE.heat_capacity
        * PIPELINE.size
        * (PIPELINE.back(out.mean_temperature[-1]) + 20.0)
    )
    yield Row(
        "pipeline wall: heat per metre, as printed",
        "J/m",
        PIPELINE.source,
        2.73e7,
        heat,
        0.01,
        ONE_TERM,
        relative=True,
    )
    out = SHAFT.run()
    share = out.mean_temperature[-1] / 100.0
    reference = 1.0 - exact.cylinder_mean(SHAFT.biot, SHAFT.fourier)
    yield Row("shaft: heat given over heat to give", "-", sources.carslaw, reference, share, 3e-4, FINE)
    yield Row("the same, as printed", "-", sources.cengel, 0.62, share, 0.03, CHART)
