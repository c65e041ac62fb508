#include "fit/forecast/tails.hpp"

#include <algorithm>
#include <cmath>

#include <boost/math/special_functions/gamma.hpp>

#include "fit/calibrate/discrepancy.hpp"

namespace cook::fit {

namespace {

constexpr int slices = 9;

/// Minus twice the log density of each size, up to a constant.
std::vector<double> costs(const std::vector<ErrorSize> &sizes, const Eigen::VectorXd &residual) {
  std::vector<double> made;
  for (const ErrorSize &size : sizes) {
    made.push_back(residual.size() > 0 ? residual.dot(size.errors.solve(residual)) + size.log_determinant
                                       : 0.0);
  }
  return made;
}

} // namespace

std::vector<double> error_factors(double tails) {
  if (tails >= normal_tails) {
    return {1.0};
  }
  std::vector<double> made;
  for (int i = 0; i < slices; ++i) {
    // The precision is gamma distributed, with mean 1.
    const double precision =
        boost::math::gamma_p_inv(0.5 * tails, (i + 0.5) / static_cast<double>(slices)) / (0.5 * tails);
    made.push_back(1.0 / std::sqrt(precision));
  }
  return made;
}

std::vector<ErrorSize> error_sizes(const Problem &problem, std::size_t log, const AtLog &at) {
  const Eigen::VectorXd own = problem.variance(log).cwiseQuotient(at.weight);
  const Eigen::MatrixXd model = covariance(problem.error, problem.logs[log].data.time, at.trace.slope,
                                           Eigen::VectorXd::Zero(own.size()));
  std::vector<ErrorSize> made;
  for (const double factor : error_factors(problem.error.tails)) {
    Eigen::MatrixXd v = factor * factor * model;
    v.diagonal() += own;
    ErrorSize size{.factor = factor, .errors = Eigen::LLT<Eigen::MatrixXd>(v), .log_determinant = 0.0};
    size.log_determinant = 2.0 * Eigen::MatrixXd(size.errors.matrixL()).diagonal().array().log().sum();
    made.push_back(std::move(size));
  }
  return made;
}

std::vector<double> size_shares(const std::vector<ErrorSize> &sizes, const Eigen::VectorXd &residual) {
  std::vector<double> made = costs(sizes, residual);
  const double least = *std::min_element(made.begin(), made.end());
  double sum = 0.0;
  for (double &one : made) {
    one = std::exp(-0.5 * (one - least));
    sum += one;
  }
  for (double &one : made) {
    one /= sum;
  }
  return made;
}

double miss_cost(const std::vector<ErrorSize> &sizes, const Eigen::VectorXd &residual) {
  const std::vector<double> all = costs(sizes, residual);
  const double least = *std::min_element(all.begin(), all.end());
  double sum = 0.0;
  for (const double one : all) {
    sum += std::exp(-0.5 * (one - least));
  }
  return least - 2.0 * std::log(sum / static_cast<double>(all.size()));
}

} // namespace cook::fit
