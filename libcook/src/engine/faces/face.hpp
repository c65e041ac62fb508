/// @file
/// What crosses one face, with derivatives: heat through what covers the meat (wrap_resistance.hpp), the
/// liquid on it (surface_liquid.hpp), vapour (vapour.hpp, which calls evaporation.hpp). Each says its
/// equation.
#pragma once

#include "engine/faces/face_terms.hpp"
#include "engine/faces/surface_liquid.hpp"
#include "engine/faces/vapour.hpp"
#include "engine/faces/wrap_resistance.hpp"

namespace cook::engine {

/// @param m liquid on the face [kg m⁻²]
template <class Real>
[[gnu::always_inline]] inline FaceFlux<Real> face_flux(const FaceSetting<Real> &s, const FaceAir<Real> &env,
                                                       const FaceTissue<Real> &tissue, Real m) {
  const FaceHeat<Real> heat = heat_through_wrap(s, env, tissue.t);
  const Slope<Real> wet = wet_share(m);
  const FaceVapour<Real> vapour = vapour_off_face(s, env, tissue, heat, wet);
  return {heat.convection,    heat.radiation,       vapour.all,
          vapour.from_liquid, seep(s, tissue, wet), run_off(s, m)};
}

} // namespace cook::engine
