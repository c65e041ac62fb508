#include "benchmarks/reference/slab_cooks.hpp"

#include <atomic>
#include <thread>

#include "benchmarks/reference/slab_runner.hpp"
#include "engine/arithmetic/vector_clones.hpp"

namespace cook::reference {

namespace {

using Queue = std::atomic<std::size_t>;

COOK_PACK_CLONES
void run_scalar(SlabRunner<double> &runner, const std::vector<Recipe> &recipes, Queue &queue, bool keep,
                std::vector<Trace> &traces) {
  runner.run(recipes, queue, keep, traces);
}

COOK_PACK_CLONES
void run_packs(SlabRunner<engine::Pack> &runner, const std::vector<Recipe> &recipes, Queue &queue, bool keep,
               std::vector<Trace> &traces) {
  runner.run(recipes, queue, keep, traces);
}

} // namespace

std::vector<Trace> cook_slabs(const std::vector<Recipe> &recipes, const SlabOptions &options) {
  std::vector<Trace> traces(recipes.size());
  SlabRunner<double> runner(options.intervals, options.accuracy);
  Queue queue{0};
  run_scalar(runner, recipes, queue, options.keep, traces);
  return traces;
}

std::vector<Trace> cook_slabs_in_packs(const std::vector<Recipe> &recipes, const SlabOptions &options,
                                       std::size_t threads) {
  std::vector<Trace> traces(recipes.size());
  Queue queue{0};
  const auto work = [&] {
    SlabRunner<engine::Pack> runner(options.intervals, options.accuracy);
    run_packs(runner, recipes, queue, options.keep, traces);
  };
  std::vector<std::thread> others;
  for (std::size_t i = 1; i < threads; ++i) {
    others.emplace_back(work);
  }
  work();
  for (std::thread &other : others) {
    other.join();
  }
  return traces;
}

} // namespace cook::reference
