/// @file
/// The reference slab through Boost.Odeint's own steppers, each with its dense output.
#pragma once

#include <cstddef>

#include "benchmarks/reference/recipe.hpp"
#include "benchmarks/reference/trace.hpp"

namespace cook::contenders {

/// Dormand and Prince's explicit method of fifth order. Absolute tolerance 10 times the given one, relative
/// one times it.
reference::Trace dopri5_slab(const reference::Recipe &recipe, std::size_t intervals, double tolerance);

/// A Rosenbrock method of fourth order, on dense matrices (Odeint's has no others), analytic Jacobian.
reference::Trace rosenbrock4_slab(const reference::Recipe &recipe, std::size_t intervals, double tolerance);

} // namespace cook::contenders
