/// @file
/// Small helpers that the readings share.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "cook/errors.hpp"
#include "cook/plan/outcome.hpp"

namespace cook::readings {

/// Throws when an outcome holds nothing to read.
inline void require_samples(const Outcome &outcome) {
  if (outcome.time.empty()) {
    throw InvalidInput("outcome", "empty; nothing was computed");
  }
}

/// Whether the temperature of every node was stored at every time.
inline bool has_fields(const Outcome &outcome) {
  return outcome.nodes() > 0 && outcome.temperature.size() == outcome.times() * outcome.nodes();
}

/// Whether the piece has a face: a cylinder has no bottom.
inline bool has_face(const Outcome &outcome, std::size_t face) {
  return outcome.face_area[face] > 0.0 && outcome.surface[face].size() == outcome.times();
}

/// Index of the first stored time at or after `seconds`; the last one when there is none.
[[nodiscard]] std::size_t index_at(const Outcome &outcome, double seconds);

/// Moment at which a trace crosses `level` between samples i - 1 and i, by a straight line [s].
[[nodiscard]] double crossing(const std::vector<double> &time, const std::vector<double> &trace,
                              std::size_t i, double level);

/// First moment from sample `from` on at which a trace, having been at or above `level`, falls below it [s].
[[nodiscard]] std::optional<double> falls_through(const std::vector<double> &time,
                                                  const std::vector<double> &trace, std::size_t from,
                                                  double level);

/// Time that a trace spends in [low, high] between samples `from` and `to`, by straight lines [s].
[[nodiscard]] double time_within(const std::vector<double> &time, const std::vector<double> &trace,
                                 std::size_t from, std::size_t to, double low, double high);

/// Index of the core's peak: after the pull, or of the whole outcome when never pulled.
[[nodiscard]] std::size_t peak_index(const Outcome &outcome);

} // namespace cook::readings
