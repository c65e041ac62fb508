/// @file
/// Water vapour and humid air: saturation, latent heat, humidity, wet-bulb, film properties. How fast water
/// evaporates into it: evaporation.hpp.
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
/// by bisection to 1e-9 K. A wet surface also takes up radiation and is warmer: see wet_surface_temperature
/// (evaporation.hpp).
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

} // namespace cook
