// Evaporation into humid air, and what a wet surface settles at, against published figures.
#include "cook/cooker/evaporation.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <string>

using namespace cook;

namespace {

double relative_error(double value, double reference) { return std::abs(value / reference - 1.0); }

} // namespace

TEST_CASE("diffusivity and Lewis relation") {
  // Marrero & Mason (1972) evaluated by hand: 2.505e-5 (298 K), 3.454e-5 (348 K), 4.444e-5 (393 K).
  CHECK(relative_error(vapour_diffusivity(25.0), 2.505e-5) < 1e-3);
  CHECK(relative_error(vapour_diffusivity(75.0), 3.454e-5) < 1e-3);
  CHECK(relative_error(vapour_diffusivity(120.0), 4.444e-5) < 1e-3);
  // Textbook anchor, Incropera & DeWitt table A.8: 0.26e-4 m2/s at 298 K.
  CHECK(relative_error(vapour_diffusivity(25.0), 0.26e-4) < 0.04);
  CHECK(relative_error(vapour_diffusivity(60.0, 0.5 * standard_atmosphere), 2.0 * vapour_diffusivity(60.0)) <
        1e-14);
  // Lewis number of the air-water film, Sutherland and Marrero & Mason: 0.860 (323 K), 0.846 (348 K), 0.832
  // (373 K).
  CHECK(std::abs(lewis_number(50.0) - 0.860) < 0.001);
  CHECK(std::abs(lewis_number(75.0) - 0.846) < 0.001);
  CHECK(std::abs(lewis_number(100.0) - 0.832) < 0.001);
  // h_m at h_c = 5 W/(m2 K) near 80 °C is about 5.5e-3 m/s.
  CHECK(relative_error(5.0 * lewis_factor(80.0), 5.5e-3) < 0.03);
  // Half the pressure: half the density, so twice the factor.
  CHECK(relative_error(lewis_factor(80.0, 0.5 * standard_atmosphere), 2.0 * lewis_factor(80.0)) < 1e-12);
}

TEST_CASE("Stefan flow") {
  // p_vs / p = 0.308 at 70 °C in dry air: -ln(1 - 0.308) / 0.308 = 1.195.
  const double p_s = saturation_pressure(70.0);
  CHECK(std::abs(stefan_correction(p_s, 0.0) - 1.195) < 1e-3);
  CHECK(std::abs(stefan_correction(1.0, 0.0) - 1.0) < 1e-5);
  // Both branches of the correction meet where the difference is small.
  CHECK(std::abs(stefan_correction(20000.2, 20000.0) - stefan_correction(20000.05, 20000.0)) < 1e-5);
  // Slope and tangent continuation: no jump in value or slope, finite past boiling, always rising.
  for (double share : {0.0, 0.3, 0.9, 0.96, 0.99, 1.0, 1.5, 3.0}) {
    const double p_v = share * standard_atmosphere;
    const double difference = (stefan_potential(p_v + 1.0) - stefan_potential(p_v - 1.0)) / 2.0;
    CHECK(relative_error(stefan_potential_slope(p_v), difference) < 1e-6);
  }
  const double join = stefan_tangent_share * standard_atmosphere;
  CHECK(stefan_potential(join * (1.0 + 1e-9)) - stefan_potential(join * (1.0 - 1e-9)) < 1e-7);
  CHECK(relative_error(stefan_potential_slope(join * (1.0 + 1e-9)),
                       stefan_potential_slope(join * (1.0 - 1e-9))) < 1e-6);
  // No difference, no flux; condensation is the mirror of evaporation.
  CHECK(evaporation_flux(5e-3, 80.0, 3000.0, 3000.0) == 0.0);
  CHECK(evaporation_flux(5e-3, 80.0, 9000.0, 3000.0) == -evaporation_flux(5e-3, 80.0, 3000.0, 9000.0));
}

