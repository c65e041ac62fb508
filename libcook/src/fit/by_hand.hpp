/// @file
/// When a cook would say that it is done: rules that need no model, and how they are joined with the model's
/// answer.
///
/// The joint answer is a weighted mean of ln(time left), weights by where the cook stands, learned on cooks
/// that were held out: stacking, Wolpert, Neural Networks 5 (1992) 241; means of logarithms of forecasts as
/// in Clemen, Int. J. Forecasting 5 (1989) 559 (both from memory).
#pragma once

#include <array>
#include <limits>

#include "cook/cook_log.hpp"
#include "cook/plan.hpp"

namespace cook::fit {

/// Where a cook stands, by its thermometer.
enum class Phase { before_stall, in_stall, after_stall };

/// Time left until a core target [s]; not a number: the rule has nothing to go by.
struct ByHand {
  static constexpr double none = std::numeric_limits<double>::quiet_NaN();
  double last_hour = none;  ///< at the rate of the last hour, or of the last two readings
  double population = none; ///< what measured cooks of this mass, pit and wrap take, less what has passed
  double stage = none;      ///< as the time so far says of measured cooks that were as far
  Phase phase = Phase::before_stall;
};

/// @param readings of the cook under way  @param now [s]  @param target of the core [°C]
[[nodiscard]] ByHand by_hand(const Plan &plan, const CookLog &readings, double now, double target);

/// By how much the model's time left is to be stretched so that its middle is the joint answer [-].
/// @param physics the model's median of the time left [s]
[[nodiscard]] double stretch_of(const ByHand &rules, double physics);

} // namespace cook::fit
