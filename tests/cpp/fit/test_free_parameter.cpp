// Numbers that a log can teach: reading them from a plan and writing them into one.
#include <cmath>

#include "cook/errors.hpp"
#include "cook/fit/free_parameter.hpp"

#include "cooks.hpp"
#include "fit/invented_logs.hpp"

#include <doctest/doctest.h>

using namespace cook;
using namespace cook::testing;

TEST_CASE("every number can be written into a plan and read back") {
  Plan plan = nominal_plan();
  for (const FreeKind &kind : free_kinds()) {
    CAPTURE(kind.name);
    Plan changed = plan;
    if (kind.name == "air_flow") {
      changed.stages[0].surroundings.pit_air = PitAir{};
    }
    const double before = value_in(changed, kind.name);
    const double wanted = kind.scale == Scale::logarithmic ? 1.3 * before : before + 0.7 * kind.spread;
    set_value(changed, kind.name, wanted);
    changed.validate();
    if (kind.name == "sensor_offset" || kind.name == "pit_offset") {
      CHECK(value_in(changed, kind.name) == 0.0); // an offset is against what the plan says, whatever that is
    } else {
      CHECK(value_in(changed, kind.name) == doctest::Approx(wanted).epsilon(1e-9));
    }
  }
}

TEST_CASE("thickness keeps the mass, in a section too") {
  Plan plan = nominal_plan();
  plan.meat = with_section(plan.meat, brisket_section(plan.meat));
  const double mass = plan.meat.mass();
  set_value(plan, "thickness", 0.055);
  CHECK(plan.meat.shape.thickness == 0.055);
  CHECK(plan.meat.mass() == doctest::Approx(mass).epsilon(1e-12)); // it was weighed with its fat cap
  CHECK(plan.meat.section->volume() == doctest::Approx(plan.meat.shape.volume()).epsilon(1e-12));
  plan.validate();

  Plan round;
  round.meat = testing::roll();
  round.stages = nominal_plan().stages;
  const double before = round.meat.shape.volume();
  set_value(round, "thickness", 0.12);
  CHECK(round.meat.shape.volume() == doctest::Approx(before));
}

TEST_CASE("ratios between stages stay, and what does not heat is left alone") {
  Plan plan = nominal_plan();
  plan.stages[1].surroundings = oven(120.0);
  set_value(plan, "vapour_pressure", 2.0 * value_in(plan, "vapour_pressure"));
  CHECK(plan.stages[0].surroundings.vapour_pressure.at(0.0) == doctest::Approx(16000.0));
  CHECK(plan.stages[1].surroundings.vapour_pressure.at(0.0) == doctest::Approx(8000.0));
  CHECK(plan.stages[2].surroundings.vapour_pressure.at(0.0) ==
        doctest::Approx(counter().vapour_pressure.at(0.0)));
  set_value(plan, "pit_offset", 5.0);
  CHECK(plan.stages[0].surroundings.air.at(0.0) == 123.0);
  CHECK(plan.stages[2].surroundings.air.at(0.0) == 21.0);
  set_value(plan, "wrap_resistance", 500.0);
  CHECK(plan.stages[0].wrap.top.vapour_resistance == 0.0);
  CHECK(plan.stages[1].wrap.top.vapour_resistance == 500.0);
  CHECK(plan.stages[2].wrap.top.vapour_resistance == wrap("foil").top.vapour_resistance);
}

