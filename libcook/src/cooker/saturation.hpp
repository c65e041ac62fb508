/// @file
/// Saturation pressure of water vapour, for one temperature or for the lanes of a pack.
#pragma once

#include <cmath>

#include "cook/units.hpp"
#include "engine/arithmetic/scalar.hpp"
#include "engine/arithmetic/smooth.hpp"

namespace cook::engine {

/// Saturation pressure over liquid water [Pa] and its slope [Pa K⁻¹] at a temperature [°C]: Hyland & Wexler,
/// ASHRAE Trans. 89(2A):500 (1983); ASHRAE Fundamentals 2017 ch. 1 eq. 6. Validity: saturation_pressure() in
/// humid_air.hpp.
template <class Real> [[gnu::always_inline]] inline Slope<Real> saturation(Real celsius) {
  using std::exp;
  constexpr double a = -5.8002206e3;
  constexpr double b = 1.3914993;
  constexpr double c = -4.8640239e-2;
  constexpr double d = 4.1764768e-5;
  constexpr double e = -1.4452093e-8;
  constexpr double f = 6.5459673;
  const Real t = celsius + kelvin_offset;
  const Real per_t = 1.0 / t;
  const Real value = exp(a * per_t + b + t * (c + t * (d + t * e)) + f * log(t));
  return {value, value * (c - a * per_t * per_t + t * (2.0 * d + t * 3.0 * e) + f * per_t)};
}

} // namespace cook::engine