TEST_CASE("wet surface: separately solved table with radiation") {
  // The same balance solved separately (Stefan form, Marrero & Mason, walls at air temperature, 1 atm):
  // surface temperature [°C] and evaporation [kg m-2 h-1], rounded to 0.1 K and 0.01. Guards the
  // implementation, not the physics.
  struct Row {
    double air, humidity, film, emissivity, activity, surface, evaporation;
  };
  constexpr std::array<Row, 9> rows{{{107.2, 0.02, 3.0, 0.9, 1.0, 54.2, 0.97},
                                     {107.2, 0.02, 5.0, 0.9, 1.0, 49.8, 1.21},
                                     {107.2, 0.05, 10.0, 0.9, 1.0, 51.6, 1.60},
                                     {121.1, 0.05, 5.0, 0.9, 0.9, 59.4, 1.40},
                                     {121.1, 0.08, 5.0, 0.9, 0.7, 68.0, 1.24},
                                     {135.0, 0.08, 3.0, 0.9, 1.0, 66.9, 1.44},
                                     {107.2, 0.02, 10.0, 0.0, 1.0, 39.3, 1.02},
                                     {121.1, 0.02, 10.0, 0.0, 1.0, 41.0, 1.20},
                                     {135.0, 0.02, 10.0, 0.0, 1.0, 42.6, 1.39}}};
  for (const Row &row : rows) {
    CAPTURE(row.air);
    CAPTURE(row.humidity);
    CAPTURE(row.film);
    const WetSurfaceConditions conditions{.air_temperature = row.air,
                                          .vapour_pressure =
                                              vapour_pressure_from_humidity_ratio(row.humidity),
                                          .film_coefficient = row.film,
                                          .emissivity = row.emissivity,
                                          .radiant_temperature = row.air,
                                          .water_activity = row.activity};
    const WetSurface s = wet_surface(conditions);
    CHECK(std::abs(s.temperature - row.surface) < 0.06);
    CHECK(std::abs(s.evaporation * seconds_per_hour - row.evaporation) < 0.0065);
    CHECK(wet_surface_temperature(conditions) == s.temperature);
    // The balance closes.
    CHECK(std::abs(s.convection + s.radiation - s.evaporation * latent_heat(s.temperature)) < 1e-6);
  }
}

TEST_CASE("wet surface: a psychrometer reads close to the thermodynamic wet bulb") {
  // Without radiation the surface is a psychrometer. For air and water the Lewis number is near 1, so both
  // temperatures nearly agree (ASHRAE Fundamentals, ch. 1); the wick reads half a kelvin high in dry air of
  // 40 °C.
  const double p_v = vapour_pressure_from_humidity_ratio(0.0065);
  WetSurfaceConditions psychrometer{.air_temperature = 40.0,
                                    .vapour_pressure = p_v,
                                    .film_coefficient = 20.0,
                                    .emissivity = 0.0,
                                    .radiant_temperature = 40.0};
  CHECK(std::abs(wet_surface_temperature(psychrometer) - wet_bulb(40.0, p_v)) < 0.6);
  // It does not depend on the speed of the air; with radiation it does.
  const double fast = wet_surface_temperature(psychrometer);
  psychrometer.film_coefficient = 4.0;
  CHECK(std::abs(wet_surface_temperature(psychrometer) - fast) < 1e-9);
  psychrometer.emissivity = 0.9;
  CHECK(wet_surface_temperature(psychrometer) > fast + 1.0);
}

TEST_CASE("a wet surface out of range names the field") {
  const auto field_of = [](auto &&call) -> std::string {
    try {
      static_cast<void>(call());
    } catch (const InvalidInput &error) {
      return error.field();
    }
    return "nothing thrown";
  };
  CHECK(field_of([] { return wet_surface({.film_coefficient = 0.0}); }) == "film_coefficient");
  CHECK(field_of([] { return wet_surface({.emissivity = 90.0}); }) == "emissivity");
  CHECK(field_of([] { return wet_surface({.water_activity = 0.0}); }) == "water_activity");
  CHECK(field_of([] { return wet_surface({.vapour_pressure = -1.0}); }) == "vapour_pressure");
  CHECK(field_of([] { return wet_surface({.air_temperature = 500.0}); }) == "air_temperature");
  // Glowing walls and hardly any air to carry vapour off: no steady surface below 200 °C.
  CHECK(field_of([] {
          return wet_surface({.film_coefficient = 1e-4, .emissivity = 1.0, .radiant_temperature = 1000.0});
        }) == "radiant_temperature");
}
