#include "engine/property_table.hpp"

#include <cmath>

#include "cook/food_components.hpp"
#include "cook/humid_air.hpp"

namespace cook::engine {

namespace {

std::array<double, columns> exact_row(const Tissue &tissue, const Physics &physics, double celsius) {
  const double raw = tissue.raw_density();
  const Composition &x = tissue.composition;
  const double protein_v = raw * x.protein / component_density(Component::protein, celsius);
  const double carbohydrate_v = raw * x.carbohydrate / component_density(Component::carbohydrate, celsius);
  const double ash_v = raw * x.ash / component_density(Component::ash, celsius);
  const double water_density = component_density(Component::water, celsius);

  std::array<double, columns> row{};
  row[col_held] = tissue.held_water(celsius);
  row[col_expressed] = tissue.expressed_mobility(celsius);
  row[col_held_mob] = tissue.held_mobility(celsius);
  row[col_solid_kv] = protein_v * component_conductivity(Component::protein, celsius) +
                      carbohydrate_v * component_conductivity(Component::carbohydrate, celsius) +
                      ash_v * component_conductivity(Component::ash, celsius);
  row[col_solid_v] = protein_v + carbohydrate_v + ash_v;
  row[col_fat_v] = tissue.fat_density() / component_density(Component::fat, celsius);
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

} // namespace

PropertyTable::PropertyTable(const Tissue &tissue, const Physics &physics)
    : solids(tissue.solids_density()), raw_water(tissue.raw_water_content()),
      switch_width(tissue.mobility.switch_width), dry_below(tissue.mobility.dry_below),
      dry_floor(tissue.mobility.dry_floor), squeezing(physics.squeezing) {
  constexpr std::size_t ghosts = 2; // fourth-order differences between knots need two neighbours on each side
  const auto count = static_cast<std::size_t>(std::lround((highest - lowest) / spacing)) + 1;
  std::vector<std::array<double, columns>> rows(count + 2 * ghosts);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    rows[i] = exact_row(tissue, physics, lowest + spacing * (static_cast<double>(i) - double{ghosts}));
  }
  knots_.resize(count);
  for (std::size_t i = 0; i < count; ++i) {
    knots_[i].value = rows[i + ghosts];
    for (std::size_t c = 0; c < columns; ++c) {
      knots_[i].step_slope[c] =
          (8.0 * (rows[i + 3][c] - rows[i + 1][c]) - (rows[i + 4][c] - rows[i][c])) / 12.0;
    }
  }
  const Physics no_sinks{.sinks = false};
  const double half_step = 0.5;
  const auto above = exact_row(tissue, no_sinks, 50.0 + half_step);
  const auto below = exact_row(tissue, no_sinks, 50.0 - half_step);
  reference_capacity = (above[col_dry_h] - below[col_dry_h]) +
                       solids * raw_water * (above[col_water_h] - below[col_water_h]);
}

void PropertyTable::lookup(double celsius, Row<double> &row) const { lookup(celsius, 0, columns, row); }

void PropertyTable::lookup(double celsius, std::size_t first, std::size_t last, Row<double> &row) const {
  const double inside = std::fmin(std::fmax(celsius, lowest), highest - 1e-9); // fmin/fmax also swallow NaN
  const double place = (inside - lowest) * (1.0 / spacing);
  const auto i = static_cast<std::size_t>(place);
  const double u = place - static_cast<double>(i);
  const double beyond = celsius - inside;
  const Knot &a = knots_[i];
  const Knot &b = knots_[i + 1];
  const double w = 1.0 - u;
  const double a_value = w * w * (1.0 + 2.0 * u);
  const double b_value = 1.0 - a_value;
  const double a_slope = u * w * w;
  const double b_slope = -u * u * w;
  const double d_value = 6.0 * u * w * (1.0 / spacing);
  const double da_slope = w * (1.0 - 3.0 * u) * (1.0 / spacing);
  const double db_slope = u * (3.0 * u - 2.0) * (1.0 / spacing);
  for (std::size_t c = first; c < last; ++c) {
    const double slope =
        d_value * (b.value[c] - a.value[c]) + da_slope * a.step_slope[c] + db_slope * b.step_slope[c];
    row.slope[c] = slope;
    row.value[c] = a_value * a.value[c] + b_value * b.value[c] + a_slope * a.step_slope[c] +
                   b_slope * b.step_slope[c] + slope * beyond;
  }
}

} // namespace cook::engine
