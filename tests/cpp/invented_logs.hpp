/// @file
/// Logs of cooks that never took place: simulated with known parameters, with noise put on. Invented.
#pragma once

#include <cmath>
#include <map>
#include <random>
#include <string>

#include "cook/calibrate.hpp"
#include "cooks.hpp"

namespace cook::testing {

/// The free parameters by name, and the coordinates that a cook was made with.
struct Known {
  std::vector<FreeParameter> free;
  std::vector<double> u;
};

inline Known known(const std::map<std::string, double> &values) {
  Known made;
  for (const auto &[name, value] : values) {
    made.free.push_back(free_parameter(name));
    made.u.push_back(made.free.back().coordinate(value));
  }
  return made;
}

/// A reading every two minutes until `last` [s] or the end of the cook.
inline CookLog invented_log(const Plan &plan, const Known &truth, double last = 1e9, double noise = 0.2,
                            unsigned seed = 1) {
  const auto out = simulate(apply(plan, truth.free, truth.u));
  std::mt19937 engine(seed);
  std::normal_distribution<double> normal(0.0, noise);
  CookLog log;
  const double end = std::min(last, out->stage_ends.back().time);
  for (double t = 0.0; t <= end; t += 120.0) {
    log.time.push_back(t);
    log.core.push_back(reading(out->core_at(t), truth.free, truth.u) + normal(engine));
    log.pit.push_back(plan.stages[0].surroundings.air.at(t));
  }
  for (const StageEnd &stage : out->stage_ends) {
    if (stage.time <= end) {
      log.stage_ends.push_back(stage.time);
    }
  }
  return log;
}

} // namespace cook::testing
