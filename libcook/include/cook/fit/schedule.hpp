/// @file
/// When to start so that dinner is on time.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "cook/fit/forecast.hpp"
#include "cook/readings/limits.hpp"

namespace cook {

/// Changes that are tried to make a cook quicker.
inline constexpr double schedule_hotter_by = 14.0;  ///< pit [K]; 25 °F
inline constexpr double schedule_earlier_by = 6.0;  ///< core at which it is wrapped [K]
inline constexpr double schedule_usual_wrap = 68.0; ///< core at which an unwrapped plan would be wrapped [°C]

/// Cores at which a look at the thermometer says whether the cook runs late, where no stage ends near by: as
/// the stall begins, and as it is over [°C] (judgement).
inline constexpr std::array schedule_looks{60.0, 75.0};
/// A cook is late that reaches the core of a look after this share of the possible cooks (judgement: clearly
/// later than the middle, and early enough to catch up).
inline constexpr double schedule_late_from = 0.7;

/// What is wanted.
struct ScheduleOptions {
  double serve = 0.0;               ///< time of day of dinner [s after midnight]
  double confidence = 0.9;          ///< wanted chance to be on time
  std::optional<double> earliest{}; ///< time before which nobody gets up to start [s after midnight]
  /// Hot-holding temperature [°C]; local rules may differ.
  double hold_limit = safety_limits::hot_holding;
  bool alternatives = true; ///< also run what would make it quicker
  /// Whether a cook that runs late is hurried (Remedy), which allows a later start.
  bool remedies = true;
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

/// A look at the thermometer, and what is done from then on if the core gets there late.
struct Remedy {
  std::size_t stage = 0; ///< under way at the look
  double core = 0.0;     ///< looked for [°C]
  double by = 0.0;       ///< late if the core gets there after that [s since the start]
  std::string what;      ///< in words
  Plan plan;             ///< of a cook that is late; the stage is cut in two at the look
  double late = 0.0;     ///< share of the possible cooks that first turn out late here [0 to 1]
  double sooner = 0.0;   ///< that those are done, in the middle of them [s]
};

/// When a stage ends, late cooks hurried [s since the start].
struct StageTime {
  std::string name;
  double median = 0.0;
  double sure = 0.0; ///< at the wanted confidence
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
  double duration50 = 0.0;  ///< of the whole plan, rest included, of the cooks that end [s]
  double duration = 0.0;    ///< at the wanted confidence, nothing changed on the way [s]
  double chance_late = 0.0; ///< when started at `start`, nothing changed on the way; never done counts
  /// At the wanted confidence, late cooks hurried [s]: sets the start. Without remedies as `duration`.
  double duration_with_remedies = 0.0;
  double chance_late_with_remedies = 0.0; ///< when started at `start`, late cooks hurried
  double never = 0.0;                     ///< share of the possible cooks that never end, nothing changed
  std::vector<Remedy> remedies;           ///< in the order of the cook; empty: nothing helps, or not wanted
  std::vector<StageTime> stages;          ///< late cooks hurried
  double hold50 = 0.0; ///< waiting after the plan's end until dinner, median, late cooks hurried [s]
  double hold95 = 0.0; ///< the longest wait in 19 of 20 cooks [s]
  /// How long after the plan's end the meat stays above the hold limit if it goes on lying where the last
  /// stage left it, for the best estimate [s]; empty when the last stage heats: it can be held there.
  std::optional<double> stays_hot{};
  std::vector<Alternative> alternatives; ///< best first
  std::vector<std::string> warnings;     ///< in words
  std::string caution;                   ///< shown with every schedule
  Forecast forecast;                     ///< the ensemble behind it, from the start of the cook
};

/// Finds the latest start that keeps the wanted chance. Cooks that never end are told, and decide nothing.
/// Late cooks are hurried from a look on as a Remedy says, by the same members: the allowance is for cooks
/// that somebody watches. The remedy is taken to begin only as the core reaches what is looked for, or from
/// the look before, waiting idle in between, whichever is sooner: both are later than what one would do.
/// @throws InvalidInput for options out of range, a plan with a clock end (its length depends on the start),
/// or one that more than half of the members never finish
[[nodiscard]] Schedule start_by(const Plan &plan, const ScheduleOptions &options, const Fit *fit = nullptr);

} // namespace cook
