/// @file
/// What drives a stage from outside, between two moments.
#pragma once

#include <array>
#include <memory>

#include "engine/arithmetic/scalar.hpp"

namespace cook::engine {

struct AirBalance;

using BalancePtr = std::shared_ptr<const AirBalance>;

/// The balance of the air of one cook, or of each lane of a pack.
template <class Real> auto no_balance() {
  if constexpr (requires { Real::lanes; }) {
    return std::array<BalancePtr, Real::lanes>{};
  } else {
    return BalancePtr{};
  }
}
template <class Real> using BalanceOf = decltype(no_balance<Real>());

/// What surrounds the piece during a segment: straight lines in time, plus ripple, times a lid factor.
template <class Real> struct Drive {
  Real start{0.0};                                     ///< of the segment [s]
  std::array<Real, 2> air{Real(100.0), Real(100.0)};   ///< at the bottom and top face [°C]
  std::array<Real, 2> air_slope{Real(0.0), Real(0.0)}; ///< [K s⁻¹]
  Real vapour{5000.0}, vapour_slope{0.0};              ///< [Pa], [Pa s⁻¹]
  MaskOf<Real> may_condense{};   ///< `vapour` may be more than the air holds: then the air is saturated
  Real lid{1.0}, lid_slope{0.0}; ///< share of the excess over ambient that is left while the lid is open
  Real ambient{20.0};            ///< [°C]
  std::array<Real, 2> ripple{Real(0.0), Real(0.0)};      ///< at the bottom and top face [K]
  std::array<Real, 2> ripple_rate{Real(0.0), Real(0.0)}; ///< [rad s⁻¹]
  Real vapour_ripple{0.0}, vapour_ripple_rate{0.0};      ///< [Pa], [rad s⁻¹]
  bool varies = false;                                   ///< anything depends on time
  MaskOf<Real> boxed{};                                  ///< the air is the box's, a state; `air` is the room
  Real box_capacity{1.0}; ///< per footprint [J K⁻¹ m⁻²] (per m for a cylinder)
  Real box_loss{0.0};     ///< per footprint [W K⁻¹ m⁻²]
  double extent =
      1.0; ///< of the piece, in the unit that the faces count per: footprint [m²], length or width [m]
  // Of a cooker's own air, by set_balance() (air_balance.hpp).
  MaskOf<Real> balanced{};   ///< its vapour is a state, and `vapour` goes unused
  Real chamber_volume{1.0};  ///< [m³]
  Real pieces{0.0};          ///< of meat in the chamber, times `extent`; 0: the meat's vapour is lost
  Real pan_area{0.0};        ///< of its water pan [m²]; 0: none
  BalanceOf<Real> balance{}; ///< what its rates ask for; null: `vapour` is given
};

} // namespace cook::engine
