/// @file
/// A cook of the two-dimensional reference problem, by the stabilised explicit method of rkc.hpp.
#pragma once

#include <cstddef>

#include "benchmarks/reference/accuracy.hpp"
#include "benchmarks/reference/recipe.hpp"
#include "benchmarks/reference/trace.hpp"

namespace cook::reference {

struct RectangleOptions {
  std::size_t along = 60, across = 24; ///< intervals
  Accuracy accuracy = rectangle_accuracy;
};

Trace cook_rectangle(const Recipe &recipe, const RectangleOptions &options);

} // namespace cook::reference
