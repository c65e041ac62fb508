"""Kinetics.

Kinetics: bacteria against the regulator's table, collagen and myoglobin against published times.

The lethality of the library is a check value, never a permission: local food-safety rules come first.
"""

from collections.abc import Iterator

import figures as draw
import numpy as np
import sources
from evidence import Figure, Row, Worst

import libcook as lc
from libcook import physics

# USDA FSIS Appendix A, 6.5 log10: minutes at 130 to 144 °F, seconds at 146 to 157 °F. The row of 145 °F
# is a dwell of 4 min.
MINUTES = dict(zip(range(130, 145), (112, 89, 71, 56, 45, 36, 28, 23, 18, 15, 12, 9, 8, 6, 5), strict=True))
SECONDS = dict(zip(range(146, 158), (169, 134, 107, 85, 67, 54, 43, 34, 27, 22, 17, 14), strict=True))
# 3 CCR 910.11 (California): 7 log10, minutes at 130 to 144 °F.
SEVEN = dict(zip(range(130, 145), (121, 97, 77, 62, 47, 37, 32, 24, 19, 15, 12, 10, 8, 6, 5), strict=True))


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32.0) / 1.8


def rows() -> Iterator[Row]:
    minutes, seconds, seven = Worst(), Worst(), Worst()
    for f, t in MINUTES.items():
        minutes.add(6.5 * physics.decimal_reduction_time(celsius(f)) / 60.0, t, f"{f} °F")
    for f, t in SECONDS.items():
        seconds.add(6.5 * physics.decimal_reduction_time(celsius(f)), t, f"{f} °F")
    for f, t in SEVEN.items():
        seven.add(7.0 * physics.decimal_reduction_time(celsius(f)) / 60.0, t, f"{f} °F")
    yield minutes.row(
        "time for 6.5 log10, rows in minutes", "min", sources.fsis, 1.0, "the table rounds up to minutes"
    )
    yield seconds.row(
        "time for 6.5 log10, rows in seconds", "s", sources.fsis, 1.0, "the table is in whole seconds"
    )
    why = "rounded up to minutes, and the two columns of the table are not in the ratio 7 to 6.5 throughout"
    yield seven.row("time for 7 log10", "min", sources.california, 2.0, why)
    yield held_slab()
    half = np.log(2.0) / physics.collagen_denaturation_rate(58.0) / 60.0
    why = "rates of rat skin on beef, whose ages differ by more than this; 1 K is 20 %"
    yield Row(
        "half time of collagen's shear drop at 58 °C",
        "min",
        sources.machlik,
        11.0,
        half,
        0.25,
        why,
        relative=True,
    )
    rare = -np.log(1.0 - 0.065) / physics.myoglobin_denaturation_rate(63.0) / 60.0
    yield Row(
        "6.5 % of myoglobin at 63 °C",
        "min",
        sources.geileskey,
        1.0,
        rare,
        0.25,
        "'about a minute'",
        relative=True,
    )
    brown = -np.log(1.0 - 0.93) / physics.myoglobin_denaturation_rate(60.0) / 60.0
    why = "the text says more than 30 min; a factor, not a number"
    yield Row("93 % of myoglobin at 60 °C", "min", sources.geileskey, (30.0, 300.0), brown, 0.0, why)


def held_slab() -> Row:
    """Through the solver: a slab held at 140 °F for the time of the table."""
    meat = lc.Meat(
        shape=lc.Shape("slab", 0.02, 0.05), fat_cap=lc.FatCap(side="none", thickness=0.0), start=60.0
    )
    bath = lc.Surroundings(kind="bath", air=60.0, bottom=lc.Film("given", 100.0), top=lc.Film("given", 100.0))
    plan = lc.Plan(meat, [lc.Stage("bath", bath, until=lc.elapsed("12 min"))])
    out = lc.simulate(plan, evaporation=False, squeezing=False, sinks=False)
    why = "12 min is 11.2 min rounded up: 6.5 log10 and at most a tenth more"
    return Row(
        "log10 reduction of a slab held at 60 °C for 12 min",
        "log10",
        sources.fsis,
        (6.5, 7.15),
        out.safety().log_reduction,
        0.0,
        why,
    )


def figures() -> Iterator[Figure]:
    ax = draw.axes("temperature [°F]", "time for 6.5 log10 [s]")
    f = np.linspace(130.0, 158.0, 60)
    ax.semilogy(f, 6.5 * physics.decimal_reduction_time(celsius(f)), label="libcook")
    table = {k: 60.0 * v for k, v in MINUTES.items()} | SECONDS
    ax.plot(
        list(table),
        list(table.values()),
        color=draw.COLOURS[1],
        label="USDA FSIS Appendix A",
        **draw.REFERENCE,
    )
    yield draw.finish(
        ax,
        "Time at temperature for 6.5 log10 of Salmonella in beef. Not a permission: local rules come first.",
    )
