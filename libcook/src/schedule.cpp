#include "cook/schedule.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <limits>

#include "cook/errors.hpp"
#include "cook/units.hpp"
#include "run_many.hpp"

namespace cook {

namespace {

constexpr double day = 86400.0;
constexpr double hottest_low_and_slow = 150.0; // °C: low and slow ends there
constexpr double coolest_wrap = 55.0;          // °C: bark needs its time
constexpr double worth_saying = 120.0;         // s
constexpr double long_wait = 24 * 3600.0;      // s over which the cooling is looked at

std::string hours_and_minutes(double seconds) {
  const long minutes = std::lround(seconds / 60.0);
  std::array<char, 32> buffer{};
  if (minutes < 60) {
    std::snprintf(buffer.data(), buffer.size(), "%ld min", minutes);
  } else {
    std::snprintf(buffer.data(), buffer.size(), "%ld h %02ld min", minutes / 60, minutes % 60);
  }
  return buffer.data();
}

bool is_bare(const Stage &stage) { return stage.wrap.name == "none"; }

/// Ends at a core temperature; the position among its ends.
std::optional<std::size_t> core_end(const Stage &stage) {
  for (std::size_t i = 0; i < stage.until.size(); ++i) {
    if (stage.until[i].kind == EndKind::core) {
      return i;
    }
  }
  return {};
}

struct Change {
  std::string what;
  Plan plan;
};

std::optional<Change> hotter_pit(const Plan &plan, std::size_t done) {
  const double fahrenheit = fahrenheit_difference_from_kelvin(schedule_hotter_by);
  Change change{"the pit " + format_number(std::round(fahrenheit)) + " °F (" +
                    format_number(schedule_hotter_by) + " °C) hotter",
                plan};
  bool any = false;
  for (std::size_t i = 0; i <= done; ++i) {
    Stage &stage = change.plan.stages[i];
    if (heats(stage) && stage.surroundings.air.maximum() + schedule_hotter_by <= hottest_low_and_slow) {
      for (double &v : stage.surroundings.air.value) {
        v += schedule_hotter_by;
      }
      any = true;
    }
  }
  return any ? std::optional(change) : std::nullopt;
}

/// The first stage that is wrapped after a bare one which waits for the core.
std::optional<std::size_t> wrapped_stage(const Plan &plan, std::size_t done) {
  for (std::size_t i = 1; i <= done; ++i) {
    if (heats(plan.stages[i]) && !is_bare(plan.stages[i]) && is_bare(plan.stages[i - 1])) {
      return i;
    }
  }
  return {};
}

std::vector<Change> changes(const Plan &plan, std::size_t done) {
  std::vector<Change> list;
  if (auto hotter = hotter_pit(plan, done)) {
    list.push_back(std::move(*hotter));
  }
  if (const auto wrapped = wrapped_stage(plan, done)) {
    if (plan.stages[*wrapped].wrap.name != "foil") {
      Change foil{"foil instead of " + plan.stages[*wrapped].wrap.name, plan};
      for (std::size_t i = *wrapped; i <= done; ++i) {
        if (!is_bare(plan.stages[i])) {
          foil.plan.stages[i].wrap = wrap("foil");
        }
      }
      list.push_back(std::move(foil));
    }
    Stage before = plan.stages[*wrapped - 1];
    if (const auto at = core_end(before);
        at && before.until[*at].value - schedule_earlier_by >= coolest_wrap) {
      const double usual = before.until[*at].value;
      Change earlier{"wrapped at " + format_degrees(usual - schedule_earlier_by) + " instead of " +
                         format_degrees(usual),
                     plan};
      earlier.plan.stages[*wrapped - 1].until[*at].value -= schedule_earlier_by;
      list.push_back(std::move(earlier));
    }
    return list;
  }
  const Stage &last = plan.stages[done];
  const auto at = core_end(last);
  if (heats(last) && is_bare(last) && at &&
      last.until[*at].value > schedule_usual_wrap + schedule_earlier_by) {
    for (const char *name : {"butcher paper", "foil"}) {
      Change wrapping{std::string("wrapped in ") + name + " at " + format_degrees(schedule_usual_wrap), plan};
      Stage bare = last;
      bare.until[*at].value = schedule_usual_wrap;
      wrapping.plan.stages[done].wrap = wrap(name);
      wrapping.plan.stages.insert(wrapping.plan.stages.begin() + static_cast<std::ptrdiff_t>(done), bare);
      list.push_back(std::move(wrapping));
    }
  }
  return list;
}

/// How long the coldest part stays above the limit after the plan's end where the last stage left it.
std::optional<double> stays_hot(const Plan &plan, double limit) {
  if (heats(plan.stages.back())) {
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

void warn(Schedule &made, const ScheduleOptions &wanted, bool fitted) {
  const double late = made.chance_late;
  if (made.start > made.latest) {
    made.warnings.push_back("started no earlier than asked, dinner is late in " +
                            std::to_string(static_cast<int>(std::lround(100.0 * late))) + " of 100 cooks");
  }
  if (made.stays_hot && made.hold95 > *made.stays_hot) {
    made.warnings.push_back("in one cook of 20 the meat waits " + hours_and_minutes(made.hold95) +
                            " or longer after " + in_quotes(made.plan.stages.back().name) +
                            ", and there its surface stays above " + format_degrees(wanted.hold_limit) +
                            " for only " + hours_and_minutes(*made.stays_hot) +
                            ": have a warm oven ready to hold it");
  }
  constexpr double far_apart = 4 * 3600.0;
  const std::size_t last = made.plan.stages.size() - 1;
  const double spread = made.forecast.quantile(0.95, last) - made.forecast.quantile(0.05, last);
  const std::string narrower =
      fitted
          ? "calibrating with further logs of your cooker may narrow it, and a forecast while it cooks does"
          : "a log of your own cooker narrows it (calibrate)";
  if (!std::isfinite(spread)) {
    const double never = made.forecast.chance_after(std::numeric_limits<double>::max(), last);
    made.warnings.push_back(
        "the length of this cook is uncertain, and " +
        std::to_string(static_cast<int>(std::lround(100.0 * never))) +
        " of 100 possible cooks never get done: this pit is hardly hot enough for the plan; a "
        "hotter pit, an earlier wrap or a lower core at the end would help; " +
        narrower);
  } else if (spread > far_apart) {
    made.warnings.push_back("the length of this cook is uncertain: 9 of 10 end within a span of " +
                            hours_and_minutes(spread) + "; " + narrower);
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
            "a time of day; how long the plan takes would hang on its start, which is asked for; "
            "use 'elapsed' or a core temperature");
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
  if (!std::isfinite(made.duration)) {
    throw InvalidInput("confidence",
                       format_number(options.confidence) +
                           " cannot be had: too many of the possible cooks never get done; ask for "
                           "less, or a hotter pit");
  }
  made.latest = options.serve - made.duration;
  made.start = made.latest;
  if (options.earliest) {
    const double earliest = *options.earliest < options.serve ? *options.earliest : *options.earliest - day;
    made.start = std::max(made.latest, earliest);
  }
  const double room = options.serve - made.start;
  made.chance_late = made.forecast.chance_after(room, last);
  made.hold50 = std::max(0.0, room - made.duration50);
  made.hold95 = std::max(0.0, room - made.forecast.quantile(0.05, last));
  made.stays_hot = stays_hot(plan, options.hold_limit);
  if (options.alternatives) {
    for (Change &change : changes(plan, done_stage(plan))) {
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
