/// @file
/// The closing part of CookRun: ledger, partial results and messages when it cannot go on.
#pragma once

#include <algorithm>
#include <cmath>

#include "cook/cooker/humid_air.hpp"
#include "cook/errors.hpp"
#include "cook/units.hpp"
#include "engine/runs/cook_run.hpp"
#include "engine/runs/settle.hpp"

namespace cook::engine {

template <class System> double CookRun<System>::heat_content() const {
  double sum = 0.0;
  for (std::size_t i = 0; i < system_.nodes(); ++i) {
    sum += system_.volume[i] * y_[2 * i] * system_.table(i).reference_capacity;
  }
  return sum * layout_.extent;
}

template <class System> double CookRun<System>::water_content(const std::vector<double> &y) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < system_.nodes(); ++i) {
    sum += system_.volume[i] * y[2 * i + 1] * system_.table(i).solids;
  }
  return sum * layout_.extent;
}

template <class System> double CookRun<System>::evaporated(const std::vector<double> &y) const {
  double sum = 0.0;
  for (std::size_t s = 0; s < 2; ++s) {
    sum += y[system_.total_index(s, FacePath::evaporated)] * outcome_->face_area[s];
  }
  return sum;
}

/// Books what the meat has given to the air of the surroundings that it has been in since the last call.
template <class System> void CookRun<System>::close_air() {
  const double now = evaporated(y_);
  if (system_.drive.balance) {
    given_to_air_ += system_.drive.balance->air.meat_count * (now - evaporated_then_);
  }
  evaporated_then_ = now;
}

template <class System> void CookRun<System>::close_ledger() {
  std::vector<double> y = y_;
  settle(system_, y);
  Ledger &ledger = outcome_->ledger;
  const auto total = [&](FacePath path) {
    double sum = 0.0;
    for (std::size_t s = 0; s < 2; ++s) {
      sum += y[system_.total_index(s, path)] * outcome_->face_area[s];
    }
    return sum;
  };
  ledger.convection = total(FacePath::convection);
  ledger.radiation = total(FacePath::radiation);
  ledger.latent = total(FacePath::latent);
  ledger.water_enthalpy = total(FacePath::vapour_sensible) + total(FacePath::run_off_sensible);
  ledger.evaporated = total(FacePath::evaporated);
  ledger.run_off = total(FacePath::run_off);
  ledger.heat_stored = heat_content() - start_heat_;
  ledger.water_start = start_water_;
  ledger.water_end = water_content(y);
  ledger.on_surface = 0.0;
  for (std::size_t b = 0; b < system_.faces(); ++b) {
    ledger.on_surface += y[system_.liquid_index(b)] * system_.area_of(b) * layout_.extent;
  }
  const double heat_open = ledger.heat_stored - (ledger.convection + ledger.radiation - ledger.latent -
                                                 ledger.water_enthalpy + ledger.spritz_enthalpy);
  const double heat_scale = std::max({std::fabs(ledger.heat_stored), std::fabs(ledger.convection),
                                      std::fabs(ledger.radiation), std::fabs(ledger.latent), 1.0});
  ledger.heat_residual = heat_open / heat_scale;
  const double water_open = ledger.water_end + ledger.on_surface + ledger.evaporated + ledger.run_off -
                            ledger.water_start - ledger.spritzed;
  ledger.water_residual = water_open / ledger.water_start;
  ledger.vapour_in = y[system_.air_total_index(vapour_in)];
  ledger.vapour_out = y[system_.air_total_index(vapour_out)];
  ledger.pan_given = y[system_.air_total_index(pan_given)];
  const double pieces = system_.drive.balance ? system_.drive.balance->air.meat_count : 0.0;
  const double given = given_to_air_ + pieces * (evaporated(y) - evaporated_then_);
  const double in_air = y[system_.lumped_index(air_vapour)] + y[system_.lumped_index(pan_water)];
  const double air_open = in_air - air_found_ - (ledger.vapour_in - ledger.vapour_out + given);
  const double air_scale = std::max({ledger.vapour_in, ledger.vapour_out, std::fabs(given), 1e-3});
  ledger.air_residual = air_open / air_scale;
  ledger.steps = control_.accepted;
  ledger.rejected = control_.rejected;
  ledger.evaluations = control_.evaluations;
  ledger.factorisations = control_.factorisations;
}

