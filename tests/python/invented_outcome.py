"""An invented cook with the attributes of an outcome, for the tests of tables, figures and sentences.

Nothing here is simulated or measured: the curves are drawn by hand, so that each test knows the answer. They
check the presentation only and say nothing about meat.
"""

from __future__ import annotations

from collections import namedtuple
from types import SimpleNamespace as Record
from typing import Any

import numpy as np

StageEnd = namedtuple("StageEnd", "name time core start reason")
HOUR = 3600.0


def _curve(hours: np.ndarray, points: list[tuple[float, float]]) -> np.ndarray:
    x, y = np.array(points).T
    return np.interp(hours, x, y)


def invented_outcome(
    *,
    stall: bool = True,
    rest: bool = True,
    cylinder: bool = False,
    fields: bool = True,
    clock_start: float | None = None,
    shift: float = 0.0,
    spritz: bool = True,
    sprayed: float = 0.0,
    warnings: tuple[str, ...] = (),
    names: tuple[str, str, str] = ("smoke", "wrapped", "rest"),
) -> Any:
    """Draw a cook: smoke to 6 h, wrapped to 10 h, rest to 13 h, later by `shift` hours after the stall."""
    pull, end = 10.0 + shift, (13.0 if rest else 10.0) + shift
    t = np.unique(np.concatenate([np.linspace(0.0, end, 40 * int(end) + 1), [6.0, pull, end]]))
    flat = 66.0 if stall else 60.0
    points = [(0, 4), (0.5, 6), (2, 40), (3, 60), (3.5, flat), (6 + shift / 2, flat + 4), (7 + shift, 76)]
    core = _curve(t, [*points, (pull, 94), (pull + 0.4, 95.5), (pull + 1.5, 88), (pull + 4, 62)])
    top = _curve(
        t, [(0, 4), (0.5, 45), (2, 66), (6, 78), (7, 90), (pull, 99), (pull + 0.3, 90), (pull + 3, 60)]
    )
    air = np.where(t <= pull, 121.0, 21.0)
    depth = np.linspace(0.0, 0.066, 23)
    shape = (2.0 * depth / depth[-1] - 1.0) ** 2
    temperature = core[:, None] + (top - core)[:, None] * shape[None, :]
    water = 2.6 - 1.0 * (t / end)[:, None] - 1.2 * (t / end)[:, None] * shape[None, :]
    columns = 1 if cylinder else 2
    surface = np.column_stack([top - 3.0, top])[:, 2 - columns :]
    ends = [
        StageEnd(names[0], 6 * HOUR, 70.0, 0.0, "core reached 70 °C"),
        StageEnd(names[1], pull * HOUR, 94.0, 6 * HOUR, "core reached 94 °C"),
        StageEnd(names[2], end * HOUR, float(core[-1]), pull * HOUR, "3 h had passed"),
    ][: 3 if rest else 2]
    wraps, kinds = ("none", "butcher paper", "foil"), ("drum", "oven", "counter")
    stages = [
        Record(name=e.name, wrap=Record(name=w), surroundings=Record(kind=k))
        for e, w, k in zip(ends, wraps, kinds, strict=False)
    ]
    middle = 0.5 * (t[1:] + t[:-1])
    evaporation = _curve(
        middle, [(0, 0), (1, 180), (4, 230), (6, 190), (6.2, 30), (pull, 20), (pull + 0.1, 5)]
    )
    convection = _curve(middle, [(0, 420), (1, 230), (6, 150), (pull, 80), (pull + 0.1, -60), (end + 1, -30)])
    radiation = _curve(middle, [(0, 320), (1, 190), (6, 110), (pull, 60), (pull + 0.1, -40), (end + 1, -20)])
    carried = 0.1 * evaporation
    found = Record(
        start=3.3 * HOUR, end=(6 + shift / 2) * HOUR, plateau=flat + 2.0, slowest=3.0e-4,
        slowest_at=4.5 * HOUR, core_start=63.0, core_end=flat + 4.0, duration=(2.7 + shift / 2) * HOUR,
        over=True,
    )  # fmt: skip
    carry = Record(pulled_at=pull * HOUR, pulled_core=94.0, peak=95.5, peak_at=(pull + 0.4) * HOUR, rise=1.5)

    def time_above(celsius: float) -> float:
        after = (t >= pull) & (core >= celsius)
        return float((t[after][-1] - pull) * HOUR) if rest and after.any() else 0.0

    def falls_to(celsius: float) -> float | None:
        below = t[(t > pull + 0.4) & (core <= celsius)]
        return float(below[0] * HOUR) if below.size else None

    return Record(
        plan=Record(
            stages=stages, start=clock_start, meat=Record(start=4.0, tissue=Record(name="invented meat"))
        ),
        time=t * HOUR, core=core, coldest=np.minimum(core, top), surface=surface,
        surface_water=np.full((t.size, columns), 0.8), film=np.zeros((t.size, columns)),
        air=air, mean_water=water.mean(axis=1), mean_temperature=temperature.mean(axis=1),
        tenderness=np.clip((t - 4.0) / 10.0, 0.0, 0.93),
        temperature=temperature if fields else np.empty((0, 0)), water=water if fields else np.empty((0, 0)),
        position=depth, node_volume=np.full(depth.size, 1.0 / depth.size),
        stage_ends=ends, notes=["invented for the tests"],
        events=[(h * HOUR, "spritz") for h in (2, 3, 4, 5)] + [(5.5 * HOUR, "lid")] if spritz else [],
        ledger=Record(heat_residual=1e-12, water_residual=-2e-12),
        loss=Record(
            raw=6.4, evaporated=1.6 + sprayed, dripped=0.5, in_wrap=0.1, fat=0.36, spritzed=sprayed,
            total=2.56, yield_=0.6,
        ),
        stall=lambda: found if stall else None,
        carryover=lambda: carry if rest else None,
        falls_to=falls_to, time_above=time_above,
        heat_budget=lambda face=1: Record(
            time=middle * HOUR, convection=convection, radiation=radiation, evaporation=evaporation,
            carried=carried, into_meat=convection + radiation - evaporation,
        ),
        safety=lambda: Record(
            log_reduction=12.0, lethality_at=5.0 * HOUR, core_danger_time=2.6 * HOUR,
            surface_danger_time=0.8 * HOUR, come_up=2.2 * HOUR, cooling_start=None, warnings=list(warnings),
            caution="A calculation is no permission; follow your local food-safety rules.",
        ),
    )  # fmt: skip
