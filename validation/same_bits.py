"""Does another build give the same numbers, bit for bit? For changes that must change no behaviour.

    python validation/same_bits.py --write build/bits.json      with the library of the commit before
    python validation/same_bits.py --compare build/bits.json    with that of the head

Writes 200 random plans as JSON with a digest of what came of each: slabs, whole pieces, cross-sections,
whole outcomes as JSON, a batch, fits, forecasts and a start time. Comparing reads those plans, not new ones,
so that it also shows that documents read as they did. Same machine and compiler, or digests differ for their
sake.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import honesty_cooks
import numpy as np
from wide_plans_make import wide_plan

import libcook as lc

PLANS = 200
SECTIONS = 10  # every so many plans on a cross-section too, as that takes long
SERIES = ("time", "core", "coldest", "surface", "surface_water", "film", "air", "mean_water", "tenderness")


def digest(*parts: Any) -> str:
    """Of arrays by their bytes, of anything else by its text."""
    found = hashlib.sha256()
    for part in parts:
        found.update(part.tobytes() if isinstance(part, np.ndarray) else repr(part).encode())
    return found.hexdigest()[:24]


def cooked(plan: lc.Plan, options: dict[str, Any]) -> str:
    """What came of a plan, or why nothing did."""
    try:
        return came(lc.simulate(plan, **options))
    except (lc.InvalidInput, lc.SolverFailure) as failure:
        return came(failure)


def came(out: Any) -> str:
    """Digest an outcome or a failure."""
    text = str(out) if isinstance(out, Exception) else ""
    out = getattr(out, "outcome", out)
    if isinstance(out, Exception):
        return digest(type(out).__name__, text)
    return digest(
        text,
        *(np.asarray(getattr(out, name)) for name in SERIES),
        [(end.name, end.time, end.core) for end in out.stage_ends],
        # what the JSON says, but for how long the solver took
        [line for line in out.to_json().splitlines() if "solver_seconds" not in line],
    )


def plans() -> Iterator[tuple[str, lc.Plan, dict[str, Any]]]:
    """Random plans, each from its own seed."""
    number, made = 0, 0
    while made < PLANS:
        number += 1
        try:
            asked = wide_plan(f"17:{number}")
            asked.plan.to_json()
        except lc.InvalidInput:
            continue
        made += 1
        yield f"plan {number}", asked.plan, dict(asked.options)


def fitted() -> Iterator[tuple[str, str]]:
    """Digests of fits, forecasts and a start time on invented cooks."""
    for seed in range(3):
        cook = honesty_cooks.make(900 + seed, False)
        log, ended = honesty_cooks.until(cook, 0.5 * cook.done)
        names = ["thickness", "film_coefficient", "held_mobility"]
        fit = lc.calibrate(cook.plan, log, names, ended=ended)
        told = [(e.name, e.value, e.deviation, e.learned) for e in fit.estimates]
        yield f"fit {seed}", digest(told, fit.rms, fit.plan.to_json())
        ahead = lc.forecast(cook.plan, log, ended=ended, seed=seed)
        yield f"forecast {seed}", digest(ahead.weight, ahead.core, ahead.finish_quantile(0.9))
        before = lc.forecast(cook.plan)
        yield f"belief {seed}", digest(before.core, before.finish_quantile(0.1))
    start = lc.start_by(cook.plan, "18:00")
    yield "start time", digest(start.start, start.duration, start.duration50, start.chance_late)


def found(known: list[dict[str, Any]] | None) -> dict[str, Any]:
    """All digests; of the plans known, or of new ones."""
    ready = (
        [(k["name"], lc.Plan.from_json(k["plan"]), k["options"]) for k in known]
        if known is not None
        else list(plans())
    )
    kept, digests = [], {}
    for number, (name, plan, options) in enumerate(ready):
        text = plan.to_json()
        kept.append({"name": name, "plan": text, "options": options})
        digests[f"{name}, written"] = digest(text)
        digests[name] = cooked(plan, options)
        for grid in ("slab", "cross-section")[: 2 if number % SECTIONS == 0 else 1]:
            digests[f"{name}, {grid}"] = cooked(plan, {**options, "grid": grid, "keep_fields": False})
    slabs = [plan for _, plan, options in ready if not plan.meat.section and not options]
    for place, out in enumerate(lc.simulate_many(slabs)):
        digests[f"batch {place}"] = came(out)
    digests.update(fitted())
    return {"plans": kept, "digests": digests}


def main(arguments: list[str]) -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    what = parser.add_mutually_exclusive_group(required=True)
    what.add_argument("--write", type=Path)
    what.add_argument("--compare", type=Path)
    wanted = parser.parse_args(arguments)
    if wanted.write:
        wanted.write.parent.mkdir(parents=True, exist_ok=True)
        wanted.write.write_text(json.dumps(found(None)), encoding="utf-8")
        return 0
    before = json.loads(wanted.compare.read_text(encoding="utf-8"))
    now = found(before["plans"])["digests"]
    differing = [name for name in before["digests"] if now.get(name) != before["digests"][name]]
    print(f"{len(before['digests']) - len(differing)} of {len(before['digests'])} digests are the same")
    for name in differing:
        print(f"  differs: {name}")
    return 1 if differing else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
