/// @file
/// The optimum of a fit and the curvature there.
#pragma once

#include <vector>

#include <Eigen/Dense>

#include "fit/calibrate/problem.hpp"

namespace cook::fit {

/// One log at the optimum.
struct AtLog {
  Trace trace;
  Eigen::VectorXd residual;           ///< observed - simulated [K]
  Eigen::VectorXd weight;             ///< 1; less for an outlier
  Eigen::LLT<Eigen::MatrixXd> errors; ///< factor of V
  Eigen::VectorXd deviation;          ///< square root of V's diagonal [K]
};

struct Solution {
  Eigen::VectorXd u;
  Eigen::MatrixXd covariance; ///< of u
  std::vector<AtLog> logs;
  double misfit = 0.0;
  double widened = 1.0;
  int iterations = 0;
  bool converged = false;
};

/// @param from where to begin, in u
/// @throws SolverFailure when not even the first cook can be simulated
[[nodiscard]] Solution solve(const Problem &problem, const Eigen::VectorXd &from, int max_iterations);

/// Residuals and V for a trace; V widened by a factor on its standard deviations.
[[nodiscard]] AtLog weigh(const Problem &problem, std::size_t log, Trace trace, double widened);

/// Minus twice the log density of u, V held: misfit of every log and distance from what was believed.
[[nodiscard]] double cost(const Problem &problem, const Eigen::VectorXd &u, const std::vector<AtLog> &errors,
                          const std::vector<Trace> &traces);

} // namespace cook::fit
