/// @file
/// The film coefficient of a surface as its temperature changes during a stage.
///
///     h = h_given + b |T_air - T_o|^(1/4)     [W m⁻² K⁻¹]
///
/// b is one number while the surface is colder than the air and another while it is hotter, as on one side of
/// a plate the air rises away and on the other it lies still. Natural convection in its laminar form
/// (McAdams; b comes from cook/cooker/film_coefficient.hpp, sources and validity there). The root's corner at
/// equal temperatures is rounded over convection_floor, and the two b pass into each other within 1 K.
#pragma once

#include "engine/arithmetic/smooth.hpp"

namespace cook::engine {

inline constexpr double convection_floor = 0.1; ///< keeps h smooth where the temperatures cross [K]

/// Film coefficient at a difference air - surface of `gap` [K]: [W m⁻² K⁻¹], with its derivative by `gap`.
/// @param given [W m⁻² K⁻¹]  @param cold, hot b while the surface is colder, hotter [W m⁻² K^(-5/4)]
template <class Real>
[[gnu::always_inline]] inline Slope<Real> film_coefficient(Real given, Real cold, Real hot, Real gap) {
  const Slope<Real> side = smooth_step(gap, 1.0);
  const Real b = hot + (cold - hot) * side.value;
  const Real b_gap = (cold - hot) * side.slope;
  const Real square = gap * gap + convection_floor * convection_floor;
  const Real root = sqrt(sqrt(sqrt(square)));
  return {given + b * root, b_gap * root + 0.25 * b * root * gap / square};
}

} // namespace cook::engine
