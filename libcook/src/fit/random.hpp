/// @file
/// Random numbers that are the same on every machine: std::normal_distribution is not.
#pragma once

#include <cmath>
#include <cstdint>
#include <random>

#include <boost/math/special_functions/erf.hpp>

namespace cook::fit {

/// Standard normal distribution function.
inline double normal_share(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

/// Its inverse; 0 < share < 1.
inline double normal_quantile(double share) { return -std::sqrt(2.0) * boost::math::erfc_inv(2.0 * share); }

class Random {
public:
  explicit Random(std::uint64_t seed) : engine_(seed) {}
  /// Uniform in (0, 1).
  double uniform() { return (static_cast<double>(engine_() >> 11U) + 0.5) * 0x1.0p-53; }
  double normal() { return normal_quantile(uniform()); }
  /// Chi-square with a whole, even number of degrees of freedom.
  double chi_square(int even) {
    double sum = 0.0;
    for (int k = 0; k < even / 2; ++k) {
      sum -= 2.0 * std::log(uniform());
    }
    return sum;
  }

private:
  std::mt19937_64 engine_;
};

} // namespace cook::fit
