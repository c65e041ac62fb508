/// @file
/// A cook that runs late is hurried: at which looks, by what, and when it is done then.
#pragma once

#include <vector>

#include "cook/fit/schedule.hpp"

namespace cook {

/// The possible cooks with their late ones hurried.
struct Recourse {
  std::vector<Remedy> remedies;
  std::vector<double> end; ///< members x stages of the plan [s]
  std::size_t stages = 0;

  /// When a stage ends, by member [s].
  [[nodiscard]] std::vector<double> ends(std::size_t stage) const;
};

/// @param forecast from before the start  @param wanted false: nobody hurries anything
[[nodiscard]] Recourse hurry_late_ones(const Forecast &forecast, bool wanted,
                                       const std::function<bool()> &interrupted);

} // namespace cook
