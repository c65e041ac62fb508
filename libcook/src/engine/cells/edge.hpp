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

#include "engine/arithmetic/scalar.hpp"
#include "engine/cells/cell.hpp"

namespace cook::engine {

/// What an edge needs to know of the cell on either side of it; named as in Cell, but the mobilities are
/// those per volume [kg m⁻¹ s⁻¹], times the dry solids: two tissues may meet.
template <class Real> struct EdgeSideOf { Real t, k, phi, juice, expressed, held_mobility, give, hw; };
using EdgeSide = EdgeSideOf<double>;

/// And for the derivatives.
template <class Real> struct EdgeSideSlopesOf {
  Real k_t, k_x, phi_t, juice_phi, expressed_t, held_mobility_t, held_mobility_x, give_x, hw_t;
};
using EdgeSideSlopes = EdgeSideSlopesOf<double>;

/// From a to b: heat [W] and water [kg s⁻¹], per unit that the conductance counts in.
template <class Real> struct EdgeFluxOf { Real heat, water; };
using EdgeFlux = EdgeFluxOf<double>;

/// Derivatives by temperature and water content of either side.
template <class Real> struct EdgeSlopesOf {
  Real heat_ta, heat_xa, heat_tb, heat_xb;
  Real water_ta, water_xa, water_tb, water_xb;
};
using EdgeSlopes = EdgeSlopesOf<double>;

/// The same by the unknowns (eta, X) of either side.
template <class Real> struct EdgeByStateOf {
  Real heat_eta_a, heat_x_a, water_eta_a, water_x_a;
  Real heat_eta_b, heat_x_b, water_eta_b, water_x_b;
};

/// T depends on both.
/// @param eta_a, x_a, eta_b, x_b derivatives of the temperatures by them
template <class Real>
[[gnu::always_inline]] inline EdgeByStateOf<Real> by_state(const EdgeSlopesOf<Real> &d, const Real &eta_a,
                                                           const Real &x_a, const Real &eta_b,
                                                           const Real &x_b) {
  return {d.heat_ta * eta_a, d.heat_xa + d.heat_ta * x_a, d.water_ta * eta_a, d.water_xa + d.water_ta * x_a,
          d.heat_tb * eta_b, d.heat_xb + d.heat_tb * x_b, d.water_tb * eta_b, d.water_xb + d.water_tb * x_b};
}

/// A cell as an edge sees it.
/// @param solids fat-free dry solids of its tissue [kg m⁻³]
template <class Real> EdgeSideOf<Real> edge_side(const Cell<Real> &cell, Real solids) {
  return {cell.t,    cell.k, cell.phi, cell.juice, solids * cell.expressed, solids * cell.held_mobility,
          cell.give, cell.hw};
}
template <class Real> EdgeSideSlopesOf<Real> edge_side_slopes(const Cell<Real> &cell, Real solids) {
  return {cell.k_t,
          cell.k_x,
          cell.phi_t,
          cell.juice_phi,
          solids * cell.expressed_t,
          solids * cell.held_mobility_t,
          solids * cell.held_mobility_x,
          cell.give_x,
          cell.hw_t};
}

/// 1 when water comes from a, 0 when it comes from b. From the sign, not by a condition, under which the
/// compiler would hide loads that a loop over edges needs out of its way to be vectorised.
[[gnu::always_inline]] inline double comes_from_a(double phi_a, double phi_b) {
  return 0.5 + std::copysign(0.5, phi_a - phi_b);
}
template <class Real> Real comes_from_a(Real phi_a, Real phi_b) {
  return select(phi_a >= phi_b, Real(1.0), Real(0.0));
}

/// Inlined by force, as the next: a loop over edges can be vectorised only then.
/// @param g edge area / spacing
template <class Real>
[[gnu::always_inline]] inline EdgeFluxOf<Real> edge_flux(const EdgeSideOf<Real> &a, const EdgeSideOf<Real> &b,
                                                         Real g) {
  const Real from_a = comes_from_a(a.phi, b.phi);
  const Real from_b = 1.0 - from_a;
  const Real squeezed = b.juice - a.juice;
  const Real fast = from_a * a.expressed + from_b * b.expressed;
  const Real slow = 0.5 * (a.held_mobility + b.held_mobility) * (from_a * a.give + from_b * b.give);
  const Real water = -(g * (fast * squeezed + slow * (b.phi - a.phi - squeezed)));
  return {-(0.5 * (a.k + b.k) * (b.t - a.t) * g) + water * (from_a * a.hw + from_b * b.hw), water};
}

template <class Real>
[[gnu::always_inline]] inline EdgeSlopesOf<Real>
edge_slopes(const EdgeSideOf<Real> &a, const EdgeSideSlopesOf<Real> &da, const EdgeSideOf<Real> &b,
            const EdgeSideSlopesOf<Real> &db, Real g) {
  const Real from_a = comes_from_a(a.phi, b.phi);
  const Real from_b = 1.0 - from_a;
  const Real fast = from_a * a.expressed + from_b * b.expressed;
  const Real mean = 0.5 * (a.held_mobility + b.held_mobility);
  const Real give = from_a * a.give + from_b * b.give;
  const Real slow = mean * give;
  const Real hw = from_a * a.hw + from_b * b.hw;
  const Real squeezed = b.juice - a.juice;
  const Real rest = b.phi - a.phi - squeezed;
  const Real water = -(g * (fast * squeezed + slow * rest));
  const Real by_phi_a = fast * da.juice_phi + slow * (1.0 - da.juice_phi);
  const Real by_phi_b = fast * db.juice_phi + slow * (1.0 - db.juice_phi);
  const Real half = 0.5 * give * rest;
  const Real fast_a = from_a * da.expressed_t;
  const Real fast_b = from_b * db.expressed_t;
  const Real give_a = from_a * mean * da.give_x;
  const Real give_b = from_b * mean * db.give_x;
  EdgeSlopesOf<Real> d;
  d.water_ta = -(g * (fast_a * squeezed + half * da.held_mobility_t - by_phi_a * da.phi_t));
  d.water_xa = -(g * (half * da.held_mobility_x + give_a * rest - by_phi_a));
  d.water_tb = -(g * (fast_b * squeezed + half * db.held_mobility_t + by_phi_b * db.phi_t));
  d.water_xb = -(g * (half * db.held_mobility_x + give_b * rest + by_phi_b));
  const Real km = 0.5 * (a.k + b.k);
  const Real rise = b.t - a.t;
  d.heat_ta = -(g * (0.5 * da.k_t * rise - km)) + d.water_ta * hw + water * from_a * da.hw_t;
  d.heat_xa = -(g * 0.5 * da.k_x * rise) + d.water_xa * hw;
  d.heat_tb = -(g * (0.5 * db.k_t * rise + km)) + d.water_tb * hw + water * from_b * db.hw_t;
  d.heat_xb = -(g * 0.5 * db.k_x * rise) + d.water_xb * hw;
  return d;
}

} // namespace cook::engine
