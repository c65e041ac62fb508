/// @file
/// Between a cell and its face: what the tissue brings, and what crosses by path.
#pragma once

#include <array>

#include "cook/plan/outcome.hpp"
#include "engine/cells/cell.hpp"
#include "engine/faces/face.hpp"

namespace cook::engine {

/// What the tissue of a cell brings to its face.
/// @param row of the table at the cell's temperature, from col_saturation on
/// @param x water content of the cell  @param solids of its tissue [kg m⁻³]
template <class Real>
FaceTissue<Real> tissue_at_face(const Cell<Real> &cell, const Row<Real> &row, Real x, Real solids) {
  return {.t = cell.t,
          .x = x,
          .phi = cell.phi,
          .phi_t = cell.phi_t,
          .juice = {cell.juice, cell.juice_phi},
          .expressed = {solids * cell.expressed, solids * cell.expressed_t},
          .soaking = solids * cell.held,
          .soaking_t = solids * cell.held_t,
          .soaking_x = solids * cell.held_x,
          .saturation = {row.value[col_saturation], row.slope[col_saturation]}};
}

/// A face's flux along each FacePath, with derivatives.
/// @param latent heat of evaporation at the cell's temperature [J kg⁻¹], by temperature
template <class Real>
std::array<FaceTerm<Real>, face_paths> face_path_terms(const FaceFlux<Real> &q, const Cell<Real> &cell,
                                                       const Slope<Real> &latent) {
  const auto times = [](const FaceTerm<Real> &flow, Slope<Real> per_kg) {
    return FaceTerm<Real>{flow.value * per_kg.value, flow.t * per_kg.value + flow.value * per_kg.slope,
                          flow.x * per_kg.value,     flow.m * per_kg.value,
                          flow.a * per_kg.value,     flow.v * per_kg.value};
  };
  const Slope<Real> liquid{cell.hw, cell.hw_t};
  return {q.convection,
          q.radiation,
          times(q.vapour, latent),
          times(q.vapour, liquid),
          q.vapour,
          times(q.run_off, liquid),
          q.run_off};
}

} // namespace cook::engine
