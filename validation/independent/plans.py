"""Plans drawn at random, from a seed, over what the library is for."""

from __future__ import annotations

import json
import random
from typing import Any

import libcook as lc

SEED = 20_030


def draw(dice: random.Random, is_cylinder: bool) -> tuple[str, lc.Plan]:
    """A plan and what it is, in words."""
    kind, pit = (
        dice.choice(["ceramic", "drum", "kettle", "cabinet", "offset", "pellet"]),
        dice.uniform(105.0, 135.0),
    )
    vapour, thickness = dice.uniform(3e3, 13e3), dice.uniform(0.045, 0.070)
    size = 1.3 * thickness if is_cylinder else thickness
    place = lc.pit(kind, air=pit)
    finish = dice.uniform(85.0, 92.0)
    wrap = dice.choice(["none", "butcher paper", "foil", "foil", "butcher paper"])
    stages, words = [], f"{kind} {pit:.0f} °C, {vapour / 1000.0:.1f} kPa, {1000.0 * size:.0f} mm"
    if wrap == "none":
        stages.append(lc.Stage("smoke", place, until=lc.core(finish)))
    else:
        if dice.random() < 0.5:
            after = dice.uniform(2.0, 5.0)
            words += f", {wrap} after {after:.1f} h"
            stages.append(lc.Stage("smoke", place, until=lc.elapsed(3600.0 * after)))
        else:
            core = dice.uniform(60.0, 70.0)
            words += f", {wrap} at {core:.0f} °C"
            stages.append(lc.Stage("smoke", place, until=lc.core(core)))
        stages.append(lc.Stage("wrapped", place, wrap=wrap, until=lc.core(finish)))
    rest = dice.choice([0.0, dice.uniform(0.5, 2.0)])
    if rest:
        cover = dice.choice([wrap, "foil tent", "towels"])
        words += f", rest {rest:.1f} h ({cover})"
        stages.append(
            lc.Stage(
                "rest", lc.counter(dice.uniform(15.0, 28.0)), wrap=cover, until=lc.elapsed(3600.0 * rest)
            )
        )
    meat = lc.pork_shoulder(mass=3.0) if is_cylinder else lc.brisket(mass=5.0, thickness=thickness)
    plan = json.loads(lc.Plan(meat, stages).to_json())
    given: dict[str, Any] = plan["meat"]
    given["start"] = dice.uniform(2.0, 12.0)
    given["shape"]["thickness"] = size
    given["tissue"]["mobility"]["expressed"] = 10.0 ** dice.uniform(-8.0, -7.1)
    given["tissue"]["mobility"]["held"] = 10.0 ** dice.uniform(-9.6, -9.1)
    given["tissue"]["holding"]["final_share"] = dice.uniform(0.48, 0.62)
    given["fat_cap"]["side"] = "none" if is_cylinder else dice.choice(["none", "down", "up"])
    words = ("cylinder, " if is_cylinder else f"fat {given['fat_cap']['side']}, ") + words
    warming = dice.choice([0.0, dice.uniform(1200.0, 4800.0)])  # the pit still comes up when the meat goes in
    for stage in plan["stages"][: 2 if wrap != "none" else 1]:
        around = stage["surroundings"]
        around["vapour_pressure"] = vapour
        if warming:
            around["air"] = {"time": [0.0, warming], "value": [0.7 * pit, pit]}
    if warming:
        words += ", pit warming up"
    return words, lc.Plan.from_json(json.dumps(plan))


def plans(count: int) -> list[tuple[str, lc.Plan]]:
    dice = random.Random(SEED)
    return [draw(dice, is_cylinder=number % 6 == 5) for number in range(count)]
