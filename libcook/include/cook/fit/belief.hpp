/// @file
/// What is believed of a cook before any reading, and cooks drawn from it: the one belief that fits,
/// forecasts, start times and the ranges of a cook told in words share.
///
/// The numbers are jointly normal on their scales (free_parameter.hpp), with the spreads and correlations
/// that measured cooks gave; each plan drawn has a pit of its own besides. What the model itself gets wrong
/// comes as a factor on the time that the meat needs, of Student's t (calibrate.hpp). Draws are stratified:
/// one of each number in each slice of equal probability (Latin hypercube: McKay, Beckman and Conover,
/// Technometrics 21 (1979) 239, from memory), which a few dozen cooks need to say where eight of ten lie.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "cook/fit/calibrate.hpp"

namespace cook {

/// What is believed of a plan's numbers, and of the model.
struct Belief {
  Plan plan;
  std::vector<std::string> names;
  std::vector<std::string> units;
  std::vector<Scale> scales;
  std::vector<double> median;      ///< in their units
  std::vector<double> spread;      ///< standard deviation on their scales: a share, or in the unit
  std::vector<double> correlation; ///< (names, names), row by row [-]
  ModelError error;
  /// Scale (standard deviation at the middling size) of the model's error in the time until it is done [share
  /// of that time].
  double error_share = 0.0;
};

/// Cooks drawn.
struct Draws {
  std::vector<Plan> plans;
  std::vector<double> pace;   ///< what each takes over what its simulation says, where the meat decides [-]
  std::vector<double> values; ///< (plans, names): the numbers, in their units
};

/// Simulates the plan once, for when it is done.
/// @param interrupted asked now and then; true stops with Interrupted
/// @throws InvalidInput for a plan that is not valid
[[nodiscard]] Belief believe(const Plan &plan, const ModelError &error = {},
                             const std::function<bool()> &interrupted = {});

/// @param count 1 to 100000  @param seed the same one gives the same cooks on every machine
/// A draw of meat or pit that no plan accepts is replaced by the nearest one to the medians that one does. A
/// plan may still wait for more than its pit can give: such a cook does not finish, and belongs to the
/// answer.
/// @throws InvalidInput
[[nodiscard]] Draws draw_cooks(const Belief &belief, int count, std::uint64_t seed = 1);

/// Whether the meat decides when a stage ends: it waits for core, tenderness or bark.
[[nodiscard]] bool meat_ends(const Stage &stage);

} // namespace cook
