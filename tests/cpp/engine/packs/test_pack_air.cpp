/// Cookers with an air balance in packs, beside boxes and air that is given: each cook is the one alone, and
/// does not hang on its lane mates.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <string>
#include <vector>

#include "cook/cooker/chamber.hpp"
#include "cook/engine/simulate_many.hpp"
#include "cook/errors.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

/// What surrounds a stage: in turn given air, a balance, one with a pan that runs dry, one with a pan that
/// lasts, and a pit nearly airtight with a pan over coals, where vapour condenses.
Surroundings around(int i, double air) {
  Surroundings s = pit(i % 2 == 0 ? "drum" : "kettle", air);
  const int kind = i % 5;
  if (kind == 0) {
    return s;
  }
  s.pit_air = pit_air(s.kind, air, 5.0 + i % 7);
  s.pit_air->meat_count = 1.0 + i % 3;
  if (kind == 2 || kind == 3) {
    s.pit_air->pan = WaterPan{};
    s.pit_air->pan->water = kind == 2 ? 0.15 + 0.01 * i : 6.0;
  }
  if (kind == 4) {
    s = pit("drum", 80.0);
    s.pit_air = pit_air("drum", 80.0);
    s.pit_air->air_flow = 5e-5;
    s.pit_air->pan = WaterPan{.water = 5.0, .radiant_bottom = 250.0};
  }
  return s;
}

/// Three or four stages, with sprays, lids, wraps, swinging air, a hotter pit from the wrap on and a rest in
/// a box or on the counter.
Plan breathing(int i) {
  Plan plan;
  plan.meat = i % 7 == 5 ? roll(2.0 + 0.1 * i) : brisket(3.5 + 0.15 * i);
  Stage smoke;
  smoke.name = "smoke";
  smoke.surroundings = around(i, 106.0 + 1.3 * i);
  smoke.until = {{EndKind::core, 55.0 + i % 9}, {EndKind::elapsed, 9.0 * hour}};
  if (i % 3 == 0) {
    smoke.spritz = Spritz{};
    smoke.lid = {{.at = 2500.0 + 40.0 * i, .duration = 90.0}};
  }
  if (i % 4 == 3) {
    smoke.surroundings.air.ripple_amplitude = 5.0;
  }
  Stage wrapped = smoke;
  wrapped.name = "wrapped";
  wrapped.spritz.reset();
  wrapped.lid.clear();
  wrapped.wrap = wrap(i % 2 == 0 ? "butcher paper" : "foil");
  wrapped.until = {{EndKind::core, 72.0 + i % 5}, {EndKind::elapsed, 6.0 * hour}};
  if (i % 6 == 1) { // the pan, if there is one, is filled anew
    wrapped.surroundings = around(i + 2, 121.0);
  }
  plan.stages = {smoke, wrapped};
  if (i % 3 == 1) { // the same cooker and pan, banked
    Stage banked = wrapped;
    banked.name = "banked";
    banked.surroundings.air = Signal(85.0);
    banked.until = {{EndKind::elapsed, 0.7 * hour}};
    banked.lid = {{.at = 600.0, .duration = 300.0}};
    plan.stages.push_back(banked);
  }
  Stage rest;
  rest.name = "rest";
  rest.surroundings = i % 4 < 2 ? insulated_box() : counter();
  rest.wrap = wrap("foil");
  rest.until = {{EndKind::elapsed, 1.5 * hour}};
  plan.stages.push_back(rest);
  return plan;
}

std::vector<Plan> breathing_plans(int count, int from = 0) {
  std::vector<Plan> plans;
  for (int i = 0; i < count; ++i) {
    plans.push_back(breathing(from + i));
  }
  return plans;
}

Options on(GridKind grid) {
  Options options;
  options.grid = grid;
  return options;
}

/// To the bit, in all that a reader of the air may ask for.
void same(const Outcome &one, const Outcome &other) {
  CHECK(one.time == other.time);
  CHECK(one.core == other.core);
  CHECK(one.surface == other.surface);
  CHECK(one.air == other.air);
  CHECK(one.vapour_pressure == other.vapour_pressure);
  CHECK(one.pan_water == other.pan_water);
  CHECK(one.paths == other.paths);
  CHECK(one.ledger.vapour_out == other.ledger.vapour_out);
  CHECK(one.ledger.steps == other.ledger.steps);
  CHECK(one.notes == other.notes);
}

void closes(const Ledger &ledger) {
  CHECK(std::fabs(ledger.heat_residual) < 1e-9);
  CHECK(std::fabs(ledger.water_residual) < 1e-9);
  CHECK(std::fabs(ledger.air_residual) < 1e-9);
}

double least(const std::vector<double> &of) { return *std::min_element(of.begin(), of.end()); }

} // namespace

