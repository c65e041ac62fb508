// The heat budget against the ledger and the heat that the meat holds.
#include "cook/errors.hpp"
#include "cook/readings/readings.hpp"
#include "readings/sample_outcomes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using namespace cook;

TEST_CASE("heat budget of an outcome made by hand") {
  Outcome out = samples::outcome({{0, 4}, {1, 5}}, 1800.0); // three samples
  for (auto &face : out.paths) {
    for (auto &path : face) {
      path = {0.0, 0.0, 0.0};
    }
  }
  const auto set = [&](FacePath path, std::vector<double> values) {
    out.paths[1][static_cast<std::size_t>(path)] = std::move(values);
  };
  set(FacePath::convection, {0.0, 1.8e5, 5.4e5});
  set(FacePath::radiation, {0.0, 3.6e5, 7.2e5});
  set(FacePath::latent, {0.0, 0.9e5, 1.8e5});
  set(FacePath::vapour_sensible, {0.0, 1.8e4, 3.6e4});
  set(FacePath::run_off_sensible, {0.0, 0.0, 1.8e4});
  const HeatBudget budget = heat_budget(out, 1);
  REQUIRE(budget.time.size() == 2);
  CHECK(budget.time[1] == 2700.0);
  CHECK(budget.convection[0] == doctest::Approx(100.0));
  CHECK(budget.convection[1] == doctest::Approx(200.0));
  CHECK(budget.radiation[1] == doctest::Approx(200.0));
  CHECK(budget.evaporation[1] == doctest::Approx(50.0));
  CHECK(budget.carried[0] == doctest::Approx(10.0));
  CHECK(budget.carried[1] == doctest::Approx(20.0));
  CHECK(budget.into_meat[1] == doctest::Approx(350.0));
}

TEST_CASE("heat budget of a simulated cook adds up to the heat that the meat holds") {
  Plan plan = samples::plan(121.0);
  plan.stages[0].spritz = Spritz{};
  const auto out = simulate(plan);
  double sum = 0.0;
  double largest = 0.0;
  for (std::size_t face = 0; face < 2; ++face) {
    const HeatBudget budget = heat_budget(*out, face);
    REQUIRE(budget.into_meat.size() == out->times() - 1);
    for (std::size_t i = 0; i < budget.time.size(); ++i) {
      sum += (budget.into_meat[i] - budget.carried[i]) * (out->time[i + 1] - out->time[i]) *
             out->face_area[face];
      CHECK(budget.into_meat[i] == budget.convection[i] + budget.radiation[i] - budget.evaporation[i]);
      largest = std::max(largest, std::fabs(budget.into_meat[i]));
    }
  }
  const Ledger &ledger = out->ledger;
  CHECK(largest > 100.0); // W/m²: there was something to add up
  CHECK(ledger.spritz_enthalpy > 0.0);
  // heat_stored comes from the enthalpy of the nodes, not from the face totals.
  CHECK(std::fabs(sum + ledger.spritz_enthalpy - ledger.heat_stored) < 1e-9 * ledger.latent);
}

TEST_CASE("heat budget of a face that is not there") {
  Outcome out = samples::outcome({{0, 4}, {1, 5}});
  CHECK_THROWS_WITH_AS((void)heat_budget(out, 2), "face: 2; accepted: 0 (bottom) or 1 (top)", InvalidInput);
  out.face_area[0] = 0.0; // as a cylinder
  CHECK_THROWS_WITH_AS((void)heat_budget(out, 0), "face: 0; a cylinder has one curved face, which is 1",
                       InvalidInput);
  CHECK_THROWS_AS((void)heat_budget(Outcome{}, 1), InvalidInput);
}
