/// @file
/// What equations() refuses, in one dimension and on a cross-section.
#pragma once

#include "cook/engine/simulate.hpp"
#include "cook/errors.hpp"
#include "cook/plan/plan.hpp"

namespace cook {

/// Throws InvalidInput for a bad plan or options, and for surroundings with a state of their own.
inline void check_for_equations(const Plan &plan, const Options &options) {
  plan.validate();
  options.validate();
  const Surroundings &s = plan.stages[0].surroundings;
  if (s.box || s.pit_air) {
    throw InvalidInput(s.box ? "stages[0].surroundings.box" : "stages[0].surroundings.pit_air",
                       "a state of its own that these equations leave out; use simulate()");
  }
}

} // namespace cook
