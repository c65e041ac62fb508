/// @file
/// Water vapour and humid air: saturation, latent heat, humidity, wet-bulb, film properties, evaporation.
///
/// Temperatures are in °C. The pressure argument is the total (barometric) pressure and defaults to one
/// standard atmosphere. Functions marked noexcept do no checks and are meant for inner loops: they return
/// finite numbers for any temperature above -150 °C and below 600 °C. The others throw cook::InvalidInput.
#pragma once

#include "cook/units.hpp"

namespace cook {

// ---- water: saturation and latent heat ----

/// Lowest temperature [°C] at which the saturation formula is offered (over supercooled liquid water).
inline constexpr double saturation_range_low = -20.0;
/// Highest temperature [°C] of the published saturation formula.
inline constexpr double saturation_range_high = 200.0;

/// Saturation pressure of water vapour over liquid water [Pa] at `temperature` [°C].
///
/// Hyland & Wexler (1983) as printed in ASHRAE Handbook - Fundamentals, ch. 1; within 0.025 % of the IAPWS
/// equation from 0 to 150 °C; published for 0 to 200 °C. Below 0 °C the same formula runs on smoothly, over
/// supercooled water (not ice), and is within 0.5 % down to -20 °C. Outside that it is finite and increasing,
/// but means nothing.
[[nodiscard]] double saturation_pressure(double temperature) noexcept;
/// Slope of saturation_pressure [Pa K-1] at `temperature` [°C]; its exact derivative.
[[nodiscard]] double saturation_pressure_slope(double temperature) noexcept;
/// Temperature [°C] at which water's saturation pressure is `pressure` [Pa]: boiling point or dew point.
/// @throws InvalidInput outside the saturation pressures of -20 to 200 °C.
[[nodiscard]] double saturation_temperature(double pressure);
/// Latent heat of vaporisation of water [J kg-1] at `temperature` [°C].
///
/// Cubic fitted to T (v'' - v') dp/dT, with the vapour pressure and the densities of IAPWS SR1-86 (1992;
/// Wagner & Pruss 1993), at 0.01 to 200 °C: largest deviation 0.04 %. Runs on smoothly outside, down to -20
/// and up to 250 °C.
[[nodiscard]] double latent_heat(double temperature) noexcept;

// ---- humidity ----

/// Ratio of the molar masses of water and dry air [-], 0.62195.
inline constexpr double molar_mass_ratio = molar_mass_water / molar_mass_dry_air;

/// Density of water vapour [kg m-3] at partial pressure [Pa] and temperature [°C]; ideal gas. At saturation
/// it is low by 0.5 % at 60 °C and 1.5 % at 100 °C (against IAPWS).
[[nodiscard]] double vapour_density(double vapour_pressure, double temperature) noexcept;
/// Humidity ratio [kg water per kg dry air] of a vapour pressure [Pa]; needs vapour_pressure < pressure.
[[nodiscard]] double humidity_ratio(double vapour_pressure, double pressure = standard_atmosphere) noexcept;
/// Vapour pressure [Pa] of a humidity ratio [kg kg-1]; inverse of humidity_ratio.
[[nodiscard]] double vapour_pressure_from_humidity_ratio(double humidity_ratio_value,
                                                         double pressure = standard_atmosphere) noexcept;
/// Relative humidity [-], vapour pressure over saturation pressure at the air temperature [°C].
[[nodiscard]] double relative_humidity(double temperature, double vapour_pressure) noexcept;
/// Vapour pressure [Pa] of a relative humidity [-] at a temperature [°C].
[[nodiscard]] double vapour_pressure_from_relative_humidity(double temperature,
                                                            double relative_humidity_value) noexcept;
/// Dew point [°C] of a vapour pressure [Pa]. @throws InvalidInput when the dew point is outside -20 to 200
/// °C; air without any vapour has none.
[[nodiscard]] double dew_point(double vapour_pressure);
/// Enthalpy of humid air [J per kg dry air], zero for dry air and liquid water at 0 °C; ASHRAE Handbook -
/// Fundamentals, ch. 1: 1006 t + W (2 501 000 + 1860 t).
[[nodiscard]] double humid_air_enthalpy(double temperature, double humidity_ratio_value) noexcept;
/// Thermodynamic wet-bulb (adiabatic saturation) temperature [°C] of air at `temperature` [°C] and
/// `vapour_pressure` [Pa].
///
/// Solves the ASHRAE Handbook - Fundamentals (ch. 1) balance with constant specific heats, over liquid water,
/// by bisection to 1e-9 K. A wet surface also takes up radiation and is warmer: see wet_surface_temperature.
/// @throws InvalidInput unless 0 <= temperature <= 300 °C, vapour pressure >= 0 and not above saturation or
/// 95 % of `pressure`, and 30 kPa <= pressure <= 200 kPa.
[[nodiscard]] double wet_bulb(double temperature, double vapour_pressure,
                              double pressure = standard_atmosphere);

// ---- air properties at film temperature ----

/// Density of dry air [kg m-3]; ideal gas.
[[nodiscard]] double air_density(double temperature, double pressure = standard_atmosphere) noexcept;
/// Density of humid air [kg m-3]; ideal gas mixture.
[[nodiscard]] double humid_air_density(double temperature, double vapour_pressure,
                                       double pressure = standard_atmosphere) noexcept;
/// Specific heat of dry air at constant pressure [J kg-1 K-1]; parabola through the values printed in
/// Incropera & DeWitt, Table A.4 (300, 350, 400 K; from memory), within 0.2 % from -20 to 200 °C.
[[nodiscard]] double air_specific_heat(double temperature) noexcept;
/// Specific heat of humid air [J per kg of mixture and K]; mass-weighted, vapour 1860 J kg-1 K-1 (ASHRAE).
[[nodiscard]] double humid_air_specific_heat(double temperature, double vapour_pressure,
                                             double pressure = standard_atmosphere) noexcept;
/// Thermal conductivity of dry air [W m-1 K-1]; U.S. Standard Atmosphere 1976, eq. 53. Pit humidity changes
/// this and the viscosity by a few per cent, less than the scatter of any film correlation, and is left out.
[[nodiscard]] double air_conductivity(double temperature) noexcept;
/// Dynamic viscosity of dry air [Pa s]; Sutherland's law, U.S. Standard Atmosphere 1976, eq. 51.
[[nodiscard]] double air_viscosity(double temperature) noexcept;
/// Prandtl number of dry air [-]: cp mu / k.
[[nodiscard]] double air_prandtl(double temperature) noexcept;
/// Thermal diffusivity of dry air [m2 s-1]: k / (rho cp).
[[nodiscard]] double air_thermal_diffusivity(double temperature,
                                             double pressure = standard_atmosphere) noexcept;

// ---- evaporation ----

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
