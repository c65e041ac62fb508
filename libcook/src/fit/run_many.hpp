/// @file
/// Many cooks at once: the one door through which calibration, forecasts and schedules simulate.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "cook/engine/simulate.hpp"

namespace cook {

/// What became of one of them.
struct Ran {
  std::shared_ptr<const Outcome> outcome; ///< whole, or as far as it got; null when the plan was refused
  bool whole = false;                     ///< reached its end
  std::string why;                        ///< it did not
};

/// Runs plans side by side (simulate_many.hpp); the results are in the order of the plans, each within the
/// tolerances of what it would be alone. @param threads 0: as many as the machine has
/// @throws Interrupted when options.interrupted says so; it is asked from the calling thread only.
[[nodiscard]] std::vector<Ran> run_many(const std::vector<Plan> &plans, const Options &options, int threads);

/// Settings for cooks of which only the core counts.
[[nodiscard]] Options core_only(std::function<bool()> interrupted);

/// Core temperature at a time, by straight lines; held before the first and after the last stored time [°C].
[[nodiscard]] double core_of(const Outcome &outcome, double seconds);

} // namespace cook
