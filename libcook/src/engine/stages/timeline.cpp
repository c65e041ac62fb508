#include "engine/stages/timeline.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "clock.hpp"
#include "cook/cooker/humid_air.hpp"
#include "engine/air/air_balance.hpp"

namespace cook::engine {

namespace {

/// Whether air may be given more vapour than it holds, some time in a segment: lowest against highest.
bool condenses(const Drive<double> &drive, double length) {
  const double vapour =
      std::fmax(drive.vapour, drive.vapour + drive.vapour_slope * length) + drive.vapour_ripple;
  double lowest = drive.air[1];
  for (const double share : {drive.lid, drive.lid + drive.lid_slope * length}) {
    for (std::size_t f = 0; f < 2; ++f) {
      const double air =
          std::fmin(drive.air[f], drive.air[f] + drive.air_slope[f] * length) - drive.ripple[f];
      lowest = std::fmin(lowest, drive.ambient + share * (air - drive.ambient));
    }
  }
  return vapour > saturation_pressure(lowest);
}

} // namespace

Timeline::Timeline(const Plan &plan, std::size_t stage, double start, std::vector<LidOpening> open)
    : stage_(&plan.stages[stage]), start_(start), limit_(start + stage_->at_most) {
  for (const End &end : stage_->until) {
    double at = std::numeric_limits<double>::infinity();
    if (end.kind == EndKind::elapsed) {
      at = start + end.value;
    } else if (end.kind == EndKind::clock) {
      at = start + time_until_clock(plan.clock_start.value_or(0.0) + start, end.value);
    }
    if (at < timed_end_) {
      timed_end_ = at;
      timed_ = &end;
    }
  }
  const Surroundings &s = stage_->surroundings;
  if (s.pit_air) {
    auto balance = std::make_shared<AirBalance>();
    balance->air = *s.pit_air;
    if (s.pit_air->pan) {
      constexpr double nominal_pan = 65.0; // °C: near where a pan settles
      balance->pan = pan_setting(*s.pit_air->pan, 0.5 * (s.air.mean() + nominal_pan), s.pit_air->pressure);
    }
    balance_ = std::move(balance);
  }
  add_lids(std::move(open));
  add_rows();
  gather(start_, now_);
  now_.time = start_;
  after_ = now_;
  for (Moment *moment : {&next_, &after_}) {
    find_after();
    *moment = after_;
  }
}

/// The openings asked for, and those that the sprays need.
void Timeline::add_lids(std::vector<LidOpening> open) {
  const double last = std::fmin(limit_, timed_end_);
  openings_ = std::move(open);
  for (const LidOpening &opening : stage_->lid) {
    openings_.push_back({start_ + opening.at, opening.duration});
    opens_.push_back(openings_.back().at);
  }
  if (stage_->spritz && stage_->spritz->lid_open > 0.0) {
    const Spritz &spritz = *stage_->spritz;
    const double first = start_ + spritz.first;
    for (double k = 0.0; first + k * spritz.every < last; k += 1.0) {
      openings_.push_back({first + k * spritz.every, spritz.lid_open});
      opens_.push_back(openings_.back().at);
    }
  }
  std::sort(opens_.begin(), opens_.end());
  openings_ = joined(std::move(openings_));
  const bool already_logged = stage_->surroundings.air.measured || stage_->surroundings.box;
  lid_ = already_logged ? Signal(1.0) : lid_signal(openings_);
}

void Timeline::add_list(Row::What what, const std::vector<double> &list) {
  Row row;
  row.what = what;
  row.list = &list;
  row.at = static_cast<std::size_t>(std::lower_bound(list.begin(), list.end(), start_) - list.begin());
  rows_.push_back(row);
}

void Timeline::add_rows() {
  const Surroundings &s = stage_->surroundings;
  for (const Signal *signal : {&s.air, s.air_below ? &*s.air_below : &s.air, &s.vapour_pressure,
                               static_cast<const Signal *>(&lid_)}) {
    if (signal->value.size() > 1) {
      add_list(Row::What::line, signal->time);
    }
  }
  if (stage_->spritz) {
    Row row;
    row.what = Row::What::spritz;
    row.first = start_ + stage_->spritz->first;
    row.every = stage_->spritz->every;
    rows_.push_back(row);
  }
  add_list(Row::What::lid, opens_);
  for (std::size_t i = 0; i < stage_->until.size(); ++i) {
    if (stage_->until[i].every > 0.0) {
      Row row;
      row.what = Row::What::check;
      row.every = stage_->until[i].every;
      row.first = start_ + row.every;
      row.check = i;
      rows_.push_back(row);
    }
  }
}

void Timeline::gather(double first, Moment &moment) {
  const double last = first + same_moment;
  moment.first = moment.last = first;
  moment.checks.clear();
  moment.spritz = moment.lid = false;
  for (Row &row : rows_) {
    for (double time = row.time(); time <= last; time = row.time()) {
      moment.last = std::fmax(moment.last, time);
      switch (row.what) {
      case Row::What::line:
        break;
      case Row::What::check:
        moment.checks.push_back(row.check);
        break;
      case Row::What::spritz:
        moment.spritz = true;
        break;
      case Row::What::lid:
        moment.lid = true;
        break;
      }
      ++row.at;
    }
  }
  moment.ends = timed_end_ <= last;
  moment.gives_up = limit_ <= last;
  moment.time = moment.ends ? timed_end_ : moment.gives_up ? limit_ : first;
}

/// Puts the moment after `after_` there.
void Timeline::find_after() {
  if (after_.is_last()) {
    return;
  }
  double first = std::fmin(timed_end_, limit_);
  for (const Row &row : rows_) {
    first = std::fmin(first, row.time());
  }
  gather(first, after_);
}

void Timeline::go_on() {
  std::swap(now_, next_);
  next_ = after_;
  find_after();
}

std::vector<LidOpening> Timeline::opened_until(double time) const {
  std::vector<LidOpening> made;
  for (const LidOpening &opening : openings_) {
    // Twice: the air may have fallen from where it stood in its recovery from the one before.
    const double forgotten = opening.at + opening.duration + 2.0 * lid_recovery;
    if (opening.at < time && forgotten > time) {
      made.push_back(opening);
    }
  }
  return made;
}

Drive<double> Timeline::drive_from(double time, double footprint, double &until) const {
  constexpr double at_most = 1e6; // s
  Moment from, to;
  from.time = from.first = from.last = time;
  to.first = time + at_most;
  for (const Row &row : rows_) {
    if (row.what != Row::What::line) {
      continue;
    }
    auto point = std::upper_bound(row.list->begin(), row.list->end(), time);
    for (; point != row.list->end() && *point <= time + same_moment; ++point) {
      from.last = std::fmax(from.last, *point);
    }
    to.first = point == row.list->end() ? to.first : std::fmin(to.first, *point);
  }
  to.time = until = to.first;
  return drive(from, to, footprint);
}

Drive<double> Timeline::drive(const Moment &from, const Moment &to, double footprint) const {
  const Surroundings &s = stage_->surroundings;
  const double length = to.time - from.time;
  // Straight lines through the ends of the segment; ripple is added by the system itself.
  Drive<double> drive;
  drive.start = from.time;
  const auto line = [&](const Signal &signal, double &value, double &slope) {
    value = signal.without_ripple(from.last);
    slope = length > 0.0 ? (signal.without_ripple(to.first) - value) / length : 0.0;
    drive.varies = drive.varies || slope != 0.0 || signal.ripple_amplitude != 0.0;
  };
  for (std::size_t f = 0; f < 2; ++f) {
    const Signal &air = f == 0 && s.air_below ? *s.air_below : s.air;
    drive.ripple[f] = air.ripple_amplitude;
    drive.ripple_rate[f] = 2.0 * std::numbers::pi / air.ripple_period;
    line(air, drive.air[f], drive.air_slope[f]);
  }
  line(s.vapour_pressure, drive.vapour, drive.vapour_slope);
  drive.vapour_ripple = s.vapour_pressure.ripple_amplitude;
  drive.vapour_ripple_rate = 2.0 * std::numbers::pi / s.vapour_pressure.ripple_period;
  line(lid_, drive.lid, drive.lid_slope);
  drive.ambient = s.ambient;
  drive.extent = footprint;
  set_balance(drive, balance_);
  if (s.box) {
    drive.boxed = true;
    drive.box_capacity = s.box->heat_capacity / footprint;
    drive.box_loss = s.box->loss / footprint;
  }
  drive.may_condense = !balance_ && (s.box || condenses(drive, length));
  return drive;
}

} // namespace cook::engine
