"""Search wide plans for what must not be: open ledgers, negative masses, ends passed by, views that fail.

    python validation/wide_plans.py [--plans 20000] [--seed 14] [--folder build/wide_plans]
    python validation/wide_plans.py --only 14:307          one plan again, by the seed that a finding names

Plans are made by wide_plans_make.py, each from its own seed. What each gave is a line in FOLDER; called
again, the search goes on after the last one. It returns 1 when anything was found.
"""

from __future__ import annotations

import argparse
import json
import pickle
import signal
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy as np
from wide_plans_make import Asked, wide_plan

import libcook as lc

OPEN = 1e-9  # of a ledger, over its largest entry
NOTHING = -1e-9  # kg; no mass is below it
LONGEST = 120  # s for one plan: longer counts as hanging
SOME = 20  # every so many plans the slow checks too


class Hangs(Exception):
    """A plan takes longer than `LONGEST`."""


class NoPlan(Exception):
    """Some part of a plan was refused as it was made."""


def made(seed: str) -> Asked:
    """Make the plan of a seed."""
    try:
        return wide_plan(seed)
    except lc.InvalidInput as refusal:
        raise NoPlan(str(refusal)) from None


def findings_of(asked: Asked, slow: bool) -> dict[str, Any]:
    """Simulate and check: how it ended, how many steps it took, how well it closed, and what was found."""
    try:
        out, ended = lc.simulate(asked.plan, **asked.options), "whole"
    except lc.InvalidInput as refusal:
        return {"ended": f"refused: {refusal}", "found": []}
    except lc.Unreachable as failure:
        out, ended = failure.outcome, "unreachable"
    except lc.SolverFailure as failure:
        return {"ended": "failed", "steps": failure.outcome.ledger.steps, "found": [f"failed: {failure}"]}
    found = [*wrong(asked, out), *failing(views(out, slow))]
    if slow:
        found += list(differing(asked, out))
    ledger = out.ledger
    open_by = max(abs(ledger.heat_residual), abs(ledger.water_residual), abs(ledger.air_residual))
    return {"ended": ended, "steps": ledger.steps, "open": open_by, "found": found}


def wrong(asked: Asked, out: lc.Outcome) -> Iterator[str]:
    """Whatever an outcome must not hold."""
    ledger = out.ledger
    for name in ("heat_residual", "water_residual", "air_residual"):
        value = getattr(ledger, name)
        if not abs(value) < OPEN:
            yield f"open ledger: {name} {value:.3g}"
    traces = ("time", "core", "coldest", "air", "tenderness", "mean_water", "vapour_pressure", "pan_water")
    for name in (*traces, "surface", "surface_water", "film", "temperature", "water"):
        if not np.isfinite(getattr(out, name)).all():
            yield f"not finite: {name}"
    area = out.plan.meat.shape.extent
    masses = {
        "run_off": ledger.run_off,
        "on_surface": ledger.on_surface,
        "water_end": ledger.water_end,
        "vapour_in": ledger.vapour_in,
        "vapour_out": ledger.vapour_out,
        "film": area * out.film.min(),
        "water": out.water.min(initial=0.0),
        "surface_water": out.surface_water.min(),
        "pan_water": out.pan_water.min(),
        "vapour_pressure": out.vapour_pressure.min(),
        "dripped": out.loss.dripped,
        "in_wrap": out.loss.in_wrap,
        "fat": out.loss.fat,
    }
    for name, value in masses.items():
        if not value >= NOTHING:
            yield f"negative: {name} {value:.3g}"
    if not (np.diff(out.time) > 0.0).all():
        yield "time does not increase"
    if (np.diff(out.tenderness) < -1e-9).any() and not any(stage.probe for stage in out.plan.stages):
        yield "tenderness falls"
    if not asked.options.get("physics") and ledger.evaporated > ledger.water_start + ledger.spritzed + 1e-9:
        yield f"evaporated {ledger.evaporated:.3g} of {ledger.water_start:.3g}"
    yield from late(out)


def late(out: lc.Outcome) -> Iterator[str]:
    """Name the stages that went on beyond a timed end, or end for a time they did not last."""
    for stage, end in zip(out.plan.stages, out.stage_ends, strict=False):
        limits = [e.value for e in stage.until if e.kind == "elapsed"]
        first = min([*limits, stage.at_most])
        if end.time - end.start > first * (1.0 + 1e-12) + 1e-9:
            yield f"late: {end.name} lasts {end.time - end.start!r} s, not {first!r}"
        if end.reason.endswith("elapsed") and abs(end.time - end.start - first) > 1e-6:
            yield f"{end.name} says {end.reason!r} after {end.time - end.start!r} s"


