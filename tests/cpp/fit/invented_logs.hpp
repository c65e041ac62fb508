/// @file
/// Logs of cooks that were simulated, as a thermometer would have written them. Invented: they check our
/// statistics, never the physics.
#pragma once

#include <cmath>
#include <memory>

#include "cook/engine/simulate.hpp"
#include "cook/fit/calibrate.hpp"
#include "fit/random.hpp"

namespace cook::testing {

/// Pit and paper, then a rest.
inline Plan nominal_plan() {
  Plan plan;
  plan.meat = brisket(5.5, 0.045);
  Stage smoke;
  smoke.surroundings = pit("drum", 118.0);
  smoke.until = {{EndKind::core, 70.0}};
  Stage wrapped = smoke;
  wrapped.name = "wrapped";
  wrapped.wrap = wrap("butcher paper");
  wrapped.until = {{EndKind::core, 93.0}};
  Stage rest;
  rest.name = "rest";
  rest.surroundings = counter();
  rest.wrap = wrap("foil");
  rest.until = {{EndKind::elapsed, 3600.0}};
  plan.stages = {smoke, wrapped, rest};
  return plan;
}

/// A plan with some numbers changed, as it really is.
inline Plan with(Plan plan, std::initializer_list<std::pair<const char *, double>> values) {
  for (const auto &[name, value] : values) {
    set_value(plan, name, value);
  }
  return plan;
}

struct InventedCook {
  std::shared_ptr<const Outcome> outcome;
  CookLog log; ///< to the end of the last heated stage
  double wrapped_at = 0.0;
  double done = 0.0;
};

/// Cooks the plan in a pit that wanders a little, and logs it every two minutes.
inline InventedCook invent(Plan truth, double noise = 0.2, std::uint64_t seed = 3) {
  fit::Random random(seed);
  InventedCook made;
  Signal air;
  air.time.clear();
  air.value.clear();
  air.measured = true;
  double off = 0.0;
  for (double t = 0.0; t < 40 * 3600.0; t += 600.0) {
    off = 0.6 * off + 2.0 * random.normal();
    air.time.push_back(t);
    air.value.push_back(truth.stages.front().surroundings.air.at(0.0) + off);
  }
  for (Stage &stage : truth.stages) {
    if (heats(stage)) {
      stage.surroundings.air = air;
    }
  }
  Options options;
  options.keep_fields = false;
  made.outcome = simulate(truth, options);
  made.wrapped_at = made.outcome->stage_ends[0].time;
  made.done = made.outcome->stage_ends[1].time;
  for (double t = 0.0; t <= made.done; t += 120.0) {
    made.log.time.push_back(t);
    made.log.core.push_back(made.outcome->core_at(t) + noise * random.normal());
    made.log.pit_time.push_back(t);
    made.log.pit.push_back(air.at(t));
  }
  made.log.ended = {{0, made.wrapped_at}};
  return made;
}

/// The log as far as it had come.
inline CookLog until(const InventedCook &cook, double time) {
  CookLog part = cook.log;
  while (!part.time.empty() && part.time.back() > time) {
    part.time.pop_back();
    part.core.pop_back();
    part.pit_time.pop_back();
    part.pit.pop_back();
  }
  part.ended.clear();
  if (cook.wrapped_at <= time) {
    part.ended = {{0, cook.wrapped_at}};
  }
  return part;
}

inline std::vector<FreeParameter> named(std::initializer_list<const char *> names) {
  std::vector<FreeParameter> free;
  for (const char *name : names) {
    free.push_back({.name = name});
  }
  return free;
}

} // namespace cook::testing
