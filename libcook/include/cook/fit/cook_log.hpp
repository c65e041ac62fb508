/// @file
/// What a thermometer logged over a cook, as calibration and forecasts take it.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cook/plan/plan.hpp"

namespace cook {

/// A stage that is known to have ended.
struct StageMark {
  std::size_t stage = 0; ///< which stage of the plan, from 0
  double time = 0.0;     ///< when it ended, since the start of the cook [s]
};

/// Readings of one cook. Times count from the moment the meat went in, which is time 0 of the plan.
struct CookLog {
  std::string name = "log";
  std::vector<double> time;     ///< of the core readings [s], strictly increasing
  std::vector<double> core;     ///< [°C], one for each time
  std::vector<double> pit_time; ///< of the pit readings [s], strictly increasing; empty: no pit readings
  std::vector<double> pit;      ///< [°C]
  /// Stages whose end is known; others are read off the core: a stage that ends at a core temperature ended
  /// when the log first showed it.
  std::vector<StageMark> ended;
  bool fahrenheit = false; ///< it was written in °F; reports of a fit speak that scale, numbers here do not

  /// Throws InvalidInput: lengths differ, times do not increase, values no thermometer shows, a core that is
  /// hotter than the pit, a log that does not overlap with the plan. @param at_least core readings needed
  void validate(const Plan &plan, std::size_t at_least) const;
};

} // namespace cook
