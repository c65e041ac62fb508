/// @file
/// Many plans in, their outcomes out: in packs of eight through one solver, on all threads.
#pragma once

#include <cstddef>
#include <exception>
#include <functional>
#include <memory>
#include <span>
#include <vector>

#include "cook/engine/simulate.hpp"

namespace cook {

/// What became of one plan.
struct Result {
  std::shared_ptr<const Outcome> outcome; ///< null when it failed
  std::exception_ptr failure;             ///< what simulate() would have thrown; null when it did not
};

/// Called with each plan's index as soon as its result is there, in any order, from any of the threads. Must
/// not throw.
using Deliver = std::function<void(std::size_t index, Result result)>;

/// How results are delivered.
enum class Delivery {
  one_by_one,  ///< never from two threads at once
  side_by_side ///< from several threads at once: no thread waits for another one's delivery
};

/// Runs plans side by side. Whole pieces and slabs go in packs (the lanes of vector instructions): each
/// result is that of simulate() within the tolerances, and the same to the bit whatever else is in the batch
/// and on however many threads, by the same processor. Cross-sections go one by one on each thread, and
/// their results are those of simulate().
/// @param options for all; `interrupted` is asked now and then on the calling thread, true stops all: the
/// plans that are left then fail with Interrupted; the outcome of one that had not begun is empty
/// @param threads 0: one for each processor
/// @throws InvalidInput for bad options; a plan that is bad, or cannot be solved, only fails itself
void simulate_many(std::span<const Plan> plans, const Options &options, int threads, const Deliver &deliver,
                   Delivery delivery = Delivery::one_by_one);

/// The same, collected in the order of the plans.
[[nodiscard]] std::vector<Result> simulate_many(std::span<const Plan> plans, const Options &options = {},
                                                int threads = 0);

} // namespace cook
