// Conversions and constants of cook/units.hpp against the definitions of the units.
#include "cook/units.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace cook;

TEST_CASE("fixed points of the temperature scales") {
  // Ice and steam point on the Fahrenheit scale, and -40 where the scales meet: definition of the scale.
  static_assert(celsius_from_fahrenheit(32.0) == 0.0);
  static_assert(celsius_from_fahrenheit(212.0) == 100.0);
  static_assert(celsius_from_fahrenheit(-40.0) == -40.0);
  static_assert(kelvin(0.0) == 273.15);
  CHECK(std::abs(fahrenheit_from_celsius(celsius_from_fahrenheit(203.0)) - 203.0) < 1e-12);
  CHECK(celsius_from_kelvin(kelvin(20.0)) == doctest::Approx(20.0).epsilon(1e-14));
}

TEST_CASE("a temperature difference has no offset") {
  static_assert(kelvin_from_fahrenheit_difference(9.0) == 5.0);
  static_assert(fahrenheit_difference_from_kelvin(5.0) == 9.0);
  CHECK(std::abs((celsius_from_fahrenheit(250.0) - celsius_from_fahrenheit(225.0)) -
                 kelvin_from_fahrenheit_difference(25.0)) < 1e-12);
}

TEST_CASE("mass, length and time") {
  // NIST SP 811, appendix B: the pound and the inch are exact.
  static_assert(kilograms_from_pounds(1.0) == 0.45359237);
  static_assert(metres_from_inches(1.0) == 0.0254);
  static_assert(seconds_from_minutes(90.0) == seconds_from_hours(1.5));
  CHECK(std::abs(pounds_from_kilograms(kilograms_from_pounds(14.0)) - 14.0) < 1e-12);
  CHECK(std::abs(inches_from_metres(metres_from_inches(2.5)) - 2.5) < 1e-12);
  CHECK(minutes_from_seconds(5400.0) == 90.0);
  CHECK(hours_from_seconds(5400.0) == 1.5);
}

TEST_CASE("derived constants") {
  // Stefan-Boltzmann from CODATA 2018 h, c and k (exact in the SI): 2 pi^5 k^4 / (15 h^3 c^2).
  const double k = 1.380649e-23;
  const double h = 6.62607015e-34;
  const double c = 299792458.0;
  const double pi = std::acos(-1.0);
  CHECK(std::abs(2.0 * std::pow(pi, 5) * std::pow(k, 4) / (15.0 * h * h * h * c * c) / stefan_boltzmann -
                 1.0) < 1e-9);
  // Gas constant = Boltzmann times Avogadro.
  CHECK(std::abs(k * 6.02214076e23 / gas_constant - 1.0) < 1e-9);
  // ASHRAE Handbook - Fundamentals 2017, ch. 1: 287.042 and 461.524 J/(kg K).
  CHECK(std::abs(gas_constant_dry_air - 287.042) < 1e-3);
  CHECK(std::abs(gas_constant_water - 461.524) < 2e-3);
}
