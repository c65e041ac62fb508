/// @file
/// Finding the stall; the definition is in readings.hpp.
#include <algorithm>
#include <array>
#include <cmath>

#include "cook/errors.hpp"
#include "cook/readings.hpp"

namespace cook {

namespace {

constexpr std::size_t least_samples = 5;
constexpr std::size_t moments = 401;   // at which the rate is taken
constexpr double window_share = 0.1;   // of the rise: noise in a slope falls with the window to the power 3/2
constexpr double slow_share = 0.5;     // of the typical rate: below it is slow
constexpr double recovery_share = 0.2; // of the typical rate: a climb that noise does not make
constexpr double coldest_stall = 50.0; // °C
constexpr double hottest_stall = 90.0; // °C
constexpr double typical_from = 30.0;  // °C; below it the core has hardly begun to move
constexpr double short_of_peak = 1.0;  // K; the last kelvin to a level takes any time
constexpr double least_rise = 10.0;    // K; less is no cook to find a stall in

void check_trace(std::span<const double> time, std::span<const double> core) {
  if (time.size() != core.size()) {
    throw InvalidInput("core", std::to_string(core.size()) + " temperatures but " +
                                   std::to_string(time.size()) + " times; they must pair up");
  }
  if (time.size() < least_samples) {
    throw InvalidInput("core", std::to_string(core.size()) + " samples; at least " +
                                   std::to_string(least_samples) + " are needed to tell a stall");
  }
  for (std::size_t i = 0; i < time.size(); ++i) {
    if (std::isfinite(time[i]) && std::isfinite(core[i]) && (i == 0 || time[i] > time[i - 1])) {
      continue; // writing a place costs more than finding the stall
    }
    const std::string place = "[" + std::to_string(i) + "]";
    check::finite("time" + place, time[i]);
    check::finite("core" + place, core[i]);
    if (i > 0 && time[i] <= time[i - 1]) {
      throw InvalidInput("time" + place, format_number(time[i]) + " s after " + format_number(time[i - 1]) +
                                             " s; times must increase: sort the log and drop repeated times");
    }
  }
}

/// A straight line through part of the trace, seen from one moment.
struct Fit {
  double core; ///< at the moment [°C]
  double rate; ///< [K s⁻¹]
};

/// Straight lines through parts of a trace, from running sums: one costs the same however many samples it
/// has.
class Lines {
public:
  Lines(std::span<const double> time, std::span<const double> core) : time_(time), sums_(time.size() + 1) {
    for (std::size_t i = 0; i < time.size(); ++i) {
      // From the middle of the trace: small numbers, so that differences of sums keep their digits.
      const double t = time[i] - middle();
      const Sums &s = sums_[i];
      sums_[i + 1] = {s.time + t, s.core + core[i], s.square + t * t, s.product + t * core[i]};
    }
  }

  /// Least-squares line through the samples within half a window of `moment` (at least three: the nearest
  /// ones). Moments must not fall from call to call.
  Fit at(double moment, double half) {
    while (low_ < time_.size() && time_[low_] < moment - half) {
      ++low_;
    }
    while (high_ < time_.size() && time_[high_] <= moment + half) {
      ++high_;
    }
    std::size_t low = low_;
    std::size_t high = std::max(low_, high_);
    while (high - low < 3) {
      const bool left = low > 0 && (high == time_.size() || moment - time_[low - 1] <= time_[high] - moment);
      left ? --low : ++high;
    }
    const Sums &a = sums_[low];
    const Sums &b = sums_[high];
    const double share = 1.0 / static_cast<double>(high - low);
    const double mean_time = (b.time - a.time) * share;
    const double mean_core = (b.core - a.core) * share;
    const double rate = ((b.product - a.product) * share - mean_time * mean_core) /
                        ((b.square - a.square) * share - mean_time * mean_time);
    return {mean_core + rate * (moment - middle() - mean_time), rate};
  }

private:
  struct Sums {
    double time = 0.0, core = 0.0, square = 0.0, product = 0.0;
  };
  [[nodiscard]] double middle() const { return 0.5 * (time_.front() + time_.back()); }

  std::span<const double> time_;
  std::vector<Sums> sums_;
  std::size_t low_ = 0, high_ = 0;
};

/// First moment at which the trace reaches `level`, by straight lines; the trace reaches it.
double reaches(std::span<const double> time, std::span<const double> core, double level) {
  const auto first = std::find_if(core.begin(), core.end(), [&](double value) { return value >= level; });
  const auto i = static_cast<std::size_t>(first - core.begin());
  if (i == 0) {
    return time.front();
  }
  return time[i - 1] + (level - core[i - 1]) / (core[i] - core[i - 1]) * (time[i] - time[i - 1]);
}

/// The rise as rate and smoothed core at evenly spaced moments.
struct Rise {
  std::array<double, moments> time{};
  std::array<Fit, moments> fit{};
  double slow = 0.0;     ///< below this rate is slow [K s⁻¹]
  double recovery = 0.0; ///< climb of the rate that counts as a recovery [K s⁻¹]

