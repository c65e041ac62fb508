/// @file
/// Plan in, Outcome out.
#pragma once

#include <memory>

#include "cook/plan/options.hpp"
#include "cook/plan/outcome.hpp"
#include "cook/plan/plan.hpp"

namespace cook {

/// Runs the plan.
/// @throws InvalidInput before any work; Unreachable, SolverFailure, Interrupted with what was computed so
/// far.
[[nodiscard]] std::shared_ptr<const Outcome> simulate(const Plan &plan, const Options &options = {});

} // namespace cook
