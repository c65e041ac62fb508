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

#include "cook/fit/cook_log.hpp"
#include "cook/plan/plan.hpp"

namespace cook::fit {

/// A core that warms more slowly says nothing about time [K/s] (judgement: 0.5 K in the hour).
inline constexpr double least_rate = 0.5 / 3600.0;

/// Where a cook stands, by its thermometer.
enum class Phase { before_stall, in_stall, after_stall };

/// Time left until a core target [s]; not a number: the rule has nothing to go by.
struct ByHand {
  static constexpr double none = std::numeric_limits<double>::quiet_NaN();
  double last_hour = none;  ///< at the rate of the last hour, where it was read often enough
  double population = none; ///< what measured cooks of this mass, pit and wrap take, less what has passed
  double stage = none;      ///< as the time so far says of measured cooks that were as far
  Phase phase = Phase::before_stall;
};

/// @param readings of the cook under way  @param now [s]  @param target of the core [°C]
[[nodiscard]] ByHand by_hand(const Plan &plan, const CookLog &readings, double now, double target);

/// How the model's times left become the joint answer's: the middle moves, and the band about it widens in
/// the logarithm.
struct Joining {
  double from = 1.0;   ///< the model's median of the time left [s]
  double factor = 1.0; ///< of that median [-]
  double width = 1.0;  ///< of the band in the logarithm [-]

  /// @param left the model's [s]; not above 0: as it is
  [[nodiscard]] double left(double left) const;
  [[nodiscard]] bool changes() const { return factor != 1.0 || width != 1.0; }
};

/// @param physics the model's median of the time left [s]
[[nodiscard]] Joining join_rules(const ByHand &rules, double physics);

} // namespace cook::fit
