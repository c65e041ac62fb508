/// @file
/// Everything that depends on temperature alone, as one table of cubic Hermite pieces.
///
/// Why a table: a right-hand side needs a dozen functions of temperature in each cell. Interpolated, all of them cost
/// less than two exponentials, the derivative is exact for what is evaluated (so the Jacobian is exact too), and any
/// property function can be plugged in without touching the solver. The interpolation error is far below the
/// uncertainty of any of the functions; tests compare the table with the functions.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "cook/simulate.hpp"
#include "cook/tissue.hpp"
#include "engine/scalar.hpp"

namespace cook::engine {

/// Columns of the table; per raw volume where not said otherwise.
enum Column : std::size_t {
  col_held,         ///< water held by the proteins [kg/kg dry]
  col_expressed,    ///< mobility of expressed juice [m² s⁻¹]
  col_held_mob,     ///< mobility of held water [m² s⁻¹]
  col_solid_kv,     ///< sum of volume x conductivity of solids (protein, carbohydrate, ash) [W m⁻¹ K⁻¹]
  col_solid_v,      ///< their volume [-]
  col_fat_v,        ///< volume of fat [-]
  col_fat_k,        ///< conductivity of fat [W m⁻¹ K⁻¹]
  col_water_kv,     ///< conductivity / density of water [W m² kg⁻¹ K⁻¹]
  col_water_v,      ///< 1 / density of water [m³ kg⁻¹]
  col_dry_h,        ///< enthalpy of fat and solids, melting included [J m⁻³]
  col_denat_h,      ///< denaturation heat [J m⁻³]
  col_water_h,      ///< enthalpy of liquid water [J kg⁻¹]
  col_saturation,   ///< saturation pressure [Pa]
  col_latent,       ///< latent heat of evaporation [J kg⁻¹]
  columns
};

/// Values and temperature derivatives of all columns.
template <class Real> struct Row {
  std::array<Real, columns> value;
  std::array<Real, columns> slope;
};

class PropertyTable {
public:
  PropertyTable(const Tissue &tissue, const Physics &physics);

  static constexpr double lowest = -10.0;  ///< [°C]
  static constexpr double highest = 290.0; ///< [°C]
  static constexpr double spacing = 1.0;   ///< [K]

  /// All columns at a temperature [°C]; outside the range the end pieces go on as straight lines.
  void lookup(double celsius, Row<double> &row) const;
  /// Fewer columns: [first, last).
  void lookup(double celsius, std::size_t first, std::size_t last, Row<double> &row) const;

  double solids = 0.0;        ///< fat-free dry solids [kg m⁻³]
  double raw_water = 0.0;     ///< raw water content [kg/kg dry]
  double reference_capacity = 0.0; ///< heat capacity of raw meat at 50 °C without sinks [J m⁻³ K⁻¹]
  double switch_width = 0.0;
  double dry_below = 0.0;
  double dry_floor = 0.0;
  bool squeezing = true;

private:
  struct Knot {
    std::array<double, columns> value;
    std::array<double, columns> step_slope; ///< slope x spacing
  };
  std::vector<Knot> knots_;
};

} // namespace cook::engine
