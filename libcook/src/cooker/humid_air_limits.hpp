/// @file
/// What humid_air.cpp and evaporation.cpp accept, and how both find a temperature.
#pragma once

#include "cook/errors.hpp"

namespace cook {

inline constexpr double lowest_pressure = 30.0e3;   ///< [Pa], above any inhabited place
inline constexpr double highest_pressure = 200.0e3; ///< [Pa]
/// Largest vapour pressure accepted, as a share of the total pressure [-]: more is steam, not humid air.
inline constexpr double highest_vapour_share = 0.95;

inline void check_pressure(double pressure) {
  check::within("pressure", pressure, lowest_pressure, highest_pressure, "Pa",
                "barometric pressure, not reduced to sea level; a value in hPa or kPa?");
}

/// Root of a rising function on [low, high] by bisection: no derivative, no divergence, a known number of
/// steps. Two hundred kelvin halved 45 times is 6e-12 K.
template <class Function> double rising_root(Function &&function, double low, double high) {
  for (int step = 0; step < 45; ++step) {
    const double middle = 0.5 * (low + high);
    (function(middle) < 0.0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

} // namespace cook
