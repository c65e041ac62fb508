/// @file
/// States that belong to the surroundings as a whole: an insulated box's temperature, or the vapour in a
/// cooker's air with a water pan's heat and water.
///
/// At most one of them acts on the faces in a stage, and in each lane of a pack: the box through the air's
/// temperature, the vapour through its pressure. The box counts per unit of footprint (or of length, or of
/// width) like the fluxes of the faces, the cooker's air as a whole.
#pragma once

#include <array>
#include <cstddef>
#include <type_traits>

#include "engine/air/air_balance.hpp"
#include "engine/air/air_beyond.hpp"

namespace cook::engine {

template <class Real> using LumpedMatrixOf = std::array<std::array<Real, lumped_states>, lumped_states>;
using LumpedMatrix = LumpedMatrixOf<double>;

/// Inverse by elimination without pivoting: the matrices are shift I - J with a dominant diagonal; one that
/// is not gives a step that error control rejects.
template <class Real> LumpedMatrixOf<Real> inverse(LumpedMatrixOf<Real> m) {
  LumpedMatrixOf<Real> out{};
  for (std::size_t i = 0; i < lumped_states; ++i) {
    out[i][i] = Real(1.0);
  }
  for (std::size_t c = 0; c < lumped_states; ++c) {
    const Real scale = 1.0 / m[c][c];
    for (std::size_t k = 0; k < lumped_states; ++k) {
      m[c][k] = m[c][k] * scale;
      out[c][k] = out[c][k] * scale;
    }
    for (std::size_t r = 0; r < lumped_states; ++r) {
      if (r == c) {
        continue;
      }
      const Real factor = m[r][c];
      for (std::size_t k = 0; k < lumped_states; ++k) {
        m[r][k] = m[r][k] - factor * m[c][k];
        out[r][k] = out[r][k] - factor * out[c][k];
      }
    }
  }
  return out;
}

/// Whether a lumped state acts on the faces, of one cook or in any lane.
template <class Real> bool lumped_acts(const Drive<Real> &drive) {
  return any(drive.boxed || drive.balanced);
}

/// Which, of one cook.
inline std::size_t acting_state(const Drive<double> &drive) {
  return drive.balanced ? air_vapour : box_temperature;
}
/// The one that acts, in each lane its own: of the states or of a matrix's diagonal.
template <class Real> Real acting(const Drive<Real> &drive, const Real *states) {
  return select(drive.balanced, states[air_vapour], states[box_temperature]);
}
template <class Real> Real acting(const Drive<Real> &drive, const LumpedMatrixOf<Real> &m) {
  return select(drive.balanced, m[air_vapour][air_vapour], m[box_temperature][box_temperature]);
}
template <class Real> void set_acting(const Drive<Real> &drive, const Real &value, Real *states) {
  states[box_temperature] = select(drive.balanced, states[box_temperature], value);
  states[air_vapour] = select(drive.balanced, value, states[air_vapour]);
}
template <class Real> void set_acting(const Drive<Real> &drive, const Real &value, LumpedMatrixOf<Real> &m) {
  Real &of_box = m[box_temperature][box_temperature];
  Real &of_vapour = m[air_vapour][air_vapour];
  of_box = select(drive.balanced, of_box, value);
  of_vapour = select(drive.balanced, value, of_vapour);
}

/// How the air beyond the faces, its temperature and its vapour pressure, follows the coupled states: that of
/// a box follows its temperature, with the vapour where it is saturated; a chamber's vapour its content.
template <class Real>
std::array<FaceAir<Real>, coupled_states> air_by_lumped(const Drive<Real> &drive, Real time, const Real *q) {
  std::array<FaceAir<Real>, coupled_states> by{};
  by[box_temperature].air = select(drive.boxed, Real(1.0), Real(0.0));
  if (any(drive.boxed)) {
    const Slope<Real> holds = saturation(select(drive.boxed, q[box_temperature], Real(0.0)));
    by[box_temperature].vapour =
        select(drive.boxed && holds.value < given_vapour(drive, time), holds.slope, Real(0.0));
  }
  if (any(drive.balanced)) {
    by[air_vapour].vapour =
        select(drive.balanced, Real(1.0 / vapour_capacity(drive.chamber_volume, given_air(drive, 1, time))),
               Real(0.0));
  }
  return by;
}

/// What a face adds to the rate of the coupled states, per heat into the meat [W] and vapour out of it [kg
/// s⁻¹].
template <class Real> std::array<Real, coupled_states> face_gives(const Drive<Real> &drive) {
  return {select(drive.boxed, Real(-(1.0 / drive.box_capacity)), Real(0.0)), drive.pieces};
}

/// Rates of the air by its balance, the meat's vapour left out.
/// @param where lanes that are asked for: of others they are zero
template <class Real>
ChamberRatesOf<Real> balance_rates(const Drive<Real> &drive, Real time, const Real *q,
                                   const MaskOf<Real> &where) {
  if (!any(where)) {
    return {};
  }
  const Real lid = drive.lid + drive.lid_slope * (time - drive.start);
  const ChamberStateOf<Real> state{.temperature = given_air(drive, 1, time),
                                   .vapour = q[air_vapour],
                                   .open = 1.0 - lid,
                                   .pan_temperature = q[pan_temperature],
                                   .pan_water = q[pan_water]};
  if constexpr (std::is_same_v<Real, double>) {
    return chamber_rates(*drive.balance, state);
  } else {
    return chamber_rates(drive.balance, state, where);
  }
}
template <class Real> ChamberRatesOf<Real> balance_rates(const Drive<Real> &drive, Real time, const Real *q) {
  return balance_rates(drive, time, q, drive.balanced);
}

/// Rates of the lumped states and air totals, the faces' contributions left out.
/// @param chamber balance_rates()
template <class Real>
void lumped_rates(const Drive<Real> &drive, Real time, const Real *q, const ChamberRatesOf<Real> &chamber,
                  Real *rates, Real *totals) {
  for (std::size_t i = 0; i < lumped_states; ++i) {
    rates[i] = Real(0.0);
  }
  for (std::size_t i = 0; i < air_totals; ++i) {
    totals[i] = Real(0.0);
  }
  if (any(drive.boxed)) {
    const Real room = given_air(drive, 1, time);
    const Real lost = select(drive.boxed, Real(drive.box_loss * (q[box_temperature] - room)), Real(0.0));
    rates[box_temperature] = -(lost / drive.box_capacity);
    totals[box_loss] = lost;
  }
  if (any(drive.balanced)) {
    rates[air_vapour] = chamber.in.value - chamber.out.value + chamber.pan.value;
    rates[pan_temperature] = chamber.warming.value;
    rates[pan_water] = -chamber.pan.value;
    totals[vapour_in] = chamber.in.value;
    totals[vapour_out] = chamber.out.value;
    totals[pan_given] = chamber.pan.value;
  }
}

/// Partial derivatives of those rates by time.
template <class Real>
void lumped_time_rates(const Drive<Real> &drive, Real time, const Real *q, Real *rates, Real *totals) {
  std::array<Real, lumped_states> later{}, earlier{};
  std::array<Real, air_totals> later_total{}, earlier_total{};
  // Of a chamber that stays as it is, the differences would be zero.
  const MaskOf<Real> moves = drive.balanced && (drive.air_slope[1] != Real(0.0) ||
                                                drive.ripple[1] != Real(0.0) || drive.lid_slope != Real(0.0));
  const auto at = [&](Real moment, Real *rate, Real *total) {
    lumped_rates(drive, moment, q, balance_rates(drive, moment, q, moves), rate, total);
  };
  at(Real(time + air_rate_step), later.data(), later_total.data());
  at(Real(time - air_rate_step), earlier.data(), earlier_total.data());
  constexpr double per_step = 0.5 / air_rate_step;
  for (std::size_t i = 0; i < lumped_states; ++i) {
    rates[i] = (later[i] - earlier[i]) * per_step;
  }
  for (std::size_t i = 0; i < air_totals; ++i) {
    totals[i] = (later_total[i] - earlier_total[i]) * per_step;
  }
}

/// Derivatives of those rates: rates by states, totals by states.
template <class Real> struct LumpedSlopesOf {
  LumpedMatrixOf<Real> rates{};
  std::array<std::array<Real, lumped_states>, air_totals> totals{};
};
using LumpedSlopes = LumpedSlopesOf<double>;
/// @param chamber balance_rates()
template <class Real>
LumpedSlopesOf<Real> lumped_slopes(const Drive<Real> &drive, const ChamberRatesOf<Real> &chamber) {
  LumpedSlopesOf<Real> d;
  if (any(drive.boxed)) {
    const Real loss = select(drive.boxed, drive.box_loss, Real(0.0));
    d.rates[box_temperature][box_temperature] = -(loss / drive.box_capacity);
    d.totals[box_loss][box_temperature] = loss;
  }
  if (any(drive.balanced)) {
    const auto set = [](auto &row, const typename ChamberRatesOf<Real>::Term &term, double sign) {
      row[air_vapour] += sign * term.vapour;
      row[pan_temperature] += sign * term.pan_temperature;
      row[pan_water] += sign * term.pan_water;
    };
    set(d.rates[air_vapour], chamber.out, -1.0);
    set(d.rates[air_vapour], chamber.pan, 1.0);
    set(d.rates[pan_temperature], chamber.warming, 1.0);
    set(d.rates[pan_water], chamber.pan, -1.0);
    set(d.totals[vapour_out], chamber.out, 1.0);
    set(d.totals[pan_given], chamber.pan, 1.0);
  }
  return d;
}

/// Square of the error of the lumped states in units of what is accepted, weighted like a quarter of a node.
/// @param kelvin accepted error of a temperature [K]
template <class Real>
[[gnu::always_inline]] inline Real lumped_error_size(const Drive<Real> &drive, const Real *error,
                                                     double kelvin) {
  const auto square = [](Real x) { return 0.25 * x * x; };
  Real size(0.0);
  if (any(drive.boxed)) {
    size = select(drive.boxed, square(error[box_temperature] / kelvin), Real(0.0));
  }
  if (any(drive.balanced)) {
    constexpr double accepted_pressure = 20.0; // Pa: changes the surface by less than 0.1 K
    constexpr double accepted_water = 2e-3;    // kg
    const Real per_vapour = 1.0 / vapour_capacity(drive.chamber_volume, Real(100.0));
    const Real chamber = square(error[air_vapour] * per_vapour / accepted_pressure) +
                         square(error[pan_temperature] / (5.0 * kelvin)) +
                         square(error[pan_water] / accepted_water);
    size = select(drive.balanced, chamber, size);
  }
  return size;
}

} // namespace cook::engine
