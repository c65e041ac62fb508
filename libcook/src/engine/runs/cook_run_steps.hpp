/// @file
/// CookRun: from step to step.
#pragma once

#include <algorithm>
#include <cmath>

#include "clock.hpp"
#include "engine/runs/cook_run.hpp"

namespace cook::engine {

template <class System> std::shared_ptr<const Outcome> CookRun<System>::run() {
  alone_ = true;
  begin();
  for (;;) {
    relinearise();
    if (arrive()) {
      depart();
      if (!control_.advance(system_, time_, y_, f_, moment_)) {
        fail_step(control_.trouble());
      }
      look_past_moment();
    } else if (over()) {
      return outcome_;
    }
  }
}

template <class System> bool CookRun<System>::arrive() {
  switch (phase_) {
  case Phase::stage:
    return open_stage();
  case Phase::segment:
    snapshot(); // the rates have jumped with the conditions
    phase_ = Phase::step;
    return true;
  case Phase::back:
    phase_ = Phase::seeks;
    return true;
  case Phase::trial:
    if (!try_end(trial_)) {
      y_ = before_.y;
      time_ = before_.time;
      phase_ = Phase::back;
      return false;
    }
    break;
  case Phase::seeks: // a trial that was not made
    return true;
  case Phase::over:
    return false;
  case Phase::step:
    if (is_met(watched(time_ - before_.time))) {
      drop_look();
      bracket_ = bracket_step();
      if (!alone_) {
        y_ = before_.y;
        time_ = before_.time;
        phase_ = Phase::back;
        return false;
      }
      locate();
      relinearise();
    }
    break;
  }
  book();
  phase_ = Phase::step;
  if (!reason_.empty() || (time_ >= moment_ && end_segment())) {
    drop_look();
    end_stage();
    return false;
  }
  if (time_ >= moment_) {
    begin_segment();
  }
  return phase_ == Phase::step;
}

template <class System> double CookRun<System>::look_ahead() const {
  constexpr double share = 0.5; // of the step to come: the whole of it gained nothing more
  // Back at the start of a step, its trials see ahead as far as it did.
  return share * (phase_ == Phase::back ? departed_h_ : control_.pace.h);
}

template <class System> void CookRun<System>::relinearise() {
  system_.look_ahead = look_ahead();
  linearise(system_, time_, y_, f_);
  ++control_.evaluations;
}

/// Takes over the state at `time_` as the latest snapshot; cells and rates must be those of (time_, y_).
template <class System> void CookRun<System>::snapshot() { take_snapshot(system_, time_, y_, f_, now_); }

/// Steps are counted from moment to moment, as every one asks for some, and a day at most: what is meant to
/// stop is a cook that does not get on, not one that takes a month or a log with a row a second.
template <class System> void CookRun<System>::count_anew() {
  counted_from_ = control_.accepted;
  counted_until_ = time_ + seconds_per_day;
}

/// Before a step is made.
template <class System> void CookRun<System>::depart() {
  if (time_ >= counted_until_) {
    count_anew();
  }
  if (control_.accepted - counted_from_ >= options_->max_steps) {
    const Signal &air = plan_->stages[stage_].surroundings.air;
    fail("more than " + std::to_string(options_->max_steps) + " steps without getting on; " +
         (air.ripple_amplitude > 0.0
              ? "the air swings every " + format_number(air.ripple_period) +
                    " s, which meat hardly feels: give its mean, or a longer period; or loosen the tolerances"
              : "loosen the tolerances, or look for surroundings that change very fast"));
  }
  if (options_->interrupted && options_->interrupted()) {
    recorder_.store(system_, now_);
    finish();
    throw Interrupted("stopped on request " + where(), outcome_);
  }
  std::swap(before_, now_);
  now_.converted.resize(before_.converted.size());
  departed_h_ = control_.pace.h;
}

/// After a step that stays: what it did is remembered and recorded.
template <class System> void CookRun<System>::book() {
  booked_ = true;
  if (alone_) {
    system_.remember();
  }
  for (std::size_t i = 0; i < layout_.spots.size(); ++i) {
    now_.converted[i] = converted_after(time_ - before_.time, i);
  }
  now_.browned = browned_after(time_ - before_.time);
  snapshot();
  stage_peak_core_ = std::max(stage_peak_core_, core_now());
  if (looked_) { // records the step under the conditions that it was made in
    std::swap(system_.drive, left_behind_);
  }
  recorder_.store_between(system_, control_.stepper(), before_, now_);
  if (looked_) {
    std::swap(system_.drive, left_behind_);
  }
}

template <class System> StepSize::Try CookRun<System>::next_step() const {
  if (phase_ == Phase::seeks) {
    return {bracket_.trial(), false};
  }
  return control_.pace.propose(moment_ - time_);
}

template <class System> void CookRun<System>::accept(const StepSize::Try &made, double error_size) {
  ++control_.evaluations;
  ++control_.factorisations;
  if (phase_ == Phase::seeks) {
    trial_ = made.length;
    time_ = before_.time + made.length;
    phase_ = Phase::trial;
    return;
  }
  depart();
  control_.pace.accept(made, error_size);
  time_ = made.last ? moment_ : time_ + made.length;
  ++control_.accepted;
  look_past_moment();
}

template <class System> bool CookRun<System>::reject(const StepSize::Try &made, double error_size) {
  ++control_.evaluations;
  ++control_.factorisations;
  ++control_.rejected;
  control_.pace.reject(made, error_size);
  return control_.pace.hopeless(time_);
}

template <class System> void CookRun<System>::stuck(const std::vector<double> &error) {
  fail_step(StepError<double>(control_.tolerance()).worst(system_, error));
}

/// The face that shows bark: the top one unless it lies under the fat cap.
template <class System> std::size_t CookRun<System>::bark_node() const {
  return system_.face_node(system_.shown_face(plan_->meat.fat_cap.side == FatSide::up ? 0 : 1));
}

/// Rate of the bark's index at a temperature and a water content of its face [s⁻¹].
template <class System> double CookRun<System>::browning_rate(double temperature, double water) const {
  const Sorption &sorption = plan_->meat.tissue.sorption;
  return Browning{}.rate(temperature, sorption.water_activity(std::fmax(water, 0.0)));
}

/// Temperature at the core in the latest snapshot [°C].
template <class System> double CookRun<System>::core_now() const {
  return layout_.spots[core_spot()].of(now_.t);
}

/// Temperature at a spot in the system's latest evaluation [°C].
template <class System> double CookRun<System>::spot_now(std::size_t spot) const {
  return layout_.spots[spot].mean([&](std::size_t i) { return system_.cells[i].t; });
}

} // namespace cook::engine
