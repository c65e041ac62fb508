// The search for the end of a step: it comes to an end whatever the trials say.
#include "engine/time/bracket.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <functional>

#include "cook/units.hpp"
#include "cooks.hpp"

using namespace cook;
using engine::Bracket;

namespace {

/// How many trials it takes, and the length found.
struct Found {
  int tries = 0;
  double length = 0.0;
};

Found search(double length, const std::function<double(double)> &excess) {
  Bracket bracket(length, excess(0.0), 1e-16);
  Found found;
  do {
    found.length = bracket.trial();
    ++found.tries;
    REQUIRE(found.tries <= 100);
  } while (!bracket.tried(found.length, excess(found.length)));
  return found;
}

} // namespace

TEST_CASE("a condition is found where it is met") {
  for (const double root : {0.001, 1.0, 59.0, 59.9995}) {
    const Found found = search(60.0, [root](double t) { return std::tanh(0.1 * (t - root)); });
    CHECK(found.length >= root);
    CHECK(found.length < root + 2.0 * Bracket::close_enough);
  }
}

TEST_CASE("a condition that is met at the step's end to rounding only ends there") {
  // The step said so, and its trials say otherwise: at no length, or only beyond the last.
  const Found never = search(60.0, [](double) { return -1e-16; });
  CHECK(never.length == 60.0);
  CHECK(search(60.0, [](double t) { return t < 60.0 ? -1.0 : -1e-17; }).length == 60.0);
  CHECK(search(5e-4, [](double) { return -1.0; }).length == 5e-4);
}

TEST_CASE("meat that starts at the core its stage waits for, in air that hardly warms it") {
  Plan plan = testing::bare_cook(121.0);
  plan.meat.start = -1.0;
  plan.stages[0].until = {{EndKind::core, -1.0}};
  plan.stages.push_back(plan.stages[0]);
  plan.stages[1].until = {{EndKind::elapsed, 60.0}};
  const auto outcome = simulate(plan);
  CHECK(outcome->time.back() < 3600.0);
}
