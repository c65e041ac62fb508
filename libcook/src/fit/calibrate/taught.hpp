/// @file
/// What earlier cooks of a cooker taught, as what is believed of the next one.
#pragma once

#include <optional>

#include "cook/fit/calibrate.hpp"
#include "fit/calibrate/problem.hpp"

namespace cook::fit {

/// The last log of a fit whose piece looked like this one: same tissue, mass and thickness within 5 %, as it
/// was asked for or as the fit found it.
[[nodiscard]] std::optional<std::size_t> same_piece(const Fit &fit, const Meat &meat);

/// Takes what a fit found as what is believed now: its shared numbers, and with them the numbers of the meat
/// of same_piece(), all with their covariance, so that numbers of which only a ratio is known (film and
/// thickness) go together. A second piece is not the first one: each of its numbers is widened by what single
/// pieces scatter, but never past what was believed of it before. How warm it starts and where the probe goes
/// is each cook's own. Without such a piece the shared numbers come with their own spread, and the meat is
/// what the plan says, within what pieces differ by.
///
/// Numbers that were not fitted keep what they were believed to be, given those that were (Jeffrey's rule):
/// with S the covariance beforehand, m and C mean and covariance taught, the precision of the numbers taught
/// gains C^-1 - S^-1, and the mean of the others becomes S_ot S_tt^-1 m.
void believe(Problem &problem, const Fit &fit);

} // namespace cook::fit
