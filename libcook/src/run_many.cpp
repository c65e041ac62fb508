#include "run_many.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>

#include "cook/errors.hpp"

namespace cook {

namespace {

/// Runs one; anything unexpected is passed on.
Ran run_one(const Plan &plan, const Options &options) {
  try {
    return {.outcome = simulate(plan, options), .whole = true, .why = {}};
  } catch (const Interrupted &) {
    throw;
  } catch (const SolverFailure &failure) {
    return {.outcome = failure.outcome(), .whole = false, .why = failure.what()};
  } catch (const InvalidInput &error) {
    return {.outcome = nullptr, .whole = false, .why = error.what()};
  }
}

} // namespace

std::vector<Ran> run_many(const std::vector<Plan> &plans, const Options &options, int threads) {
  std::vector<Ran> results(plans.size());
  std::atomic<std::size_t> next{0};
  std::atomic<bool> stop{false};
  std::exception_ptr failed;
  std::atomic<bool> has_failed{false};
  const auto work = [&](const Options &mine) {
    try {
      for (std::size_t i = next++; i < plans.size() && !stop; i = next++) {
        results[i] = run_one(plans[i], mine);
      }
    } catch (...) {
      stop = true;
      if (!has_failed.exchange(true)) {
        failed = std::current_exception();
      }
    }
  };
  const auto available = static_cast<std::size_t>(std::max(1U, std::thread::hardware_concurrency()));
  const std::size_t wanted = threads > 0 ? static_cast<std::size_t>(threads) : available;
  std::vector<std::thread> helpers;
  // The user's question is asked from the calling thread, which knows about signals; the others follow it.
  Options helping = options;
  helping.interrupted = [&stop] { return stop.load(); };
  for (std::size_t k = 1; k < std::min(wanted, plans.size()); ++k) {
    helpers.emplace_back(work, helping);
  }
  work(options);
  for (std::thread &helper : helpers) {
    helper.join();
  }
  if (has_failed) {
    std::rethrow_exception(failed);
  }
  return results;
}

Options core_only(std::function<bool()> interrupted) {
  Options options;
  options.nodes = 21; // within 0.2 % of the finish on 31 nodes, and a quarter quicker
  options.keep_fields = false;
  options.output_every = 300.0;
  options.interrupted = std::move(interrupted);
  return options;
}

double core_of(const Outcome &outcome, double seconds) {
  if (seconds <= outcome.time.front()) {
    return outcome.core.front();
  }
  return seconds >= outcome.time.back() ? outcome.core.back() : outcome.core_at(seconds);
}

} // namespace cook
