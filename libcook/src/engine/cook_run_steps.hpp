/// @file
/// CookRun: stages, steps, and where they end.
#pragma once

#include <algorithm>
#include <cmath>

#include "engine/cook_run.hpp"
#include "engine/lumped.hpp"
#include "engine/stage_setup.hpp"

namespace cook::engine {

template <class System>
CookRun<System>::CookRun(const Plan &plan, const Options &options, System system, Layout layout,
                         std::shared_ptr<Outcome> outcome)
    : plan_(&plan), options_(&options), outcome_(std::move(outcome)), system_(std::move(system)),
      layout_(std::move(layout)), control_(system_.size(), {.temperature = options.temperature_tolerance,
                                                            .water = options.water_tolerance}),
      recorder_(*outcome_, {.every = options.output_every, .keep_fields = options.keep_fields}, layout_),
      conversion_(Arrhenius::from_reference(plan.meat.tissue.tenderness.rate_90, 90.0,
                                            plan.meat.tissue.tenderness.activation)) {
  outcome_->plan = plan;
  outcome_->face_area = {system_.face_area[0] * layout_.extent, system_.face_area[1] * layout_.extent};
}

template <class System> std::shared_ptr<const Outcome> CookRun<System>::run() {
  start_state();
  for (std::size_t i = 0; i < plan_->stages.size(); ++i) {
    run_stage(i);
  }
  finish();
  return outcome_;
}

template <class System> void CookRun<System>::start_state() {
  const std::size_t n = system_.nodes();
  y_.assign(system_.size(), 0.0);
  f_.assign(system_.size(), 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    y_[2 * i] = raw_eta(system_.table(i), plan_->meat.start);
    y_[2 * i + 1] = system_.table(i).raw_water;
    system_.cells[i].t = plan_->meat.start;
  }
  now_.converted.assign(layout_.spots.size(), 0.0);
  system_.evaluate_cells(y_);
  system_.remember();
  start_heat_ = heat_content();
  start_water_ = water_content();
}

template <class System> void CookRun<System>::run_stage(std::size_t index) {
  const Stage &stage = plan_->stages[index];
  const Timeline timeline(*plan_, index, time_);
  const std::vector<End> conditions = state_conditions(stage, Looked::always);
  const std::vector<End> checks = state_conditions(stage, Looked::now_and_then);
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
    system_.drive = timeline.drive(time_, moment, layout_.extent);
    relinearise();
    if (fresh) {
      control_.restart();
      fresh = false;
    }
    if (to_moment(moment, conditions, reason) == StageResult::ended) {
      break;
    }
    for (const End &end : checks) {
      if (reason.empty() && timeline.check_at(time_, end) && excess(end, watched(0.0)) >= 0.0) {
        reason = describe(end);
      }
    }
    if (!reason.empty()) {
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
  outcome_->stage_ends.push_back({stage.name, start, time_, core_now(), reason});
}

template <class System> void CookRun<System>::begin_stage(std::size_t index, const Timeline &timeline) {
  stage_ = index;
  recorder_.follow(core_spot());
  const Stage &stage = plan_->stages[index];
  system_.set_faces(face_settings(plan_->meat, stage, time_, options_->physics));
  enter_surroundings(stage.surroundings); // books what the last stage's air was given: before `drive` changes
  system_.drive = timeline.drive(time_, timeline.next(time_), layout_.extent);
  recorder_.expect(system_, std::fmin(timeline.limit(), timeline.timed_end()) - time_);
  relinearise();
  snapshot();
  stage_peak_core_ = core_now();
  if (index == 0) {
    recorder_.store(system_, now_);
  }
}

/// Sets the lumped states of new surroundings: a box at its start, the air of a cooker as it stood or as it
/// is found.
template <class System> void CookRun<System>::enter_surroundings(const Surroundings &s) {
  close_air();
  double &vapour = y_[system_.lumped_index(air_vapour)];
  double &pan_heat = y_[system_.lumped_index(pan_temperature)];
  double &water = y_[system_.lumped_index(pan_water)];
  const double before = vapour + water;
  y_[system_.lumped_index(box_temperature)] = s.box ? s.box->start : 0.0;
  const Surroundings *last = stage_ > 0 ? &plan_->stages[stage_ - 1].surroundings : nullptr;
  const bool same = last && last->pit_air && s.pit_air && last->kind == s.kind &&
                    last->pit_air->volume == s.pit_air->volume &&
                    last->pit_air->pan.has_value() == s.pit_air->pan.has_value();
  if (!same) {
    vapour = pan_heat = water = 0.0;
    if (s.pit_air) {
      vapour = chamber_vapour_capacity(s.pit_air->volume, s.air.at(time_)) * s.vapour_pressure.at(time_);
    }
    if (s.pit_air && s.pit_air->pan) {
      pan_heat = s.pit_air->pan->temperature;
      water = s.pit_air->pan->water;
    }
  }
  air_found_ += vapour + water - before;
}

template <class System> void CookRun<System>::relinearise() {
  constexpr double share = 0.5; // of the step to come: the whole of it gained nothing more
  system_.look_ahead = share * control_.h;
  system_.linearise(time_, y_, f_);
  ++control_.evaluations;
}

/// Takes over the state at `time_` as the latest snapshot; cells and rates must be those of (time_, y_).
template <class System> void CookRun<System>::snapshot() { take_snapshot(system_, time_, y_, f_, now_); }

template <class System>
typename CookRun<System>::StageResult
CookRun<System>::to_moment(double moment, const std::vector<End> &conditions, std::string &reason) {
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
    now_.converted.resize(before_.converted.size());
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
    for (std::size_t i = 0; i < layout_.spots.size(); ++i) {
      now_.converted[i] = converted_after(time_ - before_.time, i);
    }
    snapshot();
    stage_peak_core_ = std::max(stage_peak_core_, core_now());
    recorder_.store_between(system_, control_.stepper(), before_, now_);
    if (met) {
      return StageResult::ended;
    }
  }
  return StageResult::next_moment;
}

template <class System>
void CookRun<System>::locate(const std::vector<End> &conditions, std::string &reason) {
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
    Watched start{layout_.spots[core_spot()].of(before_.t), before_.y[2 * bark_node() + 1],
                  before_.converted[core_spot()]};
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

template <class System> Watched CookRun<System>::watched(double step) const {
  return {spot_now(core_spot()), y_[2 * bark_node() + 1],
          step > 0.0 ? converted_after(step, core_spot()) : now_.converted[core_spot()]};
}

/// Collagen converted at a spot after a step from `before_`: Simpson's rule on the rate, with the temperature
/// as the parabola through its start, its initial slope and its end.
template <class System> double CookRun<System>::converted_after(double step, std::size_t spot) const {
  const double start = layout_.spots[spot].of(before_.t);
  const double end = spot_now(spot);
  const double slope = layout_.spots[spot].of(before_.t_rate);
  const double curve = end - start - slope * step;
  const double halfway = start + 0.5 * slope * step + 0.25 * curve;
  const double exposure =
      step / 6.0 * (conversion_.rate(start) + 4.0 * conversion_.rate(halfway) + conversion_.rate(end));
  return 1.0 - (1.0 - before_.converted[spot]) * std::exp(-exposure);
}

/// The face that shows bark: the top one unless it lies under the fat cap.
template <class System> std::size_t CookRun<System>::bark_node() const {
  return system_.face_node(system_.shown_face(plan_->meat.fat_cap.side == FatSide::up ? 0 : 1));
}

/// Temperature at the core in the latest snapshot [°C].
template <class System> double CookRun<System>::core_now() const {
  return layout_.spots[core_spot()].of(now_.t);
}

/// Temperature at a spot in the system's latest evaluation [°C].
template <class System> double CookRun<System>::spot_now(std::size_t spot) const {
  return layout_.spots[spot].mean([&](std::size_t i) { return system_.cells[i].t; });
}

template <class System> void CookRun<System>::spritz(const Spritz &spritz) {
  // The bottom is not wetted: it lies on the grate.
  for (std::size_t b = 0; b < system_.faces(); ++b) {
    if (system_.face_side(b) != 1) {
      continue;
    }
    const std::size_t node = system_.face_node(b);
    Row<double> row;
    system_.table(node).lookup(spritz.temperature, row);
    const double heat = spritz.amount * row.value[col_water_h];
    const double area = system_.area_of(b);
    y_[system_.film_index(b)] += spritz.amount;
    y_[2 * node] += heat * area / system_.volume[node] / system_.table(node).reference_capacity;
    outcome_->ledger.spritzed += spritz.amount * area * layout_.extent;
    outcome_->ledger.spritz_enthalpy += heat * area * layout_.extent;
  }
  outcome_->events.push_back({time_, "spritz"});
}

} // namespace cook::engine
