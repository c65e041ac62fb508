/// @file
/// The default cook of the full model: a brisket, never wrapped, for twelve hours in a generic drum.
#pragma once

#include <cstddef>

#include "benchmarks/reference/trace.hpp"
#include "cook/engine/equations.hpp"

namespace cook::benchmarks {

inline constexpr double full_model_end = 43200.0; ///< s

/// Through simulate().
/// @param index of a variant of it (see sweep_full_model), from 0; -1: the default cook itself
/// @param tolerance local error per step [K]; 0: the default
reference::Trace simulate_full_model(int index, double tolerance);

/// Variants of it in batches (simulate_many), in pits of 225 to 250 °F, of 5 to 7 kg; outputs every five
/// minutes. Returns what the wall clock says [s].
/// @param tolerance as above
double sweep_full_model(std::size_t count, int threads, double tolerance);

/// The same equations for other integrators.
Equations full_model_equations(int index);

} // namespace cook::benchmarks
