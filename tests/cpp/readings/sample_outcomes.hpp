// Outcomes made by hand for the tests of the readings: two nodes, one reading a minute, invented numbers.
#pragma once

#include "cook/engine/simulate.hpp"
#include "cook/plan/outcome.hpp"

#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace samples {

/// A corner of a trace: hours, °C.
using Knot = std::pair<double, double>;

/// Straight lines between knots, one sample every `every` seconds, from the first knot to the last.
struct Trace {
  std::vector<double> time;
  std::vector<double> value;
};
inline Trace trace(const std::vector<Knot> &knots, double every = 60.0) {
  Trace made;
  const auto count = static_cast<std::size_t>(std::floor(knots.back().first * 3600.0 / every + 1e-9)) + 1;
  for (std::size_t i = 0; i < count; ++i) {
    const double seconds = every * static_cast<double>(i);
    const double hours = seconds / 3600.0;
    std::size_t k = 1;
    while (k + 1 < knots.size() && knots[k].first < hours) {
      ++k;
    }
    const double share = (hours - knots[k - 1].first) / (knots[k].first - knots[k - 1].first);
    made.time.push_back(seconds);
    made.value.push_back(knots[k - 1].second + share * (knots[k].second - knots[k - 1].second));
  }
  return made;
}

/// An outcome whose core follows the knots; everything else in the meat has the core's temperature.
inline cook::Outcome outcome(const std::vector<Knot> &core, double every = 60.0) {
  cook::Outcome out;
  const Trace made = trace(core, every);
  out.time = made.time;
  out.core = out.coldest = out.mean_temperature = made.value;
  out.surface = {made.value, made.value};
  out.air.assign(made.time.size(), 110.0);
  out.face_area = {0.09, 0.09};
  out.position = {0.0, 0.066};
  out.node_volume = {0.5, 0.5};
  return out;
}

/// Ends a stage at `hours`, with its air from the end of the one before.
inline void end_stage(cook::Outcome &out, const std::string &name, double hours, double air) {
  const double start = out.stage_ends.empty() ? 0.0 : out.stage_ends.back().time;
  for (std::size_t i = 0; i < out.time.size(); ++i) {
    if (out.time[i] <= hours * 3600.0 && (out.time[i] > start || start == 0.0)) {
      out.air[i] = air;
    }
  }
  out.stage_ends.push_back({name, start, hours * 3600.0, 0.0, "for the test"});
}

/// Bare brisket in a pit, or wrapped from the start, until the core reaches 90.6 °C, then two hours on the
/// counter.
inline cook::Plan plan(double air, const std::string &wrap_name = "none") {
  cook::Plan made;
  made.meat = cook::brisket(5.0, 0.055);
  cook::Stage smoke;
  smoke.surroundings = cook::pit("drum", cook::Signal(air));
  smoke.wrap = cook::wrap(wrap_name);
  smoke.until = {{cook::EndKind::core, 90.6}};
  cook::Stage rest;
  rest.name = "rest";
  rest.surroundings = cook::counter(21.0);
  rest.wrap = cook::wrap("foil");
  rest.until = {{cook::EndKind::elapsed, 7200.0}};
  made.stages = {smoke, rest};
  return made;
}

} // namespace samples
