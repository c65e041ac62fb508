/// @file
/// Cooks of the one-dimensional reference problem with the library's stepper and block solver.
#pragma once

#include <cstddef>
#include <vector>

#include "benchmarks/reference/accuracy.hpp"
#include "benchmarks/reference/recipe.hpp"
#include "benchmarks/reference/trace.hpp"

namespace cook::reference {

struct SlabOptions {
  std::size_t intervals = 60;
  Accuracy accuracy = slab_accuracy;
  bool keep = true; ///< the temperature in the middle at every minute
};

/// One after the other, on this thread.
std::vector<Trace> cook_slabs(const std::vector<Recipe> &recipes, const SlabOptions &options);

/// In packs of engine::pack_lanes, on several threads.
std::vector<Trace> cook_slabs_in_packs(const std::vector<Recipe> &recipes, const SlabOptions &options,
                                       std::size_t threads);

} // namespace cook::reference
