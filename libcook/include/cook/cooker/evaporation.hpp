/// @file
/// Evaporation from a wet surface into humid air, and the temperature that such a surface settles at.
///
/// The same equation as on the meat's faces and on a water pan; it stands in
/// libcook/src/engine/faces/evaporation.hpp with its source and validity. Temperatures are in °C; the
/// pressure argument is the total (barometric) pressure. Functions marked noexcept do no checks, as in
/// humid_air.hpp; the others throw cook::InvalidInput.
#pragma once

#include "cook/units.hpp"

namespace cook {

/// Diffusivity of water vapour in air [m2 s-1]; Marrero & Mason, J. Phys. Chem. Ref. Data 1:3 (1972):
/// 1.87e-10 T^2.072 / p with T in K and p in atmospheres; 9 to 177 °C.
[[nodiscard]] double vapour_diffusivity(double temperature, double pressure = standard_atmosphere) noexcept;
/// Lewis number of water vapour in air [-]: thermal over mass diffusivity, about 0.83 to 0.87. Free of
/// pressure.
[[nodiscard]] double lewis_number(double film_temperature) noexcept;
/// Mass-transfer coefficient per film coefficient, h_m / h_c [(m s-1) / (W m-2 K-1) = m3 K J-1].
///
/// Chilton & Colburn analogy, 1 / (rho cp Le^(2/3)), dry-air properties at the film temperature. h_m
/// multiplies a difference of vapour densities. Same validity as the film coefficient's own correlation.
[[nodiscard]] double lewis_factor(double film_temperature, double pressure = standard_atmosphere) noexcept;

/// Share of the total pressure [-] up to which stefan_potential is the logarithm; above it goes on as its
/// tangent. The engine's faces turn there, too.
inline constexpr double stefan_tangent_share = 0.98;
/// Stefan-flow potential [-], -ln(1 - p_v / p), of a vapour pressure [Pa].
///
/// The difference of two potentials drives evaporation through stagnant air at any rate (Bird, Stewart &
/// Lightfoot, Transport Phenomena, ch. 18). The logarithm has a pole where the vapour pressure reaches the
/// total pressure: there the water boils and heat sets the rate. From 98 % of the total pressure on the
/// potential goes on as its tangent (50 p_v / p + const), so that the flux stays finite, smooth and rising,
/// and yet steep enough to hold a wet surface near boiling.
[[nodiscard]] double stefan_potential(double vapour_pressure, double pressure = standard_atmosphere) noexcept;
/// Slope of stefan_potential with the vapour pressure [Pa-1].
[[nodiscard]] double stefan_potential_slope(double vapour_pressure,
                                            double pressure = standard_atmosphere) noexcept;
/// High-rate correction [-]: flux with Stefan flow over the low-rate flux p (p_vs - p_v) / p. One for dilute
/// vapour, about 1.2 for a surface at 70 °C in dry air.
[[nodiscard]] double stefan_correction(double surface_vapour_pressure, double vapour_pressure,
                                       double pressure = standard_atmosphere) noexcept;
/// Evaporation from a surface [kg m-2 s-1] through a mass-transfer coefficient h_m [m s-1]:
/// h_m p / (R_v T_film) [potential(p_vs) - potential(p_v)]. Negative when vapour condenses.
[[nodiscard]] double evaporation_flux(double mass_transfer_coefficient, double film_temperature,
                                      double surface_vapour_pressure, double vapour_pressure,
                                      double pressure = standard_atmosphere) noexcept;

/// A surface in steady balance: convection and radiation in, evaporation out, nothing conducted into the
/// food.
struct WetSurface {
  double temperature; ///< surface temperature [°C]
  double evaporation; ///< water leaving [kg m-2 s-1]; negative when it condenses
  double convection;  ///< heat in by convection [W m-2]
  double radiation;   ///< heat in by radiation [W m-2]
};

/// The surroundings of a wet surface.
struct WetSurfaceConditions {
  double air_temperature = 107.0;        ///< [°C], 0 to 300
  double vapour_pressure = 3000.0;       ///< in the air [Pa], 0 to 95 % of pressure
  double film_coefficient = 5.0;         ///< h_c [W m-2 K-1], above 0
  double emissivity = 0.9;               ///< of the surface [-], 0 to 1; large surroundings are assumed
  double radiant_temperature = 107.0;    ///< of the surroundings [°C], -20 to 1000
  double pressure = standard_atmosphere; ///< [Pa], 30 kPa to 200 kPa
  double water_activity = 1.0;           ///< of the surface [-], 0.1 to 1
};

/// The temperature a wet surface settles at ("floor" of a stall), with radiation and Stefan flow.
///
/// Solves h_c (T_air - T_s) + eps sigma (T_rad^4 - T_s^4) = m L(T_s), m = evaporation_flux with h_m = h_c
/// lewis_factor, film properties at (T_air + T_s) / 2. With emissivity 0 this is the psychrometer's wet-bulb.
/// @throws InvalidInput naming the member that is out of the range stated above.
[[nodiscard]] WetSurface wet_surface(const WetSurfaceConditions &conditions);
/// The temperature [°C] of wet_surface.
[[nodiscard]] double wet_surface_temperature(const WetSurfaceConditions &conditions);

} // namespace cook
