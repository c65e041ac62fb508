/// @file
/// How long the next step is, from how large the error of the last one was.
#pragma once

#include <cmath>

namespace cook::engine {

class StepSize {
public:
  /// A step to be tried.
  struct Try {
    double length = 0.0; ///< [s]
    bool last = false;   ///< it ends exactly at the moment that limits it
  };

  /// The step that will be tried next, if nothing limits it [s].
  double h = 1.0;

  /// Forgets how large the last step was: call after something jumped.
  void restart() {
    constexpr double first = 2.0; // s
    h = first;
    tries_ = 0;
  }

  /// @param left time to the next fixed moment [s]. The last two steps before it share what is left, so that
  /// no sliver remains.
  [[nodiscard]] Try propose(double left) const {
    const bool last = h >= left * (1.0 - 1e-9);
    return {last ? left : (h > 0.5 * left ? 0.5 * left : h), last};
  }

  /// @param size of the error, at most 1
  void accept(const Try &made, double size) {
    const double growth = 0.7 / std::cbrt(std::fmax(size, 1e-3));
    const double proposal = made.length * std::fmin(tries_ > 0 ? 1.0 : 4.0, std::fmax(growth, 0.3));
    // A step cut short by the end says little about the next one: keep the larger of the two.
    h = made.length < h && tries_ == 0 ? std::fmax(h, proposal) : proposal;
    tries_ = 0;
  }

  /// @param size of the error, above 1 or not finite, or below when the step ended where no cook can
  void reject(const Try &made, double size) {
    ++tries_;
    h = made.length * (size <= 1.0                         ? 0.45
                       : std::isfinite(size) && size < 1e6 ? std::fmax(0.2, 0.7 / std::cbrt(size))
                                                           : 0.1);
  }

  /// Whether it makes no sense to go on trying at time t [s]: near the clock's own resolution. A face held by
  /// a huge film coefficient settles within 1e-9 s.
  [[nodiscard]] bool hopeless(double t) const {
    constexpr int most_tries = 60;
    return tries_ >= most_tries || h < 1e-12 + 1e-15 * std::fabs(t);
  }

private:
  int tries_ = 0; ///< in vain, from here
};

} // namespace cook::engine
