/// @file
/// Finds the length of a step at whose end a condition is just met, from steps of trial lengths.
#pragma once

#include <algorithm>
#include <cmath>

namespace cook::engine {

/// Root of an increasing excess between 0 and the length of a step, by false position with the Illinois
/// remedy, aimed a hair beyond the root: the state at the end must be one where the condition holds.
class Bracket {
public:
  static constexpr double close_enough = 1e-3; ///< [s]

  Bracket() = default;
  /// @param at_low excess at the start of the step, below zero  @param at_high at its end, not below zero
  Bracket(double length, double at_low, double at_high) : high_(length), at_low_(at_low), at_high_(at_high) {}

  /// Length to be tried next [s].
  [[nodiscard]] double trial() const {
    if (narrow()) { // the end has been tried before, but the last trial was not it
      return high_;
    }
    const double per_excess = (high_ - low_) / (at_high_ - at_low_);
    const double root = low_ - at_low_ * per_excess + 0.5 * close_enough;
    const double share = (root - low_) / (high_ - low_);
    return low_ + (std::isfinite(share) ? std::clamp(share, 0.02, 0.98) : 0.5) * (high_ - low_);
  }

  /// Takes the excess at the end of a trial of length `at`. True: it is the end sought.
  bool tried(double at, double excess) {
    ++tries_;
    constexpr int most = 60;
    if (excess >= 0.0) {
      const double beyond = excess * (at - low_) / (excess - at_low_); // since the condition was met
      high_ = at;
      at_high_ = excess;
      at_low_ *= below_ ? 1.0 : 0.5;
      below_ = false;
      return narrow() || beyond < close_enough || tries_ >= most;
    }
    low_ = at;
    at_low_ = excess;
    at_high_ *= below_ ? 0.5 : 1.0;
    below_ = true;
    // A condition that is met to rounding at the step's end may fall short of it when the same step is made
    // again: there is nothing beyond to be tried.
    return at >= high_ || tries_ >= most;
  }

private:
  [[nodiscard]] bool narrow() const { return high_ - low_ <= close_enough; }

  double low_ = 0.0, high_ = 0.0;
  double at_low_ = -1.0, at_high_ = 1.0;
  bool below_ = false; ///< the last trial fell short
  int tries_ = 0;
};

} // namespace cook::engine
