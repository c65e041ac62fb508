/// @file
/// An open lid: how far the air of a cooker falls, and how it recovers.
#pragma once

#include <vector>

#include "cook/plan/plan.hpp"

namespace cook::engine {

// An open lid: common practice, no source. Within 15 s the air falls to a third of its excess over the
// outside; once shut, it recovers in five minutes. What the meat exchanges radiation with is tied to the same
// air.
inline constexpr double lid_fall = 15.0;       ///< [s]
inline constexpr double lid_share = 1.0 / 3.0; ///< of the excess over ambient that is left [-]
inline constexpr double lid_recovery = 300.0;  ///< [s]

/// In order, with those that overlap or touch made one: a lid that is open cannot be opened, and it shuts
/// when the last of them is over.
[[nodiscard]] std::vector<LidOpening> joined(std::vector<LidOpening> openings);

/// Share of the air's excess over ambient over time [s].
/// @param openings joined, in the same time; one that begins while the air recovers takes over from there
[[nodiscard]] Signal lid_signal(const std::vector<LidOpening> &openings);

} // namespace cook::engine
