/// @file
/// Many cooks where there is one thread and no vectors: one after the other. It stands in for the library's
/// simulate_many.cpp, whose packs would be two thirds of what a browser has to load.
#include "cook/engine/simulate_many.hpp"

namespace cook {

void simulate_many(std::span<const Plan> plans, const Options &options, int /*threads*/,
                   const Deliver &deliver, Delivery /*delivery*/) {
  options.validate();
  for (std::size_t i = 0; i < plans.size(); ++i) {
    Result result;
    try {
      result.outcome = simulate(plans[i], options);
    } catch (...) {
      result.failure = std::current_exception();
    }
    deliver(i, std::move(result));
  }
}

std::vector<Result> simulate_many(std::span<const Plan> plans, const Options &options, int threads) {
  std::vector<Result> made(plans.size());
  simulate_many(plans, options, threads, [&](std::size_t i, Result result) { made[i] = std::move(result); });
  return made;
}

} // namespace cook
