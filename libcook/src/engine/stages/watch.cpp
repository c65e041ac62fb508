#include "engine/stages/watch.hpp"

#include <algorithm>
#include <cmath>

#include "cook/errors.hpp"
#include "cook/units.hpp"

namespace cook::engine {

double excess(const End &end, const Watched &now) {
  switch (end.kind) {
  case EndKind::core:
    return now.core - end.value;
  case EndKind::cooled:
    return end.value - now.core;
  case EndKind::bark:
    return now.bark - end.value;
  case EndKind::tender:
    return now.converted - end.value;
  case EndKind::elapsed:
  case EndKind::clock:
    break;
  }
  return -1.0;
}

std::string describe(const End &end) {
  const auto rounded = [](double value, double unit) {
    return format_number(std::round(value / unit) * unit);
  };
  switch (end.kind) {
  case EndKind::core:
    return "core at " + format_degrees(end.value);
  case EndKind::cooled:
    return "core cooled to " + format_degrees(end.value);
  case EndKind::bark:
    return end.value == 1.0 ? "the bark is set" : "bark index at " + format_number(end.value);
  case EndKind::tender:
    return "tender: " + rounded(100.0 * end.value, 0.1) + " % of the collagen converted";
  case EndKind::elapsed:
    return end.value <= 2.0 * seconds_per_hour
               ? rounded(minutes_from_seconds(end.value), 0.01) + " min elapsed"
               : rounded(hours_from_seconds(end.value), 0.01) + " h elapsed";
  case EndKind::clock: {
    constexpr double day = 24.0 * 60.0; // in minutes; the remainder fits an int however large the value
    const auto minutes = static_cast<int>(std::fmod(std::round(end.value / 60.0), day));
    const std::string minute = std::to_string(minutes % 60);
    return "clock at " + std::to_string(minutes / 60) + ":" + (minute.size() < 2 ? "0" : "") + minute;
  }
  }
  return {};
}

std::string slip_of_skipped(const Plan &plan, std::size_t stage) {
  const std::vector<End> &until = plan.stages[stage].until;
  const auto any = [&](EndKind kind) {
    return std::any_of(until.begin(), until.end(), [&](const End &end) { return end.kind == kind; });
  };
  if (stage > 0 && stage + 1 == plan.stages.size() && any(EndKind::core)) {
    return "; a rest ends when the core has cooled()";
  }
  return any(EndKind::clock) ? "; is the time right?" : "; is the order right?";
}

std::vector<End> state_conditions(const Stage &stage) {
  std::vector<End> list;
  for (const End &end : stage.until) {
    if (known(end.kind).sign != KnownEnd::Sign::clock && end.every == 0.0) {
      list.push_back(end);
    }
  }
  return list;
}

} // namespace cook::engine
