#include "fit/calibrate/followed_plan.hpp"

#include <algorithm>
#include <cmath>

#include "clock.hpp"
#include "cook/errors.hpp"
#include "cook/fit/free_parameter.hpp"
#include "fit/run_many.hpp"

namespace cook::fit {

namespace {

/// When the log shows that an end condition of a stage that began at `from` was met; infinite: not yet, or it
/// does not show it.
double shown_end(const End &end, const Plan &plan, const CookLog &log, double from) {
  switch (known(end.kind).sign) {
  case KnownEnd::Sign::clock:
    return from +
           (end.kind == EndKind::elapsed ? end.value : time_until_clock(*plan.clock_start + from, end.value));
  case KnownEnd::Sign::core:
    for (std::size_t i = 0; i < log.time.size(); ++i) {
      const bool there = known(end.kind).warming ? log.core[i] >= end.value : log.core[i] <= end.value;
      if (log.time[i] >= from && there) {
        return log.time[i];
      }
    }
    break;
  case KnownEnd::Sign::hidden:
    break;
  }
  return never;
}

bool is_hidden(const Stage &stage) {
  return std::any_of(stage.until.begin(), stage.until.end(),
                     [](const End &e) { return known(e.kind).sign == KnownEnd::Sign::hidden; });
}

/// End of stage `index` by simulation, the stages before it as followed so far.
double simulated_end(const Plan &followed, const Stage &stage) {
  Plan trial = followed;
  trial.stages.push_back(stage);
  const Ran ran = run_many({trial}, core_only({}), 1).front();
  return ran.whole ? ran.outcome->stage_ends.back().time : never;
}

} // namespace

Signal pit_signal(const CookLog &log, double until) {
  Signal pit;
  pit.time.clear();
  pit.value.clear();
  pit.measured = true;
  for (std::size_t i = 0; i < log.pit_time.size() && log.pit_time[i] <= until;) {
    double time = 0.0;
    double value = 0.0;
    const std::size_t first = i;
    for (; i < log.pit_time.size() && log.pit_time[i] <= until &&
           log.pit_time[i] < log.pit_time[first] + pit_step;
         ++i) {
      time += log.pit_time[i];
      value += log.pit[i];
    }
    const auto count = static_cast<double>(i - first);
    pit.time.push_back(time / count);
    pit.value.push_back(value / count);
  }
  return pit;
}

Followed follow(const Plan &plan, const CookLog &log) {
  Followed made;
  made.plan = plan;
  made.plan.stages.clear();
  made.now = log.time.empty() ? 0.0 : std::max(0.0, log.time.back());
  const Signal pit = pit_signal(log, made.now);
  double from = 0.0;
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    Stage stage = plan.stages[i];
    if (!pit.value.empty() && heats(stage)) {
      stage.surroundings.air = pit;
    }
    double end = never;
    const auto mark =
        std::find_if(log.ended.begin(), log.ended.end(), [i](const StageMark &m) { return m.stage == i; });
    if (mark != log.ended.end()) {
      end = mark->time;
      if (end < from + shortest_stage) {
        throw InvalidInput(log.name + ".ended", "stage " + in_quotes(stage.name) + " ended at " +
                                                    format_number(end) + " s, before it began at " +
                                                    format_number(from) + " s");
      }
    } else {
      for (const End &condition : stage.until) {
        end = std::min(end, shown_end(condition, plan, log, from));
      }
      if (end > made.now && is_hidden(stage)) {
        end = std::min(end, simulated_end(made.plan, stage));
      }
    }
    const bool over = end <= made.now;
    const double until = over ? std::max(end, from + shortest_stage) : made.now;
    if (!over && made.now <= from) {
      break;
    }
    stage.until = {{EndKind::elapsed, std::max(until - from, shortest_stage)}};
    stage.at_most = std::max(stage.at_most, until - from + shortest_stage);
    made.plan.stages.push_back(stage);
    if (!over) {
      break;
    }
    made.end.push_back(until);
    from = until;
  }
  made.current = made.end.size();
  return made;
}

} // namespace cook::fit
