/// @file
/// How much of a measured time is arithmetic that must be done: operations counted, and how fast the
/// processor is when it does nothing else.
#pragma once

#include <cstddef>

namespace cook::reference {

/// Additions, multiplications and divisions of one step of the slab: linearisation, factorisation, three
/// solves, the second evaluation, the stages, error and its size.
long slab_step_operations(std::size_t intervals);

/// Additions and multiplications a second on one core, in packs, fused, out of registers.
double peak_operations_per_second();

} // namespace cook::reference
