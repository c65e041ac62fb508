/// @file
/// Unit conversions and physical constants.
///
/// Inside libcook every quantity is in °C, s, kg, m, Pa, J, W or mol. This is the only C++ file that knows
/// any other unit. A temperature and a temperature *difference* convert differently, so each has its own
/// function.
#pragma once

namespace cook {

// ---- conversions ----

/// Offset between the Celsius and the thermodynamic scale [K]; exact (SI Brochure, 9th ed., section 2.3.1).
inline constexpr double kelvin_offset = 273.15;
/// International avoirdupois pound [kg]; exact (international yard and pound agreement, 1959; NIST SP 811).
inline constexpr double kilograms_per_pound = 0.45359237;
/// International inch [m]; exact (international yard and pound agreement, 1959; NIST SP 811).
inline constexpr double metres_per_inch = 0.0254;
/// Minute [s]; exact.
inline constexpr double seconds_per_minute = 60.0;
/// Hour [s]; exact.
inline constexpr double seconds_per_hour = 3600.0;

/// Thermodynamic temperature [K] of a temperature in °C.
[[nodiscard]] constexpr double kelvin(double celsius) noexcept { return celsius + kelvin_offset; }
/// Temperature [°C] of a thermodynamic temperature in K.
[[nodiscard]] constexpr double celsius_from_kelvin(double kelvin_value) noexcept {
  return kelvin_value - kelvin_offset;
}
/// Temperature [°C] of a temperature in °F.
[[nodiscard]] constexpr double celsius_from_fahrenheit(double fahrenheit) noexcept {
  return (fahrenheit - 32.0) / 1.8;
}
/// Temperature [°F] of a temperature in °C.
[[nodiscard]] constexpr double fahrenheit_from_celsius(double celsius) noexcept {
  return celsius * 1.8 + 32.0;
}
/// Temperature difference [K] of a difference in °F.
[[nodiscard]] constexpr double kelvin_from_fahrenheit_difference(double fahrenheit_difference) noexcept {
  return fahrenheit_difference / 1.8;
}
/// Temperature difference [°F] of a difference in K.
[[nodiscard]] constexpr double fahrenheit_difference_from_kelvin(double kelvin_difference) noexcept {
  return kelvin_difference * 1.8;
}
/// Mass [kg] of a mass in avoirdupois pounds.
[[nodiscard]] constexpr double kilograms_from_pounds(double pounds) noexcept {
  return pounds * kilograms_per_pound;
}
/// Mass [lb] of a mass in kg.
[[nodiscard]] constexpr double pounds_from_kilograms(double kilograms) noexcept {
  return kilograms / kilograms_per_pound;
}
/// Length [m] of a length in inches.
[[nodiscard]] constexpr double metres_from_inches(double inches) noexcept { return inches * metres_per_inch; }
/// Length [in] of a length in m.
[[nodiscard]] constexpr double inches_from_metres(double metres) noexcept { return metres / metres_per_inch; }
/// Time [s] of a time in minutes.
[[nodiscard]] constexpr double seconds_from_minutes(double minutes) noexcept {
  return minutes * seconds_per_minute;
}
/// Time [min] of a time in s.
[[nodiscard]] constexpr double minutes_from_seconds(double seconds) noexcept {
  return seconds / seconds_per_minute;
}
/// Time [s] of a time in hours.
[[nodiscard]] constexpr double seconds_from_hours(double hours) noexcept { return hours * seconds_per_hour; }
/// Time [h] of a time in s.
[[nodiscard]] constexpr double hours_from_seconds(double seconds) noexcept {
  return seconds / seconds_per_hour;
}

// ---- physical constants ----

/// Molar gas constant [J mol-1 K-1]; CODATA 2018, exact in the 2019 SI (rounded to the digits shown).
inline constexpr double gas_constant = 8.314462618;
/// Stefan-Boltzmann constant [W m-2 K-4]; CODATA 2018, exact in the 2019 SI (rounded to the digits shown).
inline constexpr double stefan_boltzmann = 5.670374419e-8;
/// Standard atmosphere [Pa]; exact (10th CGPM, 1954).
inline constexpr double standard_atmosphere = 101325.0;
/// Standard acceleration of free fall [m s-2]; exact (3rd CGPM, 1901).
inline constexpr double standard_gravity = 9.80665;
/// Molar mass of water [kg mol-1]; IAPWS R6-95 (2018), 18.015268 g/mol.
inline constexpr double molar_mass_water = 18.015268e-3;
/// Molar mass of dry air [kg mol-1]; ASHRAE Handbook - Fundamentals 2017, ch. 1, 28.966 g/mol.
inline constexpr double molar_mass_dry_air = 28.966e-3;
/// Specific gas constant of water vapour [J kg-1 K-1], about 461.52.
inline constexpr double gas_constant_water = gas_constant / molar_mass_water;
/// Specific gas constant of dry air [J kg-1 K-1], about 287.04.
inline constexpr double gas_constant_dry_air = gas_constant / molar_mass_dry_air;

} // namespace cook
