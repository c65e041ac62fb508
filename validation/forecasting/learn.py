"""What forecasts learn from cooks whose end is known: rules by hand and their weights.

    python -m forecasting.learn     in validation; writes libcook/src/fit/forecast/rule_numbers.hpp

The weights of the rules, and the width of the bands, are those that lose least in ln(time left), each phase
of a cook its own, drawn toward the model alone by a small penalty. Cooks that are read now and then learn
from the measured cooks, which were; cooks that are read often from training cooks of the other worlds. The
report (validation/HONESTY.md) is on cooks held out.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np
from fieldwork import cooks as field_cooks
from fieldwork.cooks import HOUR, Array, Field
from scipy.optimize import OptimizeResult, minimize

from forecasting import answers as answers_of
from forecasting import cases
from forecasting.answers import Answer

HEADER = Path(__file__).resolve().parents[2] / "libcook" / "src" / "fit" / "forecast" / "rule_numbers.hpp"
PHASES = ("before the stall", "in the stall", "after the stall")
RULES = ("last_hour", "population", "stage")
PENALTY = 0.06  # on what a rule weighs and on what is added: a doubt that few cooks cannot overcome
KINDS = ("brisket", "pork")
FEWEST = 20  # cases of a phase from which on it has weights of its own


def population_time(cooks: Sequence[Field]) -> tuple[Array, Array]:
    """Least squares of ln(whole time [h]); the coefficients, and each cook's prediction without itself."""
    rows, ends = [], []
    for cook in cooks:
        end = float(cook.time[-1])
        at = np.linspace(0.0, end, 200)
        pit = float(np.mean(np.interp(at, cook.pit_time, cook.pit)))
        names = " ".join(name for _, name in cook.wraps)
        rows.append([
            1.0, cook.kind == "brisket", np.log(cook.mass), (pit - 115.0) / 20.0,
            (float(cook.core[-1]) - 90.0) / 10.0, "foil" in names, "paper" in names,
        ])  # fmt: skip
        ends.append(np.log(end))
    x, y = np.array(rows, dtype=float), np.array(ends)
    inverse = np.linalg.pinv(x)
    found = inverse @ y
    leverage = np.einsum("ij,ji->i", x, inverse)
    return found, y - (y - x @ found) / (1.0 - leverage)


def population_stage(told: Sequence[Answer]) -> Array:
    """Least squares of logit(share of the time passed) on logit(share of the way to the target)."""
    weight = np.sqrt(answers_of.cook_weights(told))
    way = np.clip(
        [(a.case.core - a.case.plan.meat.start) / (a.case.target - a.case.plan.meat.start) for a in told],
        0.02, 0.98,
    )  # fmt: skip
    passed = np.array([a.case.now / a.case.left for a in told])
    x = np.column_stack([np.ones(len(way)), np.log(way / (1.0 - way))])
    found: Array = np.linalg.lstsq(x * weight[:, None], np.log(passed) * weight, rcond=None)[0]
    return found


def off_the_model(told: Sequence[Answer], field: str) -> Array:
    """ln(a rule's time left / the model's); 0 where the rule has nothing to go by."""
    own = np.array([max(a.left, answers_of.SOON) for a in told])
    rule = np.array([a.by_hand.get(field, np.nan) / HOUR for a in told])
    return np.where(np.isfinite(rule) & (rule > 0.0), np.log(np.maximum(rule, answers_of.SOON) / own), 0.0)


def weigh(x: Array, own: Array, truth: Array, weight: Array) -> Array:
    """Weights of the rules, none below 0 and 1 in all at most; what is added; and the width of the bands.

    Parameters
    ----------
    x : numpy.ndarray
        Shape (cases, rules): ln(a rule's time left / the model's).
    own : numpy.ndarray
        Shape (cases, quantiles): ln of the model's time left, less that of its median.
    truth : numpy.ndarray
        Shape (cases,): ln(time left / the model's median).
    weight : numpy.ndarray
        Of the cases; they add up to 1.
    """
    k, q = x.shape[1], np.array(answers_of.QUANTILES)

    def lost(p: Array) -> float:
        share = np.abs(p[:k])
        off = truth - x @ share - p[k]
        miss = off[:, None] - np.exp(p[k + 1]) * own
        bands = np.where(miss >= 0.0, q * miss, (q - 1.0) * miss).mean(axis=1)
        doubt = 0.3 * PENALTY * (share.sum() + abs(p[k]) + abs(p[k + 1])) + 10.0 * max(share.sum() - 1.0, 0.0)
        return float(weight @ (bands + 0.15 * np.abs(off)) + doubt)

    def search(start: Array) -> OptimizeResult:
        simplex = np.vstack([start, start + 0.2 * np.eye(k + 2)])
        options = {
            "maxiter": 20000,
            "maxfev": 20000,
            "xatol": 1e-4,
            "fatol": 1e-8,
            "initial_simplex": simplex,
        }
        return minimize(lost, start, method="Nelder-Mead", options=options)

    tried = (np.zeros(k + 2), np.append(np.full(k, 0.25), [0.0, 0.0]))
    best = min((search(start) for start in tried), key=lambda found: float(found.fun))
    best = search(best.x)  # once more from there: a simplex may have collapsed
    found = np.append(np.abs(best.x[:k]), [best.x[k], np.exp(best.x[k + 1])])
    found[:-1][np.abs(found[:-1]) < 0.01] = 0.0
    return found


