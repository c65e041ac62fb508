/// Probes: where their spots are on a mesh, what an extended tip and a conducting stem read, and a probe that
/// is put in again somewhere else.
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "cook/errors.hpp"
#include "cook/plan/probe.hpp"
#include "cooks.hpp"
#include "engine/grids/probing.hpp"
#include "engine/grids/section_setup.hpp"

using namespace cook;
using namespace cook::engine;
using namespace cook::testing;

namespace {

Options coarse() {
  Options options;
  options.grid = GridKind::cross_section;
  options.columns = 21;
  options.rows = 11;
  return options;
}

const ProbeTrace &trace(const Outcome &out, const std::string &name) {
  for (const ProbeTrace &probe : out.probes) {
    if (probe.name == name) {
      return probe;
    }
  }
  FAIL("no probe '", name, "'");
  return out.probes.front();
}

double total(const Spot &spot) {
  double sum = 0.0;
  for (const double weight : spot.weight) {
    sum += weight;
  }
  return sum;
}

} // namespace

TEST_CASE("a spot finds what is linear in the place, between any nodes") {
  const Plan plan = bare_cook(110.0);
  const SectionSetup setup(plan, coarse());
  const SectionGrid &grid = setup.grid;
  std::vector<double> linear;
  for (std::size_t p = 0; p < grid.x.size(); ++p) {
    linear.push_back(3.0 + 40.0 * grid.x[p] - 70.0 * grid.z[p]);
  }
  for (const double along : {0.08, 0.17, 0.31}) {
    for (const double up : {0.2, 0.5, 0.9}) {
      const double z = up * setup.section.thickness_at(along);
      const Placed placed = setup.place({.name = "here", .x = along, .z = z}, "probes[0]");
      CHECK(placed.x == along);
      CHECK(placed.z == z);
      CHECK(total(placed.spot) == doctest::Approx(1.0).epsilon(1e-12));
      CHECK(placed.spot.of(linear) == doctest::Approx(3.0 + 40.0 * along - 70.0 * z).epsilon(1e-3));
    }
  }
  // With one number only, the other is the middle of the length, or half-way up.
  CHECK(setup.place({.name = "a", .z = 0.02}, "p").x == doctest::Approx(0.5 * setup.section.length));
  const Placed half = setup.place({.name = "b", .x = 0.1}, "p");
  CHECK(half.z == doctest::Approx(0.5 * setup.section.thickness_at(0.1)));
  CHECK_THROWS_WITH_AS((void)setup.place({.name = "c", .x = 0.1, .z = 0.3}, "probes[2]"),
                       doctest::Contains("probes[2].z"), InvalidInput);
}

TEST_CASE("an extended tip averages from its end back along the way it was pushed in") {
  Plan plan = bare_cook(110.0);
  plan.stages[0].until = {{EndKind::elapsed, 3.0 * hour}};
  constexpr double x = 0.20;
  constexpr double z = 0.012; // where temperature bends along the piece
  constexpr double tip = 0.04;
  plan.probes = {{.name = "long", .x = x, .z = z, .tip = tip}};
  for (int i = 0; i < 5; ++i) {
    plan.probes.push_back({.name = "part " + std::to_string(i), .x = x - 0.25 * tip * i, .z = z});
  }
  const auto out = simulate(plan, coarse());
  double differs = 0.0;
  for (std::size_t t = 0; t < out->times(); ++t) {
    double mean = 0.0;
    for (int i = 0; i < 5; ++i) {
      mean += 0.2 * trace(*out, "part " + std::to_string(i)).temperature[t];
    }
    REQUIRE(trace(*out, "long").temperature[t] == doctest::Approx(mean).epsilon(1e-12));
    differs = std::fmax(differs, std::fabs(mean - trace(*out, "part 0").temperature[t]));
  }
  CHECK(differs > 0.05); // K: the tip matters at all
}

