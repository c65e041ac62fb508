/// @file
/// A plan made to follow a log: its stages end when they did, its pit is what the thermometer saw.
#pragma once

#include <cstddef>
#include <limits>
#include <vector>

#include "cook/fit/cook_log.hpp"

namespace cook::fit {

/// When something happens that does not happen.
inline constexpr double never = std::numeric_limits<double>::infinity();

/// The engine takes no shorter stage [s].
inline constexpr double shortest_stage = 1.0;

/// A plan up to the last reading.
struct Followed {
  Plan plan;               ///< stages that have ended, each `elapsed`; the one under way ends at `now`
  std::vector<double> end; ///< of the stages that have ended, since the start of the cook [s]
  std::size_t current =
      0;            ///< stage of `plan` that is under way at `now`; the number of stages: all have ended
  double now = 0.0; ///< time of the last reading that counts [s]
};

/// @param plan validated  @param log validated against it
/// Stages that wait for something a log does not show (bark, tenderness) and are not marked end when the
/// plan's own numbers say.
[[nodiscard]] Followed follow(const Plan &plan, const CookLog &log);

/// The pit as logged, in steps long enough for the solver; empty value: no pit readings. Only readings up to
/// `until` [s].
[[nodiscard]] Signal pit_signal(const CookLog &log, double until);

/// Length of a step of pit_signal() [s].
inline constexpr double pit_step = 600.0;

} // namespace cook::fit
