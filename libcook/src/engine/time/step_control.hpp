/// @file
/// Adaptive steps: accepts or repeats a step by its estimated error, and never loops without progress.
#pragma once

#include <cmath>
#include <cstddef>
#include <vector>

#include "engine/time/one_cook_steps.hpp"
#include "engine/time/ros3.hpp"
#include "engine/time/step_error.hpp"
#include "engine/time/step_size.hpp"

namespace cook::engine {

/// For the systems of one cook (LineSystem, SectionSystem); one that can learn from a failed step is
/// asked to.
template <class System> class StepControl {
public:
  StepControl(std::size_t size, Tolerance tolerance)
      : tolerance_(tolerance), measure_(tolerance), stepper_(size), next_(size), error_(size) {}

  StepSize pace;
  int accepted = 0;
  int rejected = 0;
  int evaluations = 0;
  int factorisations = 0;

  /// One accepted step, at most to `end`. (t, y) must be linearised with rates f; t and y move on.
  /// @return false when no step could be made; see trouble()
  bool advance(System &system, double &t, std::vector<double> &y, const std::vector<double> &f, double end) {
    for (bool first = true;; first = false) {
      const StepSize::Try next = pace.propose(end - t);
      const Verdict<double> verdict =
          make_step(system, stepper_, measure_, t, y, f, next.length, next_, error_);
      ++factorisations;
      ++evaluations;
      const double off = size_of(verdict);
      if (off <= 1.0 && verdict.possible) {
        pace.accept(next, off);
        t = next.last ? end : t + next.length;
        y.swap(next_);
        ++accepted;
        return true;
      }
      ++rejected;
      if constexpr (requires { system.learn(t, y); }) {
        // Once the Jacobian knows, the step may stay as long.
        if (first && is_far(off) && system.learn(t, y)) {
          ++evaluations;
          pace.h = next.length;
          continue;
        }
      }
      pace.reject(next, off);
      if (pace.hopeless(t)) {
        trouble_ = measure_.worst(system, error_);
        return false;
      }
    }
  }

  /// A step of exactly `step`, shorter than one that was accepted from the same state, into `result`; for
  /// event location. Its error is not controlled, but what the Jacobian must learn it learns again.
  void trial(System &system, double t, const std::vector<double> &y, const std::vector<double> &f,
             double step, std::vector<double> &result) {
    const Verdict<double> verdict = make_step(system, stepper_, measure_, t, y, f, step, result, error_);
    ++factorisations;
    ++evaluations;
    if constexpr (requires { system.learn(t, y); }) {
      if (is_far(size_of(verdict)) && system.learn(t, y)) {
        make_step(system, stepper_, measure_, t, y, f, step, result, error_);
        ++factorisations;
        evaluations += 2;
      }
    }
  }

  /// The cell where the error was largest when no step could be made.
  [[nodiscard]] std::size_t trouble() const { return trouble_; }
  /// Holds the stages of the last step, for dense output.
  [[nodiscard]] const Ros3<double> &stepper() const { return stepper_; }
  [[nodiscard]] Ros3<double> &stepper() { return stepper_; }
  [[nodiscard]] const Tolerance &tolerance() const { return tolerance_; }

private:
  static double size_of(const Verdict<double> &verdict) {
    return std::isfinite(verdict.square) ? std::sqrt(verdict.square) : HUGE_VAL;
  }
  /// Far off: a flux has switched on that the Jacobian knew nothing of. A step that ends where no cook can,
  /// with a small error, was only too long: there is nothing to learn from it.
  static bool is_far(double off) {
    constexpr double far_off = 3.0;
    return !(off <= far_off);
  }

  Tolerance tolerance_;
  StepError<double> measure_;
  Ros3<double> stepper_;
  std::vector<double> next_, error_;
  std::size_t trouble_ = 0;
};

} // namespace cook::engine
