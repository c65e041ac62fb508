/// Many plans at once: each outcome is that of simulate() within the tolerances, whatever its lane mates.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "cook/engine/simulate_many.hpp"
#include "cook/errors.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

/// The share of the way through a sequence that fills the unit interval evenly (Halton).
double spread(int index, int base) {
  double share = 0.0;
  double digit = 1.0;
  for (int n = index + 1; n > 0; n /= base) {
    digit /= base;
    share += digit * (n % base);
  }
  return share;
}

/// A cook of several stages, each of its numbers different.
Plan varied(int i) {
  Plan plan;
  plan.meat = i % 5 == 4 ? roll(2.0 + spread(i, 2)) : brisket(4.0 + 4.0 * spread(i, 2));
  if (plan.meat.shape.kind == ShapeKind::slab) {
    plan.meat.fat_cap.side = i % 2 == 0 ? FatSide::up : FatSide::down;
  }
  plan.meat.tissue.mobility.expressed *= 0.7 + 0.6 * spread(i, 11);
  const double air = 105.0 + 35.0 * spread(i, 3);
  Stage smoke;
  smoke.name = "smoke";
  smoke.surroundings = pit("drum", air);
  smoke.surroundings.vapour_pressure = Signal(4000.0 + 9000.0 * spread(i, 5));
  smoke.until = {{EndKind::core, 60.0 + 12.0 * spread(i, 7)}, {EndKind::elapsed, 11.0 * hour}};
  if (i % 3 == 0) {
    smoke.spritz = Spritz{};
    smoke.lid = {{.at = 4000.0, .duration = 120.0}};
  }
  if (i % 4 == 1) {
    smoke.surroundings.air.ripple_amplitude = 4.0;
  }
  Stage wrapped = smoke;
  wrapped.name = "wrapped";
  wrapped.spritz.reset();
  wrapped.lid.clear();
  wrapped.wrap = wrap(i % 2 == 0 ? "butcher paper" : "foil");
  wrapped.until = {{EndKind::core, 90.0}};
  Stage rest;
  rest.name = "rest";
  rest.surroundings = i % 2 == 0 ? insulated_box() : counter();
  rest.wrap = wrap("foil");
  rest.until = {{EndKind::elapsed, 2.0 * hour}};
  plan.stages = {smoke, wrapped, rest};
  return plan;
}

std::vector<Plan> varied_plans(int count) {
  std::vector<Plan> plans;
  for (int i = 0; i < count; ++i) {
    plans.push_back(varied(i));
  }
  return plans;
}

void agree(const Outcome &one, const Outcome &other) {
  REQUIRE(one.stage_ends.size() == other.stage_ends.size());
  for (std::size_t s = 0; s < one.stage_ends.size(); ++s) {
    CHECK(one.stage_ends[s].reason == other.stage_ends[s].reason);
    CHECK(one.stage_ends[s].time == doctest::Approx(other.stage_ends[s].time).epsilon(0.005));
  }
  CHECK(one.ledger.evaporated == doctest::Approx(other.ledger.evaporated).epsilon(0.003));
  CHECK(one.events.size() == other.events.size());
  for (const Outcome *out : {&one, &other}) {
    CHECK(std::fabs(out->ledger.heat_residual) < 1e-9);
    CHECK(std::fabs(out->ledger.water_residual) < 1e-9);
    CHECK(std::all_of(out->core.begin(), out->core.end(), [](double t) { return std::isfinite(t); }));
  }
}

} // namespace

TEST_CASE("a batch gives what each plan gives alone: stages, ends, water, ledgers") {
  const std::vector<Plan> plans = varied_plans(40);
  const std::vector<Result> results = simulate_many(plans, {}, 2);
  REQUIRE(results.size() == plans.size());
  for (std::size_t i = 0; i < plans.size(); ++i) {
    INFO("plan ", i);
    REQUIRE(results[i].outcome);
    CHECK_FALSE(results[i].failure);
    agree(*results[i].outcome, *simulate(plans[i]));
    CHECK(results[i].outcome->ledger.steps > 50);
    CHECK(results[i].outcome->ledger.solver_seconds > 0.0);
  }
}

TEST_CASE("an outcome does not hang on its lane mates") {
  const Plan one = varied(6);
  std::vector<Plan> plans(8, one);
  const auto among_equals = simulate_many(plans, {}, 1);
  std::vector<Plan> mixed = varied_plans(24);
  mixed[13] = one;
  const auto among_others = simulate_many(mixed, {}, 1);
  REQUIRE(among_equals[0].outcome);
  REQUIRE(among_others[13].outcome);
  CHECK(among_equals[0].outcome->core == among_others[13].outcome->core); // to the bit
  const auto on_three = simulate_many(mixed, {}, 3);
  for (std::size_t i = 0; i < mixed.size(); ++i) {
    CHECK(on_three[i].outcome->core == among_others[i].outcome->core);
  }
  // Equal plans in equal lanes do not differ at all.
  for (const Result &other : among_equals) {
    CHECK(other.outcome->core == among_equals[0].outcome->core);
  }
}

