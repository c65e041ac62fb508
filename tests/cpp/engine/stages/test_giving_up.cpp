/// A cook that cannot go on says why and keeps its part.
#include <doctest/doctest.h>

#include <stdexcept>
#include <string>

#include "cook/errors.hpp"
#include "cook/units.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

bool has(const std::string &text, const std::string &word) { return text.find(word) != std::string::npos; }

/// What `plan` is stopped by, of the type asked for.
template <class Failure> Failure failure(const Plan &plan, const Options &options = {}) {
  try {
    (void)simulate(plan, options);
  } catch (const Failure &failure) {
    return failure;
  }
  throw std::logic_error("the plan ran through, or failed otherwise");
}

} // namespace

TEST_CASE("a target that is out of reach: where the core levels off, and what was computed") {
  Plan plan = bare_cook(70.0, 69.9);
  plan.stages[0].surroundings.ambient = 20.0;
  const auto stop = failure<Unreachable>(plan);
  const std::string text = stop.what();
  MESSAGE(text);
  CHECK(has(text, "stages[0].until"));
  CHECK(has(text, "core at 158 °F (69.9 °C)"));
  CHECK(has(text, "48 h"));
  REQUIRE(stop.outcome());
  const Outcome &part = *stop.outcome();
  CHECK(part.time.back() == doctest::Approx(48.0 * hour).epsilon(1e-12));
  CHECK(part.stage_ends.empty());
  CHECK(part.core.back() < 69.9);
  CHECK(std::fabs(part.ledger.heat_residual) < 1e-9);
  CHECK(std::fabs(part.ledger.water_residual) < 1e-9);
  // A sealed piece in an oven of 70 °C levels off at 70 °C sharp: the message names that temperature.
  plan.stages[0].surroundings = oven(70.0);
  plan.stages[0].until = {{EndKind::cooled, 65.0}};
  plan.stages[0].until = {{EndKind::tender, 0.999}};
  Options sealed;
  sealed.physics.evaporation = false;
  const std::string level = failure<Unreachable>(plan, sealed).what();
  MESSAGE(level);
  CHECK(has(level, "the core levels off at 158 °F (70 °C)"));
  // Given up early, it is still on its way.
  plan.stages[0].at_most = 3.0 * hour;
  const std::string early = failure<Unreachable>(plan, sealed).what();
  CHECK(has(early, "3 h"));
  CHECK(has(early, "still rises"));
}

TEST_CASE("a hopeless second stage keeps the first one") {
  Plan plan = wrapped_cook(121.0, "foil", 65.6);
  plan.stages[1].surroundings = oven(68.0);
  plan.stages[1].until = {{EndKind::core, 67.9}};
  plan.stages[1].at_most = 2.0 * hour;
  const auto stop = failure<Unreachable>(plan);
  CHECK(has(stop.what(), "stages[1].until"));
  REQUIRE(stop.outcome()->stage_ends.size() == 1);
  CHECK(stop.outcome()->stage_ends[0].reason == "core at 150 °F (65.6 °C)");
  CHECK(stop.outcome()->time.back() ==
        doctest::Approx(stop.outcome()->stage_ends[0].time + 2.0 * hour).epsilon(1e-12));
}

TEST_CASE("a target that carryover does not reach: how high the core came, and that it falls") {
  Plan plan = bare_cook(150.0, 55.0);
  plan.stages.push_back({.name = "rest", .surroundings = counter(21.0), .until = {{EndKind::core, 75.0}}});
  plan.stages[1].at_most = 4.0 * hour;
  const auto stop = failure<Unreachable>(plan);
  const std::string text = stop.what();
  MESSAGE(text);
  CHECK(has(text, "falls"));
  CHECK(has(text, "after a peak of "));
  CHECK(stop.outcome()->time.back() ==
        doctest::Approx(stop.outcome()->stage_ends[0].time + 4.0 * hour).epsilon(1e-12));
}

TEST_CASE("too many steps: a failure that names stage and time and keeps what it has") {
  Options options;
  options.max_steps = 30;
  const auto stop = failure<SolverFailure>(bare_cook(121.0), options);
  const std::string text = stop.what();
  MESSAGE(text);
  CHECK(has(text, "more than 30 steps"));
  CHECK(has(text, "stages[0] 'smoke'"));
  CHECK(has(text, " h, core "));
  REQUIRE(stop.outcome());
  CHECK(stop.outcome()->ledger.steps == 30);
  CHECK(stop.outcome()->time.size() > 1);
  CHECK(std::fabs(stop.outcome()->ledger.heat_residual) < 1e-9);
  CHECK_THROWS_AS((void)simulate(bare_cook(121.0), options), SolverFailure);
}

TEST_CASE("stopped on request: promptly, with what was computed") {
  Options options;
  int asked = 0;
  options.interrupted = [&asked] { return ++asked > 2; };
  options.temperature_tolerance = 1e-4; // many steps
  options.water_tolerance = 1e-5;
  const auto stop = failure<Interrupted>(bare_cook(121.0), options);
  CHECK(asked == 3);
  CHECK(has(stop.what(), "stopped on request"));
  REQUIRE(stop.outcome());
  CHECK(stop.outcome()->times() > 1);
  CHECK(stop.outcome()->ledger.steps <= 3 * 64);
  CHECK(std::fabs(stop.outcome()->ledger.water_residual) < 1e-9);
  // Traces and ledger end at the same moment, however sparse the traces are.
  asked = 0;
  options.output_every = 1e4;
  const auto sparse = failure<Interrupted>(bare_cook(121.0), options).outcome();
  CHECK(sparse->times() > 1);
  double evaporated = 0.0;
  for (std::size_t s = 0; s < 2; ++s) {
    evaporated +=
        sparse->paths[s][static_cast<std::size_t>(FacePath::evaporated)].back() * sparse->face_area[s];
  }
  CHECK(evaporated < 0.0); // cold meat gathers dew first
  CHECK(evaporated == doctest::Approx(sparse->ledger.evaporated).epsilon(1e-12));
  // At once: nothing but the start.
  options.interrupted = [] { return true; };
  const auto at_once = failure<Interrupted>(bare_cook(121.0), options);
  CHECK(at_once.outcome()->times() == 1);
  CHECK(at_once.outcome()->core[0] == doctest::Approx(4.0).epsilon(1e-6));
  // Asked in vain, the cook runs through.
  options = {};
  options.interrupted = [] { return false; };
  CHECK(simulate(bare_cook(135.0), options)->stage_ends.size() == 1);
}