TEST_CASE("a probe keeps its distance from the middle when the thickness changes") {
  Plan plan = nominal_plan();
  plan.stages[1].probe = Probe{};            // on the middle, as the first
  plan.stages[2].probe = Probe{.z = 0.0225}; // too, but said
  plan.probes = {{.name = "skin", .x = 0.1, .z = 0.044}};
  set_value(plan, "probe_distance", 0.008);
  CHECK(*plan.stages[0].probe->z == doctest::Approx(0.0305));
  CHECK(*plan.stages[1].probe->z == doctest::Approx(0.0305));
  CHECK(*plan.stages[2].probe->z == doctest::Approx(0.0305));
  plan.stages[1].probe.reset(); // goes on with the one before
  plan.stages[2].probe->z = 0.010;
  const double extent = plan.meat.shape.extent;
  set_value(plan, "thickness", 0.060);
  CHECK(*plan.stages[0].probe->z == doctest::Approx(0.038));
  CHECK(!plan.stages[1].probe);
  CHECK(*plan.stages[2].probe->z == doctest::Approx(0.0175));
  CHECK(*plan.probes[0].z == doctest::Approx(0.044 * 0.060 / 0.045)); // at its share: still under the skin
  CHECK(*plan.probes[0].x == doctest::Approx(0.1 * std::sqrt(plan.meat.shape.extent / extent)));
  plan.stages[0].probe->z = 0.020;
  set_value(plan, "probe_distance", 0.004);
  CHECK(*plan.stages[0].probe->z == doctest::Approx(0.026));  // stays below the middle
  CHECK(*plan.stages[2].probe->z == doctest::Approx(0.0175)); // a cook has moved it there
}

TEST_CASE("a probe that was put on the middle stays there when the thickness changes") {
  Plan plan = nominal_plan();
  plan.stages[0].probe = Probe{.z = 0.0225};
  set_value(plan, "thickness", 0.040);
  CHECK(*plan.stages[0].probe->z == doctest::Approx(0.020));
}

TEST_CASE("numbers that have nothing to be scaled from are written as they are") {
  Plan plan = nominal_plan();
  Surroundings &smoke = plan.stages[0].surroundings;
  smoke.bottom = smoke.top = {.kind = Convection::given, .value = 0.0};
  smoke.vapour_pressure = Signal(0.0);
  for (const auto &[name, value] :
       {std::pair{"film_coefficient", 7.0}, std::pair{"vapour_pressure", 5000.0}}) {
    CHECK(value_in(plan, name) == 0.0);
    set_value(plan, name, value);
    CHECK(value_in(plan, name) == doctest::Approx(value).epsilon(1e-12));
  }
  // Air as warm as the meat's surface: still air carries nothing, its film is named 10 K from there.
  plan.stages[1].surroundings.air = Signal(65.0);
  plan.stages.erase(plan.stages.begin());
  plan.stages[0].until = {{EndKind::core, 60.0}};
  CHECK(value_in(plan, "film_coefficient") > 1.0);
  set_value(plan, "film_coefficient", 6.0);
  CHECK(value_in(plan, "film_coefficient") == doctest::Approx(6.0).epsilon(1e-12));
  plan.validate();
}

TEST_CASE("names that do not exist or do not fit") {
  Plan plan = nominal_plan();
  CHECK_THROWS_WITH_AS((void)free_kind("thicknes"),
                       "free: 'thicknes' is no number that can be fitted; did you mean 'thickness'?",
                       InvalidInput);
  CHECK_THROWS_AS((void)value_in(plan, "air_flow"), InvalidInput);
  plan.stages.erase(plan.stages.begin() + 1, plan.stages.end());
  CHECK_THROWS_WITH_AS(
      (void)value_in(plan, "wrap_resistance", "free[2]"),
      "free[2]: 'wrap_resistance' cannot be fitted: no stage of the plan has a wrap that breathes",
      InvalidInput);
  plan.meat.fat_cap.side = FatSide::none;
  CHECK_THROWS_AS((void)value_in(plan, "fat_cap"), InvalidInput);
  plan.stages[0].surroundings.pit_air = PitAir{};
  CHECK_THROWS_AS((void)value_in(plan, "vapour_pressure"), InvalidInput);
}

TEST_CASE("which stage is called done") {
  Plan plan = nominal_plan();
  CHECK(done_stage(plan) == 1);
  plan.stages[1].until = {{EndKind::elapsed, 7200.0}};
  CHECK(done_stage(plan) == 0);
  plan.stages[0].until = {{EndKind::elapsed, 7200.0}};
  CHECK(done_stage(plan) == 1);
  plan.stages[0].surroundings = plan.stages[1].surroundings = counter();
  CHECK(done_stage(plan) == 2);
}
