/// @file
/// What the manufactured solutions are made of: the chosen fields, and properties that leave nothing to the
/// upwind side.
#pragma once

#include <cmath>

#include "engine/cells/property_table.hpp"

namespace cook::testing {

/// A value with its derivatives by place and time.
struct Jet {
  double value, x, t;
};

/// The chosen fields. All distances are shares of the thickness (slab) or the radius (cylinder).
struct Fields {
  double length = 0.05;    ///< [m]
  double seconds = 7200.0; ///< over which the fields change
  double slope = 1.0;      ///< 0 for a cylinder, whose fields must be even about the axis
  double hump = 0.0; ///< height of a water ridge that wanders along: the flow turns round where it is highest
  double base = 60.0; ///< temperature at the start, depth 0 [°C]

  /// Through melting fat, denaturing protein and release of juice [°C].
  [[nodiscard]] Jet temperature(double at, double time) const {
    const double u = at / length;
    const double w = time / seconds;
    return {base + 24.0 * w * (1.5 - 0.5 * w) + 2.0 * slope * u + 4.0 * u * u,
            (2.0 * slope + 8.0 * u) / length, 24.0 * (1.5 - w) / seconds};
  }
  /// From juice under pressure inside to tissue short of water at the outside [kg/kg dry].
  [[nodiscard]] Jet water(double at, double time) const {
    const double u = at / length;
    const double w = time / seconds;
    const double off = u - 0.35 - 0.3 * w; // where the ridge is
    const double ridge = hump * std::exp(-8.0 * off * off);
    return {3.1 - 0.3 * w * w - 0.5 * slope * u - 1.1 * u * u + ridge,
            (-0.5 * slope - 2.2 * u - 16.0 * off * ridge) / length, (-0.6 * w + 4.8 * off * ridge) / seconds};
  }
  /// Liquid on a face [kg m⁻²]: below and above what the face can hold.
  [[nodiscard]] Jet film(double time) const {
    const double w = 3.0 * time / seconds;
    return {0.045 + 0.02 * std::sin(w), 0.0, 0.06 * std::cos(w) / seconds};
  }
};

/// PropertyTable with constant mobilities and water that carries no heat: what the engine takes from the
/// upwind side is then the same on both sides, and every part of the discretisation is centred.
struct CentredTable : engine::PropertyTable {
  using engine::PropertyTable::PropertyTable;
  template <std::size_t First = 0, std::size_t Last = engine::columns>
  void lookup(double celsius, engine::Row<double> &row) const {
    engine::PropertyTable::lookup<First, Last>(celsius, row);
    flatten(row);
  }
  template <std::size_t First, std::size_t Last>
  void lookup_values(double celsius, engine::Row<double> &row) const {
    engine::PropertyTable::lookup_values<First, Last>(celsius, row);
    flatten(row);
  }

private:
  static void flatten(engine::Row<double> &row) {
    row.value[engine::col_expressed] = 4e-8;
    row.value[engine::col_held_mobility] = 4e-9;
    row.value[engine::col_water_h] = 0.0;
    for (const auto c : {engine::col_expressed, engine::col_held_mobility, engine::col_water_h}) {
      row.slope[c] = 0.0;
    }
  }
};

} // namespace cook::testing
