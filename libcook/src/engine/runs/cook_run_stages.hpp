/// @file
/// CookRun: stages and segments, where they begin and end.
#pragma once

#include <algorithm>
#include <cmath>

#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"
#include "engine/runs/cook_run.hpp"
#include "engine/stages/carry_over.hpp"
#include "engine/stages/stage_setup.hpp"

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

template <class System> void CookRun<System>::begin() {
  start_state();
  begin_stage(0);
}

template <class System> void CookRun<System>::start_state() {
  const std::size_t n = system_.nodes();
  y_.assign(system_.size(), 0.0);
  f_.assign(system_.size(), 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    y_[2 * i] = raw_eta(system_.table(i), plan_->meat.start);
    y_[2 * i + 1] = system_.table(i).raw_water;
    system_.cells.set(&Cell<Pack>::t, i, plan_->meat.start);
  }
  now_.converted.assign(layout_.spots.size(), 0.0);
  now_.browned = 0.0;
  system_.evaluate_cells(y_);
  system_.remember();
  start_heat_ = heat_content();
  start_water_ = water_content(y_);
}

template <class System> void CookRun<System>::begin_stage(std::size_t index) {
  stage_ = index;
  stage_start_ = time_;
  const Stage &stage = plan_->stages[index];
  const bool same = left_ && is_same_cooker(plan_->stages[*left_].surroundings, stage.surroundings);
  timeline_.emplace(*plan_, index, time_, same ? left_open_ : std::vector<LidOpening>{});
  conditions_ = state_conditions(stage);
  reason_.clear();
  jumped_ = true;
  recorder_.follow(core_spot());
  system_.set_faces(face_settings(plan_->meat, stage, options_->physics, layout_.upright));
  enter_surroundings(stage.surroundings); // books what the last stage's air was given: before `drive` changes
  moment_ = timeline_->next().time;
  system_.drive = timeline_->drive(layout_.extent);
  recorder_.expect(system_, std::fmin(timeline_->limit(), timeline_->timed_end()) - time_);
  ++changes_;
  phase_ = Phase::stage;
}

/// Sets the lumped states of new surroundings: a box at its start, the air of a cooker as it is found; or as
/// they stood, where they are the same as before (carry_over.hpp).
template <class System> void CookRun<System>::enter_surroundings(const Surroundings &s) {
  close_air();
  std::array<double, lumped_states> found{};
  const Surroundings *last = left_ ? &plan_->stages[*left_].surroundings : nullptr;
  if (s.box) {
    found[box_temperature] = last && is_same_box(*last, s) ? left_lumped_[box_temperature] : s.box->start;
  }
  if (s.pit_air && last && last->pit_air && is_same_cooker(*last, s)) {
    found[air_vapour] = left_lumped_[air_vapour];
  } else if (s.pit_air) {
    const double air = s.air.at(time_);
    found[air_vapour] = chamber_vapour_capacity(s.pit_air->volume, air) *
                        std::fmin(s.vapour_pressure.at(time_), saturation_pressure(air));
  }
  if (s.pit_air && s.pit_air->pan) {
    const bool same = last && is_same_pan(*last, s);
    found[pan_temperature] = same ? left_lumped_[pan_temperature] : s.pit_air->pan->temperature;
    found[pan_water] = same ? left_lumped_[pan_water] : s.pit_air->pan->water;
  }
  air_found_ = left_air_found_ + found[air_vapour] + found[pan_water] - left_lumped_[air_vapour] -
               left_lumped_[pan_water];
  std::copy(found.begin(), found.end(), y_.begin() + static_cast<std::ptrdiff_t>(system_.lumped_index(0)));
}

/// Remembers what the next stage may find.
template <class System> void CookRun<System>::leave_surroundings() {
  if (time_ == stage_start_) { // skipped: nothing has changed
    return;
  }
  left_ = stage_;
  std::copy_n(y_.begin() + static_cast<std::ptrdiff_t>(system_.lumped_index(0)), left_lumped_.size(),
              left_lumped_.begin());
  left_air_found_ = air_found_;
  left_open_ = timeline_->opened_until(time_);
}

