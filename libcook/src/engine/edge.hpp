/// @file
/// Heat and water from one cell to its neighbour, with derivatives: the two-mobility law between two nodes.
///
/// With phi = X - X_hold(T) and its expressible part P(phi) = integral of the smooth step:
///
///     j = -s [D_expressed dP/dx + D_held d(phi - P)/dx],     q = -k dT/dx + h_w j
///
/// s D_expressed and h_w of the side the water comes from, s D_held the mean of both sides times what the
/// giving side has to give, k the mean. Why: see line_system.hpp.
#pragma once

#include <cmath>

namespace cook::engine {

/// What an edge needs to know of the cell on either side of it; named as in Cell, but the mobilities are
/// those per volume [kg m⁻¹ s⁻¹], times the dry solids: two tissues may meet.
struct EdgeSide {
  double t, k, phi, juice, expressed, held, give, hw;
};

/// And for the derivatives.
struct EdgeSideSlopes {
  double k_t, k_x, phi_t, juice_phi, expressed_t, held_t, held_x, give_x, hw_t;
};

/// From a to b: heat [W] and water [kg s⁻¹], per unit that the conductance counts in.
struct EdgeFlux {
  double heat, water;
};

/// Derivatives by temperature and water content of either side.
struct EdgeSlopes {
  double heat_ta, heat_xa, heat_tb, heat_xb;
  double water_ta, water_xa, water_tb, water_xb;
};

/// Inlined by force, as the next: a loop over edges can be vectorised only then. For the same reason the
/// giving side is chosen by factors of 0 and 1 from a sign, not by a condition, under which the compiler
/// would hide loads.
/// @param g edge area / spacing
[[gnu::always_inline]] inline EdgeFlux edge_flux(const EdgeSide &a, const EdgeSide &b, double g) {
  const double from_a = 0.5 + std::copysign(0.5, a.phi - b.phi);
  const double from_b = 1.0 - from_a;
  const double squeezed = b.juice - a.juice;
  const double fast = from_a * a.expressed + from_b * b.expressed;
  const double slow = 0.5 * (a.held + b.held) * (from_a * a.give + from_b * b.give);
  const double water = -(g * (fast * squeezed + slow * (b.phi - a.phi - squeezed)));
  return {-(0.5 * (a.k + b.k) * (b.t - a.t) * g) + water * (from_a * a.hw + from_b * b.hw), water};
}

[[gnu::always_inline]] inline EdgeSlopes edge_slopes(const EdgeSide &a, const EdgeSideSlopes &da,
                                                     const EdgeSide &b, const EdgeSideSlopes &db, double g) {
  const double from_a = 0.5 + std::copysign(0.5, a.phi - b.phi);
  const double from_b = 1.0 - from_a;
  const double fast = from_a * a.expressed + from_b * b.expressed;
  const double mean = 0.5 * (a.held + b.held);
  const double give = from_a * a.give + from_b * b.give;
  const double slow = mean * give;
  const double hw = from_a * a.hw + from_b * b.hw;
  const double squeezed = b.juice - a.juice;
  const double rest = b.phi - a.phi - squeezed;
  const double water = -(g * (fast * squeezed + slow * rest));
  const double by_phi_a = fast * da.juice_phi + slow * (1.0 - da.juice_phi);
  const double by_phi_b = fast * db.juice_phi + slow * (1.0 - db.juice_phi);
  const double half = 0.5 * give * rest;
  const double fast_a = from_a * da.expressed_t;
  const double fast_b = from_b * db.expressed_t;
  const double give_a = from_a * mean * da.give_x;
  const double give_b = from_b * mean * db.give_x;
  EdgeSlopes d;
  d.water_ta = -(g * (fast_a * squeezed + half * da.held_t - by_phi_a * da.phi_t));
  d.water_xa = -(g * (half * da.held_x + give_a * rest - by_phi_a));
  d.water_tb = -(g * (fast_b * squeezed + half * db.held_t + by_phi_b * db.phi_t));
  d.water_xb = -(g * (half * db.held_x + give_b * rest + by_phi_b));
  const double km = 0.5 * (a.k + b.k);
  const double rise = b.t - a.t;
  d.heat_ta = -(g * (0.5 * da.k_t * rise - km)) + d.water_ta * hw + water * from_a * da.hw_t;
  d.heat_xa = -(g * 0.5 * da.k_x * rise) + d.water_xa * hw;
  d.heat_tb = -(g * (0.5 * db.k_t * rise + km)) + d.water_tb * hw + water * from_b * db.hw_t;
  d.heat_xb = -(g * 0.5 * db.k_x * rise) + d.water_xb * hw;
  return d;
}

} // namespace cook::engine