TEST_CASE("a long tip near the sloping top stays in the meat, and near the flat end does too") {
  const Plan plan = bare_cook(110.0);
  const SectionSetup setup(plan, coarse());
  const double x = 0.9 * setup.section.length;
  const double under = setup.section.thickness_at(x) - 1e-3;
  const Placed steep = setup.place({.name = "steep", .x = x, .z = under, .tip = 0.1}, "p");
  CHECK(total(steep.spot) == doctest::Approx(1.0).epsilon(1e-12));
  const Placed first = setup.place({.name = "end", .x = 0.01, .z = 0.01, .tip = 0.1}, "p");
  CHECK(total(first.spot) == doctest::Approx(1.0).epsilon(1e-12));
  CHECK(first.spot.of(setup.grid.x) < 0.01);
  CHECK(first.spot.of(setup.grid.x) > 0.0);
}

TEST_CASE("a conducting stem reads its share of the air, on every mesh") {
  for (const GridKind grid : {GridKind::slab, GridKind::cross_section}) {
    Plan plan = bare_cook(120.0);
    plan.stages[0].until = {{EndKind::elapsed, 2.0 * hour}};
    plan.probes = {{.name = "ideal", .z = 0.02}, {.name = "metal", .z = 0.02, .stem = 0.05}};
    Options options = coarse();
    options.grid = grid;
    const auto out = simulate(plan, options);
    for (std::size_t t = 0; t < out->times(); ++t) {
      const double meat = trace(*out, "ideal").temperature[t];
      REQUIRE(trace(*out, "metal").temperature[t] ==
              doctest::Approx(meat + 0.05 * (out->air[t] - meat)).epsilon(1e-12));
    }
    // What the stem errs does not cook the meat.
    CHECK(trace(*out, "metal").tenderness.back() == trace(*out, "ideal").tenderness.back());
    CHECK(trace(*out, "metal").temperature.back() > trace(*out, "ideal").temperature.back() + 1.0);
  }
}

TEST_CASE("stem error: the fin formula by hand, and the fin's own equation integrated") {
  // Incropera et al., Fundamentals of Heat and Mass Transfer, table 3.4, case B (from memory):
  // 1 / cosh(m L), m^2 = h P / (k A). A tube of 4 mm with a wall of 0.3 mm: A = pi/4 (16 - 11.56) mm2 = 3.487
  // mm2, P = 12.566 mm; with h = 200 and k = 16, m = sqrt(2.5133 / 5.579e-5) = 212.2 1/m.
  CHECK(stem_error(0.010) == doctest::Approx(1.0 / std::cosh(2.122)).epsilon(1e-3));
  CHECK(stem_error(0.010) == doctest::Approx(0.2363).epsilon(2e-3));
  CHECK(stem_error(0.030) == doctest::Approx(0.00344).epsilon(5e-3));
  // A solid rod of 4 mm: m = sqrt(4 h / (k D)) = 111.8 1/m.
  CHECK(stem_error(0.020, 4e-3, 0.0) == doctest::Approx(1.0 / std::cosh(2.236)).epsilon(1e-3));
  CHECK(stem_error(0.0) == 1.0);
  // u'' = m^2 u from the adiabatic tip to the surface, by the classical Runge-Kutta method: u(tip) /
  // u(surface).
  constexpr double immersion = 0.025;
  constexpr double diameter = 3e-3;
  constexpr double conductivity = 14.0;
  constexpr double contact = 150.0;
  const double square = 4.0 * contact / (conductivity * diameter);
  double u = 1.0;
  double slope = 0.0;
  constexpr int steps = 2000;
  constexpr double h = immersion / steps;
  for (int i = 0; i < steps; ++i) {
    const double k1u = slope;
    const double k1s = square * u;
    const double k2u = slope + 0.5 * h * k1s;
    const double k2s = square * (u + 0.5 * h * k1u);
    const double k3u = slope + 0.5 * h * k2s;
    const double k3s = square * (u + 0.5 * h * k2u);
    const double k4u = slope + h * k3s;
    const double k4s = square * (u + h * k3u);
    u += h / 6.0 * (k1u + 2.0 * k2u + 2.0 * k3u + k4u);
    slope += h / 6.0 * (k1s + 2.0 * k2s + 2.0 * k3s + k4s);
  }
  CHECK(stem_error(immersion, diameter, 0.0, conductivity, contact) ==
        doctest::Approx(1.0 / u).epsilon(1e-9));
  // Deeper, thinner and worse conducting stems err less.
  CHECK(stem_error(0.03) < stem_error(0.02));
  CHECK(stem_error(0.02, 4e-3, 0.2e-3) < stem_error(0.02, 4e-3, 0.4e-3));
  CHECK(stem_error(0.02, 4e-3, 0.3e-3, 1.0) < stem_error(0.02));
  CHECK_THROWS_WITH_AS((void)stem_error(0.02, 4e-3, 3e-3), doctest::Contains("wall"), InvalidInput);
  CHECK_THROWS_WITH_AS((void)stem_error(-0.02), doctest::Contains("immersion"), InvalidInput);
}

