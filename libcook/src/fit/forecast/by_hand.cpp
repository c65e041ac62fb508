#include "fit/forecast/by_hand.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "cook/fit/free_parameter.hpp"
#include "fit/forecast/rule_numbers.hpp"

namespace cook::fit {

namespace {

constexpr double one_hour = 3600.0;
constexpr double stalled_rate = 5.0 / one_hour; // K/s: slower than that, and between these, it stalls
constexpr double stall_from = 60.0;             // °C
constexpr double stall_to = 85.0;               // °C
constexpr double least_left = 0.15;  // of the time passed: later than all of its kind, it needs more still
constexpr double nearest_end = 0.02; // share of a way that is not yet begun, or done
constexpr double largest_stretch = 3.0;
constexpr std::ptrdiff_t enough_readings = 4; // in the last hour: two of them are mostly noise

/// Rate of the core over the last hour, or between the last two readings [K/s].
double last_rate(const std::vector<double> &time, const std::vector<double> &core) {
  const double last = time.back();
  std::size_t first = time.size() - 2;
  while (first > 0 && time[first - 1] >= last - one_hour) {
    --first;
  }
  const auto n = static_cast<double>(time.size() - first);
  double t = 0.0;
  double c = 0.0;
  for (std::size_t i = first; i < time.size(); ++i) {
    t += time[i] / n;
    c += core[i] / n;
  }
  double product = 0.0;
  double square = 0.0;
  for (std::size_t i = first; i < time.size(); ++i) {
    product += (time[i] - t) * (core[i] - c);
    square += (time[i] - t) * (time[i] - t);
  }
  return square > 0.0 ? product / square : 0.0;
}

bool wrapped_in(const Plan &plan, std::size_t done, std::string_view what) {
  return std::any_of(plan.stages.begin(), plan.stages.begin() + static_cast<std::ptrdiff_t>(done) + 1,
                     [&](const Stage &s) { return s.wrap.name.find(what) != std::string::npos; });
}

/// Mean air of the stages that heat, over a length of time from the start [°C]. The stages' own lengths are
/// not known: a course is read from its beginning.
double mean_air(const Plan &plan, std::size_t done, double length) {
  double sum = 0.0;
  double count = 0.0;
  constexpr int points = 24;
  for (std::size_t i = 0; i <= done; ++i) {
    if (heats(plan.stages[i])) {
      for (int k = 0; k < points; ++k) {
        sum += plan.stages[i].surroundings.air.at(length * (k + 0.5) / points);
        count += 1.0;
      }
    }
  }
  return count > 0.0 ? sum / count : 115.0;
}

/// What measured cooks of this kind take [s].
double population_length(const Plan &plan, double target) {
  const std::size_t done = done_stage(plan);
  const auto &b = population_time;
  double length = 10.0 * one_hour;
  for (int round = 0; round < 3; ++round) {
    const double pit = mean_air(plan, done, length);
    const double ln = b[0] + (plan.meat.tissue.name.find("brisket") != std::string::npos ? b[1] : 0.0) +
                      b[2] * std::log(plan.meat.mass()) + b[3] * (pit - 115.0) / 20.0 +
                      b[4] * (target - 90.0) / 10.0 + (wrapped_in(plan, done, "foil") ? b[5] : 0.0) +
                      (wrapped_in(plan, done, "paper") ? b[6] : 0.0);
    length = one_hour * std::exp(std::clamp(ln, 0.0, 4.0));
  }
  return length;
}

} // namespace

ByHand by_hand(const Plan &plan, const CookLog &readings, double now, double target) {
  ByHand made;
  made.population =
      std::max(population_length(plan, target) - now, std::max(least_left * now, 0.25 * one_hour));
  std::vector<double> time;
  std::vector<double> core;
  for (std::size_t i = 0; i < readings.time.size(); ++i) {
    if (readings.time[i] >= 0.0 && readings.time[i] <= now) {
      time.push_back(readings.time[i]);
      core.push_back(readings.core[i]);
    }
  }
  constexpr double beginning = 0.25 * one_hour;
  if (time.empty() || time.front() > beginning) { // what was put on is known
    time.insert(time.begin(), 0.0);
    core.insert(core.begin(), plan.meat.start);
  }
  if (time.size() < 2 || now <= 0.0 || core.back() >= target) {
    return made;
  }
  const double rate = last_rate(time, core);
  const auto in_last_hour =
      std::count_if(time.begin(), time.end(), [&](double t) { return t >= time.back() - one_hour; });
  if (in_last_hour >= enough_readings) {
    made.last_hour = (target - core.back()) / std::max(rate, least_rate);
  }
  const double way =
      std::clamp((core.back() - core.front()) / (target - core.front()), nearest_end, 1.0 - nearest_end);
  const double logit = population_stage[0] + population_stage[1] * std::log(way / (1.0 - way));
  made.stage = now * std::exp(-logit);
  const bool slow = rate < stalled_rate;
  made.phase = core.back() < stall_from          ? Phase::before_stall
               : slow && core.back() <= stall_to ? Phase::in_stall
                                                 : Phase::after_stall;
  return made;
}

double Joining::left(double left) const {
  return changes() && left > 0.0 && std::isfinite(left) ? from * factor * std::pow(left / from, width) : left;
}

Joining join_rules(const ByHand &rules, double physics) {
  if (!(physics > 0.0) || !std::isfinite(physics)) {
    return {};
  }
  const std::size_t often = std::isfinite(rules.last_hour) ? 1 : 0;
  const auto &weight = rule_weights[often][static_cast<std::size_t>(rules.phase)];
  const double own = std::log(physics);
  const std::array<double, 3> others{rules.last_hour, rules.population, rules.stage};
  double joint = weight[4];
  for (std::size_t k = 0; k < others.size(); ++k) {
    // A rule that has nothing to go by leaves its weight to the model.
    joint += std::isfinite(others[k]) && others[k] > 0.0 ? weight[k + 1] * (std::log(others[k]) - own) : 0.0;
  }
  return {.from = physics,
          .factor = std::clamp(std::exp(joint), 1.0 / largest_stretch, largest_stretch),
          .width = weight[5]};
}

} // namespace cook::fit