  [[nodiscard]] bool is_slow(std::size_t i) const {
    return fit[i].rate < slow && fit[i].core >= coldest_stall && fit[i].core <= hottest_stall;
  }
};

std::optional<Rise> take_rise(std::span<const double> time, std::span<const double> core) {
  const auto peak = static_cast<std::size_t>(std::max_element(core.begin(), core.end()) - core.begin());
  const double top = std::min(hottest_stall, core[peak] - short_of_peak);
  const double bottom = std::max(typical_from, core.front());
  if (top < coldest_stall || top - bottom < least_rise || peak + 1 < least_samples) {
    return {};
  }
  // Samples past the peak would pull the rate down before it.
  time = time.first(peak + 1);
  core = core.first(peak + 1);
  const double end = reaches(time, core, top);
  const double length = end - time.front();
  const double typical = (top - bottom) / (end - reaches(time, core, bottom));
  Rise rise;
  rise.slow = slow_share * typical;
  rise.recovery = recovery_share * typical;
  Lines lines(time, core);
  for (std::size_t i = 0; i < moments; ++i) {
    rise.time[i] = time.front() + length * static_cast<double>(i) / static_cast<double>(moments - 1);
    rise.fit[i] = lines.at(rise.time[i], 0.5 * window_share * length);
  }
  return rise;
}

/// The largest climb of the rate that begins within [first, last): from where, and to where.
struct Climb {
  std::size_t from = 0;
  std::size_t to = 0;
  double size = 0.0;
};

Climb largest_climb(const Rise &rise, std::size_t first, std::size_t last) {
  Climb best;
  std::size_t highest = moments - 1;
  for (std::size_t i = moments; i-- > first;) {
    if (rise.fit[i].rate >= rise.fit[highest].rate) {
      highest = i;
    }
    const double size = rise.fit[highest].rate - rise.fit[i].rate;
    if (i < last && size > best.size) {
      best = {i, highest, size};
    }
  }
  return best;
}

/// Where the rate passes the slow limit between moments i - 1 and i.
Fit limit_between(const Rise &rise, std::size_t i, double &moment) {
  const Fit &a = rise.fit[i - 1];
  const Fit &b = rise.fit[i];
  const bool by_rate = (a.rate < rise.slow) != (b.rate < rise.slow);
  const double share =
      by_rate ? (rise.slow - a.rate) / (b.rate - a.rate) : 0.5; // else the range of cores ends here
  moment = rise.time[i - 1] + share * (rise.time[i] - rise.time[i - 1]);
  return {a.core + share * (b.core - a.core), rise.slow};
}

Stall describe(const Rise &rise, std::size_t first, std::size_t last, const Climb &climb) {
  Stall stall;
  stall.slowest = rise.fit[climb.from].rate;
  stall.slowest_at = rise.time[climb.from];
  stall.plateau = rise.fit[climb.from].core;
  stall.start = rise.time[first];
  stall.core_start = rise.fit[first].core;
  if (first > 0) {
    stall.core_start = limit_between(rise, first, stall.start).core;
  }
  if (climb.to < last) {
    stall.end = rise.time[climb.to];
    stall.core_end = rise.fit[climb.to].core;
  } else {
    stall.core_end = limit_between(rise, last, stall.end).core;
  }
  return stall;
}

} // namespace

std::vector<Stall> find_stalls(std::span<const double> time, std::span<const double> core) {
  check_trace(time, core);
  const std::optional<Rise> rise = take_rise(time, core);
  std::vector<Stall> stalls;
  if (!rise) {
    return stalls;
  }
  for (std::size_t first = 0; first < moments; ++first) {
    if (!rise->is_slow(first)) {
      continue;
    }
    std::size_t last = first; // one past the spell
    while (last < moments && rise->is_slow(last)) {
      ++last;
    }
    const Climb climb = largest_climb(*rise, first, last);
    if (climb.size >= rise->recovery) {
      stalls.push_back(describe(*rise, first, last, climb));
    }
    first = last;
  }
  return stalls;
}

std::optional<Stall> find_stall(std::span<const double> time, std::span<const double> core) {
  const std::vector<Stall> stalls = find_stalls(time, core);
  return stalls.empty() ? std::nullopt : std::optional(stalls.front());
}

std::optional<Stall> find_stall(const Outcome &outcome) {
  if (outcome.times() < least_samples) {
    return {};
  }
  return find_stall(std::span(outcome.time), std::span(outcome.core));
}

} // namespace cook
