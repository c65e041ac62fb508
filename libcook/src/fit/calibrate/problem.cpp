#include "fit/calibrate/problem.hpp"

#include <algorithm>
#include <cmath>

#include "cook/errors.hpp"
#include "fit/belief/belief.hpp"
#include "fit/belief/free_value.hpp"
#include "fit/run_many.hpp"

namespace cook::fit {

namespace {

constexpr double slope_reach = 600.0; // s to each side: smooths the kinks of a wrap or a spritz

Number make_number(const FreeParameter &asked, const Plan &plan, const std::string &field, int log) {
  const FreeKind &kind = free_kind(asked.name, field);
  // A tip planned closer to the middle than a hand puts it is believed no closer.
  const double said = value_in(plan, asked.name, field);
  const double in_plan = asked.name == "probe_distance" ? std::max(said, usual_probe_distance) : said;
  Number made{.kind = &kind,
              .median = asked.median.value_or(in_plan),
              .spread = asked.spread.value_or(kind.spread),
              .source = asked.source,
              .log = log};
  check::within(field + ".median", made.median, kind.low, kind.high, kind.unit);
  const bool logarithmic = kind.scale == Scale::logarithmic;
  check::positive(field + ".spread", made.spread, logarithmic ? "" : kind.unit);
  if (logarithmic) {
    constexpr double widest = 3.0;
    check::within(field + ".spread", made.spread, 0.0, widest, "",
                  "a share of the median: 0.2 for about 20 % to each side");
  }
  if (made.source.empty()) {
    made.source = (asked.median ? "median: given" : "median: the plan's") +
                  std::string(asked.spread ? "; spread: given" : "; spread: " + kind.source);
  }
  return made;
}

std::vector<Number> make_numbers(std::span<const Plan> plans, std::span<const FreeParameter> free) {
  if (free.empty()) {
    throw InvalidInput("free", "empty; name at least one number to fit, for instance 'thickness'");
  }
  std::vector<Number> shared;
  std::vector<Number> own;
  for (std::size_t i = 0; i < free.size(); ++i) {
    const std::string field = "free[" + std::to_string(i) + "]";
    for (std::size_t k = 0; k < i; ++k) {
      if (free[k].name == free[i].name) {
        throw InvalidInput(field, in_quotes(free[i].name) + " is named twice");
      }
    }
    if (free_kind(free[i].name, field).scope == Scope::cooker) {
      shared.push_back(make_number(free[i], plans.front(), field, -1));
    }
  }
  for (std::size_t log = 0; log < plans.size(); ++log) {
    for (std::size_t i = 0; i < free.size(); ++i) {
      const std::string field = "free[" + std::to_string(i) + "]";
      if (free_kind(free[i].name, field).scope == Scope::meat) {
        own.push_back(make_number(free[i], plans[log], field, static_cast<int>(log)));
      }
    }
  }
  shared.insert(shared.end(), own.begin(), own.end());
  return shared;
}

/// Says which field of the log is at fault when its pit is one no cooker has.
void check_driven(const Plan &plan, const CookLog &log) {
  try {
    for (std::size_t i = 0; i < plan.stages.size(); ++i) {
      plan.stages[i].surroundings.validate("stages[" + std::to_string(i) + "].surroundings");
    }
  } catch (const InvalidInput &error) {
    throw InvalidInput(log.name + ".pit", "it cannot drive the plan (" + std::string(error.what()) + ")");
  }
}

} // namespace

double Number::value(double u) const {
  const double raw = kind->scale == Scale::logarithmic ? median * std::exp(spread * u) : median + spread * u;
  return std::clamp(raw, kind->low, kind->high);
}

double Number::deviations(double value) const {
  return kind->scale == Scale::logarithmic ? std::log(value / median) / spread : (value - median) / spread;
}

bool Problem::bears(std::size_t number, std::size_t log) const {
  return numbers[number].log < 0 || numbers[number].log == static_cast<int>(log);
}

void Problem::write(Plan &plan, std::size_t log, const Eigen::VectorXd &u) const {
  // Thickness first: the probe's place is measured from the middle. The air last: it says which stages heat.
  const auto turn = [](const std::string &name) {
    return name == "thickness" ? 0 : name == "pit_offset" ? 2 : 1;
  };
  for (const int now : {0, 1, 2}) {
    for (std::size_t j = 0; j < numbers.size(); ++j) {
      const std::string &name = numbers[j].kind->name;
      if (!bears(j, log) || turn(name) != now) {
        continue;
      }
      if (const auto before = value_if_any(logs[log].asked, name)) {
        write_value(plan, name, numbers[j].value(u(static_cast<Eigen::Index>(j))), *before);
      }
    }
  }
}

double Problem::sensor_offset(std::size_t log, const Eigen::VectorXd &u) const {
  for (std::size_t j = 0; j < numbers.size(); ++j) {
    if (bears(j, log) && numbers[j].kind->name == "sensor_offset") {
      return numbers[j].value(u(static_cast<Eigen::Index>(j)));
    }
  }
  return 0.0;
}

Trace read_trace(const Outcome &outcome, const std::vector<double> &time, double offset) {
  const auto n = static_cast<Eigen::Index>(time.size());
  Trace trace{.core = Eigen::VectorXd(n), .slope = Eigen::VectorXd(n), .whole = true, .why = {}};
  for (Eigen::Index i = 0; i < n; ++i) {
    const double t = time[static_cast<std::size_t>(i)];
    trace.core(i) = core_of(outcome, t) + offset;
    const double early = std::max(outcome.time.front(), t - slope_reach);
    const double late = std::min(outcome.time.back(), t + slope_reach);
    trace.slope(i) = late > early ? (core_of(outcome, late) - core_of(outcome, early)) / (late - early) : 0.0;
  }
  return trace;
}

std::vector<Trace> Problem::run(const std::vector<Wanted> &wanted) const {
  std::vector<Plan> plans;
  std::vector<std::size_t> which;
  std::vector<Trace> traces(wanted.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const Ready &log = logs[wanted[i].log];
    if (log.followed.plan.stages.empty()) { // no time has passed
      traces[i].whole = true;
      traces[i].core = Eigen::VectorXd::Constant(static_cast<Eigen::Index>(log.data.time.size()), 0.0);
      traces[i].slope = traces[i].core;
      Plan plan = log.asked;
      write(plan, wanted[i].log, wanted[i].u);
      traces[i].core.setConstant(plan.meat.start + sensor_offset(wanted[i].log, wanted[i].u));
      continue;
    }
    plans.push_back(log.followed.plan);
    write(plans.back(), wanted[i].log, wanted[i].u);
    which.push_back(i);
  }
  simulations += static_cast<int>(plans.size());
  const std::vector<Ran> ran = run_many(plans, core_only(interrupted), threads);
  for (std::size_t k = 0; k < ran.size(); ++k) {
    const Wanted &w = wanted[which[k]];
    if (!ran[k].whole) {
      traces[which[k]].why = ran[k].why;
      continue;
    }
    traces[which[k]] = read_trace(*ran[k].outcome, logs[w.log].data.time, sensor_offset(w.log, w.u));
  }
  return traces;
}

void Problem::check_interrupted() const {
  if (interrupted && interrupted()) {
    throw Interrupted("stopped on request", std::make_shared<const Outcome>());
  }
}

Eigen::VectorXd Problem::observed(std::size_t log) const {
  const auto &core = logs[log].data.core;
  return Eigen::Map<const Eigen::VectorXd>(core.data(), static_cast<Eigen::Index>(core.size()));
}

Eigen::VectorXd Problem::variance(std::size_t log) const {
  const auto &variance = logs[log].data.variance;
  return Eigen::Map<const Eigen::VectorXd>(variance.data(), static_cast<Eigen::Index>(variance.size()));
}

Problem set_up(std::span<const Plan> plans, std::span<const CookLog> logs,
               std::span<const FreeParameter> free, const ModelError &error, bool need_readings) {
  if (logs.empty()) {
    throw InvalidInput("log", "no log came; at least one is needed");
  }
  if (plans.size() != logs.size() && plans.size() != 1) {
    throw InvalidInput("plan", std::to_string(plans.size()) + " plans for " + std::to_string(logs.size()) +
                                   " logs; one for each log, or one for all, is accepted");
  }
  error.validate();
  Problem problem;
  problem.error = error;
  std::vector<Plan> each;
  for (std::size_t i = 0; i < logs.size(); ++i) {
    each.push_back(plans.size() == 1 ? plans.front() : plans[i]);
    each.back().validate();
  }
  problem.numbers = make_numbers(each, free);
  const auto of_one = static_cast<std::size_t>(std::count_if(problem.numbers.begin(), problem.numbers.end(),
                                                             [](const Number &n) { return n.log <= 0; }));
  for (std::size_t i = 0; i < logs.size(); ++i) {
    logs[i].validate(each[i], need_readings ? std::max<std::size_t>(of_one, 2) : 0);
    Ready ready{.asked = each[i], .followed = follow(each[i], logs[i]), .data = {}, .name = logs[i].name};
    check_driven(ready.followed.plan, logs[i]);
    const double until = ready.followed.current < each[i].stages.size() || ready.followed.end.empty()
                             ? ready.followed.now
                             : ready.followed.end.back();
    ready.data = bin(logs[i], until);
    if (need_readings && ready.data.time.size() < of_one) {
      throw InvalidInput(logs[i].name + ".core",
                         std::to_string(ready.data.time.size()) +
                             " independent readings (one in five minutes) within the plan's time for " +
                             std::to_string(of_one) +
                             " numbers to fit; fit fewer, or take a longer stretch of the log");
    }
    problem.logs.push_back(std::move(ready));
  }
  const auto p = static_cast<Eigen::Index>(problem.numbers.size());
  problem.prior_mean = Eigen::VectorXd::Zero(p);
  std::vector<Believed> believed;
  for (const Number &number : problem.numbers) {
    believed.push_back({number.kind->name, number.spread});
  }
  const bool pork = each.front().meat.tissue.name.find("pork") != std::string::npos;
  problem.prior_precision = believed_correlation(believed, pork).inverse();
  return problem;
}

} // namespace cook::fit
