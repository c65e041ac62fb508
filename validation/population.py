"""The numbers of the model that no measurement fixes, estimated at once from everything that was measured.

    python validation/population.py            the posterior, its correlations, scores; writes POPULATION.md
    python validation/population.py --rounds 0 the same at the defaults, without looking for a better middle

The data are the cooks of validation/field, and beside them cooling, rests, losses, rates under wraps and a
published pair (fieldwork/others.py). What differs from cook to cook and was not measured (thickness, the
pit's thermometer, humidity, draught, the tip of the probe, juiciness) is free for each cook within its
prior, so that no single cook decides (fieldwork/joint.py). Everything is robust: errors have heavy tails.

The defaults of the library are one draw of a posterior over the same data, priors and tails that scores
what a user sees, the answer without anything known of the cook at hand. Of 2,703 such draws it was taken
for its scores as well as for its density, which lies within 1.1 (in the exponent) of the best; the numbers
differ from that one's by less than the posterior's spread. The mode found here, with each cook's own
numbers free, is beside it in the table. Leave-one-out moves the defaults as that mode moves: what it
cannot see is the choice of the draw. The posterior is stored for what draws from it, in prior standard
deviations: fieldwork/posterior.json.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
from fieldwork import belief, others, scores
from fieldwork import cooks as field_cooks
from fieldwork.cooks import Array, Field
from fieldwork.joint import STEP, Fit, Joint, changed, simulate
from fieldwork.numbers import Number

import libcook as lc

HERE = Path(__file__).resolve().parent
TAILS = 4.0  # degrees of freedom of what was measured beside the cooks
STRONG = 0.5  # correlations that are told
GRADES = "AB"
SCORED = ("brisket", "pork")


class Beside:
    """What else was measured, as residuals of shared numbers alone, weighed down where they are outliers."""

    def __init__(self) -> None:
        self.all = others.everything()
        self.plans = [json.loads(one.plan().to_json()) for one in self.all]

    def misses(self, shared: Sequence[Number], zs: Sequence[Array]) -> Array:
        """(numbers' sets, measurements), in standard deviations."""
        plans = []
        for z in zs:
            for plan in self.plans:
                made = json.loads(json.dumps(plan))
                for number, x in zip(shared, z, strict=True):
                    number.apply(made, number.value(x))
                plans.append(lc.Plan.from_json(json.dumps(made)))
        found = simulate(plans)
        read = [one.miss(out) / one.sd for out, one in zip(found, len(zs) * self.all, strict=True)]
        return np.reshape(read, (len(zs), len(self.all)))

    def terms(self, z: Array, shared: Sequence[Number]) -> tuple[Array, Array]:
        """Weighted residuals and their slopes."""
        sets = [z, *(z + STEP * one for one in np.eye(len(shared)))]
        found = self.misses(shared, sets)
        weight = np.sqrt((TAILS + 1.0) / (TAILS + found[0] ** 2))
        return weight * found[0], (weight * (found[1:] - found[0]) / STEP).T


def at_defaults(joint: Joint) -> Array:
    """The library's defaults, in prior standard deviations."""
    tissue, wrap = lc.brisket_tissue(), {name: lc.wrap(name).top for name in lc.wrap_names()}
    cut = {one.name: one for one in lc.cuts()}
    value = {
        "holding.midpoint": tissue.holding.midpoint,
        "holding.width": tissue.holding.width,
        "holding.final_share": tissue.holding.final_share,
        "mobility.expressed": tissue.mobility.expressed,
        "mobility.held": tissue.mobility.held,
        "cooked_conductivity": tissue.cooked_conductivity,
        "emissivity": tissue.emissivity,
        "paper.vapour_resistance": wrap["butcher paper"].vapour_resistance,
        "paper.heat_resistance": wrap["butcher paper"].heat_resistance,
        "foil.heat_resistance": wrap["foil"].heat_resistance,
        "foil.emissivity": wrap["foil"].emissivity,
        "towels.heat_resistance": wrap["towels"].heat_resistance,
        "box.loss": lc.Box().loss,
        "brisket.thickness": cut["brisket"].thickness,
        "pork shoulder.thickness": cut["pork shoulder"].thickness,
    }
    return np.array([
        (np.log(value[n.name] / n.middle) if n.log else value[n.name] - n.middle) / n.sd for n in joint.shared
    ])  # fmt: skip


def scored(joint: Joint, z: Array | Sequence[Array]) -> dict[str, scores.Score]:
    """Scores of the answers without a cook's own numbers; `z`: one for all, or one for each cook."""
    told = joint.cooks
    sets = list(z) if isinstance(z, list) else [z] * len(told)
    plans = [
        changed(cook, list(zip(joint.shared, at, strict=True))) for cook, at in zip(told, sets, strict=True)
    ]
    misses = scores.missed(told, simulate(plans))
    return {
        kind: scores.score([m for m in misses if m.cook.kind == kind and m.cook.grade in GRADES])
        for kind in SCORED
    }


def held_out(joint: Joint, fit: Fit, z: Array) -> list[Array]:
    """For each cook the numbers had it not been there: `z`, moved as the posterior's middle would move."""
    return [z + (fit.without(i) - fit.z) for i in range(len(joint.cooks))]


def number(value: float) -> str:
    return f"{value:.3g}"


def table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    return [
        "| " + " | ".join(head) + " |",
        "|" + "---|" * len(head),
        *("| " + " | ".join(row) + " |" for row in rows),
        "",
    ]


def report(joint: Joint, fit: Fit, defaults: Array, told: list[tuple[str, dict[str, scores.Score]]]) -> str:
    sd = np.sqrt(np.diag(fit.covariance))
    rows = [
        [n.name, n.unit, f"{number(n.value(-1.0))} to {number(n.value(1.0))}",
         f"{number(n.value(m - s))} to {number(n.value(m + s))}", number(n.value(d)),
         f"{100.0 * (1.0 - s * s):.0f} %", n.source]
        for n, m, s, d in zip(joint.shared, fit.z, sd, defaults, strict=True)
    ]  # fmt: skip
    correlation = fit.covariance / np.outer(sd, sd)
    names = [n.name for n in joint.shared]
    pairs = [
        (abs(correlation[i, j]), f"{names[i]} and {names[j]} {correlation[i, j]:+.2f}")
        for i in range(len(sd)) for j in range(i)
    ]  # fmt: skip
    strong = [text for size, text in sorted(pairs, reverse=True) if size >= STRONG]
    blind = [n.name for n, s in zip(joint.shared, sd, strict=True) if s > 0.9]
    counted = {kind: sum(c.kind == kind for c in joint.cooks) for kind in SCORED}
    return "\n".join([
        "# What measured cooks say of the model's numbers", "",
        "Written by `python validation/population.py`; nothing here is typed in.", "",
        f"{counted['brisket']} cooks of brisket and {counted['pork']} of pork, "
        f"{sum(len(c.core) for c in joint.cooks)} readings, and {len(joint.others[0].all)} measurements of "
        "cooling, rests, losses, wraps and a published pair.", "",
        "## The numbers", "",
        "One standard deviation to either side, before and after; learned: how much of the prior's variance "
        "the data took away.", "",
        *table(["number", "unit", "prior", "posterior", "default", "learned", "prior from"], rows),
        "Correlated by half or more: " + ("; ".join(strong) if strong else "none") + ".", "",
        "What the data cannot tell (a tenth of the prior's spread or less is gone): "
        + (", ".join(blind) if blind else "none") + ".", "",
        "## From cook to cook", "",
        "What differs between cooks of one kind: believed beforehand, and as the cooks have it.", "",
        *table(["number", "unit", "believed", "found"], [
            [n.name, n.unit, number(n.sd), number(fit.scatter()[n.name])] for n in joint.own
        ]),
        "## Scores", "",
        "Of the answer that a user gets with nothing known of the cook but cut, mass, start, cooker, pit and "
        "wraps. "
        "Grades A and B; ±: one standard error of resampled cooks.", "",
        *table(["", *SCORED], [[name, *(str(found[kind]) for kind in SCORED)] for name, found in told]),
        "Leave-one-out: for each cook the numbers are those that the others give.", "",
    ])  # fmt: skip


def main(arguments: Sequence[str]) -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--rounds", type=int, default=12, help="of Gauss and Newton")
    wanted = parser.parse_args(arguments)
    told: list[Field] = [cook for cook in field_cooks.load() if cook.kind in SCORED]
    joint = Joint(told, [Beside()])
    defaults = at_defaults(joint)

    def tell(turn: int, cost: float, z: Array) -> None:
        print(f"round {turn}: {cost:.1f}", file=sys.stderr, flush=True)

    fit = joint.fit(rounds=wanted.rounds, tell=tell, z=defaults)
    found: list[tuple[str, dict[str, scores.Score]]] = [
        ("defaults", scored(joint, defaults)),
        ("defaults, leave-one-out", scored(joint, held_out(joint, fit, defaults))),
        ("mode with each cook's own numbers free", scored(joint, fit.z)),
    ]
    text = report(joint, fit, defaults, found)
    (HERE / "POPULATION.md").write_text(text + "\n")
    stored: dict[str, Any] = {
        "numbers": [n.name for n in joint.shared],
        "middle": np.round(defaults, 4).tolist(),
        "mode": np.round(fit.z, 4).tolist(),
        "covariance": np.round(fit.covariance, 5).tolist(),
    }
    (HERE / "fieldwork" / "posterior.json").write_text(json.dumps(stored, indent=1) + "\n")
    belief.write(fit)
    print(text)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
