#include "fit/calibrate/binned.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "fit/median.hpp"

namespace cook::fit {

namespace {

constexpr double shortest_spell = 300.0; // s
constexpr double spells = 100.0;
constexpr double least_noise = 0.1; // K: the last digit of a thermometer

/// Standard deviation of one reading, from how far it lies off the line between its neighbours: the core
/// itself bends too slowly to matter. Robust: from the median (times 1.4826 for a normal distribution).
double noise_of(const std::vector<double> &time, const std::vector<double> &core) {
  std::vector<double> off;
  for (std::size_t i = 1; i + 1 < time.size(); ++i) {
    const double a = (time[i + 1] - time[i]) / (time[i + 1] - time[i - 1]);
    const double spread = std::sqrt(1.0 + a * a + (1.0 - a) * (1.0 - a));
    off.push_back(std::fabs(core[i] - a * core[i - 1] - (1.0 - a) * core[i + 1]) / spread);
  }
  constexpr double of_median = 1.4826;
  return off.empty() ? least_noise : std::max(least_noise, of_median * median(off));
}

} // namespace

Binned bin(const CookLog &log, double until) {
  Binned made;
  std::vector<double> time;
  std::vector<double> core;
  for (std::size_t i = 0; i < log.time.size(); ++i) {
    if (log.time[i] >= 0.0 && log.time[i] <= until) {
      time.push_back(log.time[i]);
      core.push_back(log.core[i]);
    }
  }
  made.noise = noise_of(time, core);
  if (time.empty()) {
    return made;
  }
  const double spell = std::max(shortest_spell, (time.back() - time.front()) / spells);
  for (std::size_t i = 0; i < time.size();) {
    const std::size_t first = i;
    double sum = 0.0;
    for (; i < time.size() && time[i] < time[first] + spell; ++i) {
      sum += time[i];
    }
    const auto count = static_cast<double>(i - first);
    made.time.push_back(sum / count);
    made.core.push_back(median(
        {core.begin() + static_cast<std::ptrdiff_t>(first), core.begin() + static_cast<std::ptrdiff_t>(i)}));
    // A median's variance is pi/2 times the mean's; the last digit does not average out.
    const double loss = count > 2.0 ? 0.5 * std::numbers::pi : 1.0;
    made.variance.push_back(loss * made.noise * made.noise / count + 0.25 * least_noise * least_noise);
  }
  return made;
}

} // namespace cook::fit
