// The water pan: derivatives, its steady temperature, evaporation against a published correlation, running
// dry.
#include "cook/cooker/evaporation.hpp"
#include "cook/cooker/humid_air.hpp"
#include "cook/cooker/water_pan.hpp"
#include "cook/errors.hpp"
#include "cook/fields/parameters.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>

using namespace cook;

namespace {

struct At {
  double air, pan, vapour, water;
};

// Every rate's four derivatives against central differences.
void check_derivatives(const PanSetting &s, const At &at) {
  const PanRates r = pan_rates(s, at.air, at.pan, at.vapour, at.water);
  const std::array<PanTerm PanRates::*, 3> terms{&PanRates::evaporation, &PanRates::heat, &PanRates::warming};
  const std::array<double PanTerm::*, 4> slopes{&PanTerm::air, &PanTerm::pan, &PanTerm::vapour,
                                                &PanTerm::water};
  const std::array<double At::*, 4> inputs{&At::air, &At::pan, &At::vapour, &At::water};
  const std::array<double, 4> steps{1e-4, 1e-4, 1e-1, 1e-6};
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    At up = at;
    At down = at;
    up.*inputs[i] += steps[i];
    down.*inputs[i] -= steps[i];
    const PanRates above = pan_rates(s, up.air, up.pan, up.vapour, up.water);
    const PanRates below = pan_rates(s, down.air, down.pan, down.vapour, down.water);
    for (std::size_t k = 0; k < terms.size(); ++k) {
      CAPTURE(i);
      CAPTURE(k);
      const double difference = ((above.*terms[k]).value - (below.*terms[k]).value) / (2.0 * steps[i]);
      const double slope = (r.*terms[k]).*slopes[i];
      // What rounding leaves of the difference.
      const double noise = 1e-15 * (std::abs((r.*terms[k]).value) + 1e-3 * std::abs(slope)) / steps[i];
      CHECK(std::abs(slope - difference) <= 2e-6 * std::abs(difference) + 10.0 * noise);
    }
  }
}

} // namespace

TEST_CASE("a pan's derivatives are those of its rates") {
  WaterPan natural;
  natural.radiant_bottom = 80.0;
  WaterPan given;
  given.film = {.kind = Convection::given, .value = 12.0};
  given.view = 0.6;
  WaterPan forced;
  forced.film = {.kind = Convection::forced, .value = 0.7, .length = 0.2};
  for (const WaterPan &pan : {natural, given, forced}) {
    const PanSetting s = pan_setting(pan, 85.0);
    for (const At &at :
         {At{110.0, 20.0, 8000.0, 2.0}, At{110.0, 62.0, 4000.0, 1.0}, At{110.0, 109.4, 4000.0, 0.004},
          At{90.0, 100.4, 3e4, 0.5}, At{20.0, 60.0, 1e3, 1e-4}, At{110.0, 70.0, 9.95e4, 1.0},
          At{110.0, 65.0, 6000.0, -1e-4}, At{201.0, 96.3, 9.95e4, -1e-4}}) {
      CAPTURE(at.air);
      CAPTURE(at.pan);
      CAPTURE(at.water);
      check_derivatives(s, at);
    }
  }
}

TEST_CASE("a pan that a step has overdrawn comes back, in dry air and in steam") {
  const PanSetting s = pan_setting(WaterPan{}, 85.0);
  for (const At &at : {At{110.0, 65.0, 6000.0, -1e-4}, At{201.0, 96.3, 9.95e4, -1e-4}}) {
    const PanTerm evaporation = pan_rates(s, at.air, at.pan, at.vapour, at.water).evaporation;
    CHECK(evaporation.value < 0.0);
    CHECK(evaporation.water > 0.0); // and the less the nearer it is
  }
}

