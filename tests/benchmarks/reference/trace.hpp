/// @file
/// What a cook of the reference problems leaves behind, the same for every contender.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

namespace cook::reference {

struct Trace {
  std::array<double, 2> reached{-1.0, -1.0}; ///< when the middle reached Recipe::until [s]; -1: it never did
  double end = 0.0;                          ///< [s]
  double lost = 0.0;                         ///< mean water lost [kg/kg]
  std::vector<double> middle; ///< temperature in the middle at every full minute [°C], if kept
  long steps = 0;
  long rejected = 0;
  long evaluations = 0;
};

inline constexpr double output_every = 60.0; ///< s

/// The cubic through values and rates at both ends of a step, at a share of it (Hermite).
inline double between(double share, double step, double y0, double rate0, double y1, double rate1) {
  const double rest = 1.0 - share;
  return y0 * rest * rest * (1.0 + 2.0 * share) + y1 * share * share * (3.0 - 2.0 * share) +
         step * share * rest * (rate0 * rest - rate1 * share);
}

} // namespace cook::reference
