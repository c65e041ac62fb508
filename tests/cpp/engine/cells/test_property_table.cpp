/// The table of properties against the functions it stands for, between its knots, and its slopes against
/// differences.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "cook/cooker/humid_air.hpp"
#include "cook/meat/food_components.hpp"
#include "engine/cells/property_table.hpp"

using namespace cook;
using namespace cook::engine;

namespace {

/// The functions behind the columns, written out once more from their headers.
std::array<double, columns> from_functions(const Tissue &tissue, double t) {
  const Composition &x = tissue.composition;
  const double raw = tissue.raw_density() / x.sum();
  const auto volume = [&](Component c, double share) { return raw * share / component_density(c, t); };
  const double protein = volume(Component::protein, x.protein);
  const double ash = volume(Component::ash, x.ash);
  std::array<double, columns> row{};
  row[col_held] = tissue.held_water(t);
  row[col_expressed] = tissue.expressed_mobility(t);
  row[col_held_mobility] = tissue.held_mobility(t);
  row[col_solid_kv] = protein * component_conductivity(Component::protein, t) +
                      ash * component_conductivity(Component::ash, t);
  row[col_solid_v] = protein + ash;
  row[col_fat_v] = volume(Component::fat, x.fat);
  row[col_fat_k] = component_conductivity(Component::fat, t);
  row[col_water_kv] = component_conductivity(Component::water, t) / component_density(Component::water, t);
  row[col_water_v] = 1.0 / component_density(Component::water, t);
  row[col_dry_h] = tissue.dry_enthalpy(t);
  row[col_denat_h] = tissue.denaturation_enthalpy(t);
  row[col_water_h] = component_enthalpy(Component::water, t);
  row[col_saturation] = saturation_pressure(t);
  row[col_latent] = latent_heat(t);
  return row;
}

/// What an error is compared with: the value itself, for enthalpies at least what ten kelvin are worth.
double scale(std::size_t column, double value) {
  double least = 0.0;
  if (column == col_dry_h || column == col_denat_h) {
    least = 10.0 * 0.9e6;
  } else if (column == col_water_h) {
    least = 10.0 * 4200.0;
  }
  return std::fmax(std::fabs(value), least);
}

} // namespace

TEST_CASE("the table repeats the functions to 1e-5 wherever a cook can get") {
  const Tissue tissue = brisket_tissue();
  CHECK(tissue.composition.sum() != 1.0); // so a share that is not divided by the sum would show
  const PropertyTable table(tissue, Physics{});
  Row<double> row;
  std::array<double, columns> worst{};
  for (int i = 0; i < 555; ++i) {
    const double t = -5.0 + 0.37 * i; // falls between the knots, everywhere differently; to 200 °C
    table.lookup(t, row);
    const auto exact = from_functions(tissue, t);
    for (std::size_t c = 0; c < columns; ++c) {
      worst[c] = std::fmax(worst[c], std::fabs(row.value[c] - exact[c]) / scale(c, exact[c]));
    }
  }
  for (std::size_t c = 0; c < columns; ++c) {
    INFO("column ", c);
    CHECK(worst[c] < 1e-5);
  }
  MESSAGE("largest relative error of a column ", *std::max_element(worst.begin(), worst.end()));
}

TEST_CASE("slopes are the derivatives of what the table gives, and near those of the functions") {
  const Tissue tissue = brisket_tissue();
  const PropertyTable table(tissue, Physics{});
  Row<double> row, above, below;
  constexpr double step = 1e-4;
  for (int i = 0; i < 131; ++i) {
    const double t = 0.5 + 1.37 * i;
    table.lookup(t, row);
    table.lookup(t + step, above);
    table.lookup(t - step, below);
    const auto exact_above = from_functions(tissue, t + 0.01);
    const auto exact_below = from_functions(tissue, t - 0.01);
    for (std::size_t c = 0; c < columns; ++c) {
      INFO("column ", c, " at ", t);
      const double difference = (above.value[c] - below.value[c]) / (2.0 * step);
      const double rounding = 1e-15 * std::fabs(row.value[c]) / step * 4.0;
      CHECK(std::fabs(row.slope[c] - difference) <
            1e-6 * std::fabs(row.slope[c]) + 1e-8 * scale(c, row.value[c]) + rounding);
      const double exact = (exact_above[c] - exact_below[c]) / 0.02;
      CHECK(std::fabs(row.slope[c] - exact) < 1e-4 * scale(c, row.value[c])); // per kelvin
    }
  }
}

