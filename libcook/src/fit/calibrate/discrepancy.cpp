#include "fit/calibrate/discrepancy.hpp"

#include <algorithm>
#include <cmath>

namespace cook::fit {

double shift_covariance(const ModelError &error, double a, double b) {
  if (error.pace == 0.0) {
    return 0.0;
  }
  const double tau = error.pace_time;
  const double memory = 1.0 - std::exp(-a / tau) - std::exp(-b / tau) + std::exp(-std::fabs(a - b) / tau);
  return error.pace * error.pace * (2.0 * tau * std::min(a, b) - tau * tau * memory);
}

double level_covariance(const ModelError &error, double a, double b) {
  const double apart = std::sqrt(3.0) * std::fabs(a - b) / error.level_time;
  return error.level * error.level * (1.0 + apart) * std::exp(-apart);
}

Eigen::MatrixXd covariance(const ModelError &error, const std::vector<double> &time,
                           const Eigen::VectorXd &slope, const Eigen::VectorXd &variance) {
  const auto n = static_cast<Eigen::Index>(time.size());
  Eigen::MatrixXd v(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j <= i; ++j) {
      const double a = time[static_cast<std::size_t>(i)];
      const double b = time[static_cast<std::size_t>(j)];
      v(i, j) = slope(i) * slope(j) * shift_covariance(error, a, b) + level_covariance(error, a, b);
      v(j, i) = v(i, j);
    }
    v(i, i) += variance(i);
  }
  return v;
}

} // namespace cook::fit
