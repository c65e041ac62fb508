#include "cook/readings/read_many.hpp"

#include <algorithm>
#include <limits>
#include <string>

#include "cook/engine/simulate_many.hpp"
#include "cook/errors.hpp"

namespace cook {

namespace {

/// Reads an outcome; what goes wrong is that plan's failure, and leaves no half-filled row.
std::exception_ptr read_one(const Reader &reader, const Outcome &outcome, std::span<double> row) {
  try {
    reader.read(outcome, row);
    return nullptr;
  } catch (...) {
    std::fill(row.begin(), row.end(), std::numeric_limits<double>::quiet_NaN());
    return std::current_exception();
  }
}

} // namespace

void read_many(std::span<const Plan> plans, const Options &options, int threads, const Reader &reader,
               std::span<double> values, const Noted &noted) {
  const std::size_t width = reader.width();
  if (values.size() != plans.size() * width) {
    throw InvalidInput("values", std::to_string(values.size()) + " numbers; " + std::to_string(width) +
                                     " are read of each of " + std::to_string(plans.size()) + " plans");
  }
  std::fill(values.begin(), values.end(), std::numeric_limits<double>::quiet_NaN());
  const auto deliver = [&](std::size_t index, const Result &result) {
    noted(index, result.failure ? result.failure
                                : read_one(reader, *result.outcome, values.subspan(index * width, width)));
  };
  simulate_many(plans, options, threads, deliver, Delivery::side_by_side);
}

} // namespace cook
