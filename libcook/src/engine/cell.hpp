/// @file
/// State of one control volume: temperature from enthalpy, and the properties that fluxes need, with
/// derivatives.
///
/// Energy is carried as enthalpy, so that the heat ledger closes to rounding whatever the time step: the
/// state is eta = enthalpy per raw volume / reference heat capacity [K], linear in the conserved quantity,
/// and temperature follows from
///
///     c_ref eta = h_dry(T) + (s X + liquid) h_w(T) + h_denat(T)
///
/// with s X the water in the tissue and `liquid` the film on a face, both per raw volume [kg m⁻³].
#pragma once

#include "engine/property_table.hpp"
#include "engine/smooth.hpp"

namespace cook::engine {

/// What denaturation has left behind: neither comes back on cooling.
template <class Real> struct Memory {
  Real peak;        ///< highest temperature so far [°C]
  Real held_cap;    ///< water held at the peak [kg/kg dry]
  Real denat_floor; ///< denaturation heat taken up at the peak [J m⁻³]
};

/// How far a cell has cooled from its peak before the memory takes over, smoothly: a corner exactly at the
/// peak would be crossed back and forth by every surface whose temperature hovers, and cost the integrator
/// its step.
inline constexpr double memory_drop = 1.5; ///< middle of the take-over [K below the peak]
inline constexpr double memory_half = 1.0; ///< its half width [K]

/// Share of what denaturation left behind that counts at a temperature, with its slope by (peak -
/// temperature).
template <class Real> Slope<Real> memory_share(const Memory<Real> &memory, Real t) {
  const Real drop = memory.peak - t - memory_drop;
  if (all(drop < Real(-memory_half))) { // warming: the usual case
    return {Real(0.0), Real(0.0)};
  }
  return smooth_step(drop, memory_half);
}

/// Water content at which what a cell can give has halved on its way to zero [kg/kg dry]: far below any
/// crust.
inline constexpr double last_water = 0.002;

/// The state eta of raw tissue at a temperature [°C].
template <class Table> double raw_eta(const Table &table, double celsius) {
  Row<double> row;
  table.template lookup<>(celsius, row);
  return (row.value[col_dry_h] + table.solids * table.raw_water * row.value[col_water_h] +
          row.value[col_denat_h]) /
         table.reference_capacity;
}

/// Properties of a cell. Suffix _t: derivative by temperature, _x: by water content (the other held fixed).
template <class Real> struct Cell {
  Real t;                    ///< temperature [°C]
  Real t_eta, t_x, t_liquid; ///< derivatives by eta, by X and by liquid per volume (the other two held fixed)
  Real k, k_t, k_x;          ///< conductivity [W m⁻¹ K⁻¹]
  Real phi, phi_t;           ///< X - held water [kg/kg dry]; its derivative by X is one
  Real juice, juice_phi;     ///< expressible part of phi, smoothly zero below 0, and its derivative by phi
  Real expressed, expressed_t; ///< mobility of expressed juice [m² s⁻¹]
  Real held, held_t, held_x;   ///< mobility of held water [m² s⁻¹]
  Real give, give_x; ///< share of it that a cell can give: 0 when it has nothing, 1 as soon as it has some
  Real hw, hw_t;     ///< enthalpy of liquid water [J kg⁻¹]
  Real base_t, base_eta, base_x,
      base_liquid; ///< where the slopes were taken: the guess for the next inversion
};

/// Temperature of an enthalpy per volume, by bisection: for much fat that melts within a few kelvins Newton's
/// method may jump back and forth across the melting range for ever.
template <class Real, class Table>
[[gnu::noinline]] Real bisect_temperature(const Table &table, Real target, Real water,
                                          const Memory<Real> &memory) {
  Row<Real> row;
  Real low(-1e3);
  Real high(2e3);
  for (int i = 0; i < 55; ++i) { // to 1e-13 K
    const Real middle = 0.5 * (low + high);
    table.template lookup<col_dry_h, inversion_end>(middle, row);
    const Real kept = memory_share(memory, middle).value;
    const Real denat = row.value[col_denat_h] + (memory.denat_floor - row.value[col_denat_h]) * kept;
    const auto colder = row.value[col_dry_h] + water * row.value[col_water_h] + denat < target;
    low = select(colder, middle, low);
    high = select(colder, high, middle);
  }
  return 0.5 * (low + high);
}

/// Whether an evaluation also takes the slopes: a step linearises once and evaluates once more without.
enum class Slopes { no, yes };

/// Fills `cell`, which must have been evaluated with slopes before or hold zero slopes and any finite base_t.
template <Slopes slopes, class Real, class Table>
void evaluate_cell(const Table &table, Real eta, Real x, Real liquid, const Memory<Real> &memory,
                   Cell<Real> &cell) {
  Row<Real> row;
  const Real target = eta * table.reference_capacity;
  const Real water = table.solids * x + liquid;
  Real t = cell.base_t + cell.t_eta * (eta - cell.base_eta) + cell.t_x * (x - cell.base_x) +
           cell.t_liquid * (liquid - cell.base_liquid);
  // Newton: 1 or 2 rounds are usual, the melting range may take 5. The error left after a change d is below
  // 0.05 d^2 / K (the capacity changes by less than a tenth per kelvin), so a last change below 3e-5 K leaves
  // less than 1e-10 K.
  constexpr int most = 12;
  constexpr double tolerance = 3e-5; // K
  const auto capacity_at = [&](Slope<Real> kept, Real denat_gap) {
    return row.slope[col_dry_h] + water * row.slope[col_water_h] +
           row.slope[col_denat_h] * (1.0 - kept.value) - denat_gap * kept.slope;
  };
  bool found = false;
  for (int i = 0; i < most && !found; ++i) {
    table.template lookup<col_dry_h, inversion_end>(t, row);
    const Slope<Real> kept = memory_share(memory, t);
    const Real denat_gap = memory.denat_floor - row.value[col_denat_h];
    const Real denat = row.value[col_denat_h] + denat_gap * kept.value;
    const Real change = (target - row.value[col_dry_h] - water * row.value[col_water_h] - denat) /
                        capacity_at(kept, denat_gap);
    t = t + change;
    found = all(abs(change) < Real(tolerance));
  }
  if (!found) {
    t = bisect_temperature(table, target, water, memory);
  }
  if constexpr (slopes == Slopes::yes) {
    table.template lookup<0, col_saturation>(t, row);
  } else {
    table.template lookup_values<col_water_h, col_saturation>(t, row);
  }
  const Slope<Real> kept = memory_share(memory, t);
  cell.t = t;
  cell.hw = row.value[col_water_h];
  cell.expressed = row.value[col_expressed];

  // Conductivity: fat-free constituents in parallel, fat dispersed in them (Maxwell-Eucken);
  // food_components.hpp.
  const Real there = max(x, Real(0.0));
  const Real sx = table.solids * there;
  const Real per_lean = 1.0 / (row.value[col_solid_v] + sx * row.value[col_water_v]);
  const Real lean_v = row.value[col_solid_v] + sx * row.value[col_water_v];
  const Real kc = (row.value[col_solid_kv] + sx * row.value[col_water_kv]) * per_lean;
  const Real per_all = 1.0 / (lean_v + row.value[col_fat_v]);
  const Real f = row.value[col_fat_v] * per_all;
  const Real kd = row.value[col_fat_k];
  const Real gap = kc - kd;
  const Real below = 1.0 / (2.0 * kc + kd + f * gap);
  const Real ratio = (2.0 * kc + kd - 2.0 * f * gap) * below;
  cell.k = kc * ratio;

  // Water potential and mobility. Nothing leaves a cell that has nothing: `give` of the giving side keeps X
  // positive.
  const Real held_gap = memory.held_cap - row.value[col_held];
  cell.phi = x - row.value[col_held] - held_gap * kept.value;
  const Real y = there * (1.0 / table.dry_below);
  const Real y3 = y * y * y;
  const Real damp = 1.0 / (1.0 + y3 * y);
  const Real some = 1.0 / (there + last_water);
  const Real shape = table.dry_floor + (1.0 - table.dry_floor) * (1.0 - damp);
  cell.held = row.value[col_held_mob] * shape;
  cell.give = there * some;
  const Slope<Real> juice =
      table.squeezing ? smooth_plus(cell.phi, table.switch_width) : Slope<Real>{Real(0.0), Real(0.0)};
  cell.juice = juice.value;
  cell.juice_phi = juice.slope;

  if constexpr (slopes == Slopes::yes) {
    cell.base_t = t;
    cell.base_eta = eta;
    cell.base_x = x;
    cell.base_liquid = liquid;
    const Real inverse_capacity = 1.0 / capacity_at(kept, memory.denat_floor - row.value[col_denat_h]);
    cell.t_eta = table.reference_capacity * inverse_capacity;
    cell.t_x = -(table.solids * cell.hw * inverse_capacity);
    cell.t_liquid = -(cell.hw * inverse_capacity);
    cell.hw_t = row.slope[col_water_h];
    cell.expressed_t = row.slope[col_expressed];

    const auto positive = x > Real(0.0);
    const Real wet = select(positive, Real(table.solids), Real(0.0));
    const Real lean_v_t = row.slope[col_solid_v] + sx * row.slope[col_water_v];
    const Real kc_t = (row.slope[col_solid_kv] + sx * row.slope[col_water_kv] - kc * lean_v_t) * per_lean;
    const Real kc_x = wet * (row.value[col_water_kv] - kc * row.value[col_water_v]) * per_lean;
    const Real f_t = (row.slope[col_fat_v] - f * (lean_v_t + row.slope[col_fat_v])) * per_all;
    const Real f_x = -(f * wet * row.value[col_water_v] * per_all);
    const Real kd_t = row.slope[col_fat_k];
    const Real top_t = 2.0 * kc_t + kd_t - 2.0 * (f_t * gap + f * (kc_t - kd_t));
    const Real bottom_t = 2.0 * kc_t + kd_t + f_t * gap + f * (kc_t - kd_t);
    cell.k_t = kc_t * ratio + kc * below * (top_t - ratio * bottom_t);
    const Real top_x = 2.0 * kc_x - 2.0 * (f_x * gap + f * kc_x);
    const Real bottom_x = 2.0 * kc_x + f_x * gap + f * kc_x;
    cell.k_x = kc_x * ratio + kc * below * (top_x - ratio * bottom_x);

    cell.phi_t = -(row.slope[col_held] * (1.0 - kept.value) - held_gap * kept.slope);
    const Real shape_x = (1.0 - table.dry_floor) * 4.0 * y3 * damp * damp * (1.0 / table.dry_below);
    cell.held_t = row.slope[col_held_mob] * shape;
    cell.held_x = row.value[col_held_mob] * shape_x;
    cell.give_x = select(positive, Real(last_water * some * some), Real(0.0));
  }
}

} // namespace cook::engine
