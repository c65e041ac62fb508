// Film correlations against textbook examples and published evaluations.
#include "cook/cooker/film_coefficient.hpp"
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

TEST_CASE("natural convection correlations: published evaluations") {
  // Values from the tests of `ht`, a general heat-transfer library, all digits; tolerance is their rounding.
  // Incropera & DeWitt example 9.2 (vertical plate, Pr 0.69, Gr 2.63e9) prints 147.
  CHECK(relative_error(nusselt_vertical_plate(0.69 * 2.63e9, 0.69), 147.1619) < 1e-6);
  CHECK(std::abs(nusselt_vertical_plate(0.69 * 2.63e9, 0.69) - 147.0) < 0.5);
  CHECK(relative_error(nusselt_horizontal_cylinder(0.69 * 2.63e9, 0.69), 139.1349) < 1e-6);
  CHECK(relative_error(nusselt_sphere(0.7 * 1.0e7, 0.7), 25.67087) < 1e-6);
  CHECK(relative_error(nusselt_plate_buoyant(5.54 * 3.21e8), 181.7312) < 1e-6);
  CHECK(relative_error(nusselt_plate_stable(5.54 * 3.21e8), 55.4456) < 2e-6);
}

TEST_CASE("forced convection correlations") {
  // Incropera & DeWitt example 7.4: cylinder in cross flow, Re 6071, Pr 0.70, Nu 40.6; all digits from
  // the tests of `ht`.
  CHECK(relative_error(nusselt_cross_flow_cylinder(6071.0, 0.7), 40.63709) < 1e-6);
  CHECK(std::abs(nusselt_cross_flow_cylinder(6071.0, 0.7) - 40.6) < 0.05);
  // Pohlhausen's mean, Re 1e4 and Pr 1: 66.4.
  CHECK(relative_error(nusselt_forced_plate_laminar(1.0e4, 1.0), 66.4) < 1e-12);
  CHECK(nusselt_forced_plate(1.0e4, 0.7) == nusselt_forced_plate_laminar(1.0e4, 0.7));
  // 871 is the laminar run's worth of 0.037 Re^0.8 - 0.664 Re^0.5 at Re = 5e5: the branches meet there within
  // 0.2 %.
  CHECK(relative_error(nusselt_forced_plate(5.0e5 * 1.000001, 0.7), nusselt_forced_plate(5.0e5, 0.7)) < 2e-3);
  // Far downstream nearly all of the plate is turbulent: 0.037 Re^0.8 is 2.8 % above 0.036 Re^0.8, which `ht`
  // gives as 2074.874 at Re 1.03e6, Pr 0.71; less the laminar run's 871 Pr^(1/3).
  CHECK(relative_error(nusselt_forced_plate(1.03e6, 0.71) + 871.0 * std::cbrt(0.71), 2074.874 * 37.0 / 36.0) <
        1e-6);
}

TEST_CASE("correlations: limits") {
  // No buoyancy, pure conduction: the sphere's 2 is exact theory; a stagnant plate has none left.
  CHECK(nusselt_sphere(0.0, 0.7) == 2.0);
  CHECK(nusselt_plate_buoyant(0.0) == 0.0);
  CHECK(relative_error(nusselt_vertical_plate_laminar(0.0, 0.7), 0.68) < 1e-14);
  // Both forms for the vertical plate agree within 10 % at the size of a cut of meat (Ra 1e5 to 2.5e7).
  for (const double rayleigh : {1.0e5, 3.0e5, 1.0e6, 3.0e6, 1.0e7, 2.5e7}) {
    CHECK(relative_error(nusselt_vertical_plate(rayleigh, 0.7),
                         nusselt_vertical_plate_laminar(rayleigh, 0.7)) < 0.10);
  }
  // The buoyant plate has no jump and always rises.
  double before = 0.0;
  for (int i = 0; i < 930; ++i) {
    const double rayleigh = 1.0e3 * std::pow(1.02, i); // up to 1e11
    const double nusselt = nusselt_plate_buoyant(rayleigh);
    CHECK(nusselt > before);
    if (before > 0.0) {
      CHECK(nusselt / before < 1.007);
    }
    before = nusselt;
  }
}

