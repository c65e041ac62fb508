/// @file
/// The members of a forecast and how they are run to the end.
#pragma once

#include <optional>
#include <vector>

#include <Eigen/Dense>

#include "cook/fit/forecast.hpp"
#include "fit/calibrate/problem.hpp"
#include "fit/calibrate/solve.hpp"
#include "fit/forecast/by_hand.hpp"
#include "fit/forecast/tails.hpp"
#include "fit/run_many.hpp"

namespace cook::fit {

/// What sets one member apart.
struct Member {
  Eigen::VectorXd u;           ///< numbers, in standard deviations
  std::vector<double> outlook; ///< normals of its pit
  double chance_of_size = 0.5; ///< uniform: picks the size of the model's error, given the miss
  std::size_t size = 0;        ///< its place among the sizes
  double pace = 0.0;        ///< normal of its pace and level to come; drawn uniform and then cut so that it
  double chance = 0.5;      ///< is not done yet: this is the uniform number
  Eigen::VectorXd residual; ///< observed - simulated so far [K]
};

/// A member after its run.
struct Finished {
  std::vector<double> stage_end; ///< of all stages [s]; infinite: not reached
  std::vector<double> core;      ///< at the grid [°C]
  double not_done = 1.0;         ///< chance that it would not be done by now
  double cost = 0.0;             ///< minus twice the log density of u given the log
};

/// Everything behind a forecast.
struct Ensemble {
  Plan plan;
  CookLog log;
  Problem problem;
  Solution solution;
  std::vector<ErrorSize> sizes; ///< of the model's error
  PitOutlook outlook;
  std::vector<Member> members;
  std::vector<double> weight;
  std::optional<ByHand> by_hand;
  Joining joining; ///< with what other rules say

  [[nodiscard]] double now() const { return problem.logs.front().followed.now; }
  [[nodiscard]] std::size_t current() const { return problem.logs.front().followed.current; }
};

/// A run of all members over given stages from now on.
struct Run {
  std::vector<Finished> members;
  std::vector<double> time; ///< grid of the cores [s]
  std::string why;          ///< a member failed: the first reason
};

/// The plan of one member: what was, then what may come.
[[nodiscard]] Plan plan_of(const Ensemble &ensemble, const Member &member,
                           const std::vector<Stage> &remaining);

/// Simulates the members over given stages from now on.
[[nodiscard]] std::vector<Ran> simulate_members(const Ensemble &ensemble,
                                                const std::vector<Stage> &remaining);

/// Turns what was simulated into times on the wall. @param fresh members are new: their `pace` is drawn so
/// that they are not done yet, and their residuals are kept
[[nodiscard]] Run read_members(Ensemble &ensemble, const std::vector<Stage> &remaining,
                               const std::vector<Ran> &ran, bool fresh);

/// Whether the meat decides when a stage ends: it waits for core, tenderness or bark.
[[nodiscard]] bool waits(const Stage &stage);

/// What a possible course of a stage's air is cut at: what its cooker accepts, and a little less [°C].
[[nodiscard]] double hottest_air(const Signal &planned);

/// Rate of the core over the last half hour; no smaller than what says something about time [K/s].
[[nodiscard]] double rate_at(const Outcome &out, double time);

/// Core that a stage waits for [°C]; infinite: none.
[[nodiscard]] double core_target(const Stage &stage);

/// Stages from now on as the plan has them: the one under way with what is left of it.
[[nodiscard]] std::vector<Stage> remaining_stages(const Plan &plan, const Followed &followed);

} // namespace cook::fit

namespace cook {

/// What a forecast keeps of its making.
struct Forecast::State {
  fit::Ensemble ensemble;
};

} // namespace cook
