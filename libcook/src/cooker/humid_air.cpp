#include "cook/cooker/humid_air.hpp"

#include "cook/errors.hpp"
#include "cooker/humid_air_limits.hpp"
#include "cooker/saturation.hpp"

#include <algorithm>
#include <cmath>

namespace cook {

namespace {

// Specific heats and latent heat of the psychrometric balance, ASHRAE Handbook - Fundamentals 2017, ch. 1,
// eqs. 30 and 33. [J kg-1 K-1] and [J kg-1]. Kept apart from latent_heat(): they belong together as a set.
constexpr double psychrometric_cp_air = 1006.0;
constexpr double psychrometric_cp_vapour = 1860.0;
constexpr double psychrometric_cp_water = 4186.0;
constexpr double psychrometric_latent_heat = 2501.0e3;

double saturation_temperature_of(const char *field, double pressure) {
  check::within(field, pressure, saturation_pressure(saturation_range_low),
                saturation_pressure(saturation_range_high), "Pa",
                "water's saturation pressures between -20 and 200 °C; a value in kPa or hPa?");
  return rising_root([pressure](double t) { return saturation_pressure(t) - pressure; }, saturation_range_low,
                     saturation_range_high);
}

} // namespace

// ---- water ----

double saturation_pressure(double temperature) noexcept { return engine::saturation(temperature).value; }

double saturation_pressure_slope(double temperature) noexcept {
  return engine::saturation(temperature).slope;
}

double saturation_temperature(double pressure) { return saturation_temperature_of("pressure", pressure); }

double latent_heat(double temperature) noexcept {
  // Least-squares cubic in relative error; the source and the residual are stated in the header, the test
  // repeats the comparison.
  return 2501473.4 + temperature * (-2421.7072 + temperature * (1.4228297 - 1.6730311e-2 * temperature));
}

// ---- humidity ----

double vapour_density(double vapour_pressure, double temperature) noexcept {
  return vapour_pressure / (gas_constant_water * kelvin(temperature));
}

double humidity_ratio(double vapour_pressure, double pressure) noexcept {
  return molar_mass_ratio * vapour_pressure / (pressure - vapour_pressure);
}

double vapour_pressure_from_humidity_ratio(double humidity_ratio_value, double pressure) noexcept {
  return pressure * humidity_ratio_value / (molar_mass_ratio + humidity_ratio_value);
}

double relative_humidity(double temperature, double vapour_pressure) noexcept {
  return vapour_pressure / saturation_pressure(temperature);
}

double vapour_pressure_from_relative_humidity(double temperature, double relative_humidity_value) noexcept {
  return relative_humidity_value * saturation_pressure(temperature);
}

double dew_point(double vapour_pressure) {
  return saturation_temperature_of("vapour_pressure", vapour_pressure);
}

double humid_air_enthalpy(double temperature, double humidity_ratio_value) noexcept {
  return psychrometric_cp_air * temperature +
         humidity_ratio_value * (psychrometric_latent_heat + psychrometric_cp_vapour * temperature);
}

double wet_bulb(double temperature, double vapour_pressure, double pressure) {
  check::celsius("temperature", temperature, 0.0, 300.0);
  check_pressure(pressure);
  const double saturation_limit = temperature < saturation_range_high
                                      ? saturation_pressure(temperature)
                                      : saturation_pressure(saturation_range_high);
  check::within("vapour_pressure", vapour_pressure, 0.0,
                std::min(saturation_limit, highest_vapour_share * pressure), "Pa",
                "not above saturation at the air temperature, nor 95 % of the total pressure");

  const double target = humidity_ratio(vapour_pressure, pressure);
  // Heat given up by the air less heat that saturating it at the wet-bulb temperature takes, per kg of dry
  // air.
  const auto surplus = [&](double t) {
    const double saturated = humidity_ratio(saturation_pressure(t), pressure);
    const double latent = psychrometric_latent_heat - (psychrometric_cp_water - psychrometric_cp_vapour) * t;
    const double entering =
        psychrometric_latent_heat + psychrometric_cp_vapour * temperature - psychrometric_cp_water * t;
    return latent * saturated - psychrometric_cp_air * (temperature - t) - entering * target;
  };
  const double nearly_boiling = saturation_temperature(highest_vapour_share * pressure);
  return rising_root(surplus, saturation_range_low, std::min(temperature, nearly_boiling));
}

// ---- air properties ----

double air_density(double temperature, double pressure) noexcept {
  return pressure / (gas_constant_dry_air * kelvin(temperature));
}

double humid_air_density(double temperature, double vapour_pressure, double pressure) noexcept {
  return air_density(temperature, pressure - vapour_pressure) + vapour_density(vapour_pressure, temperature);
}

double air_specific_heat(double temperature) noexcept {
  const double x = kelvin(temperature) - 300.0;
  return 1007.0 + x * (0.01 + x * 6.0e-4);
}

double humid_air_specific_heat(double temperature, double vapour_pressure, double pressure) noexcept {
  const double air = air_density(temperature, pressure - vapour_pressure);
  const double vapour = vapour_density(vapour_pressure, temperature);
  return (air * air_specific_heat(temperature) + vapour * psychrometric_cp_vapour) / (air + vapour);
}

double air_conductivity(double temperature) noexcept {
  const double t = kelvin(temperature);
  return 2.64638e-3 * t * std::sqrt(t) / (t + 245.4 * std::pow(10.0, -12.0 / t));
}

double air_viscosity(double temperature) noexcept {
  const double t = kelvin(temperature);
  return 1.458e-6 * t * std::sqrt(t) / (t + 110.4);
}

double air_prandtl(double temperature) noexcept {
  return air_specific_heat(temperature) * air_viscosity(temperature) / air_conductivity(temperature);
}

double air_thermal_diffusivity(double temperature, double pressure) noexcept {
  return air_conductivity(temperature) /
         (air_density(temperature, pressure) * air_specific_heat(temperature));
}

} // namespace cook
