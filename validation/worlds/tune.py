"""Levels and scatters of the worlds beside the field's, and the constants that make them agree.

python -m worlds.tune              what the worlds have now python -m worlds.tune --fit        search
each world's constants (minutes), and print them
"""

from __future__ import annotations

import argparse
import dataclasses
from collections.abc import Sequence
from types import ModuleType

import numpy as np

from . import brick, field, lumped, mobility, traces, wandering
from .cook import Array, Cook
from .setting import Scale

MODULES: dict[str, ModuleType] = {
    "mobility": mobility,
    "lumped": lumped,
    "brick": brick,
    "traces": traces,
    "wandering": wandering,
}
# The field's own scatter, 0.25 (brisket) and 0.35 (pork), holds errors of told masses, pits and clocks that
# these cooks do not have; both cuts get the middle of what is believed of the population, 0.19 to 0.30.
SCATTER = 0.25
SAMPLE, ROUNDS = 160, 6


def expected(cook: Cook) -> float:
    """The field's median for what the user knows of this cook [h]."""
    pit = float(cook.pit_C[cook.pit_time <= cook.done].mean())
    share = {"foil": 0.0, "butcher paper": 0.0}
    for wrap in cook.wraps:
        share[wrap.kind] = max(1.0 - wrap.at / cook.done, 0.0)
    return field.pace().hours(
        cook.cut, cook.mass_kg, pit, cook.target_C, share["foil"], share["butcher paper"]
    )


def slowness(cooks: Sequence[Cook]) -> Array:
    """ln(time until done / the field's median for it)."""
    return np.array([np.log(cook.done / 3600.0 / expected(cook)) for cook in cooks])


def fitted(module: ModuleType, sample: int = SAMPLE) -> Scale:
    """The constants for which each cut's median slowness is 0 and the scatter over both cuts SCATTER."""
    scale: Scale = module.SCALE
    power = 1.0 if module is traces else 1.2  # of the time in a constant: only a guess to step by
    for _ in range(ROUNDS):
        left = {}
        for cut in field.CUTS:
            off = slowness([module.make(seed, scale, cut) for seed in range(sample // 2)])
            middle = float(np.median(off))
            scale = dataclasses.replace(scale, **{cut: getattr(scale, cut) * np.exp(-middle / power)})
            left[cut] = off - middle
        now = field.robust(np.concatenate(list(left.values())))
        own = (power * scale.spread) ** 2
        rest = max(now**2 - own, 0.0)
        spread = float(np.sqrt(max(SCATTER**2 - rest, 0.0)) / power)
        scale = dataclasses.replace(scale, spread=0.5 * (scale.spread + spread))
    return scale


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--fit", action="store_true", help="search the constants")
    parser.add_argument("--only", choices=sorted(MODULES), help="one world")
    parser.add_argument("--count", type=int, default=200, help="cooks of each world")
    asked = parser.parse_args()
    pace = field.pace()
    print(
        "field     "
        + "".join(f"  {cut} scatter {pace.scatter[cut]:.2f} ({pace.count[cut]})" for cut in field.CUTS)
    )
    print("          slopes: ln kg, pit, core, foil, paper", np.round(pace.slopes, 3))
    for name, module in MODULES.items():
        if asked.only not in (None, name):
            continue
        scale = fitted(module) if asked.fit else module.SCALE
        cooks = [module.make(seed, scale) for seed in range(asked.count)]
        off = slowness(cooks)
        words = [f"{name:10s}"]
        for cut in field.CUTS:
            mine = off[np.array([cook.cut == cut for cook in cooks])]
            hours = np.median([cook.done / 3600.0 for cook in cooks if cook.cut == cut])
            words.append(
                f"{cut} {hours:.1f} h, off {np.median(mine):+.2f}, scatter {field.robust(mine):.2f};"
            )
        words.append(f"all off {np.median(off):+.2f}, scatter {field.robust(off):.2f}, sd {off.std():.2f}")
        print(" ".join(words))
        if asked.fit:
            numbers = f"brisket={scale.brisket:.4f}, pork={scale.pork:.4f}, spread={scale.spread:.3f}"
            print(f"           Scale({numbers})")


if __name__ == "__main__":
    main()
