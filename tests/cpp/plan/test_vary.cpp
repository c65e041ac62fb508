#include <doctest/doctest.h>

#include <initializer_list>
#include <vector>

#include "cook/cooker/surroundings.hpp"
#include "cook/cooker/wrap.hpp"
#include "cook/errors.hpp"
#include "cook/meat/cut.hpp"
#include "cook/plan/plan.hpp"
#include "cook/plan/vary.hpp"

using namespace cook;

namespace {

Plan two_stages() {
  Plan plan{.meat = brisket(6.0), .stages = {}};
  plan.stages.push_back(
      {.name = "smoke", .surroundings = pit("drum", 120.0), .until = {{EndKind::core, 65.0}}});
  plan.stages.push_back({.name = "wrapped",
                         .surroundings = pit("drum", 120.0),
                         .wrap = wrap("foil"),
                         .until = {{EndKind::core, 93.0}, {EndKind::elapsed, 3600.0}}});
  return plan;
}

Plan with(const Plan &plan, std::initializer_list<PlanStep> way, double value) {
  const std::vector<PlanStep> steps(way);
  const SetNumber set = number_in(plan, steps);
  REQUIRE(set);
  Plan varied = plan;
  set(varied, value);
  return varied;
}

bool is_number(const Plan &plan, std::initializer_list<PlanStep> way) {
  const std::vector<PlanStep> steps(way);
  return static_cast<bool>(number_in(plan, steps));
}

const PlanStep first = std::size_t{0};
const PlanStep second = std::size_t{1};

} // namespace

TEST_CASE("numbers of a plan are set where their way leads, and nowhere else") {
  const Plan plan = two_stages();
  const Plan hot = with(plan, {"stages", second, "surroundings", "air"}, 135.0);
  CHECK(hot.stages[1].surroundings.air.at(0.0) == 135.0);
  CHECK(hot.stages[0].surroundings.air.at(0.0) == 120.0);
  CHECK(with(plan, {"stages", first, "until"}, 70.0).stages[0].until.front().value == 70.0);
  CHECK(with(plan, {"stages", second, "until", second, "value"}, 60.0).stages[1].until[1].value == 60.0);
  const Film film = with(plan, {"stages", first, "surroundings", "top"}, 21.0).stages[0].surroundings.top;
  CHECK(film == Film{.kind = Convection::given, .value = 21.0});
  CHECK(with(plan, {"meat", "tissue", "mobility", "expressed"}, 1e-8).meat.tissue.mobility.expressed == 1e-8);
  CHECK(with(plan, {"start"}, 60.0).clock_start == 60.0);
}

TEST_CASE("mass and thickness reshape the piece") {
  const Plan plan = two_stages();
  const Meat heavy = with(plan, {"meat", "mass"}, 7.0).meat;
  CHECK(heavy.mass() == doctest::Approx(7.0));
  CHECK(heavy.shape.thickness == doctest::Approx(brisket(7.0).shape.thickness));
  const Meat thick = with(plan, {"meat", "thickness"}, 0.08).meat;
  CHECK(thick.mass() == doctest::Approx(6.0));
  CHECK(thick.shape.thickness == 0.08);
  CHECK_THROWS_AS(with(plan, {"meat", "mass"}, 50.0), InvalidInput);
  Plan odd = plan;
  odd.meat.tissue.name = "no cut";
  const Meat other = with(odd, {"meat", "mass"}, 48.0).meat; // eight times as heavy: twice as thick
  CHECK(other.shape.thickness == doctest::Approx(2.0 * odd.meat.shape.thickness));
}

TEST_CASE("where no number is, there is nothing to set") {
  const Plan plan = two_stages();
  CHECK_FALSE(is_number(plan, {}));
  CHECK_FALSE(is_number(plan, {"stages"}));
  CHECK_FALSE(is_number(plan, {"stages", second, "until"})); // two ends
  CHECK_FALSE(is_number(plan, {"stages", std::size_t{2}, "until"}));
  CHECK_FALSE(is_number(plan, {"stages", first, "wrap"}));
  CHECK_FALSE(is_number(plan, {"stages", first, "name"}));
  CHECK_FALSE(is_number(plan, {"stages", first, "spritz", "every"})); // there is none
  CHECK_FALSE(is_number(plan, {"meat", "no such member"}));
  CHECK_FALSE(is_number(plan, {first, "until"}));
}