TEST_CASE("a probe put in again after wrapping: the core follows it from there, and so does the end") {
  for (const GridKind grid : {GridKind::slab, GridKind::cross_section}) {
    Plan plan = bare_cook(120.0);
    plan.probes = {{.name = "first", .x = 0.10, .z = 0.004}, {.name = "again", .x = 0.12, .z = 0.022}};
    Stage smoke = plan.stages[0];
    smoke.until = {{EndKind::elapsed, 2.0 * hour}};
    smoke.probe = plan.probes[0];
    Stage wrapped = smoke;
    wrapped.name = "wrapped";
    wrapped.wrap = wrap("foil");
    wrapped.probe = plan.probes[1];
    wrapped.until = {{EndKind::core, 75.0}};
    Stage on = wrapped;
    on.name = "on";
    on.probe.reset(); // it stays where it is
    on.until = {{EndKind::elapsed, 600.0}};
    plan.stages = {smoke, wrapped, on};
    Options options = coarse();
    options.grid = grid;
    const auto out = simulate(plan, options);
    REQUIRE(out->stage_ends.size() == 3);
    const ProbeTrace &first = trace(*out, "first");
    const ProbeTrace &again = trace(*out, "again");
    const double moved = out->stage_ends[0].time;
    for (std::size_t t = 0; t < out->times(); ++t) {
      const ProbeTrace &sits = out->time[t] <= moved ? first : again;
      REQUIRE(out->core[t] == doctest::Approx(sits.temperature[t]).epsilon(1e-12));
      REQUIRE(out->tenderness[t] == doctest::Approx(sits.tenderness[t]).epsilon(1e-12));
    }
    const auto at = static_cast<std::size_t>(moved / 60.0);
    CHECK(std::fabs(again.temperature[at] - first.temperature[at]) > 1.0); // it matters where it is put
    CHECK(out->stage_ends[1].core == doctest::Approx(75.0).epsilon(1e-4));
    CHECK(out->stage_ends[0].core == doctest::Approx(first.temperature[at]).epsilon(1e-9));
  }
}

TEST_CASE("two probes of one name are refused, and so is one that is not in the meat") {
  Plan plan = bare_cook(110.0);
  plan.stages[0].until = {{EndKind::elapsed, 60.0}};
  plan.probes = {{.name = "flat"}};
  CHECK_THROWS_WITH_AS((void)simulate(plan, coarse()), doctest::Contains("'flat' is used twice"),
                       InvalidInput);
  plan.probes = {{.name = "mine", .z = 0.02}, {.name = "mine", .z = 0.03}};
  Options slab;
  CHECK_THROWS_WITH_AS((void)simulate(plan, slab), doctest::Contains("probes[1].name"), InvalidInput);
  plan.probes = {{.name = "above", .z = 0.2}};
  CHECK_THROWS_WITH_AS((void)simulate(plan, slab), doctest::Contains("probes[0].z"), InvalidInput);
  plan.probes = {{.name = "nowhere"}};
  CHECK_THROWS_WITH_AS((void)simulate(plan, coarse()), doctest::Contains("'nowhere'"), InvalidInput);
}
