"""The population of cooks as the library believes it: a header in C++, written from the posterior.

Of each number: how far the population's middle is known (the posterior), and how far cooks scatter about it.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np

from fieldwork.cooks import Array
from fieldwork.joint import Fit

HEADER = Path(__file__).resolve().parents[2] / "libcook" / "src" / "fit" / "belief" / "population_numbers.hpp"
# The library's free number, the posterior's number, the scatter's number.
NUMBERS = (
    ("brisket thickness", "brisket.thickness", "thickness"),
    ("pork thickness", "pork shoulder.thickness", "thickness"),
    ("film_coefficient", None, "film"),
    ("vapour_pressure", None, "humidity"),
    ("pit_offset", None, "pit"),
    ("wrap_resistance", "paper.vapour_resistance", None),
    ("expressed_mobility", "mobility.expressed", None),
    ("held_mobility", "mobility.held", None),
    ("final_share", "holding.final_share", "final share"),
    ("emissivity", "emissivity", None),
)


def shared_covariance(fit: Fit) -> Array:
    """Of the population's middles, on each number's own scale; zero where nothing was estimated."""
    names = [n.name for n in fit.shared]
    made = np.zeros((len(NUMBERS), len(NUMBERS)))
    for a, (_, one, _) in enumerate(NUMBERS):
        for b, (_, other, _) in enumerate(NUMBERS):
            if one and other:
                i, j = names.index(one), names.index(other)
                made[a, b] = fit.covariance[i, j] * fit.shared[i].sd * fit.shared[j].sd
    return made


def header(fit: Fit) -> str:
    """The text of the header."""
    scatter = fit.scatter()
    covariance = shared_covariance(fit)
    rows = [
        f'    {{"{name}", {np.sqrt(covariance[a, a]):.4g}, {scatter[own] if own else 0.0:.4g}}},'
        for a, (name, _, own) in enumerate(NUMBERS)
    ]
    sd = np.sqrt(np.diag(covariance))
    with np.errstate(invalid="ignore"):
        correlation = np.nan_to_num(covariance / np.outer(sd, sd))
    pairs = [
        f"    {{{a}, {b}, {correlation[a, b]:.3f}}},"
        for a in range(len(NUMBERS)) for b in range(a) if abs(correlation[a, b]) >= 0.05
    ]  # fmt: skip
    return "\n".join([
        "/// @file",
        "/// Written by `python validation/population.py` from measured cooks; see validation/POPULATION.md.",
        "#pragma once", "",
        "#include <array>", "#include <cstddef>", "#include <string_view>", "",
        "namespace cook::fit {", "",
        "/// One number of the population, on its scale (a share, or in its unit).",
        "struct PopulationNumber {",
        "  std::string_view name;",
        "  double middle;  ///< standard deviation of what is known of the population's middle",
        "  double scatter; ///< standard deviation of single cooks about it; 0: not estimated",
        "};", "",
        "// clang-format off",
        f"inline constexpr std::array<PopulationNumber, {len(rows)}> population_numbers{{{{",
        *rows, "}};", "",
        "/// Correlation of two middles, by their places in population_numbers.",
        "struct PopulationTie {", "  std::size_t one, other;", "  double correlation;", "};", "",
        f"inline constexpr std::array<PopulationTie, {len(pairs)}> population_ties{{{{", *pairs, "}};",
        "// clang-format on", "",
        "} // namespace cook::fit", "",
    ])  # fmt: skip


def write(fit: Fit) -> None:
    """Write the header beside the library's sources."""
    HEADER.write_text(header(fit), encoding="utf-8")