TEST_CASE("slab of 0.30 m x 0.20 m in a pit") {
  // Separately computed table, rounded to 0.1: air and surface [°C], h on top, h at the bottom [W m-2 K-1];
  // length A / P = 0.06 m. Cold meat: the top is the stable side. Guards sides, signs and film properties.
  struct Row {
    double air, surface, top, bottom;
  };
  constexpr std::array<Row, 5> rows{
      {{107., 50., 3.7, 7.4},
       {121., 60., 3.7, 7.5},
       {135., 60., 3.9, 7.8},
       {121., 90., 3.1, 6.2},
       {25., 60., 6.8, 3.4}}}; // the last one rests on a counter: sides change roles
  for (const Row &row : rows) {
    CAPTURE(row.air);
    CAPTURE(row.surface);
    CHECK(std::abs(natural_plate(row.surface, row.air, 0.06, Facing::up) - row.top) < 0.06);
    CHECK(std::abs(natural_plate(row.surface, row.air, 0.06, Facing::down) - row.bottom) < 0.06);
  }
  CHECK(relative_error(air_rayleigh(78.5, 57.0, 0.06), 5.6e5) < 0.02);
  CHECK(natural_plate(60.0, 60.0, 0.06, Facing::up) == 0.0);
}

TEST_CASE("quarter-power coefficient agrees with the full calculation") {
  for (const bool buoyant : {true, false}) {
    // The surface is colder, so the side that looks down is the buoyant one.
    const double h = natural_plate(60.0, 121.0, 0.06, buoyant ? Facing::down : Facing::up);
    const double b = natural_plate_coefficient(90.5, 0.06, buoyant);
    CHECK(relative_error(b * std::pow(61.0, 0.25), h) < 1e-12);
  }
  // It is weak in the film temperature, as the header says.
  CHECK(relative_error(natural_plate_coefficient(110.0, 0.06, true),
                       natural_plate_coefficient(90.0, 0.06, true)) < 0.02);
}

TEST_CASE("forced flow along a slab") {
  // Separately computed, film 90 °C, length 0.3 m, rounded to 0.1: 0.3, 0.5, 1, 2, 3 m/s.
  constexpr std::array<std::array<double, 2>, 5> table{
      {{0.3, 3.9}, {0.5, 5.0}, {1.0, 7.1}, {2.0, 10.1}, {3.0, 12.3}}};
  for (const auto &row : table) {
    const double velocity = row[0];
    const double h = row[1];
    CAPTURE(velocity);
    CHECK(std::abs(forced_plate(velocity, 0.3, 90.0) - h) < 0.06);
  }
  CHECK(forced_plate(0.0, 0.3, 90.0) == 0.0);
  // Cylinder of 0.12 m across the same flow: 5.3 W/(m2 K) at 0.3 m/s, 18.1 at 3 m/s.
  const auto cylinder = [](double velocity) {
    return nusselt_cross_flow_cylinder(air_reynolds(90.0, velocity, 0.12), air_prandtl(90.0)) *
           air_conductivity(90.0) / 0.12;
  };
  CHECK(std::abs(cylinder(0.3) - 5.3) < 0.06);
  CHECK(std::abs(cylinder(3.0) - 18.1) < 0.1);
}

TEST_CASE("validity is reported, not thrown") {
  CHECK(validity(FilmCorrelation::plate_stable).low == 1.0e5);
  CHECK(validity(FilmCorrelation::cross_flow_cylinder).number == "Re Pr");
  CHECK(range_report(FilmCorrelation::plate_buoyant, 5.6e5).empty());
  const std::string report = range_report(FilmCorrelation::plate_stable, 2.0e4);
  CHECK(report ==
        "horizontal plate, stable side: Ra = 20000 is outside the range of the correlation, 100000 to 1e+10");
  CHECK_FALSE(range_report(FilmCorrelation::plate_buoyant, std::nan("")).empty());
}

TEST_CASE("bad input names the field") {
  const auto field_of = [](auto &&call) -> std::string {
    try {
      static_cast<void>(call());
    } catch (const InvalidInput &error) {
      return error.field();
    }
    return "nothing thrown";
  };
  CHECK(field_of([] { return natural_plate(60.0, 121.0, 60.0, Facing::up); }) == "length"); // millimetres
  CHECK(field_of([] { return natural_plate(60.0, 121.0, 0.0, Facing::up); }) == "length");
  CHECK(field_of([] { return natural_plate(60.0, -273.15, 0.06, Facing::up); }) == "air_temperature");
  CHECK(field_of([] { return natural_plate(std::nan(""), 121.0, 0.06, Facing::up); }) ==
        "surface_temperature");
  CHECK(field_of([] { return natural_plate_coefficient(5000.0, 0.06, true); }) == "film_temperature");
  CHECK(field_of([] { return forced_plate(-1.0, 0.3, 90.0); }) == "velocity");
  CHECK(field_of([] { return forced_plate(1.0, -0.3, 90.0); }) == "length");
}
