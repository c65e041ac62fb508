/// @file
/// What a stall is: the core, within a range of temperatures, rises much more slowly than the fastest it has
/// risen so far, and slowly by itself, for half an hour or longer; it is over once the rate has picked up
/// again or the core has left the range. The thresholds are those of stall_rule in cook/readings/limits.hpp;
/// find_stall() in cook/readings/readings.hpp defines it to the number.
#include <algorithm>
#include <cmath>
#include <utility>

#include "cook/errors.hpp"
#include "cook/readings/limits.hpp"
#include "cook/readings/readings.hpp"

namespace cook {

namespace {

namespace rule = stall_rule;

constexpr std::size_t least_samples = 5;
constexpr std::size_t least_fitted = 3; // a log of one reading an hour needs a longer window

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

/// The trace at the middle of a window.
struct Fit {
  double time = 0.0; ///< [s]
  double core = 0.0; ///< [°C]
  double rate = 0.0; ///< [K s⁻¹]
};

/// Straight lines through the last samples, from running sums: one costs the same however many samples it
/// has.
class Window {
public:
  explicit Window(std::span<const double> time, std::span<const double> core) : time_(time), core_(core) {}

  /// The line through the samples of the last window, with sample `i` the latest; empty while there are too
  /// few.
  std::optional<Fit> at(std::size_t i) {
    add(i, 1.0);
    while (time_[low_] < time_[i] - rule::rate_window && i - low_ >= least_fitted) {
      add(low_++, -1.0);
    }
    const double n = static_cast<double>(i - low_ + 1);
    if (i - low_ + 1 < least_fitted || time_[i] - time_[low_] < rule::least_window) {
      return {};
    }
    const double mean_time = sum_time_ / n;
    const double mean_core = sum_core_ / n;
    const double rate =
        (sum_product_ / n - mean_time * mean_core) / (sum_square_ / n - mean_time * mean_time);
    const double middle = 0.5 * (time_[low_] + time_[i]);
    return Fit{middle, mean_core + rate * (middle - origin() - mean_time), rate};
  }

private:
  [[nodiscard]] double origin() const { return time_.front(); }
  void add(std::size_t i, double sign) {
    const double t = time_[i] - origin();
    sum_time_ += sign * t;
    sum_core_ += sign * core_[i];
    sum_square_ += sign * t * t;
    sum_product_ += sign * t * core_[i];
  }

  std::span<const double> time_, core_;
  std::size_t low_ = 0;
  double sum_time_ = 0.0, sum_core_ = 0.0, sum_square_ = 0.0, sum_product_ = 0.0;
};

/// What is known so far, sample by sample.
class Watcher {
public:
  void see(const Fit &now) {
    fastest_ = std::max(fastest_, now.rate);
    hottest_ = std::max(hottest_, now.core);
    const bool in_range = now.core >= rule::coldest && now.core <= rule::hottest;
    const bool creeps = now.rate < std::fmin(rule::slow, rule::slow_share * fastest_);
    if (!going_) {
      since_ = std::max(since_, now.rate);
      if (now.core >= rule::coldest && hottest_ <= rule::hottest_begin && creeps &&
          fastest_ >= rule::least_pace && (stalls_.empty() || now.rate <= rule::relapse * since_)) {
        going_ = Stall{.start = now.time,
                       .end = now.time,
                       .over = false,
                       .plateau = now.core,
                       .slowest = now.rate,
                       .slowest_at = now.time,
                       .core_start = now.core,
                       .core_end = now.core};
      }
      return;
    }
    Stall &stall = *going_;
    stall.end = now.time;
    stall.core_end = now.core;
    if (now.rate < stall.slowest) {
      stall.slowest = now.rate;
      stall.slowest_at = now.time;
      stall.plateau = now.core;
    }
    const double recovered = stall.slowest + std::max(rule::least_recovery, stall.slowest);
    if (!in_range || !creeps || now.rate >= recovered) {
      stall.over = true;
      keep();
      since_ = now.rate;
    }
  }

  /// All of them; the last one may still be going on.
  std::vector<Stall> stalls() {
    keep();
    return std::move(stalls_);
  }

private:
  void keep() {
    if (going_ && going_->duration() >= rule::shortest) {
      stalls_.push_back(*going_);
    }
    going_.reset();
  }

  double fastest_ = 0.0;       ///< rate so far [K s⁻¹]
  double hottest_ = -HUGE_VAL; ///< core so far [°C]
  double since_ = 0.0;         ///< fastest since the last stall [K s⁻¹]
  std::optional<Stall> going_;
  std::vector<Stall> stalls_;
};

} // namespace

std::vector<Stall> find_stalls(std::span<const double> time, std::span<const double> core) {
  check_trace(time, core);
  Window window(time, core);
  Watcher watcher;
  for (std::size_t i = 0; i < time.size(); ++i) {
    if (const auto now = window.at(i)) {
      watcher.see(*now);
    }
  }
  return watcher.stalls();
}

std::optional<Stall> find_stall(std::span<const double> time, std::span<const double> core) {
  const std::vector<Stall> stalls = find_stalls(time, core);
  return stalls.empty() ? std::nullopt : std::optional(stalls.front());
}

std::optional<SlowestRise> slowest_rise(std::span<const double> time, std::span<const double> core) {
  if (core.empty()) {
    return {};
  }
  const auto peak = static_cast<std::size_t>(std::max_element(core.begin(), core.end()) - core.begin());
  std::vector<std::size_t> inside;
  for (std::size_t i = 0; i <= peak; ++i) {
    if (core[i] >= rule::coldest && core[i] <= rule::hottest_begin) {
      inside.push_back(i);
    }
  }
  if (inside.size() < least_fitted) {
    return {};
  }
  // Straight lines over a tenth of the way up: a rate from minute to minute would jitter.
  constexpr std::size_t parts = 10;
  SlowestRise found{.from = time[inside.front()], .to = time[inside.back()], .rate = HUGE_VAL};
  const double step = (found.to - found.from) / static_cast<double>(parts);
  const auto core_at = [&](std::size_t part) {
    const double t = found.from + step * static_cast<double>(part);
    const auto after = std::upper_bound(time.begin(), time.end(), t);
    const auto i = std::clamp<std::ptrdiff_t>(after - time.begin(), 1, std::ssize(time) - 1);
    const auto next = static_cast<std::size_t>(i);
    const double share = std::clamp((t - time[next - 1]) / (time[next] - time[next - 1]), 0.0, 1.0);
    return core[next - 1] + share * (core[next] - core[next - 1]);
  };
  for (std::size_t part = 0; part < parts; ++part) {
    const double before = core_at(part);
    const double rate = (core_at(part + 1) - before) / step;
    if (rate < found.rate) {
      found.rate = rate;
      found.core = before;
    }
  }
  return found;
}

std::optional<Stall> find_stall(const Outcome &outcome) {
  if (outcome.times() < least_samples) {
    return {};
  }
  // Until it was pulled: a core that cools has not stalled.
  std::size_t count = outcome.times();
  if (const auto carried = carryover(outcome)) {
    const auto pulled = std::upper_bound(outcome.time.begin(), outcome.time.end(), carried->pulled_at);
    count = static_cast<std::size_t>(pulled - outcome.time.begin());
  }
  if (count < least_samples) {
    return {};
  }
  return find_stall(std::span(outcome.time).first(count), std::span(outcome.core).first(count));
}

} // namespace cook