/// Says where air was colder than the dew point of the vapour that it was given, or that gathered in it, and
/// where a pit's air may have been meant in °F.
template <class System> void CookRun<System>::note_air() {
  constexpr double full_air = 0.97; // of what the surface could give off; the rest is what still evaporates
  // Pa; more than air that passes through brings: meat below its dew point, cold from the refrigerator, is no
  // sign
  constexpr double wet_draught = 2e4;
  const auto kilopascals = [](double value) {
    return format_number(std::round(value / 100.0) / 10.0) + " kPa";
  };
  for (std::size_t i = 0; i <= stage_; ++i) {
    const std::string stage = "stage " + in_quotes(plan_->stages[i].name) + ": ";
    const bool over = i < outcome_->stage_ends.size();
    const double from = over ? outcome_->stage_ends[i].start : stage_start_;
    const double to = over ? outcome_->stage_ends[i].time : time_;
    const Surroundings &s = plan_->stages[i].surroundings;
    if (looks_like_fahrenheit(s) && (i == 0 || !looks_like_fahrenheit(plan_->stages[i - 1].surroundings))) {
      outcome_->notes.push_back(stage + "a pit of " + format_degrees(s.air.maximum()) +
                                " is hot; plain numbers are °C: if °F was meant, write '" +
                                format_number(s.air.maximum()) + " °F'");
    }
    const Supersaturation worst = supersaturation(s, from, to);
    if (worst.excess > 0.0 && from < to) {
      outcome_->notes.push_back(stage + "air of " + format_degrees(worst.air) + " holds no more than " +
                                kilopascals(worst.given - worst.excess) + " of vapour, not the " +
                                kilopascals(worst.given) +
                                " given; the rest condenses, and the air counts as saturated there");
    }
    bool fogged = false;
    for (std::size_t k = 0; s.pit_air && k < outcome_->times() && !fogged; ++k) {
      fogged = outcome_->time[k] > from && outcome_->time[k] <= to &&
               outcome_->vapour_pressure[k] >= saturation_pressure(outcome_->air[k]);
    }
    double full = 0.0; // how long the air holds nearly all that the surface could give off [s]
    for (std::size_t k = 1; s.pit_air && k < outcome_->times(); ++k) {
      const double top = outcome_->surface[1][k]; // a cylinder has no other
      const double hottest = outcome_->surface[0].empty() ? top : std::max(outcome_->surface[0][k], top);
      if (outcome_->time[k] > from && outcome_->time[k] <= to &&
          outcome_->vapour_pressure[k] >= std::max(wet_draught, full_air * saturation_pressure(hottest))) {
        full += outcome_->time[k] - std::max(outcome_->time[k - 1], from);
      }
    }
    if (full > 0.5 * (to - from)) {
      outcome_->notes.push_back(
          stage + "nearly airtight: for " + format_duration(full) + " of " + format_duration(to - from) +
          " the air held as much vapour as wet meat gives off, and nothing, or nearly nothing, evaporated");
    }
    if (fogged) {
      outcome_->notes.push_back(stage + "the cooker's air was saturated: the rest condensed on whatever was "
                                        "as cold");
    }
  }
}

template <class System> void CookRun<System>::finish() {
  close_ledger();
  note_air();
  const double hottest =
      outcome_->surface[1].empty()
          ? 0.0
          : std::max(*std::max_element(outcome_->surface[0].begin(), outcome_->surface[0].end()),
                     *std::max_element(outcome_->surface[1].begin(), outcome_->surface[1].end()));
  constexpr double correlations_end = 150.0; // °C, Choi & Okos
  if (hottest > correlations_end) {
    outcome_->notes.push_back("the surface reached " + format_number(std::round(hottest)) +
                              " °C; component properties are published up to 150 °C and continued beyond");
  }
}

template <class System> std::string CookRun<System>::where() const {
  return "in stages[" + std::to_string(stage_) + "] " + in_quotes(plan_->stages[stage_].name) + " at " +
         format_number(std::round(time_ / 36.0) / 100.0) + " h, core " +
         format_number(std::round((now_.t.empty() ? plan_->meat.start : core_now()) * 10.0) / 10.0) + " °C";
}

template <class System> void CookRun<System>::fail(const std::string &message) {
  recorder_.store(system_, now_); // the traces end where the ledger does
  finish();
  throw SolverFailure(message + "; " + where() + "; what was computed is kept", outcome_);
}

template <class System> void CookRun<System>::fail_step(std::size_t worst) {
  if (alone_) { // has departed
    now_ = before_;
  }
  fail("no step could be made; the largest error is at " +
       format_number(std::round(outcome_->position[worst] * 1e5) / 100.0) +
       " mm depth; try a smaller face_spacing or looser tolerances");
}

/// Where an exponential approach through the last three spells of two hours ends [°C]; empty if it is none.
template <class System> std::optional<double> CookRun<System>::levels_off_at() const {
  constexpr double spell = 7200.0; // s
  const Outcome &out = *outcome_;
  if (out.time.back() - out.time.front() < 2.0 * spell) {
    return {};
  }
  const double last = out.core.back();
  const double before = last - out.core_at(out.time.back() - spell);
  const double earlier = out.core_at(out.time.back() - spell) - out.core_at(out.time.back() - 2.0 * spell);
  const double share = before / earlier; // of the distance left after each spell
  if (!(share > 0.0 && share < 0.98)) {
    return {};
  }
  return last + before * share / (1.0 - share);
}

template <class System> void CookRun<System>::give_up() {
  recorder_.store(system_, now_);
  finish();
  const double core = core_now();
  const double per_hour = layout_.spots[core_spot()].of(now_.t_rate) * 3600.0;
  const auto tenth = [](double value) { return format_number(std::round(value * 10.0) / 10.0); };
  std::string wanted;
  for (const End &end : plan_->stages[stage_].until) {
    wanted += (wanted.empty() ? "" : " or ") + describe(end);
  }
  constexpr double level = 0.05; // K per hour
  std::string text = "stages[" + std::to_string(stage_) + "].until: in " +
                     in_quotes(plan_->stages[stage_].name) + " " + wanted + " was not reached within " +
                     format_number((timeline_->limit() - timeline_->start()) / 3600.0) + " h; the core ";
  if (std::fabs(per_hour) < level) {
    text += "levels off at " + format_degrees(core);
  } else {
    text += "is at " + format_degrees(core) + " and still " + (per_hour > 0.0 ? "rises " : "falls ") +
            tenth(std::fabs(fahrenheit_difference_from_kelvin(per_hour))) + " °F (" +
            tenth(std::fabs(per_hour)) + " K) per hour";
    if (const auto end = levels_off_at()) {
      text += ", towards about " + format_degrees(*end);
    }
  }
  if (stage_peak_core_ > core + 0.1) {
    text += " after a peak of " + format_degrees(stage_peak_core_);
  }
  throw Unreachable(text, outcome_);
}

} // namespace cook::engine