TEST_CASE("a pan settles where wet_surface says") {
  // Heated at its surface and its bottom alike, a pan takes up twice the heat of a wet surface; with twice
  // the mass transfer it has to settle at the wet surface's temperature.
  WaterPan pan;
  pan.film = {.kind = Convection::given, .value = 6.0};
  pan.emissivity = 0.0;
  constexpr double air = 110.0;
  constexpr double vapour = 6000.0;
  WetSurfaceConditions conditions;
  conditions.air_temperature = conditions.radiant_temperature = air;
  conditions.vapour_pressure = vapour;
  conditions.film_coefficient = 6.0;
  conditions.emissivity = 0.0;
  const WetSurface wet = wet_surface(conditions);
  PanSetting s = pan_setting(pan, 0.5 * (air + wet.temperature));
  s.lewis *= 2.0;
  const PanRates r = pan_rates(s, air, wet.temperature, vapour, 1e3);
  CHECK(r.evaporation.value == doctest::Approx(2.0 * pan.area * wet.evaporation).epsilon(1e-4));
  CHECK(std::abs(r.warming.value / r.warming.pan) < 0.01); // K off balance
  // With its dry bottom heated the pan sits above the wet-bulb temperature.
  s.lewis *= 0.5;
  CHECK(pan_rates(s, air, wet.temperature, vapour, 1e3).warming.value > 0.0);
}

namespace {

// Shah, HVAC&R Research 8 (2002) 125, evaporation into quiet air [kg/m2h]: 35 rho_w (rho_r - rho_w)^(1/3)
// (W_w - W_r), with dry air per volume of humid air for the densities; from memory, checked below.
double shah(double water, double room, double room_humidity) {
  const double room_vapour = room_humidity * saturation_pressure(room);
  const double saturated = saturation_pressure(water);
  const double at_water = air_density(water, standard_atmosphere - saturated);
  const double in_room = air_density(room, standard_atmosphere - room_vapour);
  return 35.0 * at_water * std::cbrt(in_room - at_water) *
         (humidity_ratio(saturated) - humidity_ratio(room_vapour));
}

} // namespace

TEST_CASE("evaporation from hot water into a cool room: published correlation") {
  // A line of its author's look-up table, as found in public code: water and air at 28 °C, 50 %: 0.1360
  // kg/m2h.
  CHECK(shah(28.0, 28.0, 0.5) == doctest::Approx(0.1360).epsilon(0.01));
  // Its abstract: mean deviation 18 % from 11 sources of data, water at 7 to 94 °C, pools of 0.07 m2 and
  // more. A pool's film does not depend on its size; the quarter-power law of a pan meets that at a length of
  // 0.11 m.
  WaterPan pool;
  pool.film.length = 0.11;
  constexpr double room = 20.0;
  for (const double water : {30.0, 40.0, 50.0, 60.0, 70.0, 80.0}) {
    CAPTURE(water);
    const PanSetting s = pan_setting(pool, 0.5 * (room + water));
    const double ours =
        3600.0 * pan_rates(s, room, water, 0.5 * saturation_pressure(room), 1e9).evaporation.value / s.area;
    CHECK(ours == doctest::Approx(shah(water, room, 0.5)).epsilon(0.16));
  }
}

TEST_CASE("a pan never boils over nor runs below dry") {
  WaterPan pan;
  pan.radiant_bottom = 300.0;
  pan.water = 0.3;
  const PanSetting s = pan_setting(pan, 90.0);
  double t = pan.temperature;
  double m = pan.water;
  double given = 0.0;
  double hottest_wet = 0.0;
  double least = m;
  constexpr double step = 0.5; // s
  for (int i = 0; i < 2 * 3600 * 6; ++i) {
    const PanRates r = pan_rates(s, 120.0, t, 5000.0, m);
    t += step * r.warming.value;
    const double leaving = step * r.evaporation.value / (1.0 + step * r.evaporation.water); // implicit
    m -= leaving;
    given += leaving;
    if (m > 0.1) {
      hottest_wet = std::max(hottest_wet, t);
    }
    least = std::min(least, m);
  }
  CHECK(std::isfinite(t));
  CHECK(least >= 0.0);
  CHECK(m < 1e-4);
  CHECK(hottest_wet < 101.5); // boils
  CHECK(t > 150.0);           // then glows between air and coals
  CHECK(given + m == doctest::Approx(0.3).epsilon(1e-9));
}

