/// @file
/// Fills an Outcome's arrays from steps, by dense output between them.
#pragma once

#include <cstddef>
#include <vector>

#include "cook/outcome.hpp"
#include "engine/line_system.hpp"
#include "engine/ros3.hpp"

namespace cook::engine {

/// Everything recorded about one end of a step.
struct Snapshot {
  double time = 0.0;
  std::vector<double> y, f;      ///< state and its rates
  std::vector<double> t, t_rate; ///< node temperatures [°C] and their rates [K s⁻¹]
  std::vector<double> t_eta, t_x,
      t_film;             ///< how they depend on the state (t_film: per film of the node's face)
  double converted = 0.0; ///< collagen at the core
};

/// Takes node temperatures and their rates from a system that has just been evaluated at (y, f).
void take_snapshot(const LineSystem<double> &system, double time, const std::vector<double> &y,
                   const std::vector<double> &f, Snapshot &snapshot);

class Recorder {
public:
  Recorder(Outcome &outcome, double every, bool keep_fields, std::size_t middle, double solids);

  /// Stores a moment as it is (start, stage ends); ignored when that time is stored already.
  void store(const LineSystem<double> &system, const Snapshot &at);
  /// Stores the regular moments in (a.time, b.time], the step from a to b being the stepper's last one.
  void store_between(const LineSystem<double> &system, const Ros3<double> &stepper, const Snapshot &a,
                     const Snapshot &b);

private:
  void interpolate(const LineSystem<double> &system, const Snapshot &a, const Snapshot &b, double share);
  void append(const LineSystem<double> &system, double time);

  Outcome *outcome_;
  double every_;
  bool keep_fields_;
  std::size_t middle_;
  double solids_;
  std::size_t next_ = 0; ///< index of the next regular moment
  Snapshot at_;          ///< interpolated
};

} // namespace cook::engine
