#include "benchmarks/reference/arithmetic.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <vector>

#include "benchmarks/reference/counted.hpp"
#include "benchmarks/reference/slab_system.hpp"
#include "engine/arithmetic/vector_clones.hpp"
#include "engine/time/ros3.hpp"

namespace cook::reference {

namespace {

constexpr std::size_t chains = 12; ///< that do not wait for each other: more than latency times width

COOK_PACK_CLONES
void multiply_and_add(std::array<Neighbours, chains> &x, long rounds) {
  std::array<Neighbours, chains> y = x;
  const Neighbours a(0.999999);
  const Neighbours b(1e-6);
  for (long round = 0; round < rounds; ++round) {
    for (Neighbours &pack : y) {
      pack = pack * a + b;
    }
  }
  x = y;
}

} // namespace

long slab_step_operations(std::size_t intervals) {
  SlabSystem<Counted> system(intervals);
  system.set(0, Recipe{}, 0);
  std::vector<Counted> y(system.size());
  std::vector<Counted> f(y);
  std::vector<Counted> next(y);
  std::vector<Counted> error(y);
  engine::Ros3<Counted> stepper(system.size());
  system.start(0, Recipe{}, y);
  Counted::operations = 0;
  system.linearise(Counted(0.0), y, f);
  stepper.step(system, Counted(0.0), y, f, Counted(10.0), next, error);
  Counted size;
  for (const Counted &e : error) {
    size = size + e * e;
  }
  return Counted::operations;
}

double peak_operations_per_second() {
  constexpr long rounds = 20000;
  constexpr int tries = 20;
  std::array<Neighbours, chains> x;
  x.fill(Neighbours(1.0));
  double best = 1e30;
  for (int i = 0; i < tries; ++i) {
    const auto begin = std::chrono::steady_clock::now();
    multiply_and_add(x, rounds);
    best = std::min(best, std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
  }
  return 2.0 * static_cast<double>(chains * Neighbours::count) * static_cast<double>(rounds) / best;
}

} // namespace cook::reference
