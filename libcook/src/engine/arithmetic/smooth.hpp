/// @file
/// Smooth replacements for steps and corners, with their derivatives: an implicit method needs both.
#pragma once

#include "engine/arithmetic/scalar.hpp"

namespace cook::engine {

/// A value and its derivative with respect to one argument.
template <class Real> struct Slope {
  Real value;
  Real slope;
};

/// 0 below -half, 1 above +half, a quintic in between: twice differentiable.
template <class Real> [[gnu::always_inline]] inline Slope<Real> smooth_step(Real x, double half) {
  const Real u = min(max(Real((x + half) * (0.5 / half)), Real(0.0)), Real(1.0));
  const Real v = 1.0 - u;
  return {u * u * u * (10.0 + u * (6.0 * u - 15.0)), 30.0 * u * u * v * v * (0.5 / half)};
}

/// 0 for x < 0, x - width/2 for x > width, a parabola in between: once differentiable.
/// @tparam Width double, or Real where lanes differ
/// @param per_width 1 / width: a division that a loop over cells should not repeat
template <class Real, class Width>
[[gnu::always_inline]] inline Slope<Real> smooth_plus(Real x, Width width, Width per_width) {
  const Real u = min(max(x, Real(0.0)), Real(width));
  const Real slope = u * per_width;
  return {0.5 * u * slope + max(Real(x - width), Real(0.0)), slope};
}
template <class Real, class Width>
[[gnu::always_inline]] inline Slope<Real> smooth_plus(Real x, Width width) {
  return smooth_plus(x, width, Width(1.0 / width));
}

} // namespace cook::engine
