/// @file
/// What is believed of the free numbers before any log: the population of measured cooks, in one place for
/// fits, forecasts, start times and ranges in words.
#pragma once

#include <string_view>
#include <vector>

#include <Eigen/Dense>

#include "fit/belief/population_numbers.hpp"

namespace cook::fit {

/// Pieces of one cut differ in their grain, and papers in their make: scatter where cooks do not tell it from
/// the population's middle (judgement) [share].
inline constexpr double unseen_scatter = 0.25;

/// Standard deviation of a number beforehand, on its scale: how far the population's middle is known, and how
/// far single cooks scatter about it.
/// @returns 0 where the population says nothing
[[nodiscard]] double believed_spread(std::string_view name);

/// How far single pieces or cooks scatter about the population's middle: what a second piece that looks the
/// same may differ by.
/// @returns 0 where the population says nothing
[[nodiscard]] double believed_scatter(std::string_view name);

/// One number whose tie to others is asked for.
struct Believed {
  std::string_view name;
  double spread = 1.0; ///< in use [a share, or in its unit]
};

/// Correlation of the numbers beforehand, by what ties the population's middles.
/// @param pork whether the meat is pork  @returns (numbers, numbers) [-]
[[nodiscard]] Eigen::MatrixXd believed_correlation(const std::vector<Believed> &numbers, bool pork);

} // namespace cook::fit
