// When to start: confidence, waiting, holding, what would be quicker.
#include "cook/errors.hpp"
#include "cook/schedule.hpp"
#include "cook/units.hpp"

#include "invented_logs.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

using namespace cook;
using namespace cook::testing;

namespace {

ScheduleOptions dinner(double confidence = 0.9) {
  ScheduleOptions options;
  options.serve = 18 * 3600.0;
  options.confidence = confidence;
  options.forecast.members = 120;
  return options;
}

} // namespace

TEST_CASE("the start keeps the wanted chance, and more certainty means an earlier start") {
  const Schedule s = start_by(nominal_plan(), dinner());
  CHECK(s.chance_late <= 0.105);
  CHECK(s.chance_late > 0.05);
  CHECK(s.start == doctest::Approx(18 * 3600.0 - s.duration));
  CHECK(s.latest == s.start);
  CHECK(s.duration50 < s.duration);
  CHECK(s.hold50 == doctest::Approx(s.duration - s.duration50));
  CHECK(s.hold95 > s.hold50);
  CHECK(s.duration50 > simulate(nominal_plan())->stage_ends[1].time * 0.8);
  const Schedule surer = start_by(nominal_plan(), dinner(0.97));
  CHECK(surer.start < s.start);
  CHECK(surer.hold50 > s.hold50);
  CHECK(s.caution.find("food-safety") != std::string::npos);
}

TEST_CASE("what would be quicker is run, and helps when nobody gets up earlier") {
  const Schedule s = start_by(nominal_plan(), dinner());
  REQUIRE(s.alternatives.size() >= 2);
  for (const Alternative &a : s.alternatives) {
    CAPTURE(a.what);
    CHECK(a.sooner > 0.0);
    CHECK(a.duration == doctest::Approx(s.duration - a.sooner));
    CHECK(a.chance_late <= s.chance_late);
    a.plan.validate();
  }
  CHECK(s.alternatives.front().sooner >= s.alternatives.back().sooner);
  ScheduleOptions late = dinner();
  late.earliest = std::fmod(s.start + 3 * 3600.0 + 86400.0, 86400.0);
  const Schedule pressed = start_by(nominal_plan(), late);
  CHECK(pressed.start > pressed.latest);
  CHECK(pressed.chance_late > s.chance_late + 0.1);
  CHECK(pressed.warnings.front().find("late in") != std::string::npos);
  CHECK(pressed.alternatives.front().chance_late < pressed.chance_late);
}

TEST_CASE("an unwrapped plan is offered wraps") {
  Plan bare = nominal_plan();
  bare.stages.erase(bare.stages.begin());
  bare.stages[0].wrap = wrap("none");
  const Schedule s = start_by(bare, dinner());
  bool foil = false;
  for (const Alternative &a : s.alternatives) {
    foil = foil || a.what.find("foil at") != std::string::npos;
  }
  CHECK(foil);
}

TEST_CASE("temperatures are said as cooks read them, whatever the plan's digits") {
  Plan plan = nominal_plan();
  plan.stages[0].until = {{EndKind::core, celsius_from_fahrenheit(160.0)}};
  const Schedule s = start_by(plan, dinner());
  std::string said;
  for (const Alternative &a : s.alternatives) {
    said += a.what + "\n";
  }
  CAPTURE(said);
  CHECK(said.find("wrapped at 149 °F (65.1 °C) instead of 160 °F (71.1 °C)\n") != std::string::npos);
  CHECK(s.caution.find("keep hot food at 135 °F (57 °C) or above") != std::string::npos);
}

TEST_CASE("an uncertain cook asks for a log only where none was given") {
  const auto about_length = [](const Schedule &s) {
    for (const std::string &warning : s.warnings) {
      if (warning.find("length of this cook is uncertain") != std::string::npos) {
        return warning;
      }
    }
    return std::string();
  };
  const std::string fresh = about_length(start_by(nominal_plan(), dinner()));
  CHECK(fresh.find("a log of your own cooker narrows it") != std::string::npos);
  // A log that ends long before the wrap leaves most of it open.
  const InventedCook cook = invent(nominal_plan());
  const Fit fit = calibrate(nominal_plan(), until(cook, 2 * 3600.0), named({"vapour_pressure"}));
  const std::string tuned = about_length(start_by(nominal_plan(), dinner(), &fit));
  CHECK(tuned.find("a log of your own") == std::string::npos);
  CHECK(tuned.find("further logs of your cooker") != std::string::npos);
}

TEST_CASE("how long it stays hot") {
  const Schedule counter_rest = start_by(nominal_plan(), dinner());
  REQUIRE(counter_rest.stays_hot);
  Plan boxed = nominal_plan();
  boxed.stages[2].surroundings = insulated_box(21.0, {.start = 60.0});
  const Schedule box = start_by(boxed, dinner());
  REQUIRE(box.stays_hot);
  CHECK(*box.stays_hot > *counter_rest.stays_hot);
  Plan held = nominal_plan();
  held.stages[2].surroundings = oven(70.0);
  CHECK_FALSE(start_by(held, dinner()).stays_hot);
  bool said = false;
  for (const std::string &warning : counter_rest.warnings) {
    said = said || warning.find("warm oven") != std::string::npos;
  }
  CHECK(said == (counter_rest.hold95 > *counter_rest.stays_hot));
}

TEST_CASE("a calibrated cooker allows a later start") {
  const InventedCook cook = invent(nominal_plan());
  const Fit fit =
      calibrate(nominal_plan(), cook.log, named({"film_coefficient", "vapour_pressure", "wrap_resistance"}));
  const Schedule fresh = start_by(nominal_plan(), dinner());
  const Schedule tuned = start_by(nominal_plan(), dinner(), &fit);
  CHECK(tuned.duration - tuned.duration50 < fresh.duration - fresh.duration50);
}

TEST_CASE("what cannot be scheduled") {
  ScheduleOptions options = dinner(90.0);
  CHECK_THROWS_WITH_AS((void)start_by(nominal_plan(), options),
                       "confidence: 90; accepted: 0.5 to 0.99; 90 % is 0.9", InvalidInput);
  options = dinner();
  options.serve = 2e5;
  CHECK_THROWS_AS((void)start_by(nominal_plan(), options), InvalidInput);
  options = dinner();
  options.hold_limit = 135.0;
  CHECK_THROWS_AS((void)start_by(nominal_plan(), options), InvalidInput);
  Plan clocked = nominal_plan();
  clocked.clock_start = 0.0;
  clocked.stages[2].until = {{EndKind::clock, 3600.0}};
  CHECK_THROWS_AS((void)start_by(clocked, dinner()), InvalidInput);
}