TEST_CASE("tightened, a pack and a cook alone come to the same") {
  Options tight;
  tight.temperature_tolerance = 4e-4;
  tight.water_tolerance = 4e-5;
  std::vector<Plan> plans = varied_plans(8);
  const auto together = simulate_many(plans, tight, 1);
  for (std::size_t i = 0; i < plans.size(); ++i) {
    INFO("plan ", i);
    REQUIRE(together[i].outcome);
    const auto alone = simulate(plans[i], tight);
    REQUIRE(together[i].outcome->stage_ends.size() == alone->stage_ends.size());
    for (std::size_t s = 0; s < alone->stage_ends.size(); ++s) {
      CHECK(together[i].outcome->stage_ends[s].time ==
            doctest::Approx(alone->stage_ends[s].time).epsilon(2e-4));
    }
  }
}

TEST_CASE("what fails, fails alone, with its own message") {
  std::vector<Plan> plans = varied_plans(20);
  plans[3].stages[0].until = {{EndKind::core, 104.0}}; // bare: it levels off below
  plans[3].stages[0].surroundings = pit("drum", 105.5);
  plans[3].stages[0].spritz.reset();
  plans[7].meat.shape.thickness = -0.05;
  plans[11].stages.clear();
  const auto results = simulate_many(plans, {}, 2);
  for (std::size_t i = 0; i < plans.size(); ++i) {
    INFO("plan ", i);
    CHECK((results[i].outcome != nullptr) == (i != 3 && i != 7 && i != 11));
    CHECK((results[i].failure == nullptr) == (results[i].outcome != nullptr));
  }
  CHECK_THROWS_AS(std::rethrow_exception(results[7].failure), InvalidInput);
  CHECK_THROWS_AS(std::rethrow_exception(results[11].failure), InvalidInput);
  try {
    std::rethrow_exception(results[3].failure);
  } catch (const Unreachable &e) {
    CHECK(std::string(e.what()).find("was not reached within") != std::string::npos);
    CHECK(e.outcome()->core.back() > 90.0);
    CHECK(std::fabs(e.outcome()->ledger.heat_residual) < 1e-9);
  }
}

TEST_CASE("cross-sections, which packs do not serve, are in the batch all the same") {
  std::vector<Plan> plans = varied_plans(3);
  Options section;
  section.grid = GridKind::cross_section;
  section.columns = 13;
  section.rows = 9;
  const auto results = simulate_many(plans, section, 2);
  for (std::size_t i = 0; i < plans.size(); ++i) {
    REQUIRE(results[i].outcome);
    CHECK(results[i].outcome->core == simulate(plans[i], section)->core); // alone: to the bit
  }
}

TEST_CASE("none, or one, is a batch too") {
  CHECK(simulate_many(std::vector<Plan>{}).empty());
  const std::vector<Plan> plans = varied_plans(10);
  const auto results = simulate_many(plans);
  const auto single = simulate_many(std::vector<Plan>{plans[0]});
  agree(*single[0].outcome, *simulate(plans[0]));
  CHECK(single[0].outcome->core == results[0].outcome->core);
}

TEST_CASE("every result is delivered once, and a stop ends all") {
  const std::vector<Plan> plans = varied_plans(60);
  std::multiset<std::size_t> delivered;
  simulate_many(plans, {}, 3, [&](std::size_t i, const Result &) { delivered.insert(i); });
  CHECK(delivered.size() == plans.size());
  for (std::size_t i = 0; i < plans.size(); ++i) {
    CHECK(delivered.count(i) == 1);
  }
  Options stopped;
  stopped.interrupted = [] { return true; };
  std::vector<Plan> many;
  for (int n = 0; n < 40; ++n) {
    many.insert(many.end(), plans.begin(), plans.end());
  }
  std::size_t interrupted = 0;
  std::size_t count = 0;
  simulate_many(many, stopped, 2, [&](std::size_t, const Result &result) {
    ++count;
    try {
      if (result.failure) {
        std::rethrow_exception(result.failure);
      }
    } catch (const Interrupted &) {
      ++interrupted;
    }
  });
  CHECK(count == many.size());
  CHECK(interrupted > many.size() / 2);
  CHECK_THROWS_AS((void)simulate_many(plans, {}, -1), InvalidInput);
}
