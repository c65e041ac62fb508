#include "engine/timeline.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

#include "engine/air_balance.hpp"

namespace cook::engine {

namespace {

constexpr double same_moment = 1e-6; // s

bool contains(const std::vector<double> &sorted, double moment) {
  const auto at = std::lower_bound(sorted.begin(), sorted.end(), moment - same_moment);
  return at != sorted.end() && *at <= moment + same_moment;
}

/// Lid openings as one continuous signal; an opening that begins before the last recovery ends takes over
/// from there.
Signal lid_signal(const std::vector<LidOpening> &openings) {
  Signal lid(1.0);
  lid.time.clear();
  lid.value.clear();
  const auto add = [&lid](double time, double value) {
    if (lid.time.empty() || time > lid.time.back() + same_moment) {
      lid.time.push_back(time);
      lid.value.push_back(value);
    }
  };
  for (const LidOpening &opening : openings) {
    double level = 1.0;
    if (!lid.time.empty()) {
      level = lid.at(opening.at);
      while (!lid.time.empty() && lid.time.back() >= opening.at - same_moment) {
        lid.time.pop_back();
        lid.value.pop_back();
      }
    }
    add(opening.at, level);
    const double fallen = opening.at + std::fmin(lid_fall, opening.duration);
    add(fallen, lid_share);
    add(opening.at + opening.duration, lid_share);
    add(std::fmax(fallen, opening.at + opening.duration) + lid_recovery, 1.0);
  }
  if (lid.time.empty()) {
    return {1.0};
  }
  return lid;
}

} // namespace

Timeline::Timeline(const Plan &plan, std::size_t stage, double start)
    : stage_(&plan.stages[stage]), start_(start), limit_(start + stage_->at_most),
      timed_end_(std::numeric_limits<double>::infinity()) {
  for (const End &end : stage_->until) {
    double at = std::numeric_limits<double>::infinity();
    if (end.kind == EndKind::elapsed) {
      at = start + end.value;
    } else if (end.kind == EndKind::clock) {
      constexpr double day = 86400.0;
      const double now = std::fmod(plan.clock_start.value_or(0.0) + start, day);
      at = start + std::fmod(end.value - now + 2.0 * day, day);
    }
    if (at < timed_end_) {
      timed_end_ = at;
      timed_kind_ = end.kind;
    }
  }
  const double last = std::fmin(limit_, timed_end_);
  std::vector<LidOpening> openings = stage_->lid;
  for (LidOpening &opening : openings) {
    opening.at += start;
  }
  if (stage_->spritz) {
    const Spritz &spritz = *stage_->spritz;
    const double since = last - start - spritz.first;
    const double times = since > 0.0 ? std::ceil(since / spritz.every) : 0.0;
    for (std::size_t k = 0; k < static_cast<std::size_t>(times); ++k) {
      const double at = start + spritz.first + static_cast<double>(k) * spritz.every;
      spritzes_.push_back(at);
      if (spritz.lid_open > 0.0) {
        openings.push_back({at, spritz.lid_open});
      }
    }
  }
  std::sort(openings.begin(), openings.end(), [](const auto &a, const auto &b) { return a.at < b.at; });
  for (const LidOpening &opening : openings) {
    openings_.push_back(opening.at);
  }
  const bool already_logged = stage_->surroundings.air.measured || stage_->surroundings.box;
  lid_ = already_logged ? Signal(1.0) : lid_signal(openings);

  if (stage_->surroundings.pit_air) {
    const PitAir &air = *stage_->surroundings.pit_air;
    auto balance = std::make_shared<AirBalance>();
    balance->air = air;
    if (air.pan) {
      constexpr double nominal_pan = 65.0; // °C: near where a pan settles
      balance->pan =
          pan_setting(*air.pan, 0.5 * (stage_->surroundings.air.at(start) + nominal_pan), air.pressure);
    }
    balance_ = std::move(balance);
  }
  moments_ = spritzes_;
  moments_.push_back(last);
  for (const End &end : stage_->until) {
    for (double k = 1.0; end.every > 0.0 && k * end.every < last - start; k += 1.0) {
      moments_.push_back(start + k * end.every);
    }
  }
  const Signal &air = stage_->surroundings.air;
  const Signal &below = stage_->surroundings.air_below ? *stage_->surroundings.air_below : air;
  const Signal &vapour = stage_->surroundings.vapour_pressure;
  for (const Signal *signal : {&air, &below, &vapour, static_cast<const Signal *>(&lid_)}) {
    if (signal->value.size() > 1) {
      moments_.insert(moments_.end(), signal->time.begin(), signal->time.end());
    }
  }
  moments_.insert(moments_.end(), openings_.begin(), openings_.end());
  std::sort(moments_.begin(), moments_.end());
}

double Timeline::next(double now) const {
  const auto after = std::upper_bound(moments_.begin(), moments_.end(), now + same_moment);
  return after == moments_.end() ? std::fmin(limit_, timed_end_) : *after;
}

Drive<double> Timeline::drive(double now, double until, double footprint) const {
  const Surroundings &s = stage_->surroundings;
  const double length = until - now;
  // Straight lines through the ends of the segment; ripple is added by the system itself.
  Drive<double> drive;
  drive.start = now;
  for (std::size_t f = 0; f < 2; ++f) {
    const Signal &air = f == 0 && s.air_below ? *s.air_below : s.air;
    drive.ripple[f] = air.ripple_amplitude;
    drive.ripple_rate[f] = 2.0 * std::numbers::pi / air.ripple_period;
    drive.air[f] = air.without_ripple(now);
    drive.air_slope[f] = (air.without_ripple(until) - drive.air[f]) / length;
    drive.varies = drive.varies || drive.air_slope[f] != 0.0 || drive.ripple[f] != 0.0;
  }
  drive.vapour = s.vapour_pressure.at(now);
  drive.vapour_slope = (s.vapour_pressure.at(until) - drive.vapour) / length;
  drive.lid = lid_.at(now);
  drive.lid_slope = (lid_.at(until) - drive.lid) / length;
  drive.ambient = s.ambient;
  drive.varies = drive.varies || drive.vapour_slope != 0.0 || drive.lid_slope != 0.0;
  drive.balance = balance_;
  drive.extent = footprint;
  if (s.box) {
    drive.boxed = true;
    drive.box_capacity = s.box->heat_capacity / footprint;
    drive.box_loss = s.box->loss / footprint;
  }
  return drive;
}

bool Timeline::spritz_at(double moment) const { return contains(spritzes_, moment); }

bool Timeline::check_at(double moment, const End &end) const {
  const double count = std::round((moment - start_) / end.every);
  return count > 0.0 && std::fabs(start_ + count * end.every - moment) <= same_moment;
}

bool Timeline::lid_at(double moment) const { return contains(openings_, moment); }

} // namespace cook::engine