def views(out: lc.Outcome, slow: bool) -> dict[str, Callable[[], Any]]:
    """Every way to look at an outcome."""
    quick = {
        "repr": lambda: repr(out),
        "html": out._repr_html_,
        "sentences °F": lambda: lc.sentences(out, units="F", variants=0),
        "sentences °C": lambda: lc.sentences(out, units="C", variants=0),
        "readings": lambda: (out.stall(), out.carryover(), out.bark(), out.hot_hold(), out.loss),
        "safety": out.safety,
        "budget": lambda: [out.heat_budget(face) for face in out.faces],
        "plan": lambda: (repr(out.plan), out.plan.to_json()),
    }
    if not slow:
        return quick
    return quick | {
        "frame": lambda: out.to_frame(units="F"),
        "xarray": out.to_xarray,
        "compare": lambda: repr(lc.compare({"it": out, "again": out}, units="F")),
        "plot": lambda: drawn(out.plot(units="F")),
        "plot_budget": lambda: drawn(out.plot_budget()),
        "plot_profiles": lambda: drawn(out.plot_profiles([0.5 * float(out.time[-1])])[0]),
        "variants": lambda: lc.sentences(out, units="F", variants=8),
    }


def drawn(axes: Any) -> None:
    """Draw it for good, then let go of it."""
    import matplotlib.pyplot as plt

    axes.figure.canvas.draw()
    plt.close(axes.figure)


def failing(looks: dict[str, Callable[[], Any]]) -> list[str]:
    found = []
    for name, look in looks.items():
        try:
            look()
        except Hangs:
            raise
        except Exception as error:
            found.append(f"view {name}: {type(error).__name__}: {error}")
    return found


def differing(asked: Asked, out: lc.Outcome) -> Iterator[str]:
    """The same cook by another way: through JSON, a pickle, in a batch."""
    plan = asked.plan
    if lc.Plan.from_json(plan.to_json()) != plan:
        yield "differs: plan through JSON"
    if pickle.loads(pickle.dumps(plan)) != plan:
        yield "differs: plan through a pickle"
    again = lc.Outcome.from_json(out.to_json(fields=True))
    if not np.array_equal(again.temperature, out.temperature):
        yield "differs: outcome through JSON"
    if "grid" in asked.options:
        return
    (beside, _) = lc.simulate_many([plan, plan], **asked.options)
    beside = getattr(beside, "outcome", beside)
    for one, other in zip(beside.stage_ends, out.stage_ends, strict=False):
        if one.reason != other.reason or abs(one.time - other.time) > 0.005 * other.time + 1.0:
            yield f"differs: in a batch {one} {one.reason}, alone {other} {other.reason}"
            break


def search(seed: int, plans: int, file: Path) -> int:
    """Go on with the search; the number of plans in which something was found."""
    file.parent.mkdir(parents=True, exist_ok=True)
    lines = file.read_text(encoding="utf-8").splitlines() if file.exists() else []
    done = [json.loads(line) for line in lines]
    with file.open("a", encoding="utf-8") as out:
        for number in range(len(done), plans):
            entry = looked_at(f"{seed}:{number}", slow=number % SOME == 0)
            done.append(entry)
            out.write(json.dumps(entry) + "\n")
            out.flush()
            for finding in entry["found"]:
                print(f"{entry['seed']}  {finding}", flush=True)
    return summary(done)


def looked_at(seed: str, slow: bool) -> dict[str, Any]:
    """One plan's line."""

    def too_long(*_: Any) -> None:
        raise Hangs

    signal.signal(signal.SIGALRM, too_long)
    signal.alarm(LONGEST)
    begun = time.monotonic()
    try:
        entry = findings_of(made(seed), slow)
    except NoPlan as refusal:  # the library would not even make its parts
        entry = {"ended": f"refused: {refusal}", "found": []}
    except Hangs:
        entry = {"ended": "hangs", "found": [f"hangs: more than {LONGEST} s"]}
    except Exception as error:
        entry = {"ended": "error", "found": [f"{type(error).__name__}: {error}"]}
    finally:
        signal.alarm(0)
    return {"seed": seed, "s": round(time.monotonic() - begun, 3)} | entry


def summary(done: list[dict[str, Any]]) -> int:
    """Print what came of all plans."""
    print(len(done), "plans:", dict(Counter(entry["ended"].split(":")[0] for entry in done)))
    refusals = Counter(entry["ended"][:100] for entry in done if entry["ended"].startswith("refused"))
    for text, times in refusals.most_common(8):
        print(f"{times:6d}  {text}")
    for kind, times in Counter(text.split(" ")[0] for e in done for text in e["found"]).most_common():
        print(f"{times:6d}  {kind}")
    for what in ("steps", "open", "s"):
        most = sorted(done, key=lambda entry: -entry.get(what, 0))[:3]
        print(f"most {what}:", [(entry["seed"], entry.get(what, 0)) for entry in most])
    return sum(bool(entry["found"]) for entry in done)


def main(arguments: list[str]) -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--plans", type=int, default=20_000)
    parser.add_argument("--seed", type=int, default=14)
    parser.add_argument("--folder", type=Path, default=Path("build/wide_plans"))
    parser.add_argument("--only", help="the seed of one plan")
    wanted = parser.parse_args(arguments)
    if wanted.only:
        print(made(wanted.only).plan)
        entry = looked_at(wanted.only, slow=True)
        print(json.dumps(entry, indent=1))
        return bool(entry["found"])
    return bool(search(wanted.seed, wanted.plans, wanted.folder / f"{wanted.seed}.jsonl"))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
