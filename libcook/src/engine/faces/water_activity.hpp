/// @file
/// Water activity of tissue from its water content: the isotherm of Guggenheim, Anderson & de Boer, solved
/// for the activity. What the isotherm is, its constants and their source: Sorption in cook/meat/tissue.hpp,
/// whose water_activity() is this one.
///
///     a = 2 X / [K (b + r)],   b = Xm C - X (C - 2),   r = sqrt(b^2 + 4 X^2 (C - 1))
///
/// X, Xm [kg/kg dry]; a, C, K [-]. Valid as the isotherm is.
#pragma once

#include "engine/arithmetic/smooth.hpp"

namespace cook::engine {

/// b and r.
template <class Real> struct SorptionRoot { Real b, r; };
template <class Real>
[[gnu::always_inline]] inline SorptionRoot<Real> sorption_root(Real x, Real monolayer, Real c) {
  const Real b = monolayer * c - x * (c - 2.0);
  return {b, sqrt(b * b + 4.0 * x * x * (c - 1.0))};
}

/// Water activity [-] at a water content x of 0 or more, without its derivative: two divisions, where the
/// pace is not that of a face.
inline double water_activity_alone(double x, double monolayer, double c, double k) {
  const SorptionRoot<double> root = sorption_root(x, monolayer, c);
  return min(2.0 * x / (root.b + root.r) / k, 1.0);
}

/// Water activity [-] at a water content x [kg/kg dry], with its derivative: the root of a quadratic, 1 from
/// saturation on, and continued smoothly through 0 (a cell overdrawn within the tolerance).
/// @param monolayer [kg/kg dry]  @param c, k [-]
template <class Real>
[[gnu::always_inline]] inline Slope<Real> water_activity(Real x, Real monolayer, Real c, Real k) {
  const auto [b, r] = sorption_root(x, monolayer, c);
  const Real b_x = 2.0 - c;
  const Real sum = b + r;
  const Real over = 1.0 / (r * sum); // one division for both; it takes longer than all else here
  const Real r_x = (b * b_x + 4.0 * x * (c - 1.0)) * (over * sum);
  const Real below = over * r;
  const Real twice = 2.0 / k * below;
  const Real a = x * twice;
  const Real a_x = twice * (1.0 - x * below * (b_x + r_x));
  const auto saturated = a > Real(1.0);
  return {select(saturated, Real(1.0), a), select(saturated, Real(0.0), a_x)};
}

} // namespace cook::engine