TEST_CASE("enthalpies rise strictly, so that temperature follows from enthalpy") {
  const PropertyTable table(brisket_tissue(), Physics{});
  Row<double> row;
  for (int i = 0; i < 4200; ++i) {
    const double t = -60.0 + 0.11 * i;
    table.lookup(t, row);
    CHECK(row.slope[col_dry_h] > 0.0);
    CHECK(row.slope[col_water_h] > 0.0);
    // Level on either side of its range but for the interpolation, which may dip by a ten-thousandth of the
    // capacity.
    CHECK(row.slope[col_denat_h] >= -2e-4 * row.slope[col_dry_h]);
  }
}

TEST_CASE("the sharpest melting and denaturing that a tissue may have do not overshoot between the knots") {
  // The narrowest ranges that Tissue::validate lets through, at four places between the knots.
  for (const double start : {40.0, 40.25, 40.5, 40.9}) {
    Tissue tissue = brisket_tissue();
    tissue.sinks.fat_melt_start = tissue.sinks.denaturation_start = start;
    tissue.sinks.fat_melt_end = tissue.sinks.denaturation_end = start + 5.0;
    tissue.validate("tissue");
    const PropertyTable table(tissue, Physics{});
    Row<double> row;
    for (int i = 0; i < 400; ++i) {
      const double t = start - 5.0 + 0.037 * i;
      table.lookup(t, row);
      CAPTURE(t);
      CHECK(row.slope[col_dry_h] > 0.0);
      CHECK(row.slope[col_denat_h] + row.slope[col_dry_h] > 0.5 * tissue.raw_density() * 0.3 * 1900.0);
      // Within 2 % of the whole heat of the change, that is a tenth of a kelvin of its 5 K.
      CHECK(std::fabs(row.value[col_denat_h] - tissue.denaturation_enthalpy(t)) <
            0.02 * tissue.denaturation_enthalpy(99.0));
    }
  }
}

TEST_CASE("with or without slopes, inside its range or outside, the table gives the same values") {
  const PropertyTable table(brisket_tissue(), Physics{});
  Row<double> with, without;
  for (const double t : {-200.0, -10.0, -9.3, 0.0, 61.7, 289.99, 290.0, 290.5, 800.0}) {
    table.lookup<0, columns>(t, with);
    table.lookup_values<0, columns>(t, without);
    for (std::size_t c = 0; c < columns; ++c) {
      INFO("column ", c, " at ", t);
      CHECK(without.value[c] == doctest::Approx(with.value[c]).epsilon(1e-12));
    }
  }
}

TEST_CASE("outside its range the table goes on along straight lines, whatever it is asked") {
  const PropertyTable table(brisket_tissue(), Physics{});
  Row<double> edge, far, farther;
  for (const double direction : {-1.0, 1.0}) {
    const double end = direction > 0.0 ? PropertyTable::highest : PropertyTable::lowest;
    table.lookup(end, edge);
    table.lookup(end + 50.0 * direction, far);
    table.lookup(end + 100.0 * direction, farther);
    for (std::size_t c = 0; c < columns; ++c) {
      INFO("column ", c);
      CHECK(far.slope[c] == doctest::Approx(edge.slope[c]).epsilon(1e-6));
      CHECK(farther.value[c] - far.value[c] == doctest::Approx(far.value[c] - edge.value[c]).epsilon(1e-6));
    }
  }
  for (const double wild : {-1e9, 1e9}) {
    table.lookup(wild, far);
    for (std::size_t c = 0; c < columns; ++c) {
      CHECK(std::isfinite(far.value[c]));
      CHECK(std::isfinite(far.slope[c]));
    }
  }
  table.lookup(std::nan(""), far); // no value to give, but nothing read out of bounds
  CHECK(std::isnan(far.value[col_dry_h]));
}

TEST_CASE(
    "switching the sinks off leaves sensible heat only; constant properties replace the composition's") {
  const Tissue tissue = brisket_tissue();
  Row<double> row;
  PropertyTable(tissue, Physics{.sinks = false}).lookup(70.0, row);
  CHECK(row.value[col_denat_h] == 0.0);
  CHECK(row.value[col_dry_h] == doctest::Approx(tissue.dry_enthalpy(70.0, false)).epsilon(1e-8));
  CHECK(row.value[col_dry_h] < tissue.dry_enthalpy(70.0));
  Tissue fixed = tissue;
  fixed.fixed = FixedThermal{.conductivity = 0.4, .heat_capacity = 3e6};
  const PropertyTable table(fixed, Physics{});
  table.lookup(70.0, row);
  CHECK(table.reference_capacity == doctest::Approx(3e6).epsilon(1e-12));
  CHECK(row.slope[col_dry_h] == doctest::Approx(3e6).epsilon(1e-10));
  CHECK(row.value[col_solid_kv] / row.value[col_solid_v] == doctest::Approx(0.4).epsilon(1e-12));
  CHECK(row.value[col_water_h] == 0.0);
}
