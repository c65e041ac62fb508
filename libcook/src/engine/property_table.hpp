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

  /// Columns [First, Last) at a temperature [°C]; outside the range the end pieces go on as straight lines.
  template <std::size_t First = 0, std::size_t Last = columns> void lookup(double celsius, Row<double> &row) const {
    const double inside = max(min(celsius, highest - 1e-9), lowest); // a NaN ends at the lowest knot, never out of bounds
    const double place = (inside - lowest) * (1.0 / spacing);
    const auto i = static_cast<std::size_t>(place);
    const double u = place - static_cast<double>(i);
    const double beyond = celsius - inside;
    const Piece &piece = pieces_[i];
    for (std::size_t c = First; c < Last; ++c) { // straight-line code over neighbouring columns: the compiler vectorises it
      const double slope = (piece.c1[c] + u * (2.0 * piece.c2[c] + 3.0 * u * piece.c3[c])) * (1.0 / spacing);
      row.slope[c] = slope;
      row.value[c] = piece.c0[c] + u * (piece.c1[c] + u * (piece.c2[c] + u * piece.c3[c])) + slope * beyond;
    }
  }

  double solids = 0.0;        ///< fat-free dry solids [kg m⁻³]
  double raw_water = 0.0;     ///< raw water content [kg/kg dry]
  double reference_capacity = 0.0; ///< heat capacity of raw meat at 50 °C without sinks [J m⁻³ K⁻¹]
  double switch_width = 0.0;
  double dry_below = 0.0;
  double dry_floor = 0.0;
  bool squeezing = true;

private:
  /// c0 + c1 u + c2 u^2 + c3 u^3 with u from 0 to 1 between two knots, all columns side by side.
  struct Piece {
    std::array<double, columns> c0, c1, c2, c3;
  };
  std::vector<Piece> pieces_;
};

} // namespace cook::engine
