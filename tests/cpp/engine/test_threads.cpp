// Simulations in several threads at once share nothing: the same bits as one at a time.
#include <doctest/doctest.h>

#include <cstddef>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include "cook/errors.hpp"
#include "cook/json/json.hpp"
#include "cook/readings/readings.hpp"
#include "cooks.hpp"

using namespace cook;
using namespace cook::testing;

namespace {

Plan varied(std::size_t i) {
  constexpr const char *wraps[] = {"foil", "butcher paper", "pan"};
  Plan plan = wrapped_cook(110.0 + static_cast<double>(i), wraps[i % 3], 40.0, 60.0);
  if (i % 4 == 3) {
    plan.meat = roll(1.5);
  }
  return plan;
}

Options coarse() {
  Options options;
  options.nodes = 15;
  options.output_every = 600.0;
  return options;
}

/// Everything but the wall time, as text.
std::string contents(const Outcome &outcome) {
  Outcome copy = outcome;
  copy.ledger.solver_seconds = 0.0;
  return to_json(copy, true) + format_number(safety(copy).log_reduction) + format_number(loss(copy).total());
}

} // namespace

TEST_CASE("threads give the bits that one thread gives") {
  constexpr std::size_t plans = 16;
  constexpr std::size_t workers = 8;
  std::vector<std::string> together(plans);
  {
    std::vector<std::thread> threads;
    for (std::size_t w = 0; w < workers; ++w) {
      threads.emplace_back([w, &together] {
        for (std::size_t i = w; i < plans; i += workers) {
          // The plan comes from text, so that reading JSON runs in parallel too.
          together[i] = contents(*simulate(plan_from_json(to_json(varied(i))), coarse()));
        }
      });
    }
    for (std::thread &thread : threads) {
      thread.join();
    }
  }
  for (std::size_t i = 0; i < plans; ++i) {
    CAPTURE(i);
    CHECK(together[i] == contents(*simulate(varied(i), coarse())));
  }
}

TEST_CASE("one plan can be run by several threads") {
  const Plan plan = varied(0);
  std::vector<std::shared_ptr<const Outcome>> outcomes(4);
  std::vector<std::thread> threads;
  for (auto &outcome : outcomes) {
    threads.emplace_back([&plan, &outcome] { outcome = simulate(plan, coarse()); });
  }
  for (std::thread &thread : threads) {
    thread.join();
  }
  for (const auto &outcome : outcomes) {
    CHECK(contents(*outcome) == contents(*outcomes[0]));
  }
}
