/// @file
/// The liquid on a face: how much of the face it wets, juice that arrives or soaks in again, and what runs
/// off.
///
///     wet share   w = m / (m + m_half)
///     seep        j = [D_e P(phi) - w D_s (thirst of a dry surface)] s / path     [kg m⁻² s⁻¹], out of the
///     tissue run-off     r = (m - capacity, where positive) / run-off time               [kg m⁻² s⁻¹]
///
/// m is the liquid [kg m⁻²], P(phi) the juice under pressure and D_e its mobility, D_s that of the tissue as
/// it is, s its solids. Darcy's law over a short path, as between cells (edge.hpp); path, capacity and
/// run-off time are those of Exudation in cook/meat/tissue.hpp, judgement (its docstring says of what). Valid
/// for a face of any wetness; through m = 0 all goes on straight, as a solver may overdraw it within its
/// tolerance.
#pragma once

#include "engine/faces/face_terms.hpp"

namespace cook::engine {

inline constexpr double film_reference = 0.01; ///< m_half, liquid that wets half of the face [kg m⁻²]: 10 µm
inline constexpr double soak_width = 0.02;     ///< smooth onset of soaking [kg/kg dry]

/// Share of a face that is wet [-], by the liquid on it [kg m⁻²].
/// Straight through zero: liquid overdrawn within the tolerance takes back from the vapour what it gave too
/// much.
template <class Real> [[gnu::always_inline]] inline Slope<Real> wet_share(Real m) {
  const Real wet_below = 1.0 / (max(m, Real(0.0)) + film_reference);
  return {m * wet_below, film_reference * wet_below * wet_below};
}

/// Juice from the tissue to its face. Juice under pressure leaves; dry tissue under liquid soaks it up, as
/// fast as its own mobility lets it.
template <class Real>
[[gnu::always_inline]] inline FaceTerm<Real> seep(const FaceSetting<Real> &s, const FaceTissue<Real> &tissue,
                                                  const Slope<Real> &wet) {
  const Slope<Real> squeeze = tissue.juice;
  const Slope<Real> thirst = smooth_plus(Real(-tissue.phi), soak_width);
  const Real per_path = s.exudes / s.exudation_path;
  const Real drunk = wet.value * tissue.soaking * per_path;
  FaceTerm<Real> out;
  out.value = tissue.expressed.value * squeeze.value * per_path - drunk * thirst.value;
  out.t = (tissue.expressed.slope * squeeze.value + tissue.expressed.value * squeeze.slope * tissue.phi_t -
           wet.value * tissue.soaking_t * thirst.value) *
              per_path +
          drunk * thirst.slope * tissue.phi_t;
  out.x = (tissue.expressed.value * squeeze.slope - wet.value * tissue.soaking_x * thirst.value) * per_path +
          drunk * thirst.slope;
  out.m = -(wet.slope * tissue.soaking * per_path * thirst.value);
  return out;
}

/// Liquid that runs off a face which holds more than it can.
template <class Real>
[[gnu::always_inline]] inline FaceTerm<Real> run_off(const FaceSetting<Real> &s, Real m) {
  const Slope<Real> excess = smooth_plus(Real(m - s.liquid_capacity), 0.01);
  FaceTerm<Real> out;
  out.value = s.run_off_rate * excess.value;
  out.m = s.run_off_rate * excess.slope;
  return out;
}

} // namespace cook::engine
