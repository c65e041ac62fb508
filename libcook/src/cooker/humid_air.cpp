#include "cook/cooker/humid_air.hpp"

#include "cook/errors.hpp"
#include "cooker/saturation.hpp"

#include <algorithm>
#include <cmath>

namespace cook {

namespace {

constexpr double lowest_pressure = 30.0e3;   // [Pa], above any inhabited place
constexpr double highest_pressure = 200.0e3; // [Pa]
constexpr double highest_vapour_share = 0.95;

// Specific heats and latent heat of the psychrometric balance, ASHRAE Handbook - Fundamentals 2017, ch. 1,
// eqs. 30 and 33. [J kg-1 K-1] and [J kg-1]. Kept apart from latent_heat(): they belong together as a set.
constexpr double psychrometric_cp_air = 1006.0;
constexpr double psychrometric_cp_vapour = 1860.0;
constexpr double psychrometric_cp_water = 4186.0;
constexpr double psychrometric_latent_heat = 2501.0e3;

// Root of a rising function on [low, high] by bisection: no derivative, no divergence, a known number of
// steps. Two hundred kelvin halved 45 times is 6e-12 K.
template <class Function> double rising_root(Function &&function, double low, double high) {
  for (int step = 0; step < 45; ++step) {
    const double middle = 0.5 * (low + high);
    (function(middle) < 0.0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

double saturation_temperature_of(const char *field, double pressure) {
  check::within(field, pressure, saturation_pressure(saturation_range_low),
                saturation_pressure(saturation_range_high), "Pa",
                "water's saturation pressures between -20 and 200 °C; a value in kPa or hPa?");
  return rising_root([pressure](double t) { return saturation_pressure(t) - pressure; }, saturation_range_low,
                     saturation_range_high);
}

void check_pressure(double pressure) {
  check::within("pressure", pressure, lowest_pressure, highest_pressure, "Pa",
                "barometric pressure, not reduced to sea level; a value in hPa or kPa?");
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

// ---- evaporation ----

double vapour_diffusivity(double temperature, double pressure) noexcept {
  return 1.87e-10 * std::pow(kelvin(temperature), 2.072) * standard_atmosphere / pressure;
}

double lewis_number(double film_temperature) noexcept {
  return air_thermal_diffusivity(film_temperature) / vapour_diffusivity(film_temperature);
}

double lewis_factor(double film_temperature, double pressure) noexcept {
  const double root = std::cbrt(lewis_number(film_temperature));
  return 1.0 / (air_density(film_temperature, pressure) * air_specific_heat(film_temperature) * root * root);
}

double stefan_potential(double vapour_pressure, double pressure) noexcept {
  const double share = vapour_pressure / pressure;
  if (share <= stefan_tangent_share) {
    return -std::log1p(-share);
  }
  return -std::log1p(-stefan_tangent_share) + (share - stefan_tangent_share) / (1.0 - stefan_tangent_share);
}

double stefan_potential_slope(double vapour_pressure, double pressure) noexcept {
  const double share = std::min(vapour_pressure / pressure, stefan_tangent_share);
  return 1.0 / (pressure * (1.0 - share));
}

double stefan_correction(double surface_vapour_pressure, double vapour_pressure, double pressure) noexcept {
  const double difference = surface_vapour_pressure - vapour_pressure;
  // Below a millionth of the pressure the difference of logarithms has lost its digits; the slope is its
  // limit.
  if (std::abs(difference) < 1.0e-6 * pressure) {
    return pressure * stefan_potential_slope(vapour_pressure + 0.5 * difference, pressure);
  }
  return pressure / difference *
         (stefan_potential(surface_vapour_pressure, pressure) - stefan_potential(vapour_pressure, pressure));
}

double evaporation_flux(double mass_transfer_coefficient, double film_temperature,
                        double surface_vapour_pressure, double vapour_pressure, double pressure) noexcept {
  return mass_transfer_coefficient * vapour_density(pressure, film_temperature) *
         (stefan_potential(surface_vapour_pressure, pressure) - stefan_potential(vapour_pressure, pressure));
}

WetSurface wet_surface(const WetSurfaceConditions &c) {
  check::celsius("air_temperature", c.air_temperature, 0.0, 300.0);
  check_pressure(c.pressure);
  check::within("vapour_pressure", c.vapour_pressure, 0.0, highest_vapour_share * c.pressure, "Pa",
                "at most 95 % of the total pressure; a humidity in per cent is not a pressure");
  check::positive("film_coefficient", c.film_coefficient, "W m-2 K-1");
  check::within("emissivity", c.emissivity, 0.0, 1.0, "-", "a value in per cent?");
  check::celsius("radiant_temperature", c.radiant_temperature, -20.0, 1000.0);
  check::within("water_activity", c.water_activity, 0.1, 1.0, "-", "a value in per cent?");

  const double radiant = kelvin(c.radiant_temperature);
  const double radiant_fourth = radiant * radiant * radiant * radiant;
  const auto state_at = [&](double t) {
    const double film = 0.5 * (c.air_temperature + t);
    const double surface = kelvin(t);
    return WetSurface{
        t,
        evaporation_flux(c.film_coefficient * lewis_factor(film, c.pressure), film,
                         c.water_activity * saturation_pressure(t), c.vapour_pressure, c.pressure),
        c.film_coefficient * (c.air_temperature - t),
        c.emissivity * stefan_boltzmann * (radiant_fourth - surface * surface * surface * surface)};
  };
  // Warmer surface: less heat comes in and more water leaves, so the deficit rises with the temperature.
  // Thanks to the tangent of stefan_potential it is finite over the whole range, past the boiling point too.
  const auto deficit = [&](double t) {
    const WetSurface s = state_at(t);
    return s.evaporation * latent_heat(t) - s.convection - s.radiation;
  };
  if (deficit(saturation_range_low) > 0.0 || deficit(saturation_range_high) < 0.0) {
    throw InvalidInput("radiant_temperature",
                       "no steady wet surface between -20 and 200 °C: more heat arrives, or "
                       "leaves, than evaporation can balance");
  }
  return state_at(rising_root(deficit, saturation_range_low, saturation_range_high));
}

double wet_surface_temperature(const WetSurfaceConditions &conditions) {
  return wet_surface(conditions).temperature;
}

} // namespace cook
