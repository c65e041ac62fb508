/// @file
/// A plan solved on a mesh: sets the mesh up and runs the cook on it.
#pragma once

#include <memory>
#include <numeric>
#include <vector>

#include "cook/engine/simulate.hpp"

namespace cook::engine {

/// Refuses film coefficients that no air has, unless evaporation is off: a face held at a temperature may
/// have any. @throws InvalidInput
void check_films(const Plan &plan, const Options &options);

/// Volumes as shares of their sum.
[[nodiscard]] inline std::vector<double> shares(std::vector<double> volume) {
  const double whole = std::accumulate(volume.begin(), volume.end(), 0.0);
  for (double &v : volume) {
    v /= whole;
  }
  return volume;
}

/// Slab or cylinder, as the meat's shape says.
[[nodiscard]] std::shared_ptr<const Outcome> run_line(const Plan &plan, const Options &options);
/// Lengthwise cross-section.
[[nodiscard]] std::shared_ptr<const Outcome> run_section(const Plan &plan, const Options &options);

} // namespace cook::engine
