"""Run the kept plans and store what came out; see the package's docstring."""

from __future__ import annotations

import argparse
import json
import platform
from pathlib import Path
from typing import Any

import numpy as np
import scipy

import libcook as lc
from brick import report
from brick.grid import Fineness
from brick.measure import COLUMNS
from brick.plans import Kept, kept
from brick.solver import Solver

RESULTS = Path(__file__).resolve().parent / "results"
TOLERANCE = 0.1  # of a step, in units of `stepper.SCALE`
BY_MINUTE = COLUMNS[:4]
TEN = 10
# Refinement: the grid about a third coarser and finer each way, steps three times as coarse and as fine.
COARSE = Fineness(8, 7, 17, 4.5e-4)
FINE = Fineness(16, 14, 33, 2e-4)
REFINED = ("brisket_bare", "brisket_foil", "pork_bare")


def solved(brick: Kept, fine: Fineness, tolerance: float) -> Solver:
    solver = Solver(brick.plan.to_json(), brick.size, fine, tolerance)
    solver.run()
    return solver


def summary(brick: Kept, solver: Solver, tolerance: float) -> dict[str, Any]:
    """What is stored beside the trace by the minute."""
    ten = np.round(np.array(solver.rows)[::TEN], 4)
    return {
        "words": brick.words,
        "size": dict(zip(("length", "width", "thickness"), brick.size, strict=True)),
        "versions": {
            "libcook": lc.__version__,
            "python": platform.python_version(),
            "numpy": np.__version__,
            "scipy": scipy.__version__,
        },
        "grid": vars(solver.fine),
        "tolerance": tolerance,
        "steps": solver.stepper.steps,
        "stages": [vars(end) for end in solver.ends],
        "ledger": solver.ledger(),
        "slab": slab(brick),
        f"every {TEN} minutes": {name: ten[:, i].tolist() for i, name in enumerate(COLUMNS)},
        "plan": json.loads(brick.plan.to_json()),
    }


def slab(brick: Kept) -> dict[str, Any]:
    """The same plan in libcook's slab, which has no sides."""
    out = lc.simulate(brick.plan, grid="slab", keep_fields=False)
    left = out.ledger.water_end + out.ledger.on_surface
    return {
        "stages": [{"name": e.name, "end": e.time, "core": e.core} for e in out.stage_ends],
        "water_lost": 1.0 - left / out.ledger.water_start,
    }


def store(name: str, brick: Kept) -> None:
    solver = solved(brick, Fineness(), TOLERANCE)
    rows = np.array(solver.rows)[:, : len(BY_MINUTE)]
    lines = [",".join(("minute", *BY_MINUTE))]
    lines += [f"{i},{r[0]:.3f},{r[1]:.3f},{r[2]:.5f},{r[3]:.5f}" for i, r in enumerate(rows)]
    RESULTS.mkdir(exist_ok=True)
    (RESULTS / f"{name}.csv").write_text("\n".join(lines) + "\n")
    told = summary(brick, solver, TOLERANCE)
    (RESULTS / f"{name}.json").write_text(report.compact(told))
    ends = ", ".join(f"{end.name} {end.end / 3600.0:.2f} h" for end in solver.ends)
    print(f"{name}: {ends}; {solver.stepper.steps} steps", flush=True)


def refine(names: list[str], bricks: dict[str, Kept]) -> None:
    """Ends of stages [h] on a coarser grid, with larger steps, and on a finer grid with smaller steps."""
    path = RESULTS / "refinement.json"
    found = json.loads(path.read_text()) if path.exists() else {}
    for name in names:
        found[name] = {}
        for words, fine, tolerance in (
            ("coarser grid", COARSE, TOLERANCE),
            ("larger steps", Fineness(), 3.0 * TOLERANCE),
            ("as kept", Fineness(), TOLERANCE),
            ("smaller steps", Fineness(), TOLERANCE / 3.0),
            ("finer grid", FINE, TOLERANCE),
        ):
            solver = solved(bricks[name], fine, tolerance)
            found[name][words] = {
                "ends": [end.end for end in solver.ends],
                "evaporated": solver.ledger()["evaporated"],
            }
            print(name, words, [round(end.end / 3600.0, 3) for end in solver.ends], flush=True)
            path.write_text(report.compact(found))


def main() -> None:
    bricks = kept()
    parser = argparse.ArgumentParser(prog="python -m brick", description=__doc__)
    parser.add_argument("names", nargs="*", metavar="NAME", help=", ".join(bricks))
    parser.add_argument("--refine", action="store_true", help="on other grids and steps instead")
    parser.add_argument("--report", action="store_true", help="write RESULTS.md from what is stored, only")
    given = parser.parse_args()
    if unknown := sorted(set(given.names) - set(bricks)):
        parser.error(f"no such plan: {', '.join(unknown)}; there are {', '.join(bricks)}")
    if given.refine:
        refine(given.names or list(REFINED), bricks)
    elif not given.report:
        for name in given.names or list(bricks):
            store(name, bricks[name])
    report.write(RESULTS)


if __name__ == "__main__":
    main()
