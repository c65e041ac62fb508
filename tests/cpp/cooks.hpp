/// @file
/// Plans that several tests run, and what they read off the outcome.
#pragma once

#include <cmath>
#include <memory>
#include <numbers>

#include "cook/engine/simulate.hpp"
#include "cook/meat/cut.hpp"

namespace cook::testing {

inline constexpr double hour = 3600.0;

/// A shoulder rolled and tied: a cylinder half as long again as it is thick.
inline Meat roll(double mass = 3.5) {
  constexpr double slenderness = 1.5;
  Meat meat = pork_shoulder(mass);
  const double volume = mass / meat.tissue.raw_density();
  const double diameter = std::cbrt(volume * 4.0 / (std::numbers::pi * slenderness));
  meat.shape = {.kind = ShapeKind::cylinder, .thickness = diameter, .extent = slenderness * diameter};
  return meat;
}

/// A brisket in a generic drum until its core reaches `core`, never wrapped.
inline Plan bare_cook(double pit_air, double core = 90.0) {
  Plan plan;
  plan.meat = brisket(6.0);
  Stage stage;
  stage.surroundings = pit("drum", pit_air);
  stage.until = {{EndKind::core, core}};
  plan.stages = {stage};
  return plan;
}

/// The same, wrapped once the core reaches `wrap_core`.
inline Plan wrapped_cook(double pit_air, const char *wrapping, double wrap_core, double core = 90.0) {
  Plan plan = bare_cook(pit_air, core);
  plan.stages.push_back(plan.stages[0]);
  plan.stages[0].until = {{EndKind::core, wrap_core}};
  plan.stages[1].name = "wrapped";
  plan.stages[1].wrap = wrap(wrapping);
  return plan;
}

inline double finish_hours(const Outcome &outcome) { return outcome.stage_ends.back().time / hour; }

/// How slowly the core creeps between two temperatures, over half-hour windows.
struct Creep {
  double hours_slow = 0.0; ///< time below `limit`
  double slowest = 1e9;    ///< [K h⁻¹]
  double slowest_core = 0.0;
};

inline Creep creep(const Outcome &outcome, double low, double high, double limit) {
  Creep c;
  constexpr std::size_t half = 15; // stored every minute
  for (std::size_t i = half; i + half < outcome.times(); ++i) {
    const double rate = (outcome.core[i + half] - outcome.core[i - half]) /
                        (outcome.time[i + half] - outcome.time[i - half]) * hour;
    if (outcome.core[i] > low && outcome.core[i] < high) {
      c.hours_slow += rate < limit ? (outcome.time[i] - outcome.time[i - 1]) / hour : 0.0;
      if (rate < c.slowest) {
        c.slowest = rate;
        c.slowest_core = outcome.core[i];
      }
    }
  }
  return c;
}

} // namespace cook::testing
