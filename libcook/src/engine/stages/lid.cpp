#include "engine/stages/lid.hpp"

#include <algorithm>
#include <cmath>

namespace cook::engine {

std::vector<LidOpening> joined(std::vector<LidOpening> openings) {
  std::sort(openings.begin(), openings.end(), [](const auto &a, const auto &b) { return a.at < b.at; });
  std::vector<LidOpening> made;
  for (const LidOpening &opening : openings) {
    if (!made.empty() && opening.at <= made.back().at + made.back().duration) {
      made.back().duration = std::fmax(made.back().duration, opening.at + opening.duration - made.back().at);
    } else {
      made.push_back(opening);
    }
  }
  return made;
}

Signal lid_signal(const std::vector<LidOpening> &openings) {
  if (openings.empty()) {
    return {1.0};
  }
  Signal lid(1.0);
  lid.time.clear();
  lid.value.clear();
  const auto add = [&lid](double time, double value) {
    if (lid.time.empty() || time > lid.time.back()) {
      lid.time.push_back(time);
      lid.value.push_back(value);
    }
  };
  for (const LidOpening &opening : openings) {
    const double level = lid.time.empty() ? 1.0 : lid.at(opening.at);
    while (!lid.time.empty() && lid.time.back() >= opening.at) { // the air has not recovered yet
      lid.time.pop_back();
      lid.value.pop_back();
    }
    add(opening.at, level);
    add(opening.at + std::fmin(lid_fall, opening.duration), lid_share);
    add(opening.at + opening.duration, lid_share);
    add(opening.at + opening.duration + lid_recovery, 1.0);
  }
  return lid;
}

} // namespace cook::engine
