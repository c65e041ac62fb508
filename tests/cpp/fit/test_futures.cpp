// Possible cooks of a forecast under other plans.
#include "cook/errors.hpp"
#include "cook/fit/futures.hpp"

#include "fit/invented_logs.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace cook;
using namespace cook::testing;

namespace {

/// The nominal plan's stages, with a wait for dinner in a holding oven behind them.
std::vector<Stage> with_wait(Plan plan) {
  Stage wait = plan.stages.back();
  wait.name = "wait";
  wait.surroundings = holding_oven();
  wait.wrap = wrap("foil");
  wait.until = {{EndKind::elapsed, 8 * 3600.0}};
  plan.stages.push_back(wait);
  return plan.stages;
}

Plan waiting_plan() {
  Plan plan = nominal_plan();
  plan.stages = with_wait(plan);
  return plan;
}

} // namespace

TEST_CASE("possible cooks under the plan that they were made from end when the forecast says") {
  ForecastOptions options;
  options.members = 50;
  const Plan plan = waiting_plan();
  const Forecast base = forecast(plan, CookLog{}, options);
  const std::vector<std::size_t> members{0, 7, 49};
  const auto made =
      futures(base, {plan.stages}, {.members = members, .looks = {3600.0}, .waits = {0.0, 7200.0}});
  REQUIRE(made.size() == 1);
  const Futures &one = made.front();
  CHECK(one.why.empty());
  CHECK(one.stages == plan.stages.size());
  REQUIRE(one.stage_end.size() == members.size() * one.stages);
  REQUIRE(one.kept.size() == 2 * members.size());
  REQUIRE(one.shown.size() == members.size());
  for (std::size_t i = 0; i < members.size(); ++i) {
    CHECK(one.stage_end[i * one.stages + base.done] ==
          base.stage_end[members[i] * plan.stages.size() + base.done]);
    CHECK(one.kept[2 * i] > one.kept[2 * i + 1]);
    CHECK(one.kept[2 * i] < 1.0);
    CHECK(one.tenderness[2 * i + 1] > one.tenderness[2 * i]);
    CHECK(one.coldest[2 * i] <= one.core[2 * i] + 1e-9);
    CHECK(one.lethal_before[i] > 0.0);
    CHECK(one.come_up[i] > 0.0);
    CHECK(one.bark[i] > 0.0);
  }
}

TEST_CASE("what is believed of a cooker leaves the oven that holds as it is") {
  ForecastOptions options;
  options.members = 200;
  Plan plan = waiting_plan();
  for (Stage &stage : plan.stages) {
    if (heats(stage) && stage.name != "wait") {
      stage.surroundings.vapour_pressure = Signal{16000.0};
    }
  }
  const Forecast base = forecast(plan, CookLog{}, options);
  FuturesQuery query{.members = {}, .looks = {}, .waits = {0.0, 3 * 3600.0}};
  for (std::size_t i = 0; i < base.members(); ++i) {
    query.members.push_back(i);
  }
  const auto made = futures(base, {plan.stages}, query);
  for (std::size_t i = 0; i < base.members(); ++i) {
    const double pulled = made.front().stage_end[i * plan.stages.size() + base.done];
    CHECK(std::isfinite(made.front().kept[2 * i]) == std::isfinite(pulled));
  }
}

TEST_CASE("plans and members that cannot be used are told") {
  ForecastOptions options;
  options.members = 50;
  const Plan plan = waiting_plan();
  const Forecast base = forecast(plan, CookLog{}, options);
  std::vector<Stage> bad = plan.stages;
  bad.front().until.clear();
  const auto made = futures(base, {bad, plan.stages}, {.members = {1}, .looks = {}, .waits = {0.0}});
  CHECK_FALSE(made[0].why.empty());
  CHECK(made[0].stage_end.empty());
  CHECK(made[1].why.empty());
  CHECK(made[1].kept.size() == 1);
  CHECK_THROWS_AS(futures(base, {plan.stages}, {.members = {50}, .looks = {}, .waits = {0.0}}), InvalidInput);
  CHECK_THROWS_AS(futures(Forecast{}, {plan.stages}, {.members = {0}, .looks = {}, .waits = {0.0}}),
                  InvalidInput);
}
