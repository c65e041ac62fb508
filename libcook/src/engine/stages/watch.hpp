/// @file
/// End conditions that depend on the state: what is watched, and when it is met.
#pragma once

#include <string>
#include <vector>

#include "cook/plan/plan.hpp"

namespace cook::engine {

/// What the conditions look at, at one moment.
struct Watched {
  double core = 0.0;      ///< [°C]
  double bark = 0.0;      ///< index of the bark of the bare face [-]
  double converted = 0.0; ///< collagen converted at the core [share]
};

/// How far a condition is from being met: negative before, zero or positive once met. In the watched unit.
[[nodiscard]] double excess(const End &end, const Watched &now);
/// The condition in words, for stage ends and messages.
[[nodiscard]] std::string describe(const End &end);
/// The likely slip where a stage was over before it began, as the end of a sentence.
[[nodiscard]] std::string slip_of_skipped(const Plan &plan, std::size_t stage);
/// The conditions that depend on the state (not elapsed, not clock) and are watched all the time.
[[nodiscard]] std::vector<End> state_conditions(const Stage &stage);

} // namespace cook::engine
