/// @file
/// Vapour off a face that is wet in part:
///
///     m = w m(a = 1) + (1 - w) m(a = a_w(X))     [kg m⁻² s⁻¹]
///
/// each by the evaporation equation (evaporation.hpp) with p_s = a p_sat(T_s): the wet share w as water does,
/// the rest as tissue of its water activity (water_activity.hpp). The liquid on the face pays for its own,
/// and takes what condenses on bare tissue.
#pragma once

#include "cook/units.hpp"
#include "engine/faces/evaporation.hpp"
#include "engine/faces/face_terms.hpp"
#include "engine/faces/water_activity.hpp"
#include "engine/faces/wrap_resistance.hpp"

namespace cook::engine {

/// Vapour off a face [kg m⁻² s⁻¹].
template <class Real> struct FaceVapour {
  FaceTerm<Real> all;
  FaceTerm<Real> from_liquid; ///< the part that the liquid gives
};

/// @param heat what heat_through_wrap() has found  @param wet share of the face, by the liquid on it
template <class Real>
[[gnu::always_inline]] inline FaceVapour<Real>
vapour_off_face(const FaceSetting<Real> &s, const FaceAir<Real> &env, const FaceTissue<Real> &tissue,
                const FaceHeat<Real> &heat, const Slope<Real> &wet) {
  const Real per_p = 1.0 / s.pressure;
  const Slope<Real> in_air = stefan(Real(env.vapour * per_p));
  const VapourFlow<Real> flow =
      vapour_flow(vapour_through_wrap(s, heat.h), heat.outer_surface, heat.outer_air, s.pressure,
                  Real(0.5 * (tissue.t + env.air) + kelvin_offset));
  const auto leaving_at = [&](Slope<Real> activity) {
    const Real share = activity.value * tissue.saturation.value * per_p;
    const Evaporation<Real> out = evaporation(flow.value, share, in_air.value);
    const Real by_share = out.by_share * s.evaporates;
    FaceTerm<Real> term;
    term.value = out.value * s.evaporates;
    term.t = by_share * activity.value * tissue.saturation.slope * per_p +
             flow.surface * out.by_flow * s.evaporates;
    term.x = by_share * activity.slope * tissue.saturation.value * per_p;
    term.a = flow.air * out.by_flow * s.evaporates;
    term.v = -(flow.value * in_air.slope * per_p * s.evaporates);
    return term;
  };
  const FaceTerm<Real> liquid = leaving_at({Real(1.0), Real(0.0)});
  const FaceTerm<Real> dry = leaving_at(water_activity(tissue.x, s.monolayer, s.gab_c, s.gab_k));
  const Real bare = 1.0 - wet.value;
  FaceVapour<Real> out;
  out.all.value = wet.value * liquid.value + bare * dry.value;
  out.all.t = wet.value * liquid.t + bare * dry.t;
  out.all.x = bare * dry.x;
  out.all.m = wet.slope * (liquid.value - dry.value);
  out.all.a = wet.value * liquid.a + bare * dry.a;
  out.all.v = wet.value * liquid.v + bare * dry.v;
  // What condenses on bare tissue joins the liquid.
  const auto dries = dry.value > Real(0.0);
  const Real kept = select(dries, Real(0.0), bare);
  out.from_liquid.value = wet.value * liquid.value + kept * dry.value;
  out.from_liquid.t = wet.value * liquid.t + kept * dry.t;
  out.from_liquid.x = kept * dry.x;
  out.from_liquid.m = wet.slope * (liquid.value - select(dries, Real(0.0), dry.value));
  out.from_liquid.a = wet.value * liquid.a + kept * dry.a;
  out.from_liquid.v = wet.value * liquid.v + kept * dry.v;
  return out;
}

} // namespace cook::engine
