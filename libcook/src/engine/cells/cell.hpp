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
/// with s X the water in the tissue and `liquid` what is on a face, both per raw volume [kg m⁻³].
#pragma once

#include "engine/arithmetic/smooth.hpp"
#include "engine/cells/property_table.hpp"
#include "engine/cells/temperature.hpp"

namespace cook::engine {

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
/// In fours, as cells_abreast.cpp moves them: first all that an evaluation without slopes reads or writes.
template <class Real> struct Cell {
  Real t;                    ///< temperature [°C]
  Real t_eta, t_x, t_liquid; ///< derivatives by eta, by X and by liquid per volume (the other two held fixed)
  Real k;                    ///< conductivity [W m⁻¹ K⁻¹]
  Real phi;                  ///< X - held water [kg/kg dry]; its derivative by X is one
  Real juice, juice_phi;     ///< expressible part of phi, smoothly zero below 0, and its derivative by phi
  Real expressed;            ///< mobility of expressed juice [m² s⁻¹]
  Real held_mobility;        ///< mobility of held water [m² s⁻¹]
  Real give;                 ///< share of it that a cell can give: 0 when it has nothing, 1 when it has some
  Real hw;                   ///< enthalpy of liquid water [J kg⁻¹]
  Real fresh_held, fresh_denat; ///< water held [kg/kg dry] and denaturation heat taken up [J m⁻³] at this
                                ///< temperature by tissue that has not been hotter
  Real base_t, base_eta, base_x,
      base_liquid; ///< where the slopes were taken: the guess for the next inversion
  Real k_t, k_x, phi_t, expressed_t, held_mobility_t, held_mobility_x, give_x, hw_t;
};

/// Above zero where a cell that gains so much water begins to have juice under pressure, or more of it.
template <class Real> Real begins_to_squeeze(Real gain, const Cell<Real> &cell) {
  return cell.phi + gain - max(cell.phi, Real(0.0));
}

/// Gives a cell's slopes the squeezing that it will have within `ahead`, where it begins to have juice under
/// pressure: that switches on fluxes a hundred times stiffer, and a step whose Jacobian knows nothing of them
/// overshoots. A crust that is wetted again under a wrap takes half the steps with it. The rates stay what
/// they are, so it costs order in such cells only, which the error estimate sees.
/// @param gain water that the cell gains within the time looked ahead [kg/kg dry]; what its own proteins let
/// go is left out: counted in, it stiffens the whole interior and costs more steps than it saves
/// @return whether it changed
template <class Real, class Table>
[[gnu::always_inline]] inline bool anticipate_squeezing(const Table &table, Real gain, Cell<Real> &cell) {
  if (!table.squeezing || !any(begins_to_squeeze(gain, cell) > Real(0.0))) {
    return false;
  }
  const Real ahead = cell.phi + gain;
  const Real slope = smooth_plus(ahead, Real(table.switch_width), Real(table.per_switch_width)).slope;
  const auto more = begins_to_squeeze(gain, cell) > Real(0.0) && slope > cell.juice_phi;
  cell.juice_phi = select(more, slope, cell.juice_phi);
  return any(more);
}

/// Whether an evaluation also takes the slopes: a step linearises once and evaluates once more without.
enum class Slopes { no, yes };

/// Remembers a cell's temperature, if it is the highest so far, with what denaturation has left at it.
/// @param counted lanes that are booked
template <class Real> void remember_peak(const Cell<Real> &cell, MaskOf<Real> counted, Memory<Real> &memory) {
  const auto higher = counted && cell.t > memory.peak;
  memory.peak = select(higher, cell.t, memory.peak);
  memory.held_cap = select(higher, cell.fresh_held, memory.held_cap);
  memory.denat_floor = select(higher, cell.fresh_denat, memory.denat_floor);
}

/// Fills `cell`, which must have been evaluated with slopes before or hold zero slopes and any finite base_t.
template <Slopes slopes, class Real, class Table>
void evaluate_cell(const Table &table, Real eta, Real x, Real liquid, const Memory<Real> &memory,
                   Cell<Real> &cell) {
  const Real water = table.solids * x + liquid;
  const Real guess = cell.base_t + cell.t_eta * (eta - cell.base_eta) + cell.t_x * (x - cell.base_x) +
                     cell.t_liquid * (liquid - cell.base_liquid);
  const auto found = find_temperature(table, Real(eta * table.reference_capacity), water, memory, guess);
  const Real t = found.t;
  const Slope<Real> kept = found.kept;
  Row<Real> row;
  if constexpr (slopes == Slopes::yes) {
    look_up<0, col_saturation>(table, found, row);
  } else {
    look_up_values<col_denat_h, col_saturation>(table, found, row);
  }
  cell.t = t;
  cell.hw = row.value[col_water_h];
  cell.expressed = row.value[col_expressed];
  cell.fresh_held = row.value[col_held];
  cell.fresh_denat = row.value[col_denat_h];

  // Conductivity: fat-free constituents in parallel, fat dispersed in them (Maxwell-Eucken);
  // food_components.hpp. With A = sum of volume x conductivity and B = volume of the fat-free constituents, V
  // and d volume and conductivity of fat, the two rules together are one fraction:
  //     k = A (2 A + d (B + 3 V)) / (B (2 A + d B) + 3 A V)
  const Real there = max(x, Real(0.0));
  const Real sx = table.solids * there;
  const Real lean_kv = row.value[col_solid_kv] + sx * row.value[col_water_kv];
  const Real lean_v = row.value[col_solid_v] + sx * row.value[col_water_v];
  const Real fat_v3 = 3.0 * row.value[col_fat_v];
  const Real fat_k = row.value[col_fat_k];
  const Real spread = 2.0 * lean_kv + fat_k * lean_v;
  const Real top = spread + fat_k * fat_v3;
  const Real bottom = lean_v * spread + lean_kv * fat_v3;

  // Water potential and mobility. Nothing leaves a cell that has nothing: `give` of the giving side keeps X
  // positive.
  const Real held_gap = memory.held_cap - row.value[col_held];
  const Real held = row.value[col_held] + held_gap * kept.value;
  cell.phi = x - held;
  const Real per_dry(table.per_dry_below);
  const Real y = there * per_dry;
  const Real y3 = y * y * y;
  // 1 / bottom, 1 / (1 + y^4), 1 / (X + last_water) from one division: each takes longer than all else here.
  const Real damp_below = 1.0 + y3 * y;
  const Real some_below = there + last_water;
  const Real both_below = damp_below * some_below;
  const Real over = 1.0 / (bottom * both_below);
  const Real per_bottom = over * both_below;
  const Real over_both = over * bottom;
  const Real damp = over_both * some_below;
  const Real some = over_both * damp_below;
  const Real wet_share = 1.0 - table.dry_floor;
  const Real shape = 1.0 - wet_share * damp;
  const Real raw_k = lean_kv * top * per_bottom;
  const Real cooked = 1.0 - table.lost_conductivity * (table.raw_water - held);
  cell.k = raw_k * cooked;
  cell.held_mobility = row.value[col_held_mobility] * shape;
  cell.give = there * some;
  const Slope<Real> juice =
      table.squeezing ? smooth_plus(cell.phi, Real(table.switch_width), Real(table.per_switch_width))
                      : Slope<Real>{Real(0.0), Real(0.0)};
  cell.juice = juice.value;
  cell.juice_phi = juice.slope;

  if constexpr (slopes == Slopes::yes) {
    cell.base_t = t;
    cell.base_eta = eta;
    cell.base_x = x;
    cell.base_liquid = liquid;
    const Real denat_gap = memory.denat_floor - row.value[col_denat_h];
    const Real inverse_capacity = 1.0 / capacity_of(row, water, kept, denat_gap);
    cell.t_eta = table.reference_capacity * inverse_capacity;
    cell.t_liquid = -(cell.hw * inverse_capacity);
    cell.t_x = table.solids * cell.t_liquid;
    cell.hw_t = row.slope[col_water_h];
    cell.expressed_t = row.slope[col_expressed];

    const auto positive = x > Real(0.0);
    const Real wet = select(positive, Real(table.solids), Real(0.0));
    const Real lean_kv_t = row.slope[col_solid_kv] + sx * row.slope[col_water_kv];
    const Real lean_v_t = row.slope[col_solid_v] + sx * row.slope[col_water_v];
    const Real fat_v3_t = 3.0 * row.slope[col_fat_v];
    const Real fat_k_t = row.slope[col_fat_k];
    const Real spread_t = 2.0 * lean_kv_t + fat_k_t * lean_v + fat_k * lean_v_t;
    const Real top_t = spread_t + fat_k_t * fat_v3 + fat_k * fat_v3_t;
    const Real bottom_t = lean_v_t * spread + lean_v * spread_t + lean_kv_t * fat_v3 + lean_kv * fat_v3_t;
    const Real held_t = row.slope[col_held] * (1.0 - kept.value) - held_gap * kept.slope;
    cell.phi_t = -held_t;
    cell.k_t = (lean_kv_t * top + lean_kv * top_t - raw_k * bottom_t) * per_bottom * cooked +
               raw_k * table.lost_conductivity * held_t;
    const Real lean_kv_x = wet * row.value[col_water_kv];
    const Real lean_v_x = wet * row.value[col_water_v];
    const Real spread_x = 2.0 * lean_kv_x + fat_k * lean_v_x;
    const Real bottom_x = lean_v_x * spread + lean_v * spread_x + lean_kv_x * fat_v3;
    cell.k_x = (lean_kv_x * top + lean_kv * spread_x - raw_k * bottom_x) * per_bottom * cooked;

    cell.held_mobility_t = row.slope[col_held_mobility] * shape;
    cell.held_mobility_x = row.value[col_held_mobility] * (wet_share * 4.0 * y3 * damp * damp * per_dry);
    cell.give_x = select(positive, Real(last_water * some * some), Real(0.0));
  }
}

} // namespace cook::engine
