/// @file
/// A log's core readings thinned to what a fit can use.
#pragma once

#include <vector>

#include "cook/fit/cook_log.hpp"

namespace cook::fit {

/// Medians over short spells.
struct Binned {
  std::vector<double> time;     ///< [s]
  std::vector<double> core;     ///< [°C]
  std::vector<double> variance; ///< of the median's error [K²]
  double noise = 0.0;           ///< of one reading [K]
};

/// About a hundred spells, none shorter than five minutes; only readings in [0, until].
[[nodiscard]] Binned bin(const CookLog &log, double until);

} // namespace cook::fit