def is_dense(answer: Answer) -> bool:
    """Whether the last hour was read often enough to go by it."""
    return bool(np.isfinite(answer.by_hand.get("last_hour", np.nan)))


def learned_weights(told: Sequence[Answer], dense: bool) -> dict[str, Array]:
    """Of each phase, for cooks that are read often or now and then."""
    told = [a for a in told if is_dense(a) == dense and a.by_hand]
    every = answers_of.cook_weights(told)
    x = np.column_stack([off_the_model(told, rule) for rule in RULES])
    left = np.array([max(a.left, answers_of.SOON) for a in told])
    truth = np.log(np.array([max(a.case.left, answers_of.SOON) for a in told]) / left)
    own = np.log(
        np.maximum([np.array(a.quantiles) - a.case.now for a in told], answers_of.SOON) / left[:, None]
    )
    made = {}
    for phase in PHASES:
        here = np.array([a.by_hand.get("phase") == phase for a in told])
        if here.sum() < FEWEST:
            here = np.ones(len(told), dtype=bool)
        made[phase] = weigh(x[here], own[here], truth[here], every[here] / every[here].sum())
    return made


def joined(answer: Answer, weights: dict[str, Array]) -> Answer:
    """An answer of the model alone, joined with the rules by given weights, as the library does it."""
    w = weights[answer.by_hand["phase"]]
    left = max(answer.left, answers_of.SOON)
    off = [off_the_model([answer], rule)[0] for rule in RULES]
    middle = left * float(np.exp(np.clip(w[:-2] @ np.array(off) + w[-2], -np.log(3.0), np.log(3.0))))
    own = np.maximum(np.array(answer.quantiles) - answer.case.now, answers_of.SOON) / left
    return replace(answer, quantiles=tuple(answer.case.now + middle * own ** w[-1]))


def held_out(told: Sequence[Answer], at_readings: Sequence[Answer]) -> list[Answer]:
    """Each cook's answers joined by what the other cooks taught."""
    known: dict[str, dict[str, Array]] = {}
    made = []
    for answer in told:
        name = answer.case.cook
        if answer.refused or answer.case.now == 0.0 or is_dense(answer):
            made.append(answer)
            continue
        if name not in known:
            rest = [a for a in at_readings if a.case.cook != name and not a.refused]
            known[name] = learned_weights(rest, False)
        made.append(joined(answer, known[name]))
    return made


def alone() -> dict[str, Array]:
    """Weights that leave the answer to the model."""
    return {phase: np.append(np.zeros(len(RULES) + 1), 1.0) for phase in PHASES}


def weights_now_and_then(told: Sequence[Answer]) -> dict[str, Array]:
    """For cooks that are read now and then: learned ones, if they lose less on cooks held out than none."""
    better = answers_of.loss(held_out(told, told)) < answers_of.loss(told)
    return learned_weights(told, False) if better else alone()


def header(time: Array, stage: Array, weights: Sequence[dict[str, Array]]) -> str:
    def numbers(values: Sequence[float]) -> str:
        return ", ".join(f"{v:.4f}" for v in values)

    def phases(w: dict[str, Array]) -> str:
        return ", ".join(f"{{{numbers([1.0 - w[phase][:-2].sum(), *w[phase]])}}}" for phase in PHASES)

    rows = [f"    {{{{{phases(w)}}}}}," for w in weights]
    return "\n".join([
        "/// @file",
        "/// Written by `python -m forecasting.learn` (in validation) from cooks whose end is known; see",
        "/// validation/HONESTY.md.",
        "#pragma once", "", "#include <array>", "", "namespace cook::fit {", "", "// clang-format off",
        "/// ln(whole time [h]) of the population: constant, brisket, ln(mass [kg]), pit over 115 °C [20 K],",
        "/// target over 90 °C [10 K], foil, paper.",
        f"inline constexpr std::array<double, 7> population_time{{{numbers(time)}}};",
        "/// logit(share of the time passed) = first + second x logit(share of the way to the target).",
        f"inline constexpr std::array<double, 2> population_stage{{{numbers(stage)}}};",
        "/// Weight of ln(time left) by physics, the last hour, the population's time, and its stage; what",
        "/// is added; by how much the bands are widened: before the stall, in it, after it; for a core that",
        "/// is read now and then, and one that is read often.",
        "inline constexpr std::array<std::array<std::array<double, 6>, 3>, 2> rule_weights{{",
        *rows, "}};",
        "// clang-format on", "", "} // namespace cook::fit", "",
    ])  # fmt: skip


def measured() -> list[Field]:
    return [cook for cook in field_cooks.load() if cook.kind in KINDS]


def main() -> int:
    cooks = measured()
    told = [a for a in answers_of.ask(cases.at_readings(cooks), join_rules=False) if not a.refused]
    training: list[Answer] = []
    try:
        from forecasting import other_worlds
    except ImportError:
        print("no other worlds: weights of measured cooks alone", file=sys.stderr)
    else:
        training = other_worlds.training()
    time, _ = population_time(cooks)
    every = [*told, *training]
    weights = [weights_now_and_then(told), learned_weights(every, any(map(is_dense, every)))]
    HEADER.write_text(header(time, population_stage(told), weights), encoding="utf-8")
    print(HEADER.read_text(encoding="utf-8"))
    return 0


if __name__ == "__main__":
    sys.exit(main())
