/// @file
/// Heavy tails of the model's error: its size is not known beforehand, and a log that the model misses makes
/// it larger.
///
/// The error of pace and level of one cook is normal with a variance that is itself drawn, by an inverse
/// gamma distribution: together Student's t (Lange, Little & Taylor, J. Am. Statistical Association 84 (1989)
/// 881, from memory). The variance is taken at the middles of slices of equal probability, so that what a log
/// says of it is a sum.
#pragma once

#include <vector>

#include <Eigen/Dense>

#include "fit/calibrate/problem.hpp"
#include "fit/calibrate/solve.hpp"

namespace cook::fit {

/// One size that the model's error may have.
struct ErrorSize {
  double factor = 1.0;                ///< on the standard deviations of ModelError [-]
  Eigen::LLT<Eigen::MatrixXd> errors; ///< factor of V of the log's readings
  double log_determinant = 0.0;       ///< of V
};

/// Factors on the standard deviation, each as probable as the others beforehand.
/// @param tails degrees of freedom; from normal_tails on a single 1
[[nodiscard]] std::vector<double> error_factors(double tails);

/// All sizes, at one log's optimum.
[[nodiscard]] std::vector<ErrorSize> error_sizes(const Problem &problem, std::size_t log, const AtLog &at);

/// Probability of each size given how a cook missed the log [-]; they add up to 1.
[[nodiscard]] std::vector<double> size_shares(const std::vector<ErrorSize> &sizes,
                                              const Eigen::VectorXd &residual);

/// Minus twice the log density of a miss, over all sizes, up to a constant.
[[nodiscard]] double miss_cost(const std::vector<ErrorSize> &sizes, const Eigen::VectorXd &residual);

} // namespace cook::fit