TEST_CASE("a pan's rates are finite far out of its range") {
  const PanSetting s = pan_setting(WaterPan{}, 90.0);
  for (const double air : {-40.0, 20.0, 110.0, 300.0}) {
    for (const double pan : {-40.0, 0.0, air, 99.97, 200.0, 300.0}) {
      for (const double vapour : {-100.0, 0.0, 9.9e4, 101325.0, 2e5}) {
        for (const double water : {-1e-3, 0.0, 1e-12, 2.0}) {
          const PanRates r = pan_rates(s, air, pan, vapour, water);
          for (const PanTerm &term : {r.evaporation, r.heat, r.warming}) {
            CHECK(std::isfinite(term.value + term.air + term.pan + term.vapour + term.water));
          }
          CHECK((water == 0.0) == (r.evaporation.value == 0.0));
        }
      }
    }
  }
}

TEST_CASE("cold water lies under hot air, hot water stirs cold air") {
  const PanSetting s = pan_setting(WaterPan{}, 60.0);
  CHECK(s.surface_hot == 2.0 * s.surface_cold); // 0.54 over 0.27, McAdams
  CHECK(s.bottom_cold == 2.0 * s.bottom_hot);
}

TEST_CASE("a pan's trends") {
  const PanSetting s = pan_setting(WaterPan{}, 90.0);
  const auto evaporation = [&](double air, double pan, double vapour, double water) {
    return pan_rates(s, air, pan, vapour, water).evaporation.value;
  };
  CHECK(evaporation(110.0, 66.0, 6000.0, 1.0) > evaporation(110.0, 60.0, 6000.0, 1.0));
  CHECK(evaporation(110.0, 66.0, 12000.0, 1.0) < evaporation(110.0, 66.0, 6000.0, 1.0));
  CHECK(evaporation(110.0, 20.0, 6000.0, 1.0) < 0.0); // vapour condenses on cold water
  // Half of the pan's last film: a half of the evaporation of a full pan.
  CHECK(evaporation(110.0, 66.0, 6000.0, pan_last_film * s.area) ==
        doctest::Approx(0.5 * evaporation(110.0, 66.0, 6000.0, 1e6)).epsilon(1e-6));
  // In a cooker at 110 °C a pan of 0.05 m2 gives about as much as half a brisket: some 0.1 kg/h.
  CHECK(3600.0 * evaporation(110.0, 66.0, 6000.0, 1.0) == doctest::Approx(0.1).epsilon(0.2));
}

TEST_CASE("bad pans are refused by name") {
  WaterPan pan;
  pan.area = 500.0;
  CHECK_THROWS_WITH_AS(
      pan.validate("stages[0].water_pan"),
      "stages[0].water_pan.area: 500 m²; accepted: 0.0001 to 2 m²; an area in cm²? 500 cm² is "
      "0.05 m²",
      InvalidInput);
  pan = {};
  pan.temperature = 140.0;
  CHECK_THROWS_WITH_AS(
      pan.validate(),
      "water_pan.temperature: 140 °C; accepted: 0 to 100 °C; plain numbers are °C: did you mean "
      "'140 °F' (60 °C)?",
      InvalidInput);
  pan = {};
  pan.water = std::nan("");
  CHECK_THROWS_AS(pan.validate(), InvalidInput);
  pan = {};
  pan.film.length = 6.0;
  CHECK_THROWS_AS((void)pan_setting(pan, 90.0), InvalidInput);
  CHECK_THROWS_AS((void)pan_setting(WaterPan{}, 900.0), InvalidInput);
  CHECK_THROWS_AS((void)pan_setting(WaterPan{}, 90.0, 1.0), InvalidInput);
}

TEST_CASE("every number of a pan is in the table") {
  const WaterPan pan;
  CHECK(parameter("water_pan.area").value == pan.area);
  CHECK(parameter("water_pan.water").value == pan.water);
  CHECK(parameter("water_pan.temperature").value == pan.temperature);
  CHECK(parameter("water_pan.length").value == pan.film.length);
  CHECK(parameter("water_pan.emissivity").value == pan.emissivity);
  CHECK(parameter("water_pan.view").value == pan.view);
  CHECK(parameter("water_pan.radiant_bottom").value == pan.radiant_bottom);
  CHECK(parameter("water_pan.heat_capacity").value == pan.heat_capacity);
}
