/// @file
/// The vapour balance of a cooker's own air: what comes in with air, fuel, water pan and meat, what leaves.
///
///     dm_v/dt = air_flow w_in + fuel_water + pan + meat_count x (one piece's vapour) - air_flow w
///
/// with the humidity ratio w = 0.622 p_v / (p - p_v) [kg per kg dry air] and m_v = p_v V / (R_v T). The air
/// is taken as well mixed, and the dry gas that leaves as the dry air that came in: the fuel adds 1 to 3 % to
/// it, less than the flow is ever known. While the humidity changes, evaporation also pushes dry air out;
/// left out, which makes the chamber respond faster by the share p_v / p of its time constant, some seconds
/// of a minute or two. In steady state the balance is exact.
#pragma once

#include <optional>
#include <string>

#include "cook/cooker/water_pan.hpp"
#include "cook/units.hpp"

namespace cook {

/// Share of the total pressure [-] up to which vapour_outflow follows the humidity ratio; above it goes on as
/// its tangent.
inline constexpr double outflow_tangent_share = 0.98;

/// How a cooker's chamber breathes.
struct PitAir {
  double air_flow = 2e-3;                ///< dry air through the chamber [kg s-1]
  double inlet_vapour_pressure = 1200.0; ///< in the air that comes in [Pa]
  double fuel_water = 0.0;               ///< vapour from the fuel [kg s-1]
  double volume = 0.15;                  ///< of the chamber [m3]
  double pressure = standard_atmosphere; ///< total [Pa]
  double meat_count = 1.0;               ///< how many such pieces share the chamber [-]
  std::optional<WaterPan> pan{};

  /// Throws InvalidInput naming `field`.member.
  void validate(const std::string &field = "pit_air") const;
};

/// A value and its derivative by the vapour pressure.
struct VapourTerm {
  double value = 0.0;
  double slope = 0.0; ///< per Pa
};

/// Dry air in a chamber [kg] of `volume` [m3] at `temperature` [°C]; ideal gas.
[[nodiscard]] double chamber_dry_air(double volume, double temperature, double vapour_pressure,
                                     double pressure = standard_atmosphere) noexcept;
/// Vapour that a chamber takes up per rise of its vapour pressure [kg Pa-1], V / (R_v T); ideal gas.
[[nodiscard]] double chamber_vapour_capacity(double volume, double temperature) noexcept;

/// Vapour that comes in whatever the meat does [kg s-1]: with the air, and from the fuel.
[[nodiscard]] double vapour_inflow(const PitAir &air) noexcept;
/// Vapour that leaves with the air [kg s-1] at a vapour pressure [Pa] in the chamber: air_flow times the
/// humidity ratio. From 98 % of the total pressure on it goes on as its tangent: finite, smooth and rising.
[[nodiscard]] VapourTerm vapour_outflow(const PitAir &air, double vapour_pressure) noexcept;
/// Vapour pressure [Pa] at which outflow balances vapour_inflow and `evaporation` [kg s-1], the meat's (all
/// pieces) and the pan's together. Inverse of vapour_outflow; not capped at saturation, which a chamber above
/// 100 °C does not reach. Zero when the chamber loses more than comes in (condensation on cold meat).
[[nodiscard]] double steady_vapour_pressure(const PitAir &air, double evaporation) noexcept;

} // namespace cook
