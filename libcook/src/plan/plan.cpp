#include "cook/plan/plan.hpp"

#include <algorithm>
#include <cmath>

#include "cook/errors.hpp"
#include "cook/plan/plan_fields.hpp"
#include "cook/units.hpp"
#include "fields/check.hpp"

namespace cook {

namespace {

/// Hottest and coldest that the surroundings can make the meat.
struct Reach {
  double low;
  double high;
};

Reach reach(const Surroundings &s) {
  const double low_offset = std::min({0.0, s.radiant_bottom, s.radiant_top});
  const double high_offset = std::max({0.0, s.radiant_bottom, s.radiant_top});
  const Signal &below = s.air_below ? *s.air_below : s.air;
  return {
      std::min({s.air.minimum() + low_offset, below.minimum() + low_offset, s.box ? s.box->start : 1e9}),
      std::max({s.air.maximum() + high_offset, below.maximum() + high_offset, s.box ? s.box->start : -1e9})};
}

void check_end(const std::string &field, const End &end, const Stage &stage, const Plan &plan) {
  const Reach range = reach(stage.surroundings);
  const KnownEnd &told = known(end.kind);
  check::accepted(field, end.value,
                  {.name = told.word, .kind = told.value, .accepted = told.accepted, .words = told.words});
  switch (end.kind) {
  case EndKind::core:
    check::finite(field, end.value);
    // In an insulated box or on a counter the core may still rise by carryover, so only heated stages are
    // checked.
    if (!stage.surroundings.box && range.high > 60.0 && end.value >= range.high) {
      const double slip = celsius_from_fahrenheit(end.value);
      std::string text = "a core of " + format_degrees(end.value) + " cannot be reached in the " +
                         stage.surroundings.kind + ", " + format_degrees(range.high) +
                         (range.high > stage.surroundings.air.maximum() ? " with the heat it radiates" : "");
      constexpr double least_wanted = 40.0; // °C: nobody waits for a core below that
      // A number of many digits was converted, and so was typed with its unit.
      const bool plain = std::fabs(10.0 * end.value - std::round(10.0 * end.value)) < 1e-6;
      if (plain && slip < range.high && slip > least_wanted) {
        text += "; plain numbers are °C: did you mean '" + format_number(end.value) + " °F'?";
      }
      throw InvalidInput(field, text);
    }
    check::celsius(field, end.value, -1.0, 150.0);
    break;
  case EndKind::cooled:
    if (end.value <= range.low) {
      throw InvalidInput(field, "the core cannot cool to " + format_degrees(end.value) +
                                    " in surroundings of " + format_degrees(range.low));
    }
    break;
  case EndKind::elapsed:
    check::within(field, end.value, 0.0, stage.at_most, "s", "longer than the stage may last (at_most)");
    break;
  case EndKind::clock:
    check::within(field, end.value, 0.0, 86400.0, "s after midnight");
    if (!plan.clock_start) {
      throw InvalidInput(field, "a time of day needs the plan's start time; set the plan's start");
    }
    break;
  default: // the range of its entry is all there is to say
    break;
  }
}

} // namespace

void Plan::validate() const {
  meat.validate("meat");
  if (stages.empty()) {
    throw InvalidInput("stages", "empty; a plan needs at least one stage");
  }
  check::members("", *this);
  for (std::size_t i = 0; i < probes.size(); ++i) {
    probes[i].validate("probes[" + std::to_string(i) + "]");
  }
  for (std::size_t i = 0; i < stages.size(); ++i) {
    const Stage &stage = stages[i];
    const std::string field = "stages[" + std::to_string(i) + "]";
    stage.surroundings.validate(field + ".surroundings");
    stage.wrap.validate(field + ".wrap");
    check::members(field + ".", stage);
    if (stage.until.empty()) {
      throw InvalidInput(field + ".until", "missing; say what ends stage " + in_quotes(stage.name) +
                                               ", for instance a core temperature");
    }
    for (const End &end : stage.until) {
      check_end(field + ".until", end, stage, *this);
      if (end.every > 0.0 && known(end.kind).sign == KnownEnd::Sign::clock) {
        throw InvalidInput(field + ".until.every",
                           "it is known beforehand when this end comes, so nobody has to look for it; leave "
                           "'every' out");
      }
      check::within(field + ".until.every", end.every, 0.0, stage.at_most, "s");
      if (end.every > 0.0 && end.every < 1.0) {
        throw InvalidInput(field + ".until.every",
                           format_number(end.every) + " s; accepted: 1 s or more, or 0");
      }
    }
    if (stage.probe) {
      stage.probe->validate(field + ".probe");
    }
    if (stage.spritz) {
      check::within(field + ".spritz.lid_open", stage.spritz->lid_open, 0.0, 0.9 * stage.spritz->every, "s");
    }
    for (std::size_t k = 0; k < stage.lid.size(); ++k) {
      check::members(field + ".lid[" + std::to_string(k) + "].", stage.lid[k]);
    }
  }
}

} // namespace cook
