/// The equations handed out are those that simulate() solves.
#include <doctest/doctest.h>

#include <cmath>
#include <utility>
#include <vector>

#include "cook/engine/equations.hpp"
#include "cook/errors.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

TEST_CASE("the classical Runge-Kutta method on the equations finds what simulate() finds") {
  Plan plan = bare_cook(114.0);
  plan.stages[0].until = {{EndKind::elapsed, 900.0}};
  Options options;
  options.nodes = 11;
  options.face_spacing = 4e-3;
  options.temperature_tolerance = 1e-5;
  options.water_tolerance = 1e-6;
  Equations equations(plan, options);
  auto y = equations.initial();
  const std::size_t n = y.size();
  std::vector<double> k1(n), k2(n), k3(n), k4(n), stage(n);
  const double h = 0.5;
  for (int step = 0; step < 1800; ++step) {
    const double t = step * h;
    const auto at = [&](const std::vector<double> &k, double share) {
      for (std::size_t i = 0; i < n; ++i) {
        stage[i] = y[i] + share * h * k[i];
      }
      return std::span<const double>(stage);
    };
    equations.rhs(t, y, k1);
    equations.rhs(t + 0.5 * h, at(k1, 0.5), k2);
    equations.rhs(t + 0.5 * h, at(k2, 0.5), k3);
    equations.rhs(t + h, at(k3, 1.0), k4);
    for (std::size_t i = 0; i < n; ++i) {
      y[i] += h / 6.0 * (k1[i] + 2.0 * k2[i] + 2.0 * k3[i] + k4[i]);
    }
  }
  const auto outcome = simulate(plan, options);
  CHECK(equations.core(y) == doctest::Approx(outcome->core.back()).epsilon(1e-5));
  // The middle's nodes, then the rim's.
  const std::vector<double> t = equations.temperatures(y);
  CHECK(t[t.size() / 2 - 1] == doctest::Approx(outcome->surface[1].back()).epsilon(1e-4));
  CHECK(y[1] > 0.0);
}

TEST_CASE("wrong sizes, boxes and air with a balance are refused") {
  Plan plan = bare_cook(114.0);
  Equations equations(plan);
  std::vector<double> small(3), rates(3);
  CHECK_THROWS_AS(equations.rhs(0.0, small, rates), InvalidInput);
  CHECK_THROWS_AS((void)equations.core(small), InvalidInput);
  plan.stages[0].surroundings = insulated_box();
  plan.stages[0].until = {{EndKind::elapsed, 60.0}};
  CHECK_THROWS_AS(Equations{plan}, InvalidInput);
  Plan breathing = bare_cook(114.0);
  breathing.stages[0].surroundings.pit_air = PitAir{};
  CHECK_THROWS_WITH_AS(Equations{breathing}, doctest::Contains("surroundings.pit_air"), InvalidInput);
}

TEST_CASE("equations can be moved into a container and out of it") {
  const Plan plan = bare_cook(114.0);
  Equations first(plan);
  const std::vector<double> y = first.initial();
  const double core = first.core(y);
  Equations second(std::move(first));
  CHECK(second.core(y) == core);
  Plan warm = plan;
  warm.meat.start = 20.0;
  Equations third(warm);
  third = std::move(second);
  CHECK(third.core(y) == core);
}
