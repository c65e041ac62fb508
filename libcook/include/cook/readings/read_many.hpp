/// @file
/// Many plans in, numbers out: what is read of each outcome, which is dropped at once.
#pragma once

#include <cstddef>
#include <exception>
#include <functional>
#include <span>

#include "cook/engine/simulate.hpp"
#include "cook/readings/reading_table.hpp"

namespace cook {

/// Called for each plan that is over: its index, and what simulate() would have thrown (null when it did
/// not). From any of the threads, also from several at once. Must not throw.
using Noted = std::function<void(std::size_t index, const std::exception_ptr &failure)>;

/// Runs plans side by side, as simulate_many() does, and reads each outcome on the thread that made it.
/// @param values row-major, plans x reader.width(); NaN in the row of a plan that failed
/// @param noted its memory is filled before it is called
/// @throws InvalidInput for bad options, and for values of another size
void read_many(std::span<const Plan> plans, const Options &options, int threads, const Reader &reader,
               std::span<double> values, const Noted &noted);

} // namespace cook
