/// No mass that is told is below zero, and sums stay what they are.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <vector>

#include "cook/cooker/chamber.hpp"
#include "cooks.hpp"
#include "engine/equations/line_system.hpp"
#include "engine/grids/grid.hpp"
#include "engine/runs/settle.hpp"

using namespace cook;
using namespace cook::engine;
using namespace cook::testing;

namespace {

double least(const std::vector<double> &values) { return *std::min_element(values.begin(), values.end()); }

void nothing_below_zero(const Outcome &out) {
  for (std::size_t s = 0; s < 2; ++s) {
    if (out.film[s].empty()) {
      continue;
    }
    CHECK(least(out.film[s]) >= 0.0);
    CHECK(least(out.surface_water[s]) >= 0.0);
    CHECK(least(out.paths[s][static_cast<std::size_t>(FacePath::run_off)]) >= 0.0);
  }
  CHECK(least(out.water) >= 0.0);
  CHECK(least(out.pan_water) >= 0.0);
  CHECK(least(out.vapour_pressure) >= 0.0);
  CHECK(out.ledger.on_surface >= 0.0);
  CHECK(out.ledger.run_off >= 0.0);
  CHECK(out.ledger.water_end >= 0.0);
  CHECK(std::fabs(out.ledger.heat_residual) < 1e-11);
  CHECK(std::fabs(out.ledger.water_residual) < 1e-11);
  CHECK(std::fabs(out.ledger.air_residual) < 1e-11);
}

} // namespace

TEST_CASE("settled: what is overdrawn is taken back from where it went, and sums stay") {
  for (const bool evaporates : {true, false}) {
    const Meat meat = brisket();
    const PropertyTable table(meat.tissue, Physics{});
    const Grid grid = make_grid(meat.shape, 11, 1e-3);
    LineSystem<double> system(grid, table);
    for (auto &face : system.face) {
      face.evaporates = evaporates ? 1.0 : 0.0;
    }
    auto balance = std::make_shared<AirBalance>();
    balance->air.meat_count = 2.0;
    system.drive.balance = balance;
    system.drive.extent = 0.1;
    std::vector<double> y(system.size(), 0.0);
    for (std::size_t i = 0; i < system.nodes(); ++i) {
      y[2 * i] = 60.0;
      y[2 * i + 1] = 1.0;
    }
    const auto at = [&](std::size_t side, FacePath path) -> double & {
      return y[system.total_index(side, path)];
    };
    y[3] = -1e-4;                      // a dried cell near the bottom
    y[system.liquid_index(1)] = -1e-5; // the liquid on top
    y[system.liquid_index(0)] = 2e-4;  // the bottom's is there, but
    at(0, FacePath::run_off) = -3e-4;  // more has run back than it holds
    y[system.lumped_index(pan_water)] = -1e-3;
    at(0, FacePath::evaporated) = at(1, FacePath::evaporated) = 1.0;
    const auto water = [&] {
      double sum = 0.0;
      for (std::size_t i = 0; i < system.nodes(); ++i) {
        sum += system.volume[i] * y[2 * i + 1] * table.solids;
      }
      for (std::size_t s = 0; s < 2; ++s) {
        sum += system.face_area[s] *
               (y[system.liquid_index(s)] + at(s, FacePath::run_off) + at(s, FacePath::evaporated));
      }
      return sum;
    };
    const auto air = [&] { // what the meat has given is what the air has or has lost
      double given = 0.0;
      for (std::size_t s = 0; s < 2; ++s) {
        given += system.face_area[s] * at(s, FacePath::evaporated) * system.drive.extent;
      }
      return y[system.lumped_index(air_vapour)] + y[system.lumped_index(pan_water)] +
             y[system.air_total_index(vapour_out)] - balance->air.meat_count * given;
    };
    const double before = water();
    const double air_before = air();
    const std::vector<double> unsettled = y;
    settle(system, y);
    CHECK(water() == doctest::Approx(before).epsilon(1e-15));
    CHECK(air() == doctest::Approx(air_before).epsilon(1e-12));
    CHECK(y[3] == 0.0);
    CHECK(y[system.liquid_index(0)] == 0.0);
    CHECK(y[system.liquid_index(1)] == 0.0);
    CHECK(at(0, FacePath::run_off) == 0.0);
    CHECK(y[system.lumped_index(pan_water)] == 0.0);
    CHECK(y[system.air_total_index(pan_given)] == doctest::Approx(-1e-3));
    if (evaporates) {
      CHECK(at(1, FacePath::evaporated) == doctest::Approx(1.0 - 1e-5).epsilon(1e-12));
    }
    for (std::size_t i = 0; i < system.nodes(); ++i) {
      CHECK(y[2 * i] == unsettled[2 * i]); // heat stays
    }
    const std::vector<double> once = y;
    settle(system, y);
    CHECK(y == once);
  }
}

TEST_CASE("a crust that dries out, a film that goes, sprays: nothing below zero") {
  for (const double air : {110.0, 160.0, 220.0}) {
    Plan plan = bare_cook(air);
    plan.meat = brisket(1.5, 0.02);
    plan.stages[0].surroundings = oven(air, true);
    plan.stages[0].until = {{EndKind::elapsed, 4.0 * hour}};
    plan.stages[0].spritz = Spritz{.every = 900.0, .first = 600.0, .amount = 0.05, .lid_open = 0.0};
    for (const double every : {60.0, 7.0}) {
      Options options;
      options.output_every = every;
      nothing_below_zero(*simulate(plan, options));
    }
    Options section;
    section.grid = GridKind::cross_section;
    section.columns = 11;
    section.rows = 9;
    plan.meat = brisket(5.0);
    nothing_below_zero(*simulate(plan, section));
  }
}

TEST_CASE("juice in a wrap, taken off: neither drip nor film below zero") {
  for (const char *wrapping : {"foil", "butcher paper", "pan", "towels"}) {
    Plan plan = wrapped_cook(135.0, wrapping, 60.0, 88.0);
    plan.stages.push_back(plan.stages[0]);
    plan.stages[2].until = {{EndKind::elapsed, 1800.0}};
    Options options;
    options.output_every = 20.0;
    nothing_below_zero(*simulate(plan, options));
    plan.meat = testing::roll(1.0);
    nothing_below_zero(*simulate(plan, options));
  }
}

TEST_CASE("a small pan boils dry: it is empty then, not less, and gives no more than it held") {
  for (const double area : {0.005, 0.05, 0.2}) {
    for (const double air : {110.0, 160.0, 225.0}) {
      Plan plan = bare_cook(air);
      Surroundings &place = plan.stages[0].surroundings;
      place.pit_air = pit_air("drum", air);
      place.pit_air->pan = WaterPan{.area = area, .water = 4.0 * area};
      plan.stages[0].until = {{EndKind::elapsed, 6.0 * hour}};
      Options options;
      options.output_every = 20.0;
      const auto out = simulate(plan, options);
      nothing_below_zero(*out);
      CHECK(out->ledger.pan_given <= 4.0 * area + 1e-12);
      CHECK(out->pan_water.back() < 0.4 * area);
    }
  }
}
