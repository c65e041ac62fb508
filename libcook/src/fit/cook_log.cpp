#include "cook/fit/cook_log.hpp"

#include <algorithm>
#include <cmath>

#include "cook/errors.hpp"
#include "cook/fit/free_parameter.hpp"

namespace cook {

namespace {

void check_series(const std::string &field, const std::vector<double> &time, const std::vector<double> &value,
                  double low, double high) {
  if (time.size() != value.size()) {
    throw InvalidInput(field, std::to_string(time.size()) + " times but " + std::to_string(value.size()) +
                                  " readings; they must pair up");
  }
  for (std::size_t i = 0; i < time.size(); ++i) {
    const std::string place = field + "[" + std::to_string(i) + "]";
    check::finite(place + ".time", time[i]);
    check::celsius(place, value[i], low, high);
    if (i > 0 && time[i] <= time[i - 1]) {
      throw InvalidInput(place + ".time",
                         format_number(time[i]) + " s after " + format_number(time[i - 1]) +
                             " s; times must increase: sort the log and drop repeated times");
    }
  }
}

/// A core in the meat cannot be hotter than the pit for long: the columns are swapped, or one is something
/// else.
void refuse_hot_core(const CookLog &log, const Plan &plan) {
  if (log.pit.empty() || !std::any_of(plan.stages.begin(), plan.stages.end(), heats)) {
    return;
  }
  const Signal pit(log.pit_time, log.pit);
  constexpr double slack = 3.0;    // K: two thermometers
  constexpr double hot_pit = 60.0; // °C: a pit that is going; a rest after the cook does not count
  std::size_t asked = 0;
  std::size_t hotter = 0;
  for (std::size_t i = 0; i < log.time.size(); ++i) {
    const double air = pit.at(log.time[i]);
    const bool swapped = log.core[i] > hot_pit && air < log.core[i] - slack;
    asked += (air > hot_pit || swapped) ? 1 : 0;
    hotter += swapped ? 1 : 0;
  }
  if (asked > 0 && 2 * hotter > asked) {
    throw InvalidInput(log.name + ".core",
                       "hotter than the pit in " + std::to_string(hotter) + " of " + std::to_string(asked) +
                           " readings; the core stays below the air around it: are the columns swapped?");
  }
}

} // namespace

void CookLog::validate(const Plan &plan, std::size_t at_least) const {
  check_series(name + ".core", time, core, -30.0, 150.0);
  check_series(name + ".pit", pit_time, pit, -40.0, 260.0);
  if (core.size() < at_least) {
    throw InvalidInput(name + ".core", std::to_string(core.size()) + " readings; at least " +
                                           std::to_string(at_least) +
                                           " are needed; is the meat thermometer's column missing?");
  }
  double longest = 0.0;
  for (const Stage &stage : plan.stages) {
    longest += stage.at_most;
  }
  if (!time.empty() && (time.back() <= 0.0 || time.front() > longest)) {
    throw InvalidInput(name + ".time", "the log, from " + format_number(time.front()) + " to " +
                                           format_number(time.back()) +
                                           " s, and the plan, from 0 s on, do not overlap; times count from "
                                           "the moment the meat went in");
  }
  for (const StageMark &mark : ended) {
    if (mark.stage >= plan.stages.size()) {
      throw InvalidInput(name + ".ended", "stage " + std::to_string(mark.stage) + "; the plan has " +
                                              std::to_string(plan.stages.size()) + " stages, counted from 0");
    }
    check::positive(name + ".ended", mark.time, "s");
  }
  refuse_hot_core(*this, plan);
}

} // namespace cook
