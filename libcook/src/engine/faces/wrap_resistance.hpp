/// @file
/// Where a wrap's resistance acts, and that of a fat cap: in series between meat and cooker, for heat and for
/// vapour.
///
///     heat in    q = h(T_air - T_o) (T_air - T_o) + eps sigma F (T_rad^4 - T_o^4),   T_o = T_s + R_heat q
///     vapour     1/K = 1/h_m + R_vapour
///
/// T_s is the temperature of the meat's surface, T_o that of the wrap's outside; what covers the meat stores
/// no heat. Resistances in series: Incropera et al., Fundamentals of Heat and Mass Transfer, ch. 3. R_heat
/// [m² K W⁻¹] and R_vapour [s m⁻¹] of each wrap: cooker/known_wraps.cpp; of a fat cap: FatCap; both meet in
/// stages/stage_setup.cpp. Valid for any resistance from 0 on.
#pragma once

#include "cook/units.hpp"
#include "engine/faces/convection.hpp"
#include "engine/faces/face_terms.hpp"
#include "engine/faces/radiation.hpp"

namespace cook::engine {

/// Heat into the meat through what covers it.
template <class Real> struct FaceHeat {
  FaceTerm<Real> convection, radiation; ///< [W m⁻²]
  Slope<Real> h;                        ///< film coefficient outside [W m⁻² K⁻¹], by T_air - T_o
  Real outer_surface, outer_air;        ///< dT_o/dT_s, dT_o/dT_air
};

/// @param t temperature of the meat's surface [°C]
template <class Real>
[[gnu::always_inline]] inline FaceHeat<Real> heat_through_wrap(const FaceSetting<Real> &s,
                                                               const FaceAir<Real> &env, Real t) {
  FaceHeat<Real> out{};
  const Slope<Real> glow = fourth_power(Real(env.air + s.radiant_offset + kelvin_offset));
  // The outside from a balance without storage, by Newton's method (q is nearly straight).
  Real outer = t;
  Real conv_gap{};               // d(convection)/d(gap)
  Real rad_outer{};              // -d(radiation)/d(outer)
  constexpr double close = 1e-5; // K: a last change as small leaves less than 1e-10 K
  constexpr int most = 60;       // 2 or 3 are usual; a quilt that sees embers takes 15
  MaskOf<Real> settled{};        // a lane's iteration does not go on for its lane mates' sake
  for (int i = 0, left = s.resists_heat ? most : 1; i < left; ++i) {
    const Real gap = env.air - outer;
    out.h = film_coefficient(s.h_given, s.natural_cold, s.natural_hot, gap);
    const Slope<Real> own = fourth_power(Real(outer + kelvin_offset));
    out.convection.value = out.h.value * gap;
    conv_gap = out.h.value + gap * out.h.slope;
    out.radiation.value = s.radiation * (glow.value - own.value);
    rad_outer = s.radiation * own.slope;
    if (i + 1 < left) {
      const Real off = outer - t - s.heat_resistance * (out.convection.value + out.radiation.value);
      const Real change = off / (1.0 + s.heat_resistance * (conv_gap + rad_outer));
      outer = select(settled, outer, Real(outer - change));
      settled = settled || abs(change) < Real(close);
      if (all(settled)) { // once more, for the fluxes there
        left = i + 2;
      }
    }
  }
  const Real share = 1.0 / (1.0 + s.heat_resistance * (conv_gap + rad_outer));
  const Real rad_air = s.radiation * glow.slope;
  out.outer_surface = share;
  out.outer_air = s.heat_resistance * (conv_gap + rad_air) * share;
  out.convection.t = -(conv_gap * share);
  out.convection.a = conv_gap * (1.0 - out.outer_air);
  out.radiation.t = -(rad_outer * share);
  out.radiation.a = rad_air - rad_outer * out.outer_air;
  return out;
}

/// K: mass-transfer coefficient from the meat through wrap and air [m s⁻¹], by T_air - T_o.
/// @param h film coefficient outside [W m⁻² K⁻¹], by the same
template <class Real>
[[gnu::always_inline]] inline Slope<Real> vapour_through_wrap(const FaceSetting<Real> &s,
                                                              const Slope<Real> &h) {
  const Real h_m = s.lewis_factor * h.value;
  const Real share = 1.0 / (1.0 + s.vapour_resistance * h_m);
  return {h_m * share, s.lewis_factor * h.slope * share * share};
}

} // namespace cook::engine
