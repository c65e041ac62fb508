/// @file
/// CookRun: what its end conditions look at, and where within a step one of them is met.
#pragma once

#include <algorithm>
#include <cmath>

#include "engine/runs/cook_run.hpp"

namespace cook::engine {

template <class System> Watched CookRun<System>::watched(double step) const {
  return {spot_now(core_spot()), step > 0.0 ? browned_after(step) : now_.browned,
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

/// Index of the bark after a step from `before_`: the mean of the rates at its ends. The reading of an
/// outcome (doneness.hpp) does the same from stored moment to stored moment.
template <class System> double CookRun<System>::browned_after(double step) const {
  const std::size_t i = bark_node();
  const double then = browning_rate(before_.t[i], before_.y[2 * i + 1]);
  const double now = browning_rate(system_.cells[i].t, y_[2 * i + 1]);
  return before_.browned + 0.5 * step * (then + now);
}

template <class System> bool CookRun<System>::is_met(const Watched &state) const {
  return std::any_of(conditions_.begin(), conditions_.end(),
                     [&](const End &end) { return excess(end, state) >= 0.0; });
}

template <class System>
double CookRun<System>::largest_excess(const Watched &state, const End *&which) const {
  double most = -HUGE_VAL;
  for (const End &end : conditions_) {
    const double value = excess(end, state);
    if (value > most) {
      most = value;
      which = &end;
    }
  }
  return most;
}

/// The step just made as a bracket of the moment when a condition is met.
template <class System> Bracket CookRun<System>::bracket_step() {
  const Watched start{layout_.spots[core_spot()].of(before_.t), before_.browned,
                      before_.converted[core_spot()]};
  const double step = time_ - before_.time;
  const double at_low = largest_excess(start, met_);
  return {step, at_low, largest_excess(watched(step), met_)};
}

/// Judges the state at the end of a trial, which the cells have been evaluated at. True: it is the end
/// sought.
template <class System> bool CookRun<System>::try_end(double length) {
  if (!bracket_.tried(length, largest_excess(watched(length), met_))) {
    return false;
  }
  time_ = before_.time + length;
  reason_ = describe(*met_);
  return true;
}

/// Shortens the step just made so that it ends where a condition is met. The length of the step itself is
/// varied, so the state at the end is a true step from `before_`.
template <class System> void CookRun<System>::locate() {
  phase_ = Phase::back;
  system_.look_ahead = look_ahead();
  system_.linearise(before_.time, before_.y, f_);
  ++control_.evaluations;
  double length = 0.0;
  do {
    length = bracket_.trial();
    control_.trial(system_, before_.time, before_.y, before_.f, length, y_);
    system_.evaluate_cells(y_);
  } while (!try_end(length));
  phase_ = Phase::step;
}

} // namespace cook::engine
