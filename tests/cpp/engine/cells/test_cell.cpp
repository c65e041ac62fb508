/// Properties of a control volume against the functions they stand for, and their slopes.
#include <doctest/doctest.h>

#include <cmath>

#include "cook/meat/food_components.hpp"
#include "engine/cells/cell.hpp"

using namespace cook;
using namespace cook::engine;

namespace {

constexpr Memory<double> none{-1e30, 0.0, 0.0};

/// The cell of tissue at a temperature with so much water.
Cell<double> cell_at(const PropertyTable &table, double t, double x) {
  Row<double> row;
  table.lookup(t, row);
  const double heat =
      row.value[col_dry_h] + table.solids * x * row.value[col_water_h] + row.value[col_denat_h];
  Cell<double> cell{};
  cell.base_t = t;
  evaluate_cell<Slopes::yes>(table, heat / table.reference_capacity, x, 0.0, none, cell);
  return cell;
}

} // namespace

TEST_CASE("conductivity is that of fat dispersed in the fat-free constituents") {
  Tissue raw = brisket_tissue();
  raw.cooked_conductivity = 1.0; // what cooking takes off it is another test's
  const PropertyTable table(raw, Physics{});
  for (const double t : {3.0, 41.5, 70.2, 120.0}) {
    for (const double x : {0.0, 0.1, 1.0, 3.2}) {
      Row<double> row;
      table.lookup(t, row);
      const double volume = row.value[col_solid_v] + table.solids * x * row.value[col_water_v];
      const double lean = (row.value[col_solid_kv] + table.solids * x * row.value[col_water_kv]) / volume;
      const double share = row.value[col_fat_v] / (volume + row.value[col_fat_v]);
      const double expected = conductivity_maxwell_eucken(lean, row.value[col_fat_k], share);
      CAPTURE(t);
      CAPTURE(x);
      CHECK(cell_at(table, t, x).k == doctest::Approx(expected).epsilon(1e-12));
    }
  }
}

TEST_CASE("slopes of a cell by temperature and by water are those of its values") {
  const PropertyTable table(brisket_tissue(), Physics{});
  constexpr double step = 1e-4;
  const auto slope = [](double above, double below) { return (above - below) / (2.0 * step); };
  for (const double t : {3.3, 41.5, 70.2, 120.6}) { // away from the knots, where the curvature jumps
    for (const double x : {0.01, 0.1, 1.0, 3.2}) {
      const Cell<double> c = cell_at(table, t, x);
      const Cell<double> warmer = cell_at(table, t + step, x);
      const Cell<double> colder = cell_at(table, t - step, x);
      const Cell<double> wetter = cell_at(table, t, x + step);
      const Cell<double> drier = cell_at(table, t, x - step);
      CAPTURE(t);
      CAPTURE(x);
      CHECK(c.k_t == doctest::Approx(slope(warmer.k, colder.k)).epsilon(1e-5));
      CHECK(c.k_x == doctest::Approx(slope(wetter.k, drier.k)).epsilon(1e-5));
      CHECK(c.phi_t == doctest::Approx(slope(warmer.phi, colder.phi)).epsilon(1e-5));
      CHECK(c.held_mobility_t ==
            doctest::Approx(slope(warmer.held_mobility, colder.held_mobility)).epsilon(1e-5));
      CHECK(std::fabs(c.held_mobility_x - slope(wetter.held_mobility, drier.held_mobility)) <
            1e-4 * c.held_mobility / x);
      CHECK(std::fabs(c.give_x - slope(wetter.give, drier.give)) < 1e-4 * c.give / x);
    }
  }
}
