/// Ends that are looked at now and then ("probe it every half hour"): the first check that passes ends the
/// stage, and one that never passes is reported.
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "cook/errors.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

Plan until(std::initializer_list<End> ends) {
  Plan plan = bare_cook(130.0);
  plan.meat = brisket(2.0, 0.03);
  plan.stages[0].until = ends;
  return plan;
}

double length(const Plan &plan, GridKind grid = GridKind::slab) {
  Options options;
  options.grid = grid;
  options.columns = 15;
  options.rows = 11;
  options.output_every = 600.0;
  const auto out = simulate(plan, options);
  return out->stage_ends.back().time - out->stage_ends.back().start;
}

} // namespace

TEST_CASE("the first check that passes ends the stage, on every mesh") {
  for (const GridKind grid : {GridKind::slab, GridKind::cross_section}) {
    for (const End &end : {End{EndKind::tender, 0.3}, End{EndKind::core, 80.0}}) {
      const double at_once = length(until({end}), grid);
      End checked = end;
      checked.every = 1800.0;
      const double checks = std::ceil(at_once / 1800.0);
      INFO("met after ", at_once / 60.0, " min");
      REQUIRE(std::fabs(at_once / 1800.0 - std::round(at_once / 1800.0)) > 1e-3);
      CHECK(length(until({checked}), grid) == doctest::Approx(1800.0 * checks).epsilon(1e-9));
      checked.every = 1e5; // not looked at in time, but the clock ends it
      CHECK(length(until({checked, {EndKind::elapsed, at_once + 500.0}}), grid) ==
            doctest::Approx(at_once + 500.0).epsilon(1e-9));
    }
  }
}

TEST_CASE("checks are counted from the start of their own stage, and name what was found") {
  Plan plan = until({{EndKind::elapsed, 1000.0}});
  Stage probing = plan.stages[0];
  probing.name = "probing";
  probing.until = {{EndKind::tender, 0.3, 1500.0}};
  plan.stages.push_back(probing);
  const auto out = simulate(plan);
  const StageEnd &end = out->stage_ends[1];
  const double checks = (end.time - 1000.0) / 1500.0;
  CHECK(checks == doctest::Approx(std::round(checks)).epsilon(1e-9));
  CHECK(end.reason.find("tender: 30 %") != std::string::npos);
  CHECK(out->tenderness.back() >= 0.3);
  const auto before = static_cast<std::size_t>((end.time - 1500.0) / 60.0);
  CHECK(out->tenderness[before] < 0.3);
}

TEST_CASE("of two ends with their own rhythms the first that is found met ends the stage") {
  const double warm = length(until({{EndKind::core, 80.0}}));
  const double tender = length(until({{EndKind::tender, 0.3}}));
  REQUIRE(warm < tender);
  const double by_core = 2400.0 * std::ceil(warm / 2400.0);
  const double by_feel = 900.0 * std::ceil(tender / 900.0);
  CHECK(length(until({{EndKind::core, 80.0, 2400.0}, {EndKind::tender, 0.3, 900.0}})) ==
        doctest::Approx(std::fmin(by_core, by_feel)).epsilon(1e-9));
  // One that is watched all the time does not wait for the other's checks.
  CHECK(length(until({{EndKind::core, 80.0}, {EndKind::tender, 0.3, 900.0}})) ==
        doctest::Approx(warm).epsilon(1e-3)); // the checks cut steps short
}

TEST_CASE("what is met at the start is found at the first check, not before") {
  const Plan plan = until({{EndKind::core, 3.0, 1200.0}}); // it comes at 4 °C
  CHECK(length(plan) == doctest::Approx(1200.0));
}

TEST_CASE("a check that never passes: given up, with where the core is and what was computed") {
  Plan plan = until({{EndKind::core, 150.0, 1800.0}});
  plan.stages[0].surroundings = pit("drum", 160.0);
  plan.stages[0].at_most = 3.0 * hour;
  try {
    (void)simulate(plan);
    FAIL("it ended");
  } catch (const Unreachable &failure) {
    const std::string text = failure.what();
    INFO(text);
    CHECK(text.find("stages[0].until: in 'smoke' core at 302 °F (150 °C)") != std::string::npos);
    CHECK(text.find("within 3 h") != std::string::npos);
    CHECK(failure.outcome()->time.back() == doctest::Approx(3.0 * hour));
    CHECK(failure.outcome()->core.back() < 150.0);
  }
}