TEST_CASE(
    "a batch of cookers with air of their own gives what each plan gives alone, and its ledgers close") {
  for (const GridKind grid : {GridKind::slab, GridKind::piece}) {
    const std::vector<Plan> plans = breathing_plans(20);
    const auto results = simulate_many(plans, on(grid), 2);
    int dried = 0;
    int fogged = 0;
    for (std::size_t i = 0; i < plans.size(); ++i) {
      INFO("plan ", i, " on grid ", static_cast<int>(grid));
      REQUIRE(results[i].outcome);
      const Outcome &out = *results[i].outcome;
      const auto alone = simulate(plans[i], on(grid));
      closes(out.ledger);
      REQUIRE(out.stage_ends.size() == alone->stage_ends.size());
      for (std::size_t s = 0; s < out.stage_ends.size(); ++s) {
        CHECK(out.stage_ends[s].reason == alone->stage_ends[s].reason);
        CHECK(out.stage_ends[s].time == doctest::Approx(alone->stage_ends[s].time).epsilon(0.005));
      }
      CHECK(out.events.size() == alone->events.size());
      CHECK(out.notes == alone->notes);
      CHECK(out.ledger.evaporated == doctest::Approx(alone->ledger.evaporated).epsilon(0.003));
      CHECK(out.ledger.vapour_in == doctest::Approx(alone->ledger.vapour_in).epsilon(0.005));
      CHECK(out.ledger.vapour_out == doctest::Approx(alone->ledger.vapour_out).epsilon(0.005));
      CHECK(out.ledger.pan_given == doctest::Approx(alone->ledger.pan_given).epsilon(0.003));
      CHECK(least(out.pan_water) >= 0.0);
      const bool has_pan = out.pan_water.front() > 0.0;
      for (std::size_t k = 1; has_pan && k < out.times(); ++k) {
        if (out.pan_water[k] < 3e-3 && plans[i].stages[0].surroundings.pit_air &&
            out.time[k] < out.stage_ends[0].time) {
          ++dried;
          break;
        }
      }
      for (const std::string &note : out.notes) {
        fogged += note.find("saturated: the rest condensed") != std::string::npos ? 1 : 0;
      }
    }
    INFO(dried, " pans ran dry, ", fogged, " pits were full of vapour");
    CHECK(dried > 1);
    CHECK(fogged > 1);
  }
}

TEST_CASE("air of its own, a box or given air in other lanes change no bit of a cook") {
  for (const GridKind grid : {GridKind::slab, GridKind::piece}) {
    const std::vector<Plan> plans = breathing_plans(16);
    const auto mixed = simulate_many(plans, on(grid), 1);
    const auto on_three = simulate_many(plans, on(grid), 3);
    std::vector<Plan> turned(plans.rbegin(), plans.rend());
    const auto backwards = simulate_many(turned, on(grid), 1);
    for (std::size_t i = 0; i < plans.size(); ++i) {
      INFO("plan ", i, " on grid ", static_cast<int>(grid));
      REQUIRE(mixed[i].outcome);
      same(*mixed[i].outcome, *on_three[i].outcome);
      same(*mixed[i].outcome, *backwards[plans.size() - 1 - i].outcome);
      if (i < 5) { // one of each kind
        const auto by_itself = simulate_many(std::vector<Plan>{plans[i]}, on(grid), 1);
        same(*mixed[i].outcome, *by_itself[0].outcome);
      }
    }
    const auto equals = simulate_many(std::vector<Plan>(8, plans[2]), on(grid), 1);
    for (const Result &other : equals) {
      same(*mixed[2].outcome, *other.outcome);
    }
  }
}

TEST_CASE("tightened, a cooker's air in a pack and alone come to the same" * doctest::test_suite("repeats")) {
  Options tight;
  tight.temperature_tolerance = 4e-4;
  tight.water_tolerance = 4e-5;
  const std::vector<Plan> plans = breathing_plans(8);
  const auto together = simulate_many(plans, tight, 1);
  for (std::size_t i = 0; i < plans.size(); ++i) {
    INFO("plan ", i);
    REQUIRE(together[i].outcome);
    const Outcome &out = *together[i].outcome;
    const auto alone = simulate(plans[i], tight);
    REQUIRE(out.stage_ends.size() == alone->stage_ends.size());
    for (std::size_t s = 0; s < alone->stage_ends.size(); ++s) {
      CHECK(out.stage_ends[s].time == doctest::Approx(alone->stage_ends[s].time).epsilon(2e-4));
      CHECK(out.stage_ends[s].core == doctest::Approx(alone->stage_ends[s].core).epsilon(2e-4));
    }
    CHECK(out.ledger.vapour_out == doctest::Approx(alone->ledger.vapour_out).epsilon(2e-4));
    CHECK(out.ledger.pan_given == doctest::Approx(alone->ledger.pan_given).epsilon(2e-4));
    closes(out.ledger);
  }
}

TEST_CASE("a cooker's air that leads nowhere ends its own lane alone, with what was computed") {
  std::vector<Plan> plans = breathing_plans(12);
  plans[3].stages[0].until = {{EndKind::core, 104.0}}; // its pan and the bare meat keep the core below
  plans[3].stages[0].at_most = 20.0 * hour;
  plans[3].stages[0].spritz.reset();
  const auto results = simulate_many(plans, {}, 1);
  const auto others = simulate_many(breathing_plans(12), {}, 1);
  for (std::size_t i = 0; i < plans.size(); ++i) {
    INFO("plan ", i);
    CHECK((results[i].outcome != nullptr) == (i != 3));
    if (i != 3) {
      same(*results[i].outcome, *others[i].outcome);
    }
  }
  try {
    std::rethrow_exception(results[3].failure);
  } catch (const Unreachable &e) {
    CHECK(std::string(e.what()).find("was not reached within") != std::string::npos);
    closes(e.outcome()->ledger);
  }
}
