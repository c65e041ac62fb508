#include "engine/cook_run.hpp"

#include <algorithm>
#include <cmath>

#include "engine/stage_setup.hpp"

namespace cook::engine {

CookRun::CookRun(const Plan &plan, const Options &options, const Grid &grid, const PropertyTable &table)
    : plan_(&plan), options_(&options), outcome_(std::make_shared<Outcome>()), system_(grid, table),
      control_(system_.size(),
               {.temperature = options.temperature_tolerance, .water = options.water_tolerance}),
      recorder_(*outcome_, options.output_every, options.keep_fields, grid.middle, table.solids),
      extent_(grid.extent), solids_(table.solids), middle_(grid.middle),
      conversion_(Arrhenius::from_reference(plan.meat.tissue.tenderness.rate_90, 90.0,
                                            plan.meat.tissue.tenderness.activation)) {
  Outcome &out = *outcome_;
  out.plan = plan;
  out.position = grid.position;
  out.node_volume = grid.volume;
  double volume = 0.0;
  for (const double v : grid.volume) {
    volume += v;
  }
  for (double &v : out.node_volume) {
    v /= volume;
  }
  out.face_area = {grid.face_area[0] * extent_, grid.face_area[1] * extent_};
}

std::shared_ptr<const Outcome> CookRun::run() {
  start_state();
  for (std::size_t i = 0; i < plan_->stages.size(); ++i) {
    run_stage(i);
  }
  finish();
  return outcome_;
}

void CookRun::start_state() {
  const std::size_t n = system_.nodes();
  const PropertyTable &table = system_.table();
  const double eta = raw_eta(table, plan_->meat.start);
  y_.assign(system_.size(), 0.0);
  f_.assign(system_.size(), 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    y_[2 * i] = eta;
    y_[2 * i + 1] = table.raw_water;
    system_.cells[i].t = plan_->meat.start;
  }
  system_.evaluate_cells(y_);
  system_.remember();
  start_heat_ = heat_content();
  start_water_ = water_content();
}

void CookRun::run_stage(std::size_t index) {
  const Stage &stage = plan_->stages[index];
  const Timeline timeline(*plan_, index, time_);
  const std::vector<End> conditions = state_conditions(stage);
  begin_stage(index, timeline);
  const double start = time_;
  std::string reason;
  const Watched first = watched(0.0);
  for (const End &end : conditions) {
    if (reason.empty() && excess(end, first) >= 0.0) {
      reason = describe(end);
      outcome_->notes.push_back("stage '" + stage.name + "' was skipped: " + reason +
                                " was met when it began");
    }
  }
  bool fresh = true;
  while (reason.empty()) {
    // Sprays at a moment act on the state that the next segment starts from.
    if (stage.spritz && timeline.spritz_at(time_)) {
      spritz(*stage.spritz);
      fresh = true;
    }
    if (timeline.lid_at(time_)) {
      outcome_->events.push_back({time_, "lid"});
    }
    const double moment = timeline.next(time_);
    system_.drive = timeline.drive(time_, moment, extent_);
    relinearise();
    if (fresh) {
      control_.restart();
      fresh = false;
    }
    if (to_moment(moment, conditions, reason) == StageResult::ended) {
      break;
    }
    if (time_ >= timeline.timed_end()) {
      for (const End &end : stage.until) {
        if (reason.empty() && end.kind == timeline.timed_kind()) {
          reason = describe(end);
        }
      }
    } else if (time_ >= timeline.limit()) {
      give_up(timeline);
    }
  }
  recorder_.store(system_, now_);
  outcome_->stage_ends.push_back({stage.name, start, time_, now_.t[middle_], reason});
}

void CookRun::begin_stage(std::size_t index, const Timeline &timeline) {
  stage_ = index;
  const Stage &stage = plan_->stages[index];
  system_.face = face_settings(plan_->meat, stage, time_, options_->physics);
  system_.drive = timeline.drive(time_, timeline.next(time_), extent_);
  y_[system_.box_index()] = stage.surroundings.box ? stage.surroundings.box->start : 0.0;
  relinearise();
  snapshot();
  stage_peak_core_ = now_.t[middle_];
  if (index == 0) {
    recorder_.store(system_, now_);
  }
}

void CookRun::relinearise() {
  system_.linearise(time_, y_, f_);
  ++control_.evaluations;
}

/// Takes over the state at `time_` as the latest snapshot; cells and rates must be those of (time_, y_).
void CookRun::snapshot() { take_snapshot(system_, time_, y_, f_, now_); }

CookRun::StageResult CookRun::to_moment(double moment, const std::vector<End> &conditions,
                                        std::string &reason) {
  snapshot(); // rates may have jumped with the conditions
  while (time_ < moment) {
    if (control_.accepted >= options_->max_steps) {
      fail("more than " + std::to_string(options_->max_steps) +
           " steps; loosen the tolerances, or look for surroundings that change very fast");
    }
    if (options_->interrupted && control_.accepted % 64 == 0 && options_->interrupted()) {
      recorder_.store(system_, now_);
      finish();
      throw Interrupted("stopped on request " + where(), outcome_);
    }
    std::swap(before_, now_);
    if (!control_.advance(system_, time_, y_, f_, moment)) {
      now_ = before_;
      fail("no step could be made; the largest error is at " +
           format_number(std::round(outcome_->position[control_.trouble().cell] * 1e5) / 100.0) +
           " mm depth; try a smaller face_spacing or looser tolerances");
    }
    relinearise();
    const double step = time_ - before_.time;
    const Watched state = watched(step);
    bool met = false;
    for (const End &end : conditions) {
      met = met || excess(end, state) >= 0.0;
    }
    if (met) {
      locate(conditions, reason);
      relinearise();
    }
    system_.remember();
    now_.converted = converted_after(time_ - before_.time, system_.cells[middle_].t);
    snapshot();
    stage_peak_core_ = std::max(stage_peak_core_, now_.t[middle_]);
    recorder_.store_between(system_, control_.stepper(), before_, now_);
    if (met) {
      return StageResult::ended;
    }
  }
  return StageResult::next_moment;
}

void CookRun::locate(const std::vector<End> &conditions, std::string &reason) {
  constexpr double close_enough = 1e-3; // s
  double low = 0.0;
  double high = time_ - before_.time;
  const End *first = nullptr;
  std::vector<double> trial(y_.size());
  const auto largest = [&](const Watched &state, const End *&which) {
    double most = -1e300;
    for (const End &end : conditions) {
      const double value = excess(end, state);
      if (value > most) {
        most = value;
        which = &end;
      }
    }
    return most;
  };
  double at_high = largest(watched(high), first);
  system_.linearise(before_.time, before_.y, f_);
  ++control_.evaluations;
  double at_low = -1.0;
  {
    Watched start{before_.t[middle_], before_.y[2 * bark_node() + 1], before_.converted};
    const End *ignored = nullptr;
    at_low = largest(start, ignored);
  }
  // Illinois false position on the length of the step itself, so the state at the end is a true step from
  // `before_`.
  for (int i = 0; i < 60 && high - low > close_enough; ++i) {
    double share = at_low / (at_low - at_high);
    share = std::isfinite(share) ? std::clamp(share, 0.02, 0.98) : 0.5;
    const double middle = low + share * (high - low);
    control_.trial(system_, before_.time, before_.y, before_.f, middle, trial);
    system_.evaluate_cells(trial);
    std::swap(y_, trial);
    const End *which = nullptr;
    const double value = largest(watched(middle), which);
    std::swap(y_, trial);
    if (value >= 0.0) {
      high = middle;
      at_high = value;
      at_low *= 0.5;
      first = which;
    } else {
      low = middle;
      at_low = value;
      at_high *= 0.5;
    }
  }
  time_ = before_.time + high;
  // Once more, so that the stepper holds the stages of this very step for the dense output.
  control_.trial(system_, before_.time, before_.y, before_.f, high, y_);
  system_.evaluate_cells(y_);
  reason = describe(*first);
}

Watched CookRun::watched(double step) const {
  const double core = system_.cells[middle_].t;
  return {core, y_[2 * bark_node() + 1], step > 0.0 ? converted_after(step, core) : now_.converted};
}

/// Collagen converted after a step from `before_`: Simpson's rule on the rate, with the core's temperature as
/// the parabola through its start, its initial slope and its end.
double CookRun::converted_after(double step, double core_now) const {
  const double start = before_.t[middle_];
  const double slope = before_.t_rate[middle_];
  const double curve = core_now - start - slope * step;
  const double halfway = start + 0.5 * slope * step + 0.25 * curve;
  const double exposure =
      step / 6.0 * (conversion_.rate(start) + 4.0 * conversion_.rate(halfway) + conversion_.rate(core_now));
  return 1.0 - (1.0 - before_.converted) * std::exp(-exposure);
}

/// The face that shows bark: the top one unless it lies under the fat cap.
std::size_t CookRun::bark_node() const {
  return system_.face_node(plan_->meat.fat_cap.side == FatSide::up ? 0 : 1);
}

void CookRun::spritz(const Spritz &spritz) {
  // Both faces of a slab are not wetted: the bottom one lies on the grate.
  Row<double> row;
  system_.table().lookup(spritz.temperature, row);
  const std::size_t s = 1;
  const std::size_t node = system_.face_node(s);
  const double heat = spritz.amount * row.value[col_water_h];
  y_[system_.film_index(s)] += spritz.amount;
  y_[2 * node] += heat * system_.face_area[s] / system_.volume[node] / system_.table().reference_capacity;
  outcome_->ledger.spritzed += spritz.amount * system_.face_area[s] * extent_;
  outcome_->ledger.spritz_enthalpy += heat * system_.face_area[s] * extent_;
  outcome_->events.push_back({time_, "spritz"});
}

} // namespace cook::engine
