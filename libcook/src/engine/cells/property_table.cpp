#include "engine/cells/property_table.hpp"

#include <cmath>

#include "cook/cooker/humid_air.hpp"
#include "cook/meat/food_components.hpp"

namespace cook::engine {

namespace {

/// @param raw density of the raw tissue over the sum of its mass fractions [kg m⁻³]
std::array<double, columns> exact_row(const Tissue &tissue, double raw, const Physics &physics,
                                      double celsius) {
  const Composition &x = tissue.composition;
  const double protein_v = raw * x.protein / component_density(Component::protein, celsius);
  const double carbohydrate_v = raw * x.carbohydrate / component_density(Component::carbohydrate, celsius);
  const double ash_v = raw * x.ash / component_density(Component::ash, celsius);
  const double water_density = component_density(Component::water, celsius);

  std::array<double, columns> row{};
  row[col_held] = tissue.held_water(celsius);
  row[col_expressed] = tissue.expressed_mobility(celsius);
  row[col_held_mobility] = tissue.held_mobility(celsius);
  row[col_solid_kv] = protein_v * component_conductivity(Component::protein, celsius) +
                      carbohydrate_v * component_conductivity(Component::carbohydrate, celsius) +
                      ash_v * component_conductivity(Component::ash, celsius);
  row[col_solid_v] = protein_v + carbohydrate_v + ash_v;
  row[col_fat_v] = raw * x.fat / component_density(Component::fat, celsius);
  row[col_fat_k] = component_conductivity(Component::fat, celsius);
  row[col_water_kv] = component_conductivity(Component::water, celsius) / water_density;
  row[col_water_v] = 1.0 / water_density;
  row[col_dry_h] = tissue.dry_enthalpy(celsius, physics.sinks);
  row[col_denat_h] = physics.sinks ? tissue.denaturation_enthalpy(celsius) : 0.0;
  row[col_water_h] = component_enthalpy(Component::water, celsius);
  row[col_saturation] = saturation_pressure(celsius);
  row[col_latent] = latent_heat(celsius);
  if (tissue.fixed) {
    // One solid that fills the volume; water without volume or enthalpy.
    row[col_solid_v] = 1.0;
    row[col_solid_kv] = tissue.fixed->conductivity;
    row[col_fat_v] = row[col_water_v] = row[col_water_kv] = row[col_water_h] = row[col_denat_h] = 0.0;
    row[col_fat_k] = tissue.fixed->conductivity;
    row[col_dry_h] = tissue.fixed->heat_capacity * celsius;
  }
  return row;
}

/// See Tissue::cooked_conductivity; fixed properties stay what they are.
double lost_per_water(const Tissue &tissue) {
  const double released = tissue.raw_water_content() * (1.0 - tissue.holding.final_share);
  return tissue.fixed || released <= 0.0 ? 0.0 : (1.0 - tissue.cooked_conductivity) / released;
}

} // namespace

PropertyTable::PropertyTable(const Tissue &tissue, const Physics &physics)
    : solids(tissue.solids_density()), raw_water(tissue.raw_water_content()),
      switch_width(tissue.mobility.switch_width), per_switch_width(1.0 / switch_width),
      per_dry_below(1.0 / tissue.mobility.dry_below), dry_floor(tissue.mobility.dry_floor),
      lost_conductivity(lost_per_water(tissue)), squeezing(physics.squeezing) {
  constexpr std::size_t ghosts = 2; // fourth-order differences between knots need two neighbours on each side
  const auto count = static_cast<std::size_t>(std::lround((highest - lowest) / spacing)) + 1;
  const double raw = tissue.raw_density() / tissue.composition.sum();
  std::vector<std::array<double, columns>> rows(count + 2 * ghosts);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    rows[i] = exact_row(tissue, raw, physics, lowest + spacing * (static_cast<double>(i) - double{ghosts}));
  }
  const auto knot_slope = [&](std::size_t i, std::size_t c) { // per spacing, at knot i
    return (8.0 * (rows[i + 3][c] - rows[i + 1][c]) - (rows[i + 4][c] - rows[i][c])) / 12.0;
  };
  pieces_.resize(count - 1);
  for (std::size_t i = 0; i + 1 < count; ++i) {
    for (std::size_t c = 0; c < columns; ++c) { // cubic Hermite through values and slopes at both knots
      const double rise = rows[i + 1 + ghosts][c] - rows[i + ghosts][c];
      const double left = knot_slope(i, c);
      const double right = knot_slope(i + 1, c);
      Piece &piece = pieces_[i];
      piece.c0[c] = rows[i + ghosts][c];
      piece.c1[c] = left;
      piece.c2[c] = 3.0 * rise - 2.0 * left - right;
      piece.c3[c] = left + right - 2.0 * rise;
    }
  }
  const Physics no_sinks{.sinks = false};
  const double half_step = 0.5;
  const auto above = exact_row(tissue, raw, no_sinks, 50.0 + half_step);
  const auto below = exact_row(tissue, raw, no_sinks, 50.0 - half_step);
  reference_capacity =
      (above[col_dry_h] - below[col_dry_h]) + solids * raw_water * (above[col_water_h] - below[col_water_h]);
}

} // namespace cook::engine
