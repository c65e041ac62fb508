/// @file
/// A trace between its points.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace cook {

/// Value at `x`, by straight lines; held before the first point and after the last.
/// @param at increasing, at least one  @param value one for each
inline double on_straight_lines(const std::vector<double> &at, const std::vector<double> &value, double x) {
  const auto after = std::upper_bound(at.begin(), at.end(), x);
  if (after == at.begin()) {
    return value.front();
  }
  if (after == at.end()) {
    return value.back();
  }
  const auto i = static_cast<std::size_t>(after - at.begin());
  const double share = (x - at[i - 1]) / (at[i] - at[i - 1]);
  return value[i - 1] + share * (value[i] - value[i - 1]);
}

} // namespace cook
