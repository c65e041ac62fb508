/// @file
/// What holds for every outcome, whole or partial, however odd the plan.
#pragma once

#include <vector>

#include "cook/plan/outcome.hpp"

namespace cook::fuzz {

/// How far a ledger may stay open, relative to the largest flow: rounding alone.
inline constexpr double rounding = 1e-9;

/// Everything finite, time increasing, traces of one length, shares between 0 and 1, ledgers closed.
void check_outcome(const Outcome &outcome);
/// Every reading gives finite numbers, or InvalidInput.
void check_readings(const Outcome &outcome);
/// The whole table of readings.
std::vector<double> read_all(const Outcome &outcome);

} // namespace cook::fuzz
