#include "cook/fit/schedule.hpp"

#include <algorithm>
#include <cmath>

#include "cook/errors.hpp"
#include "fit/run_many.hpp"
#include "fit/start_time/schedule_changes.hpp"
#include "fit/start_time/schedule_remedies.hpp"

namespace cook {

namespace {

constexpr double day = 86400.0;
constexpr double worth_saying = 120.0;    // s
constexpr double long_wait = 24 * 3600.0; // s over which the cooling is looked at

/// How long the coldest part stays above the limit after the plan's end where the last stage left it.
std::optional<double> stays_hot(const Plan &plan, double limit) {
  if (keeps_hot(plan.stages.back())) {
    return {};
  }
  Plan waiting = plan;
  Stage &last = waiting.stages.back();
  last.until = {{EndKind::elapsed, long_wait}};
  last.at_most = std::max(last.at_most, long_wait + 1.0);
  const std::vector<Ran> ran = run_many({plan, waiting}, core_only({}), 2);
  if (!ran[0].whole || !ran[1].whole) {
    return {};
  }
  const double end = ran[0].outcome->time.back();
  const Outcome &out = *ran[1].outcome;
  for (std::size_t i = 0; i < out.times(); ++i) {
    if (out.time[i] > end && out.coldest[i] < limit) {
      return out.time[i] - end;
    }
  }
  return out.coldest[out.times() - 1] >= limit ? std::optional(out.time.back() - end) : std::optional(0.0);
}

std::string in_hundred(double share) {
  return std::to_string(static_cast<int>(std::lround(100.0 * share))) + " of 100";
}

void warn(Schedule &made, const ScheduleOptions &wanted, bool fitted) {
  if (made.start > made.latest) {
    made.warnings.push_back("with a start no earlier than you allow, dinner is late in " +
                            in_hundred(made.chance_late_with_remedies) + " cooks");
  }
  if (made.stays_hot && made.hold95 > *made.stays_hot) {
    made.warnings.push_back("in one cook of 20 the meat waits " + format_duration(made.hold95) +
                            " or longer after " + in_quotes(made.plan.stages.back().name) +
                            ", and there its surface stays above " + format_degrees(wanted.hold_limit) +
                            " for only " + format_duration(*made.stays_hot) +
                            ": have a warm oven ready to hold it");
  }
  constexpr double some = 0.005;
  if (made.never >= some) {
    made.warnings.push_back(
        in_hundred(made.never) +
        " possible cooks never get done, and the times are those of the others: this pit "
        "is hardly hot enough for the plan; a hotter pit, an earlier wrap or a lower core "
        "at the end would help");
  }
  constexpr double far_apart = 4 * 3600.0;
  const std::size_t last = made.plan.stages.size() - 1;
  const double spread = made.forecast.quantile(0.95, last) - made.forecast.quantile(0.05, last);
  if (spread > far_apart) {
    made.warnings.push_back("the length of this cook is uncertain: 9 of 10 end within a span of " +
                            format_duration(spread) +
                            (made.remedies.empty() ? "; " : " if nothing is done on the way; ") +
                            (fitted ? "calibrating with further logs of your cooker may narrow it, and a "
                                      "forecast while it cooks does"
                                    : "a log of your own cooker narrows it (calibrate)"));
  }
}

} // namespace

void ScheduleOptions::validate() const {
  check::within("serve", serve, 0.0, day, "s after midnight");
  check::finite("confidence", confidence);
  if (confidence < 0.5 || confidence > 0.99) {
    throw InvalidInput("confidence", format_number(confidence) + "; accepted: 0.5 to 0.99" +
                                         (confidence > 1.0 ? "; 90 % is 0.9" : ""));
  }
  if (earliest) {
    check::within("earliest", *earliest, 0.0, day, "s after midnight");
  }
  check::celsius("hold_limit", hold_limit, 50.0, 90.0);
  forecast.validate();
}

Schedule start_by(const Plan &plan, const ScheduleOptions &options, const Fit *fit) {
  options.validate();
  plan.validate();
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    for (const End &end : plan.stages[i].until) {
      if (end.kind == EndKind::clock) {
        throw InvalidInput(
            "stages[" + std::to_string(i) + "].until",
            "a time of day; the start is what you ask for, and this stage would last longer or shorter with "
            "it; use 'elapsed' or a core temperature");
      }
    }
  }
  Schedule made;
  made.plan = plan;
  made.serve = options.serve;
  made.confidence = options.confidence;
  made.forecast = forecast(plan, CookLog{}, options.forecast, fit);
  const std::size_t last = plan.stages.size() - 1;
  made.duration50 = made.forecast.quantile(0.5, last);
  made.duration = made.forecast.quantile(options.confidence, last);
  made.never = made.forecast.never(last);
  constexpr double half = 0.5;
  if (made.never > half) {
    throw InvalidInput("plan", in_hundred(made.never) +
                                   " possible cooks never get done: this pit is not hot enough for the plan; "
                                   "try a hotter pit, an earlier wrap or a lower core at the end");
  }
  const std::vector<double> &weight = made.forecast.weight;
  Recourse watched = hurry_late_ones(made.forecast, options.remedies, options.forecast.interrupted);
  const auto by = [&](double q, std::size_t stage) {
    return quantile_of_ends(watched.ends(stage), weight, q);
  };
  made.duration_with_remedies = by(options.confidence, last);
  for (std::size_t i = 0; i <= last; ++i) {
    made.stages.push_back({plan.stages[i].name, by(half, i), by(options.confidence, i)});
  }
  made.latest = options.serve - made.duration_with_remedies;
  made.start = made.latest;
  if (options.earliest) {
    const double earliest = *options.earliest < options.serve ? *options.earliest : *options.earliest - day;
    made.start = std::max(made.latest, earliest);
  }
  const double room = options.serve - made.start;
  made.chance_late = made.forecast.chance_after(room, last);
  made.chance_late_with_remedies = share_after(watched.ends(last), weight, room);
  made.hold50 = std::max(0.0, room - by(half, last));
  made.hold95 = std::max(0.0, room - by(0.05, last));
  made.remedies = std::move(watched.remedies);
  made.stays_hot = stays_hot(plan, options.hold_limit);
  if (options.alternatives) {
    for (Change &change : quicker(plan, done_stage(plan))) {
      const Forecast other = what_if(made.forecast, change.plan.stages, options.forecast.interrupted);
      Alternative a;
      a.what = change.what;
      a.duration = other.quantile(options.confidence, change.plan.stages.size() - 1);
      a.sooner = made.duration - a.duration;
      a.start = options.serve - a.duration;
      a.chance_late = other.chance_after(room, change.plan.stages.size() - 1);
      a.plan = std::move(change.plan);
      if (a.sooner > worth_saying) {
        made.alternatives.push_back(std::move(a));
      }
    }
    std::sort(made.alternatives.begin(), made.alternatives.end(),
              [](const Alternative &a, const Alternative &b) { return a.sooner > b.sooner; });
  }
  warn(made, options, fit != nullptr);
  made.caution = "Times are estimates, not safety advice: measure the core, keep hot food at " +
                 format_degrees(options.hold_limit) +
                 " or above, and follow your local food-safety rules and qualified advice.";
  return made;
}

} // namespace cook
