/// @file
/// Fills an Outcome's arrays from steps, by dense output between them.
#pragma once

#include <cstddef>
#include <vector>

#include "cook/plan/outcome.hpp"
#include "engine/grids/spot.hpp"
#include "engine/time/ros3.hpp"

namespace cook::engine {

/// Everything recorded about one end of a step.
struct Snapshot {
  double time = 0.0;
  std::vector<double> y, f;      ///< state and its rates
  std::vector<double> t, t_rate; ///< node temperatures [°C] and their rates [K s⁻¹]
  std::vector<double> t_eta, t_x,
      t_liquid;                  ///< how they depend on the state (t_liquid: per liquid, by face)
  std::vector<double> converted; ///< collagen at each spot
  double browned = 0.0;          ///< index of the bark
};

/// Takes node temperatures and their rates from a system that has just been evaluated at (y, f).
template <class System>
void take_snapshot(const System &system, double time, const std::vector<double> &y,
                   const std::vector<double> &f, Snapshot &snapshot);

/// What is read at every stored moment.
struct Recording {
  double every = 60.0; ///< [s]
  bool keep_fields = true;
};

template <class System> class Recorder {
public:
  Recorder(Outcome &outcome, Recording recording, Layout layout);

  /// Makes room for what will be stored in a spell [s], so that the arrays do not grow step by step.
  void expect(const System &system, double spell);

  /// The spot that the core trace follows from now on.
  void follow(std::size_t spot) { core_ = spot; }

  /// Stores a moment as it is (start, stage ends). It takes the place of a regular one that is `same_moment`
  /// with it; ignored when the like of it is stored already.
  void store(const System &system, const Snapshot &at);
  /// Stores the regular moments in (a.time, b.time], the step from a to b being the stepper's last one.
  void store_between(const System &system, const Ros3<double> &stepper, const Snapshot &a, const Snapshot &b);

private:
  void interpolate(const System &system, const Snapshot &a, const Snapshot &b, double share);
  void make_room(const System &system, std::size_t moments);
  void put(const System &system, std::size_t at, double time);
  void drop_last(const System &system);

  Outcome *outcome_;
  Recording recording_;
  Layout layout_;
  std::size_t core_ = 0;
  std::size_t next_ = 0;                ///< index of the next regular moment
  bool regular_ = false;                ///< the last one stored is one of those
  bool dry_ = false;                    ///< a cell is nearly dry, in the step that is being stored
  Snapshot at_;                         ///< interpolated
  std::vector<double> base_a_, base_b_; ///< of the tangents at both ends of a step
  std::vector<double> log_a_, log_b_;   ///< logarithms of the collagen left at both ends, spot by spot
};

} // namespace cook::engine
