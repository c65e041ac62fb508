#include "fit/forecast/outlook.hpp"

#include <algorithm>
#include <cmath>

#include "cook/fit/free_parameter.hpp"

#include "fit/median.hpp"

namespace cook::fit {

namespace {

constexpr double window = 3 * 3600.0;     // s: what the pit did before that says little
constexpr double shortest_trace = 1800.0; // s: less than that says nothing
constexpr double least_ripple = 0.5;      // K
constexpr double course_step = 1800.0;    // s between the points of a possible course: the meat feels no less

std::size_t stage_at(const std::vector<double> &stage_end, double time) {
  const auto after = std::upper_bound(stage_end.begin(), stage_end.end(), time);
  return static_cast<std::size_t>(after - stage_end.begin());
}

} // namespace

PitOutlook look_ahead(const Plan &plan, const CookLog &log, const std::vector<double> &stage_end,
                      double now) {
  PitOutlook made;
  std::vector<double> time;
  std::vector<double> off;
  for (std::size_t i = 0; i < log.pit_time.size(); ++i) {
    const double t = log.pit_time[i];
    const std::size_t stage = std::min(stage_at(stage_end, t), plan.stages.size() - 1);
    if (t > now - window && t <= now && t >= 0.0 && heats(plan.stages[stage])) {
      time.push_back(t);
      off.push_back(log.pit[i] - plan.stages[stage].surroundings.air.at(t));
    }
  }
  if (time.size() < 4 || time.back() - time.front() < shortest_trace) {
    return made;
  }
  const double span = time.back() - time.front();
  // Medians: an opened lid is neither level nor ripple.
  const double level = median(off);
  std::vector<double> size;
  double product = 0.0;
  double square = 0.0;
  for (std::size_t i = 0; i < off.size(); ++i) {
    size.push_back(std::fabs(off[i] - level));
    square += (off[i] - level) * (off[i] - level);
    product += i > 0 ? (off[i] - level) * (off[i - 1] - level) : 0.0;
  }
  constexpr double of_median = 1.4826;
  made.ripple = std::max(least_ripple, of_median * median(size));
  const double memory = std::clamp(square > 0.0 ? product / square : 0.5, 0.05, 0.98);
  const double spacing = span / static_cast<double>(time.size() - 1);
  made.ripple_time = std::clamp(-spacing / std::log(memory), 300.0, 7200.0);
  made.level = level * span / (span + shortest_trace);
  const double of_mean = made.ripple * std::sqrt(std::min(1.0, 2.0 * made.ripple_time / span));
  made.level_deviation = std::hypot(outlook_drift, of_mean);
  return made;
}

Signal possible_air(const Signal &planned, const PitOutlook &outlook, double now,
                    const std::vector<double> &normals, double hottest) {
  Signal air;
  air.time.clear();
  air.value.clear();
  const double level = outlook.level + outlook.level_deviation * normals[0];
  const double memory = std::exp(-course_step / outlook.ripple_time);
  double ripple = 0.0;
  for (std::size_t k = 1; k < normals.size(); ++k) {
    ripple = k == 1 ? normals[k] : memory * ripple + std::sqrt(1.0 - memory * memory) * normals[k];
    const double t = now + course_step * static_cast<double>(k - 1);
    air.time.push_back(t);
    air.value.push_back(std::min(planned.at(t) + level + outlook.ripple * ripple, hottest));
  }
  return air;
}

} // namespace cook::fit
