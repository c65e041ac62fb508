/// @file
/// Finding the stall; the definition is in readings.hpp.
#include <algorithm>
#include <cmath>
#include <utility>

#include "cook/errors.hpp"
#include "cook/readings/readings.hpp"

namespace cook {

namespace {

constexpr std::size_t least_samples = 5;
constexpr std::size_t least_fitted = 3;             // a log of one reading an hour needs a longer window
constexpr double rate_window = 2400.0;              // s
constexpr double least_window = 0.75 * rate_window; // s: a shorter one knows no rate yet
constexpr double slow_share = 0.25;                 // of the fastest rate so far: below it is slow
constexpr double slow = 6.0 / 3600.0;               // K s⁻¹: and below this
constexpr double least_recovery = 1.5 / 3600.0;     // K s⁻¹: a climb of the rate that noise does not make
constexpr double relapse = 0.5;                     // of the rate since the last stall: a new one
constexpr double shortest = 1800.0;                 // s
constexpr double least_pace = 3.0 / 3600.0;         // K s⁻¹: what has never climbed so fast does not stall
constexpr double coldest_stall = 50.0;              // °C
constexpr double hottest_begin = 80.0;              // °C
constexpr double hottest_stall = 85.0;              // °C

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
    while (time_[low_] < time_[i] - rate_window && i - low_ >= least_fitted) {
      add(low_++, -1.0);
    }
    const double n = static_cast<double>(i - low_ + 1);
    if (i - low_ + 1 < least_fitted || time_[i] - time_[low_] < least_window) {
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
    const bool in_range = now.core >= coldest_stall && now.core <= hottest_stall;
    const bool creeps = now.rate < std::fmin(slow, slow_share * fastest_);
    if (!going_) {
      since_ = std::max(since_, now.rate);
      if (now.core >= coldest_stall && hottest_ <= hottest_begin && creeps && fastest_ >= least_pace &&
          (stalls_.empty() || now.rate <= relapse * since_)) {
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
    const double recovered = stall.slowest + std::max(least_recovery, stall.slowest);
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
    if (going_ && going_->duration() >= shortest) {
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
