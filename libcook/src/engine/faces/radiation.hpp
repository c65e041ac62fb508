/// @file
/// The law that radiation follows, with its derivative. A surface takes in eps sigma F (T_rad^4 - T^4) [W
/// m⁻²]: grey, F the share of its view that the surroundings at T_rad fill. Stefan & Boltzmann; Incropera et
/// al., Fundamentals of Heat and Mass Transfer, ch. 12 and 13, for a small body in large surroundings.
#pragma once

#include "engine/arithmetic/smooth.hpp"

namespace cook::engine {

/// T^4 of an absolute temperature [K], and 4 T^3.
template <class Real> [[gnu::always_inline]] inline Slope<Real> fourth_power(Real kelvin) {
  const Real cube = kelvin * kelvin * kelvin;
  return {cube * kelvin, 4.0 * cube};
}

} // namespace cook::engine
