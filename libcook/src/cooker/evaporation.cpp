#include "cook/cooker/evaporation.hpp"

#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"
#include "cooker/humid_air_limits.hpp"
#include "engine/faces/evaporation.hpp"
#include "engine/faces/radiation.hpp"

#include <cmath>

namespace cook {

static_assert(stefan_tangent_share == engine::boiling_corner, "the share that the header promises");

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
  return engine::stefan(vapour_pressure / pressure).value;
}

double stefan_potential_slope(double vapour_pressure, double pressure) noexcept {
  return engine::stefan(vapour_pressure / pressure).slope / pressure;
}

double stefan_correction(double surface_vapour_pressure, double vapour_pressure, double pressure) noexcept {
  const double difference = surface_vapour_pressure - vapour_pressure;
  // Below a hundred-thousandth of the pressure the difference of logarithms has lost more digits than the
  // slope half-way is off, which is its limit.
  if (std::abs(difference) < 1.0e-5 * pressure) {
    return pressure * stefan_potential_slope(vapour_pressure + 0.5 * difference, pressure);
  }
  return pressure / difference *
         (stefan_potential(surface_vapour_pressure, pressure) - stefan_potential(vapour_pressure, pressure));
}

double evaporation_flux(double mass_transfer_coefficient, double film_temperature,
                        double surface_vapour_pressure, double vapour_pressure, double pressure) noexcept {
  const auto flow =
      engine::vapour_flow({mass_transfer_coefficient, 0.0}, pressure, kelvin(film_temperature)).value;
  const double in_air = stefan_potential(vapour_pressure, pressure);
  // Without the venting that faces and pans add beyond boiling.
  return flow * engine::evaporation(flow, surface_vapour_pressure / pressure, in_air).by_flow;
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

  const double glow = engine::fourth_power(kelvin(c.radiant_temperature)).value;
  const auto state_at = [&](double t) {
    const double film = 0.5 * (c.air_temperature + t);
    return WetSurface{t,
                      evaporation_flux(c.film_coefficient * lewis_factor(film, c.pressure), film,
                                       c.water_activity * saturation_pressure(t), c.vapour_pressure,
                                       c.pressure),
                      c.film_coefficient * (c.air_temperature - t),
                      c.emissivity * stefan_boltzmann * (glow - engine::fourth_power(kelvin(t)).value)};
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
