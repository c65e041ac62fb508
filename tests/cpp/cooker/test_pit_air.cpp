// The vapour balance of a chamber: steady state, derivatives, limits and bad input.
#include "cook/cooker/humid_air.hpp"
#include "cook/cooker/pit_air.hpp"
#include "cook/errors.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace cook;

TEST_CASE("what a chamber holds: density of humid air") {
  constexpr double volume = 0.2;
  constexpr double t = 110.0;
  constexpr double vapour = 9000.0;
  const double held = chamber_dry_air(volume, t, vapour) + chamber_vapour_capacity(volume, t) * vapour;
  CHECK(held == doctest::Approx(volume * humid_air_density(t, vapour)).epsilon(1e-12));
  // Dry air at 1 atm and 110 °C: 0.921 kg/m3.
  CHECK(chamber_dry_air(1.0, t, 0.0) == doctest::Approx(0.921).epsilon(1e-3));
}

TEST_CASE("steady vapour pressure: hand evaluation and inverse") {
  PitAir air;
  air.air_flow = 4.0 / 3600.0;
  air.inlet_vapour_pressure = vapour_pressure_from_humidity_ratio(0.008);
  air.fuel_water = 0.048 / 3600.0;
  // 4 kg/h of air with 0.008 kg/kg, 0.048 kg/h from the fuel and 0.2 kg/h from the meat: w = 0.008 + 0.012 +
  // 0.05 = 0.070; p_v = 101325 x 0.07 / 0.69195 = 10 250 Pa.
  const double steady = steady_vapour_pressure(air, 0.2 / 3600.0);
  CHECK(steady == doctest::Approx(10250.0).epsilon(2e-4));
  for (const double evaporation : {-1e-5, 0.0, 1e-5, 1e-3, 0.1, 1.0}) {
    CAPTURE(evaporation);
    const double p = steady_vapour_pressure(air, evaporation);
    CHECK(vapour_outflow(air, p).value == doctest::Approx(vapour_inflow(air) + evaporation).epsilon(1e-9));
  }
  // Nothing but what comes in: the inlet's own humidity.
  air.fuel_water = 0.0;
  CHECK(steady_vapour_pressure(air, 0.0) == doctest::Approx(air.inlet_vapour_pressure).epsilon(1e-12));
  CHECK(steady_vapour_pressure(air, -1.0) == 0.0);
}

TEST_CASE("two pieces, and a tighter chamber, make it more humid") {
  PitAir air;
  const double one = steady_vapour_pressure(air, 5e-5);
  CHECK(steady_vapour_pressure(air, 2.0 * 5e-5) > 1.3 * one);
  PitAir draughty = air;
  draughty.air_flow *= 3.0;
  CHECK(steady_vapour_pressure(draughty, 5e-5) < 0.7 * one);
}

TEST_CASE("outflow: its derivative, and finite beyond the total pressure") {
  const PitAir air;
  double before = -1.0;
  for (const double p : {0.0, 1200.0, 8000.0, 4e4, 9e4, 0.9799 * 101325.0, 0.9801 * 101325.0, 1.05e5, 2e5}) {
    CAPTURE(p);
    const VapourTerm out = vapour_outflow(air, p);
    const double difference = (vapour_outflow(air, p + 0.1).value - vapour_outflow(air, p - 0.1).value) / 0.2;
    CHECK(out.slope == doctest::Approx(difference).epsilon(1e-5));
    CHECK(std::isfinite(out.value));
    CHECK(out.value > before);
    before = out.value;
  }
}

TEST_CASE("bad chambers' air is refused by name") {
  PitAir air;
  CHECK_NOTHROW(air.validate());
  air.air_flow = 4.0;
  CHECK_THROWS_WITH_AS(
      air.validate("pit.air_flow"),
      "pit.air_flow.air_flow: 4 kg/s; accepted: 1e-06 to 0.5 kg/s; a flow in kg/h? Write it "
      "as '4 kg/h'; in an airtight cooker nothing evaporates: simulate(..., evaporation=False)",
      InvalidInput);
  air.air_flow = 0.0;
  CHECK_THROWS_AS(air.validate(), InvalidInput);
  air = {};
  air.inlet_vapour_pressure = -1.0;
  CHECK_THROWS_AS(air.validate(), InvalidInput);
  air = {};
  air.volume = 150.0;
  CHECK_THROWS_AS(air.validate(), InvalidInput);
  air = {};
  air.meat_count = std::nan("");
  CHECK_THROWS_AS(air.validate(), InvalidInput);
  air = {};
  air.pan = WaterPan{};
  air.pan->area = -0.1;
  CHECK_THROWS_AS(air.validate(), InvalidInput);
}