template <class System> bool CookRun<System>::open_stage() {
  snapshot();
  stage_peak_core_ = core_now();
  if (stage_ == 0) {
    recorder_.store(system_, now_);
  }
  const Watched first = watched(0.0);
  for (const End &end : conditions_) {
    if (reason_.empty() && excess(end, first) >= 0.0) {
      reason_ = describe(end);
    }
  }
  if (reason_.empty() && timeline_->now().ends) {
    reason_ = describe(timeline_->timed());
  }
  if (!reason_.empty()) {
    outcome_->notes.push_back("stage " + in_quotes(plan_->stages[stage_].name) + " was skipped: " + reason_ +
                              " already when it began" + slip_of_skipped(*plan_, stage_));
    end_stage();
    return false;
  }
  const Stage &stage = plan_->stages[stage_];
  if (stage.surroundings.box && stage.wrap.name == "none") {
    outcome_->notes.push_back(
        "stage " + in_quotes(stage.name) +
        ": unwrapped meat cools too fast in a closed box here, for the air in the box stays as humid as it "
        "was given, however much the meat steams; wrap it");
  }
  begin_segment();
  return phase_ == Phase::step;
}

template <class System> void CookRun<System>::begin_segment() {
  const Stage &stage = plan_->stages[stage_];
  // The conditions of a stage's first segment are in force since it began.
  const bool opens = phase_ == Phase::stage;
  phase_ = opens ? Phase::step : Phase::segment;
  count_anew();
  if (!opens) {
    timeline_->go_on();
    moment_ = timeline_->next().time;
  }
  // Sprays at a moment act on the state that the segment starts from.
  if (timeline_->now().spritz) {
    spritz(*stage.spritz);
    jumped_ = true;
    phase_ = Phase::segment;
  }
  if (timeline_->now().lid) {
    outcome_->events.push_back({time_, "lid"});
  }
  if (looked_) {
    looked_ = false;
    phase_ = Phase::step;
  } else if (!opens) {
    system_.drive = timeline_->drive(layout_.extent);
    ++changes_;
  }
  if (jumped_) {
    control_.pace.restart();
    jumped_ = false;
  }
}

template <class System> void CookRun<System>::look_past_moment() {
  const Moment &due = timeline_->next();
  if (time_ < moment_ || due.is_last() || due.spritz) {
    return;
  }
  left_behind_ = std::exchange(system_.drive, timeline_->drive_beyond(layout_.extent));
  looked_ = true;
  ++changes_;
}

template <class System> void CookRun<System>::drop_look() {
  if (looked_) {
    system_.drive = left_behind_;
    looked_ = false;
    ++changes_;
  }
}

template <class System> bool CookRun<System>::end_segment() {
  const Moment &due = timeline_->next();
  for (const std::size_t check : due.checks) {
    const End &end = plan_->stages[stage_].until[check];
    if (reason_.empty() && excess(end, watched(0.0)) >= 0.0) {
      reason_ = describe(end);
    }
  }
  if (reason_.empty() && due.ends) {
    reason_ = describe(timeline_->timed());
  } else if (reason_.empty() && due.gives_up) {
    give_up();
  }
  return !reason_.empty();
}

template <class System> void CookRun<System>::end_stage() {
  recorder_.store(system_, now_);
  outcome_->stage_ends.push_back({plan_->stages[stage_].name, stage_start_, time_, core_now(), reason_});
  leave_surroundings();
  if (stage_ + 1 < plan_->stages.size()) {
    begin_stage(stage_ + 1);
  } else {
    finish();
    phase_ = Phase::over;
  }
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
    y_[system_.liquid_index(b)] += spritz.amount;
    y_[2 * node] += heat * area / system_.volume[node] / system_.table(node).reference_capacity;
    outcome_->ledger.spritzed += spritz.amount * area * layout_.extent;
    outcome_->ledger.spritz_enthalpy += heat * area * layout_.extent;
  }
  outcome_->events.push_back({time_, "spritz"});
}

} // namespace cook::engine
