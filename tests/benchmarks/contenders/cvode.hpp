/// @file
/// The reference slab and the full model through SUNDIALS CVODE: variable-order BDF.
#pragma once

#include <cstddef>
#include <vector>

#include "benchmarks/reference/equations.hpp"
#include "benchmarks/reference/recipe.hpp"
#include "benchmarks/reference/trace.hpp"
#include "cook/engine/equations.hpp"

namespace cook::contenders {

/// Whether this program was built with SUNDIALS.
bool has_cvode();

/// Banded factorisation, analytic Jacobian. Relative tolerance; the absolute ones are 10 K and 0.1 kg/kg
/// times it.
/// @throws std::runtime_error without SUNDIALS, and when CVODE reports an error
reference::Trace cvode_slab(const reference::Recipe &recipe, std::size_t intervals, double tolerance);

/// The first stage of a plan, up to `end` [s]: the library's rates, banded factorisation, Jacobian by
/// differences.
/// @return temperature of the core at every full minute [°C], in `middle`
reference::Trace cvode_full_model(Equations &equations, double end, double tolerance);

} // namespace cook::contenders
