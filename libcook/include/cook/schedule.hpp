/// @file
/// When to start so that dinner is on time.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cook/forecast.hpp"

namespace cook {

/// Changes that are tried to make a cook quicker.
inline constexpr double schedule_hotter_by = 14.0;  ///< pit [K]; 25 °F
inline constexpr double schedule_earlier_by = 6.0;  ///< core at which it is wrapped [K]
inline constexpr double schedule_usual_wrap = 68.0; ///< core at which an unwrapped plan would be wrapped [°C]

/// What is wanted.
struct ScheduleOptions {
  double serve = 0.0;               ///< time of day of dinner [s after midnight]
  double confidence = 0.9;          ///< wanted chance to be on time
  std::optional<double> earliest{}; ///< time before which nobody gets up to start [s after midnight]
  double hold_limit = 57.0; ///< hot-holding temperature [°C]; FDA Food Code 3-501.16, local rules may differ
  bool alternatives = true; ///< also run what would make it quicker
  ForecastOptions forecast{};

  void validate() const;
};

/// A change of the plan, run with the same members.
struct Alternative {
  std::string what; ///< in words
  Plan plan;
  double duration = 0.0;    ///< at the wanted confidence [s]
  double sooner = 0.0;      ///< than the plan asked about [s], at the wanted confidence
  double start = 0.0;       ///< latest start [s before (negative) or after the midnight before dinner]
  double chance_late = 0.0; ///< when started as late as the schedule says
};

/// A start time.
struct Schedule {
  Plan plan;
  double serve = 0.0; ///< [s after midnight]
  double confidence = 0.9;
  /// Latest start that keeps the wanted chance, or `earliest` where that is later [s after the midnight
  /// before dinner]; negative: the day before.
  double start = 0.0;
  double latest = 0.0;      ///< the latest start that keeps the wanted chance, same clock
  double chance_late = 0.0; ///< when started at `start`
  double duration50 = 0.0;  ///< of the whole plan, rest included [s]
  double duration = 0.0;    ///< at the wanted confidence [s]
  double hold50 = 0.0;      ///< waiting after the plan's end until dinner, median [s]
  double hold95 = 0.0;      ///< the longest wait in 19 of 20 cooks [s]
  /// How long after the plan's end the meat stays above the hold limit if it goes on lying where the last
  /// stage left it, for the best estimate [s]; empty when the last stage heats: it can be held there.
  std::optional<double> stays_hot{};
  std::vector<Alternative> alternatives; ///< best first
  std::vector<std::string> warnings;     ///< in words
  std::string caution;                   ///< shown with every schedule
  Forecast forecast;                     ///< the ensemble behind it, from the start of the cook
};

/// Finds the latest start.
/// @throws InvalidInput for options out of range, a plan with a clock end (its length depends on the start),
/// or a plan that too few members finish
[[nodiscard]] Schedule start_by(const Plan &plan, const ScheduleOptions &options, const Fit *fit = nullptr);

} // namespace cook
