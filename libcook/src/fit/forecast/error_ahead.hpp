/// @file
/// The model's error from now on, given how it missed the log so far.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <tuple>
#include <vector>

#include <Eigen/Dense>

#include "fit/calibrate/discrepancy.hpp"
#include "fit/forecast/ensemble.hpp"

namespace cook::fit {

/// Mean and deviation of the model's error of time at a moment, given how a member missed the log.
class ErrorAhead {
public:
  explicit ErrorAhead(const Ensemble &ensemble)
      : error_(ensemble.problem.error), at_(ensemble.solution.logs.front()), sizes_(ensemble.sizes),
        time_(ensemble.problem.logs.front().data.time) {}

  struct Normal {
    double mean = 0.0;
    double deviation = 0.0;
  };
  /// By what the cook is ahead of the simulation at a moment [s]: shift of pace, and level over the rate of
  /// the core. @param rate [K/s]; 0: the level does not matter
  [[nodiscard]] Normal shift(double t, double rate, const Member &member) const {
    const double per = rate > 0.0 ? 1.0 / std::max(rate, least_rate) : 0.0;
    return given(t, 1.0, per, member);
  }
  /// Level alone [K].
  [[nodiscard]] Normal level(double t, const Member &member) const { return given(t, 0.0, 1.0, member); }

private:
  /// What does not depend on how the member missed: its error ahead is normal with this deviation, about the
  /// gain's share of the misses.
  struct Gain {
    Eigen::VectorXd of_miss;
    double deviation = 0.0;
  };

  [[nodiscard]] Normal given(double t, double of_shift, double of_level, const Member &member) const {
    // Members of one size share what the grid of the traces asks again and again.
    const auto key = std::tuple(member.size, t, of_shift, of_level);
    auto found = gains_.find(key);
    if (found == gains_.end()) {
      found = gains_.emplace(key, gain(t, of_shift, of_level, sizes_[member.size])).first;
    }
    const Gain &g = found->second;
    return {.mean = g.of_miss.size() > 0 ? g.of_miss.dot(member.residual) : 0.0, .deviation = g.deviation};
  }

  [[nodiscard]] Gain gain(double t, double of_shift, double of_level, const ErrorSize &size) const {
    const double square = size.factor * size.factor;
    Gain made;
    double variance = square * (of_shift * of_shift * shift_covariance(error_, t, t) +
                                of_level * of_level * level_covariance(error_, t, t));
    const auto n = static_cast<Eigen::Index>(time_.size());
    if (n > 0) {
      Eigen::VectorXd k(n);
      for (Eigen::Index i = 0; i < n; ++i) {
        const double s = time_[static_cast<std::size_t>(i)];
        k(i) = square * (of_shift * shift_covariance(error_, t, s) * at_.trace.slope(i) +
                         of_level * level_covariance(error_, t, s));
      }
      made.of_miss = size.errors.solve(k);
      variance -= made.of_miss.dot(k);
    }
    made.deviation = std::sqrt(std::max(variance, 0.0));
    return made;
  }

  const ModelError &error_;
  const AtLog &at_;
  const std::vector<ErrorSize> &sizes_;
  const std::vector<double> &time_;
  mutable std::map<std::tuple<std::size_t, double, double, double>, Gain> gains_;
};

} // namespace cook::fit
