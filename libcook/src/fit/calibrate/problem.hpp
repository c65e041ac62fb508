/// @file
/// A fit set up: numbers in standard deviations from what was believed, cooks that follow the logs,
/// residuals.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include <Eigen/Dense>

#include "cook/engine/simulate.hpp"
#include "cook/fit/calibrate.hpp"
#include "fit/calibrate/binned.hpp"
#include "fit/calibrate/followed_plan.hpp"

namespace cook::fit {

/// A free number with its beliefs filled in.
struct Number {
  const FreeKind *kind = nullptr;
  double median = 0.0;
  double spread = 1.0;
  std::string source;
  int log = -1; ///< -1: shared

  /// From standard deviations u to the number, kept inside what may be tried.
  [[nodiscard]] double value(double u) const;
  /// The inverse.
  [[nodiscard]] double deviations(double value) const;
};

/// One log made ready.
struct Ready {
  Plan asked; ///< as the user gave it
  Followed followed;
  Binned data;
  std::string name;
};

/// Simulated core at a log's times.
struct Trace {
  Eigen::VectorXd core;  ///< what the thermometer would read [°C]
  Eigen::VectorXd slope; ///< [K/s]
  bool whole = false;
  std::string why; ///< it is not
};

/// A cook to run: which log's, with which numbers.
struct Wanted {
  std::size_t log;
  Eigen::VectorXd u;
};

struct Problem {
  std::vector<Number> numbers;
  std::vector<Ready> logs;
  Eigen::VectorXd prior_mean;      ///< in u
  Eigen::MatrixXd prior_precision; ///< in u
  ModelError error;
  bool robust = true;
  int threads = 0;
  std::function<bool()> interrupted;
  mutable int simulations = 0;

  /// Whether a number bears on a log.
  [[nodiscard]] bool bears(std::size_t number, std::size_t log) const;
  /// Writes the numbers that bear on a log into a plan.
  void write(Plan &plan, std::size_t log, const Eigen::VectorXd &u) const;
  /// What the thermometer adds to the core of a log [K].
  [[nodiscard]] double sensor_offset(std::size_t log, const Eigen::VectorXd &u) const;
  [[nodiscard]] std::vector<Trace> run(const std::vector<Wanted> &wanted) const;
  /// Throws Interrupted when asked to stop; for loops that take long between cooks.
  void check_interrupted() const;
  [[nodiscard]] Eigen::VectorXd observed(std::size_t log) const;
  [[nodiscard]] Eigen::VectorXd variance(std::size_t log) const;
};

/// Reads an outcome at a log's times.
[[nodiscard]] Trace read_trace(const Outcome &outcome, const std::vector<double> &time, double offset);

/// @param at_least core readings that each log must have; 0 for forecasts
[[nodiscard]] Problem set_up(std::span<const Plan> plans, std::span<const CookLog> logs,
                             std::span<const FreeParameter> free, const ModelError &error,
                             bool need_readings);

} // namespace cook::fit
