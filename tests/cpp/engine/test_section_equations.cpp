/// The equations of a cross-section that are handed out are those that simulate() solves, with their exact
/// Jacobian.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "cook/engine/section_equations.hpp"
#include "cook/errors.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

Options coarse() {
  Options options;
  options.grid = GridKind::cross_section;
  options.columns = 13;
  options.rows = 9;
  options.face_spacing = 3e-3;
  options.end_spacing = 1e-2;
  return options;
}

/// A state that no cook has, so that every branch of the equations is met: wet and dry cells, juice under
/// pressure and none, films.
std::vector<double> jumble(const SectionEquations &equations) {
  std::vector<double> y = equations.initial();
  std::mt19937 random(5);
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  for (std::size_t p = 0; p < equations.nodes(); ++p) {
    y[2 * p] *= 5.0 + 15.0 * unit(random);
    y[2 * p + 1] *= 0.2 + unit(random);
  }
  for (std::size_t b = 2 * equations.nodes(); b < y.size(); ++b) {
    y[b] = 0.06 * unit(random);
  }
  return y;
}

} // namespace

TEST_CASE("the classical Runge-Kutta method on a section's equations finds what simulate() finds") {
  Plan plan = bare_cook(114.0);
  plan.stages[0].until = {{EndKind::elapsed, 1800.0}};
  Options options = coarse();
  options.temperature_tolerance = 1e-5;
  options.water_tolerance = 1e-6;
  options.output_every = 1800.0;
  SectionEquations equations(plan, options);
  auto y = equations.initial();
  const std::size_t n = y.size();
  const double heat_at_start = equations.heat(y);
  const double water_at_start = equations.water(y);
  std::vector<double> k1(n), k2(n), k3(n), k4(n), stage(n);
  const double h = 0.5;
  for (int step = 0; step < 3600; ++step) {
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
  const auto out = simulate(plan, options);
  REQUIRE(out->nodes() == equations.nodes());
  CHECK(equations.along() == out->along);
  CHECK(equations.height() == out->position);
  const std::vector<double> t = equations.temperatures(y);
  const std::size_t last = (out->times() - 1) * out->nodes();
  double off = 0.0;
  double dry_off = 0.0;
  for (std::size_t p = 0; p < out->nodes(); ++p) {
    off = std::fmax(off, std::fabs(t[p] - out->temperature[last + p]));
    dry_off = std::fmax(dry_off, std::fabs(y[2 * p + 1] - out->water[last + p]));
  }
  MESSAGE("largest difference of any node after half an hour: ", off, " K, ", dry_off, " kg/kg");
  CHECK(off < 1e-3);
  CHECK(dry_off < 1e-5);
  CHECK(t[0] > plan.meat.start + 20.0);
  CHECK(equations.core(y) == doctest::Approx(out->core.back()).epsilon(1e-6));
  CHECK(equations.heat(y) - heat_at_start == doctest::Approx(out->ledger.heat_stored).epsilon(1e-5));
  CHECK(equations.water(y) - water_at_start ==
        doctest::Approx(-(out->ledger.evaporated + out->ledger.run_off)).epsilon(1e-4));
}

TEST_CASE("inside the meat the rates of a section move heat and water, and make none") {
  // Nothing crosses the faces: no evaporation, no squeezing, no radiation, next to no film coefficient.
  Plan plan = bare_cook(114.0);
  plan.stages[0].surroundings.bottom = plan.stages[0].surroundings.top = {Convection::given, 1e-9, 0.06};
  Options options = coarse();
  options.physics = {.evaporation = false, .squeezing = false, .radiation = false, .sinks = true};
  SectionEquations equations(plan, options);
  std::vector<double> y = jumble(equations);
  for (std::size_t b = 2 * equations.nodes(); b < y.size(); ++b) {
    y[b] *= 0.3; // too little to run off; it still soaks in
  }
  std::vector<double> rates(y.size()), size(y.size());
  equations.rhs(0.0, y, rates);
  std::transform(rates.begin(), rates.end(), size.begin(), [](double rate) { return std::fabs(rate); });
  CHECK(equations.water(size) > 1e-6);
  CHECK(std::fabs(equations.water(rates)) < 1e-13 * equations.water(size));
  CHECK(equations.heat(size) > 1.0);
  CHECK(std::fabs(equations.heat(rates)) < 1e-8 * equations.heat(size)); // the film coefficient's share
}

TEST_CASE(
    "a section's Jacobian has its entries where the pattern says, and the values of central differences") {
  for (const char *covering : {"none", "foil"}) {
    Plan plan = bare_cook(120.0);
    plan.stages[0].wrap = wrap(covering);
    SectionEquations equations(plan, coarse());
    const std::vector<double> y = jumble(equations);
    const std::size_t n = y.size();
    const SparsePattern &pattern = equations.pattern();
    REQUIRE(pattern.row_start.size() == n + 1);
    std::vector<double> entries(pattern.column.size());
    equations.jacobian(60.0, y, entries);
    std::vector<double> whole(n * n, 0.0); // row-major
    std::vector<char> expected(n * n, 0);
    for (std::size_t i = 0; i < n; ++i) {
      for (int at = pattern.row_start[i]; at < pattern.row_start[i + 1]; ++at) {
        const auto entry = static_cast<std::size_t>(at);
        const std::size_t place = i * n + static_cast<std::size_t>(pattern.column[entry]);
        CHECK(expected[place] == 0);
        expected[place] = 1;
        whole[place] = entries[entry];
      }
    }
    std::vector<double> plus(n), minus(n), moved(n);
    double worst = 0.0;
    int outside = 0;
    for (std::size_t j = 0; j < n; ++j) {
      const double step = 1e-6 * std::fmax(std::fabs(y[j]), 0.1);
      moved = y;
      moved[j] = y[j] + step;
      equations.rhs(60.0, moved, plus);
      moved[j] = y[j] - step;
      equations.rhs(60.0, moved, minus);
      double scale = 1e-12;
      for (std::size_t i = 0; i < n; ++i) {
        scale = std::fmax(scale, std::fabs(whole[i * n + j]));
      }
      for (std::size_t i = 0; i < n; ++i) {
        const double difference = (plus[i] - minus[i]) / (2.0 * step);
        // As in test_section_system.cpp: rounding, then 2e-5 of the entry or a thousandth of its column.
        const double allowed = 2e-13 * std::fmax(1.0, std::fabs(plus[i])) / step +
                               2e-5 * std::fmax(std::fabs(whole[i * n + j]), 1e-3 * scale);
        worst = std::fmax(worst, std::fabs(difference - whole[i * n + j]) / allowed);
        outside += expected[i * n + j] == 0 && std::fabs(difference) > allowed ? 1 : 0;
      }
    }
    INFO("wrap ", covering);
    CHECK(worst < 1.0);
    CHECK(outside == 0);
  }
}

TEST_CASE("a section's equations refuse wrong sizes and surroundings with states of their own") {
  Plan plan = bare_cook(114.0);
  SectionEquations equations(plan, coarse());
  std::vector<double> small(3);
  std::vector<double> whole(equations.size());
  CHECK_THROWS_AS(equations.rhs(0.0, small, whole), InvalidInput);
  CHECK_THROWS_AS(equations.rhs(0.0, whole, small), InvalidInput);
  CHECK_THROWS_AS(equations.jacobian(0.0, whole, small), InvalidInput);
  CHECK_THROWS_AS((void)equations.core(small), InvalidInput);
  CHECK_THROWS_AS((void)equations.heat(small), InvalidInput);
  CHECK_THROWS_AS((void)equations.water(small), InvalidInput);
  Plan boxed = plan;
  boxed.stages[0].surroundings = insulated_box();
  boxed.stages[0].until = {{EndKind::elapsed, 60.0}};
  CHECK_THROWS_WITH_AS(SectionEquations(boxed, coarse()), doctest::Contains("surroundings.box"),
                       InvalidInput);
  Plan breathing = plan;
  breathing.stages[0].surroundings.pit_air = PitAir{};
  CHECK_THROWS_WITH_AS(SectionEquations(breathing, coarse()), doctest::Contains("surroundings.pit_air"),
                       InvalidInput);
  Options odd = coarse();
  odd.rows = 10;
  CHECK_THROWS_WITH_AS(SectionEquations(plan, odd), doctest::Contains("options.rows"), InvalidInput);
}

TEST_CASE("a section's equations can be moved, and follow the probe of the first stage") {
  Plan plan = bare_cook(114.0);
  SectionEquations first(plan, coarse());
  std::vector<double> y = jumble(first);
  const double core = first.core(y);
  SectionEquations second(std::move(first));
  CHECK(second.core(y) == doctest::Approx(core).epsilon(1e-9));
  plan.stages[0].probe = Probe{.name = "point"};
  SectionEquations third(plan, coarse());
  CHECK(std::fabs(third.core(y) - core) > 1.0);
  third = std::move(second);
  CHECK(third.core(y) == doctest::Approx(core).epsilon(1e-9));
}
