/// @file
/// How far a simulated core may be off: covariances of the thermometer's and the model's errors.
#pragma once

#include <vector>

#include <Eigen/Dense>

#include "cook/fit/calibrate.hpp"

namespace cook::fit {

/// Covariance of the time shift at two times [s²] that a pace wandering as an Ornstein-Uhlenbeck process
/// makes: its integral. Taylor, Proc. London Math. Society 20 (1921) 196, the same for diffusion (from
/// memory).
[[nodiscard]] double shift_covariance(const ModelError &error, double a, double b);
/// Covariance of the level error at two times [K²]: Matérn's with a derivative (exponent 3/2), since what a
/// model lacks comes and goes smoothly, while a probe that slips does not (Rasmussen & Williams, Gaussian
/// Processes for Machine Learning, 2006, eq. 4.17; from memory).
[[nodiscard]] double level_covariance(const ModelError &error, double a, double b);

/// V of one log. @param slope of the simulated core at its times [K/s]  @param variance of the readings [K²]
[[nodiscard]] Eigen::MatrixXd covariance(const ModelError &error, const std::vector<double> &time,
                                         const Eigen::VectorXd &slope, const Eigen::VectorXd &variance);

} // namespace cook::fit
