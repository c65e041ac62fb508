/// @file
/// The air beyond a side: what is given of it at a time, the lid considered, with what the states of the
/// surroundings add.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

#include "cooker/saturation.hpp"
#include "cooker/vapour_capacity.hpp"
#include "engine/air/drive.hpp"
#include "engine/faces/face_terms.hpp"

namespace cook::engine {

/// Lumped states; the first `coupled_states` act on the faces.
enum LumpedState : std::size_t { box_temperature, air_vapour, pan_temperature, pan_water, lumped_states };
inline constexpr std::size_t coupled_states = 2;

/// Running totals of the surroundings: heat that the box lost [J], vapour that came in with air and fuel,
/// that left, and that the pan gave [kg].
enum AirTotal : std::size_t { box_loss, vapour_in, vapour_out, pan_given, air_totals };

/// Temperature of a cooker's air beyond a side at a time, its lid considered [°C].
template <class Real>
[[gnu::always_inline]] inline Real given_air(const Drive<Real> &drive, std::size_t side, Real time) {
  const Real dt = time - drive.start;
  Real air = drive.air[side] + drive.air_slope[side] * dt;
  if (any(drive.ripple[side] != Real(0.0))) {
    using std::sin;
    air = air + drive.ripple[side] * sin(drive.ripple_rate[side] * time);
  }
  const Real lid = drive.lid + drive.lid_slope * dt;
  return drive.ambient + lid * (air - drive.ambient);
}

/// Vapour pressure that a stage is given, at a time [Pa].
template <class Real> Real given_vapour(const Drive<Real> &drive, Real time) {
  Real vapour = drive.vapour + drive.vapour_slope * (time - drive.start);
  if (any(drive.vapour_ripple != Real(0.0))) {
    using std::sin;
    vapour = vapour + drive.vapour_ripple * sin(drive.vapour_ripple_rate * time);
  }
  return vapour;
}

/// Conditions beyond a side at a time, with lumped states `q`. Air that is given more vapour than it holds is
/// saturated: the rest has condensed elsewhere, on what is as cold as the air.
template <class Real>
[[gnu::always_inline]] inline FaceAir<Real> air_beyond(const Drive<Real> &drive, std::size_t side, Real time,
                                                       const Real *q) {
  const Real air = all(drive.boxed) ? q[box_temperature]
                                    : select(drive.boxed, q[box_temperature], given_air(drive, side, time));
  Real held(0.0); // in the cooker's own air
  if (any(drive.balanced)) {
    const Real whole = given_air(drive, 1, time); // one chamber, whatever the layers
    held = q[air_vapour] / vapour_capacity(drive.chamber_volume, whole);
    if (all(drive.balanced)) {
      return {air, held};
    }
  }
  Real vapour = given_vapour(drive, time);
  if (any(drive.may_condense)) {
    vapour = select(drive.may_condense, min(vapour, saturation(air).value), vapour);
  }
  return {air, select(drive.balanced, held, vapour)};
}

/// Time step of the central differences below [s]: the air is smooth, so they are exact to 1e-8, and because
/// the same numbers go to both sides of the ledger, conservation does not depend on them.
inline constexpr double air_rate_step = 0.5;

/// Partial derivatives by time of the conditions beyond a side [K s⁻¹, Pa s⁻¹].
template <class Real>
FaceAir<Real> air_rates(const Drive<Real> &drive, std::size_t side, Real time, const Real *q) {
  const FaceAir<Real> later = air_beyond(drive, side, Real(time + air_rate_step), q);
  const FaceAir<Real> earlier = air_beyond(drive, side, Real(time - air_rate_step), q);
  constexpr double per_step = 0.5 / air_rate_step;
  return {(later.air - earlier.air) * per_step, (later.vapour - earlier.vapour) * per_step};
}

} // namespace cook::engine
