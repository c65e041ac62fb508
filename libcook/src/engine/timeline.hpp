/// @file
/// The moments of a stage that the integrator must hit exactly, and the conditions between them.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "cook/plan.hpp"
#include "engine/line_system.hpp"

namespace cook::engine {

// An open lid: common practice, no source. Within 15 s the air falls to a third of its excess over the
// outside; once shut, it recovers in five minutes. What the meat exchanges radiation with is tied to the same
// air.
inline constexpr double lid_fall = 15.0;       ///< [s]
inline constexpr double lid_share = 1.0 / 3.0; ///< of the excess over ambient that is left [-]
inline constexpr double lid_recovery = 300.0;  ///< [s]

/// A stage laid out in time, from its start (absolute, [s]).
class Timeline {
public:
  Timeline(const Plan &plan, std::size_t stage, double start);

  /// The next moment after `now` at which something happens or a straight line ends.
  [[nodiscard]] double next(double now) const;
  /// Conditions from `now` until `until` (no moment lies between).
  [[nodiscard]] Drive<double> drive(double now, double until, double footprint) const;
  /// Whether liquid is sprayed at this moment.
  [[nodiscard]] bool spritz_at(double moment) const;
  /// Whether the lid begins to open at this moment.
  [[nodiscard]] bool lid_at(double moment) const;
  /// Whether a condition that is looked at now and then is looked at at this moment.
  [[nodiscard]] bool check_at(double moment, const End &end) const;
  [[nodiscard]] double start() const { return start_; }
  /// When the stage gives up.
  [[nodiscard]] double limit() const { return limit_; }
  /// When the stage ends by the clock or by elapsed time; infinite if it does not.
  [[nodiscard]] double timed_end() const { return timed_end_; }
  /// The condition behind timed_end().
  [[nodiscard]] EndKind timed_kind() const { return timed_kind_; }

private:
  const Stage *stage_;
  double start_;
  double limit_;
  double timed_end_;
  EndKind timed_kind_ = EndKind::elapsed;
  std::vector<double> moments_;  ///< sorted
  std::vector<double> spritzes_; ///< sorted
  std::vector<double> openings_; ///< sorted
  Signal lid_;                   ///< share of the excess over ambient
  std::shared_ptr<const AirBalance> balance_;
};

} // namespace cook::engine
