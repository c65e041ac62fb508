/// @file
/// Everything that depends on temperature alone, as one table of cubic Hermite pieces.
///
/// Why a table: a right-hand side needs a dozen functions of temperature in each cell. Interpolated, all of
/// them cost less than two exponentials, the derivative is exact for what is evaluated (so the Jacobian is
/// exact too), and any property function can be plugged in without touching the solver. The interpolation
/// error is far below the uncertainty of any of the functions; tests compare the table with the functions.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "cook/meat/tissue.hpp"
#include "cook/plan/options.hpp"
#include "engine/arithmetic/scalar.hpp"

namespace cook::engine {

/// Columns of the table; per raw volume where not said otherwise.
/// The order matters: the inversion of enthalpy needs the first three, the fluxes in the meat all from the
/// third, a face the last two.
enum Column : std::size_t {
  col_dry_h,         ///< enthalpy of fat and solids, melting included [J m⁻³]
  col_denat_h,       ///< denaturation heat [J m⁻³]
  col_water_h,       ///< enthalpy of liquid water [J kg⁻¹]
  col_held,          ///< water held by the proteins [kg/kg dry]
  col_expressed,     ///< mobility of expressed juice [m² s⁻¹]
  col_held_mobility, ///< mobility of held water [m² s⁻¹]
  col_solid_kv,   ///< sum of volume x conductivity of solids (protein, carbohydrate, ash) [W m⁻¹ K⁻¹]
  col_solid_v,    ///< their volume [-]
  col_fat_v,      ///< volume of fat [-]
  col_fat_k,      ///< conductivity of fat [W m⁻¹ K⁻¹]
  col_water_kv,   ///< conductivity / density of water [W m² kg⁻¹ K⁻¹]
  col_water_v,    ///< 1 / density of water [m³ kg⁻¹]
  col_saturation, ///< saturation pressure [Pa]
  col_latent,     ///< latent heat of evaporation [J kg⁻¹]
  columns
};
inline constexpr std::size_t inversion_end = col_held; ///< one past the columns that the inversion needs

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

  /// Columns with the room that whole vectors need.
  static constexpr std::size_t padded = (columns + 7) / 8 * 8;

  /// c0 + c1 u + c2 u^2 + c3 u^3 with u from 0 to 1 between two knots, all columns side by side.
  struct Piece {
    std::array<double, padded> c0, c1, c2, c3;
  };
  struct Place {
    const Piece *piece;
    double u;      ///< within the piece, 0 to 1
    double beyond; ///< how far outside the range [K]
  };
  [[nodiscard]] Place place(double celsius) const {
    const double inside =
        max(min(celsius, highest - 1e-9), lowest); // NaN ends at the last piece, never out of bounds
    const double at = (inside - lowest) * (1.0 / spacing);
    const auto i = static_cast<std::size_t>(at);
    return {&pieces_[i], at - static_cast<double>(i), celsius - inside};
  }

  /// Columns [First, Last) at a temperature [°C], with slopes; outside the range the end pieces go on as
  /// straight lines.
  template <std::size_t First = 0, std::size_t Last = columns>
  void lookup(double celsius, Row<double> &row) const {
    lookup_at<First, Last>(place(celsius), row);
  }
  template <std::size_t First, std::size_t Last> void lookup_at(const Place &p, Row<double> &row) const {
    for (std::size_t c = First; c < Last;
         ++c) { // straight-line code over neighbouring columns: the compiler vectorises it
      const double top = p.u * p.piece->c3[c]; // one Horner scheme gives both, the slope per spacing
      const double upper = p.piece->c2[c] + top;
      const double whole = p.piece->c1[c] + p.u * upper;
      row.value[c] = p.piece->c0[c] + p.u * whole;
      row.slope[c] = (whole + p.u * (upper + top)) * (1.0 / spacing);
    }
    if (p.beyond != 0.0) {
      for (std::size_t c = First; c < Last; ++c) {
        row.value[c] += row.slope[c] * p.beyond;
      }
    }
  }

  /// The same values without the slopes; outside the range it fills those too.
  template <std::size_t First, std::size_t Last> void lookup_values(double celsius, Row<double> &row) const {
    lookup_values_at<First, Last>(place(celsius), row);
  }
  template <std::size_t First, std::size_t Last>
  void lookup_values_at(const Place &p, Row<double> &row) const {
    if (p.beyond != 0.0) { // other values here than with slopes would belie the Jacobian and choke the step
      lookup_at<First, Last>(p, row);
      return;
    }
    for (std::size_t c = First; c < Last; ++c) {
      row.value[c] = p.piece->c0[c] + p.u * (p.piece->c1[c] + p.u * (p.piece->c2[c] + p.u * p.piece->c3[c]));
    }
  }

  [[nodiscard]] const Piece *pieces() const { return pieces_.data(); }

  double solids = 0.0;             ///< fat-free dry solids [kg m⁻³]
  double raw_water = 0.0;          ///< raw water content [kg/kg dry]
  double reference_capacity = 0.0; ///< heat capacity of raw meat at 50 °C without sinks [J m⁻³ K⁻¹]
  double switch_width = 0.0, per_switch_width = 0.0;
  double per_dry_below = 0.0;
  double dry_floor = 0.0;
  double lost_conductivity = 0.0; ///< share of the conductivity lost per water let go [kg dry/kg]
  bool squeezing = true;

private:
  std::vector<Piece> pieces_;
};

} // namespace cook::engine
