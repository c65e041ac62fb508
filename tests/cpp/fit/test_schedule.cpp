// When to start: confidence, waiting, holding, what would be quicker.
#include "cook/errors.hpp"
#include "cook/fit/schedule.hpp"
#include "cook/units.hpp"

#include "fit/invented_logs.hpp"

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

TEST_CASE("the start keeps the wanted chance, and more certainty means an earlier start" *
          doctest::test_suite("repeats")) {
  const Schedule s = start_by(nominal_plan(), dinner());
  CHECK(s.chance_late_with_remedies <= 0.105 + s.never);
  CHECK(s.chance_late_with_remedies > 0.05);
  CHECK(s.start == doctest::Approx(18 * 3600.0 - s.duration_with_remedies));
  CHECK(s.latest == s.start);
  CHECK(s.duration50 < s.duration_with_remedies);
  REQUIRE(s.stages.size() == 3);
  CHECK(s.stages[2].sure == doctest::Approx(s.duration_with_remedies));
  CHECK(s.hold50 == doctest::Approx(s.duration_with_remedies - s.stages[2].median));
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

TEST_CASE("late cooks are hurried at looks in the order of the cook, and that allows a later start") {
  const Schedule s = start_by(nominal_plan(), dinner());
  REQUIRE(s.remedies.size() >= 2);
  double before = 0.0;
  double late = 0.0;
  for (const Remedy &r : s.remedies) {
    CAPTURE(r.what);
    CHECK(r.by > before);
    CHECK(r.sooner >= 0.0);
    CHECK(r.what.find("hotter") != std::string::npos);
    r.plan.validate();
    before = r.by;
    late += r.late;
  }
  CHECK(s.remedies.front().late == doctest::Approx(1.0 - schedule_late_from).epsilon(0.1));
  CHECK(s.remedies.front().what.find("foil") != std::string::npos);
  CHECK(s.remedies.front().sooner > 1800.0);
  CHECK(late < 0.6);
  CHECK(s.duration_with_remedies < s.duration - 1800.0);
  CHECK(s.chance_late_with_remedies < s.chance_late);
  ScheduleOptions untouched = dinner();
  untouched.remedies = false;
  const Schedule alone = start_by(nominal_plan(), untouched);
  CHECK(alone.remedies.empty());
  CHECK(alone.duration == s.duration);
  CHECK(alone.duration_with_remedies == alone.duration);
  CHECK(alone.start == doctest::Approx(18 * 3600.0 - s.duration));
  CHECK(alone.chance_late == alone.chance_late_with_remedies);
}

TEST_CASE("a large cut in a cool pit gets a start that a cook can use" * doctest::test_suite("repeats")) {
  // 225 °F, foil at 165 °F: at the median's length times 1.4, late ones hurried, dinner is on time.
  Plan plan;
  Stage smoke;
  smoke.surroundings = pit("drum", celsius_from_fahrenheit(225.0));
  smoke.until = {{EndKind::core, celsius_from_fahrenheit(165.0)}};
  Stage wrapped = smoke;
  wrapped.name = "wrapped";
  wrapped.wrap = wrap("foil");
  wrapped.until = {{EndKind::core, celsius_from_fahrenheit(203.0)}};
  Stage rest;
  rest.name = "rest";
  rest.surroundings = insulated_box(21.0);
  rest.wrap = wrap("foil");
  rest.until = {{EndKind::elapsed, 3600.0}};
  plan.stages = {smoke, wrapped, rest};
  constexpr double pound = 0.45359237;
  for (const Meat &meat : {brisket(14 * pound), pork_shoulder(9 * pound)}) {
    CAPTURE(meat.tissue.name);
    plan.meat = meat;
    const Schedule s = start_by(plan, dinner());
    CHECK(s.duration_with_remedies < 1.4 * s.duration50);
    CHECK(s.duration_with_remedies < 24 * 3600.0);
    CHECK(s.chance_late_with_remedies <= 0.105 + s.never);
    CHECK(s.never > 0.0);
    bool said = false;
    for (const std::string &warning : s.warnings) {
      said = said || warning.find("never get done") != std::string::npos;
    }
    CHECK(said);
  }
}

TEST_CASE("refused only where more than half of the cooks never end") {
  Plan plan = nominal_plan();
  for (Stage &stage : plan.stages) {
    if (heats(stage)) {
      stage.surroundings = pit("drum", 94.5);
    }
  }
  CHECK_THROWS_WITH_AS((void)start_by(plan, dinner()), doctest::Contains("never get done"), InvalidInput);
}

TEST_CASE("what a fit found of film and thickness goes together to a piece of the same kind" *
          doctest::test_suite("repeats")) {
  // Both larger than thought: the fitted film alone, with the thickness of the plan, is a much quicker cook.
  const InventedCook cook = invent(with(nominal_plan(), {{"thickness", 0.065}, {"film_coefficient", 7.0}}));
  FitOptions options;
  options.model_error = slab_model_error();
  const std::vector<FreeParameter> free{{.name = "film_coefficient", .spread = 0.5},
                                        {.name = "thickness", .spread = 0.4}};
  const Fit fit = calibrate(nominal_plan(), cook.log, free, options);
  const double length = simulate(fit.plan)->time.back();
  ScheduleOptions wanted = dinner();
  wanted.alternatives = false;
  CHECK(start_by(nominal_plan(), wanted, &fit).duration50 == doctest::Approx(length).epsilon(0.15));
  CHECK(start_by(fit.plan, wanted, &fit).duration50 == doctest::Approx(length).epsilon(0.15));
  // A piece that nobody has seen keeps its own thickness.
  Plan other = nominal_plan();
  other.meat = brisket(5.9, 0.045);
  CHECK(start_by(other, wanted, &fit).duration50 < 0.85 * length);
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

TEST_CASE("an uncertain cook asks for a log only where none was given" * doctest::test_suite("repeats")) {
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

TEST_CASE("how long it stays hot" * doctest::test_suite("repeats")) {
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
  // As sure of the model as of an invented cook: errors as of real ones leave one log little to teach.
  FitOptions sure;
  sure.model_error = slab_model_error();
  const Fit fit = calibrate(nominal_plan(), cook.log,
                            named({"film_coefficient", "vapour_pressure", "wrap_resistance"}), sure);
  ScheduleOptions wanted = dinner();
  wanted.forecast.model_error = slab_model_error();
  const Schedule fresh = start_by(nominal_plan(), wanted);
  const Schedule tuned = start_by(nominal_plan(), wanted, &fit);
  // As a share: the tuned cook may be a longer one.
  CHECK(tuned.duration / tuned.duration50 < fresh.duration / fresh.duration50);
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
