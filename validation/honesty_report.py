"""The report on honesty, as Markdown."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import honesty_cooks as cooks
import numpy as np

import libcook as lc

# Numbers that a slab and a section share. The others of a slab take up what it lacks: heat through the sides.
SHARED = (
    "start",
    "vapour_pressure",
    "expressed_mobility",
    "held_mobility",
    "probe_distance",
)

# How far a slab is from a cross-section, as chosen on this kind of study with other random numbers: much less
# than from meat, which the default says.
OF_A_SECTION = lc.ModelError(pace=0.1, level=0.7, tails=1e6)

STUDIES = (
    (
        True,
        OF_A_SECTION,
        "A whole cut, fitted and forecast as a slab",
        """The hidden cook is a cross-section (2-D) with point, seam, end faces and sides; fit and
forecast use a slab (1-D) as thick as the piece is at the probe, and errors of the model that are true of this
study: normal, 10 % of pace and 0.7 K of level, as a section is nearer to a slab than meat is to either. They
were chosen on this kind of study, with other random numbers. Thickness, film coefficient, pit offset and wrap
resistance of the slab also do what the sides of the section do, which let heat in and vapour out, so their
hidden values are not what the slab should find.""",
    ),
    (
        False,
        "slab",
        "A slab, fitted and forecast as a slab",
        """The hidden cook is a slab of the same model on a finer grid; `model_error="slab"`: only the
solver and the thinning of the log err.""",
    ),
)

HEAD = """# Are the stated intervals honest?

First on measured cooks, then on cooks of other worlds, then on cooks of the model's own.

Written by `python validation/honesty.py --repetitions {count} --seed {seed}`; nothing here is typed in.

"""

OPENING = """
# Cooks of the model's own

All data of this part are invented: cooks are simulated with hidden numbers, a wandering pit and a
thermometer with {noise:g} K of noise, then calibrated and forecast without knowing them. This checks that
intervals hold what they promise. It says nothing on whether the physics is right: see
[SUMMARY.md](SUMMARY.md) for that.

Hidden numbers are drawn from what the library believes of them beforehand (`libcook.belief`); the pit keeps
to its set point but for a level of {level:g} K and a ripple of {ripple:g} K (standard deviations). Aims: the
90 % interval holds the truth in 85 to 95 % of the cooks, the 50 % interval in 42 to 58 %; half-way through,
the median error of the forecast is at most half of either baseline's. Baselines: the slope of the last hour
goes on in a straight line; minutes per pound, with the one figure that suits these very cooks best, which no
cook knows beforehand. With {count} cooks a share of 90 % is itself known to ±{of90:.0f} points, one of 50 %
to ±{of50:.0f} (two standard deviations).
"""


def percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"


def median_minutes(seconds: Iterable[float]) -> str:
    return f"{np.median(np.abs(list(seconds))) / 60.0:.0f} min"


def judged(hits: Any) -> str:
    """Whether the aims are met: 85 to 95 % of the 90 % interval, 42 to 58 % of the 50 % interval."""
    wide, narrow = hits.share("in90"), hits.share("in50")
    words = []
    for name, share, low, high in (("90 %", wide, 0.85, 0.95), ("50 %", narrow, 0.42, 0.58)):
        if share < low:
            words.append(f"{name} too narrow")
        elif share > high:
            words.append(f"{name} too wide")
    return ", ".join(words) or "as stated"


def rows_of_finish(result: Any) -> list[str]:
    """When it was done."""
    rows = [
        "| forecast at | 50 % interval holds | 90 % interval holds | median error "
        "| median early (-) or late (+) | straight line | minutes per pound | intervals |",
        "|---|---|---|---|---|---|---|---|",
    ]
    for moment, hits in result.finish.items():
        cells = (
            f"{percent(moment)} of the cook",
            percent(hits.share("in50")),
            percent(hits.share("in90")),
            median_minutes(result.missed[moment]),
            f"{np.median(result.missed[moment]) / 60.0:+.0f} min",
            median_minutes(result.line[moment]),
            median_minutes(result.per_pound()),
            judged(hits),
        )
        rows.append(f"| {' | '.join(cells)} |")
    return rows


def rows_of_numbers(result: Any) -> list[str]:
    """The hidden numbers."""
    rows = [
        "| number | 50 % interval holds | 90 % interval holds | mean miss | spread of misses | learned "
        "| intervals |",
        "|---|---|---|---|---|---|---|",
    ]
    for name, hits in result.numbers.items():
        same = not result.section or name in SHARED
        cells = (
            name.replace("_", " "),
            percent(hits.share("in50")),
            percent(hits.share("in90")),
            f"{np.mean(hits.off):+.2f}",
            f"{np.std(hits.off):.2f}",
            percent(float(np.median(hits.learned))),
            judged(hits) if same else "not the same number in both models",
        )
        rows.append(f"| {' | '.join(cells)} |")
    return rows


def of_study(result: Any, title: str, intro: str) -> list[str]:
    """One study as Markdown."""
    lines = [
        f"## {title}",
        "",
        intro,
        "",
        f"{len(result.done)} cooks; median length {np.median(result.done) / 3600.0:.1f} h; fits follow their "
        f"logs within {np.median(result.rms):.2f} K (median); {result.unsettled} searches stopped before "
        "they settled.",
        "",
        *rows_of_finish(result),
        "",
        f"Mean rank of the later median among what was told a quarter of the cook before: "
        f"{np.mean(result.ranks):.2f}; 0.5 where forecasts do not drift.",
        "",
        "Misses are in stated standard deviations: 0 and 1 are perfect.",
        "",
        *rows_of_numbers(result),
    ]
    if result.failures:
        lines += ["", f"{len(result.failures)} cooks could not be made or fitted, and others were taken:", ""]
        lines += [f"- {failure}" for failure in sorted(set(result.failures))]
    return [*lines, ""]


def page(results: list[tuple[Any, str, str]], repetitions: int, seed: int, others: Sequence[str] = ()) -> str:
    """The whole report; others: the lines on cooks that the model did not make."""
    opening = OPENING.format(
        noise=cooks.NOISE,
        level=cooks.LEVEL,
        ripple=cooks.RIPPLE,
        count=repetitions,
        seed=seed,
        of90=200.0 * np.sqrt(0.09 / repetitions),
        of50=200.0 * np.sqrt(0.25 / repetitions),
    )
    lines = [HEAD.format(count=repetitions, seed=seed), *others, opening]
    for result, title, intro in results:
        lines += of_study(result, title, intro)
    return "\n".join(lines).rstrip() + "\n"
