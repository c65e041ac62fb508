/// @file
/// The balance of a face: what the tissue brings to it, what crosses it by name, and what that is for the
/// cell behind it, for the liquid on it and for the air. Lines (one cook or a pack) and the cross-section all
/// ask here, for values, for rates in time and for derivatives.
///
///     heat into the cell      convection + radiation - latent - carried by vapour - carried by run-off   [W
///     m⁻²] water out of the cell   vapour - what the liquid gives of it + seep                           [kg
///     m⁻² s⁻¹] liquid gained           seep - what it gives to the vapour - run-off [kg m⁻² s⁻¹] air gives
///     convection + radiation [W m⁻²], takes the vapour                [kg m⁻² s⁻¹]
///
/// Enthalpy counts from liquid water at 0 °C. The liquid on a face has the temperature of its cell, whose
/// enthalpy includes it: so seep carries no heat out. Conservation of energy and of water, without further
/// assumption; each flux enters with the same number on either side, so that the sums close to rounding.
#pragma once

#include <array>
#include <cstddef>
#include <functional>

#include "cook/plan/outcome.hpp"
#include "engine/air/air_beyond.hpp"
#include "engine/cells/cell.hpp"
#include "engine/faces/face.hpp"

namespace cook::engine {

/// What the tissue of a cell brings to its face.
/// @param row of the table at the cell's temperature, from col_saturation on
/// @param x water content of the cell  @param solids of its tissue [kg m⁻³]
template <class Real>
[[gnu::always_inline]] inline FaceTissue<Real> tissue_at_face(const Cell<Real> &cell, const Row<Real> &row,
                                                              Real x, Real solids) {
  return {.t = cell.t,
          .x = x,
          .phi = cell.phi,
          .phi_t = cell.phi_t,
          .juice = {cell.juice, cell.juice_phi},
          .expressed = {solids * cell.expressed, solids * cell.expressed_t},
          .soaking = solids * cell.held_mobility,
          .soaking_t = solids * cell.held_mobility_t,
          .soaking_x = solids * cell.held_mobility_x,
          .saturation = {row.value[col_saturation], row.slope[col_saturation]}};
}

/// Something of each FacePath, in its order.
template <class T> struct ByPath {
  std::array<T, face_paths> all{};
  T &operator[](std::size_t path) { return all[path]; }
  const T &operator[](std::size_t path) const { return all[path]; }
  const T &operator[](FacePath path) const { return all[static_cast<std::size_t>(path)]; }
};

/// A face's flux along each FacePath, with derivatives.
/// @param latent heat of evaporation at the cell's temperature [J kg⁻¹], by temperature
template <class Real>
[[gnu::always_inline]] inline ByPath<FaceTerm<Real>>
face_path_terms(const FaceFlux<Real> &q, const Cell<Real> &cell, const Slope<Real> &latent) {
  const auto times = [](const FaceTerm<Real> &flow, Slope<Real> per_kg) {
    return FaceTerm<Real>{flow.value * per_kg.value, flow.t * per_kg.value + flow.value * per_kg.slope,
                          flow.x * per_kg.value,     flow.m * per_kg.value,
                          flow.a * per_kg.value,     flow.v * per_kg.value};
  };
  const Slope<Real> water{cell.hw, cell.hw_t};
  return {{q.convection, q.radiation, times(q.vapour, latent), times(q.vapour, water), q.vapour,
           times(q.run_off, water), q.run_off}};
}

// The balances, of what goes along each path and of FaceFlux::from_liquid and seep beside it. `of` says which
// number of each is meant: a member of it, or a function.

template <class T, class Of = std::identity> auto heat_into_cell(const ByPath<T> &along, const Of &of = {}) {
  return std::invoke(of, along[FacePath::convection]) + std::invoke(of, along[FacePath::radiation]) -
         std::invoke(of, along[FacePath::latent]) - std::invoke(of, along[FacePath::vapour_sensible]) -
         std::invoke(of, along[FacePath::run_off_sensible]);
}

template <class T, class Of = std::identity>
auto water_out_of_cell(const ByPath<T> &along, const T &from_liquid, const T &seep, const Of &of = {}) {
  return std::invoke(of, along[FacePath::evaporated]) - std::invoke(of, from_liquid) + std::invoke(of, seep);
}

template <class T, class Of = std::identity>
auto liquid_gained(const ByPath<T> &along, const T &from_liquid, const T &seep, const Of &of = {}) {
  return std::invoke(of, seep) - std::invoke(of, from_liquid) - std::invoke(of, along[FacePath::run_off]);
}

/// Rates of the coupled states of the air: of a box's temperature, of the vapour.
/// @param gives what a flux counts for each (face_gives() in lumped.hpp), times an area if one is meant
template <class Real, class T, class Of = std::identity>
std::array<Real, coupled_states> air_gained(const std::array<Real, coupled_states> &gives,
                                            const ByPath<T> &along, const Of &of = {}) {
  return {gives[box_temperature] *
              (std::invoke(of, along[FacePath::convection]) + std::invoke(of, along[FacePath::radiation])),
          gives[air_vapour] * std::invoke(of, along[FacePath::evaporated])};
}

} // namespace cook::engine
