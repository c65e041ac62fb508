/// @file
/// How a forecast is made, by forecast() below: possible cooks are drawn that agree with the log so far
/// (ensemble.cpp, from a fit's Laplace approximation, weighted to the exact density); each gets a pit to come
/// (outlook.cpp) and its own error of the model, and is run to the end; rules that need no model have their
/// say (by_hand.cpp); quantiles are read off the weighted ends (forecast_quantiles.cpp). Sources are in
/// cook/fit/forecast.hpp.
#include "cook/fit/forecast.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <set>

#include "cook/errors.hpp"
#include "fit/calibrate/taught.hpp"
#include "fit/forecast/by_hand.hpp"
#include "fit/forecast/ensemble.hpp"
#include "fit/forecast/outlook.hpp"
#include "fit/random.hpp"

namespace cook {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr int tail_freedom = 6;         // of the multivariate t that members are drawn from
constexpr double least_effective = 0.3; // share of the members that must still count
constexpr int search_iterations = 10;

/// Free numbers: those asked for; else the fit's and whatever else this plan leaves open.
std::vector<FreeParameter> free_of(const Plan &plan, const ForecastOptions &options, const Fit *fit) {
  std::vector<FreeParameter> free = options.free.empty() ? usual_free(plan) : options.free;
  if (!fit) {
    return free;
  }
  std::set<std::string> had;
  for (const Estimate &e : fit->estimates) {
    if (had.insert(e.name).second) {
      const bool shared = e.log < 0;
      const auto same =
          std::find_if(free.begin(), free.end(), [&](const auto &f) { return f.name == e.name; });
      FreeParameter known{.name = e.name,
                          .median = shared ? std::optional<double>(e.prior) : std::nullopt,
                          .spread = e.prior_spread,
                          .source = e.source};
      if (same == free.end()) {
        free.push_back(known);
      } else if (shared) {
        *same = known;
      }
    }
  }
  return free;
}

/// What is believed before any reading.
fit::Solution without_readings(const fit::Problem &problem) {
  fit::Solution s;
  s.u = problem.prior_mean;
  s.covariance = problem.prior_precision.inverse();
  const auto traces = problem.run({{0, s.u}});
  s.logs.push_back(fit::weigh(problem, 0, traces.front(), 1.0));
  s.widened = 1.0;
  s.converged = true;
  return s;
}

/// Draws the members; returns minus twice the log density that each was drawn with.
std::vector<double> draw(fit::Ensemble &ensemble, const ForecastOptions &options) {
  fit::Random random(options.seed);
  const fit::Solution &s = ensemble.solution;
  const auto p = s.u.size();
  const MatrixXd root = s.covariance.llt().matrixL();
  const bool informed = !ensemble.problem.logs.front().data.time.empty();
  std::vector<double> drawn;
  for (int i = 0; i < options.members; ++i) {
    VectorXd z(p);
    for (Index j = 0; j < p; ++j) {
      z(j) = random.normal();
    }
    const double stretch = std::sqrt(random.chi_square(tail_freedom) / tail_freedom);
    if (informed) {
      z /= stretch;
    }
    fit::Member member;
    member.u = s.u + root * z;
    for (std::size_t k = 0; k < fit::outlook_normals; ++k) {
      member.outlook.push_back(random.normal());
    }
    member.chance = random.uniform();
    member.chance_of_size = random.uniform();
    const double size = z.squaredNorm();
    const double degrees = tail_freedom + static_cast<double>(p);
    drawn.push_back(informed ? degrees * std::log1p(size / tail_freedom) : size);
    ensemble.members.push_back(std::move(member));
  }
  return drawn;
}

double effective(const std::vector<double> &weight) {
  double sum = 0.0;
  double squares = 0.0;
  for (const double w : weight) {
    sum += w;
    squares += w * w;
  }
  return squares > 0.0 ? sum * sum / squares : 0.0;
}

std::vector<double> weights(const std::vector<double> &log_weight, const std::vector<double> &not_done,
                            double share) {
  double top = -std::numeric_limits<double>::infinity();
  for (const double one : log_weight) {
    top = std::max(top, share * one);
  }
  std::vector<double> made;
  for (std::size_t i = 0; i < log_weight.size(); ++i) {
    made.push_back(std::isfinite(log_weight[i]) ? std::exp(share * log_weight[i] - top) * not_done[i] : 0.0);
  }
  const double sum = std::accumulate(made.begin(), made.end(), 0.0);
  for (double &w : made) {
    w = sum > 0.0 ? w / sum : 0.0;
  }
  return made;
}

/// Weights of the members. Where a few would carry all of it, the weights are flattened (raised to a power
/// below 1, Latz, Madrigal-Cianci, Nobile & Tempone's tempering in its plainest form) until enough count.
void weigh_members(fit::Ensemble &ensemble, const fit::Run &run, const std::vector<double> &drawn,
                   std::vector<std::string> &notes) {
  std::vector<double> log_weight;
  std::vector<double> not_done;
  for (std::size_t i = 0; i < run.members.size(); ++i) {
    log_weight.push_back(-0.5 * (run.members[i].cost - drawn[i]));
    not_done.push_back(run.members[i].not_done);
  }
  const double wanted = least_effective * static_cast<double>(run.members.size());
  double share = 1.0;
  ensemble.weight = weights(log_weight, not_done, share);
  constexpr double slower = 0.8;
  while (effective(ensemble.weight) < wanted && share > 0.01) {
    share *= slower;
    ensemble.weight = weights(log_weight, not_done, share);
  }
  constexpr double much = 0.3;
  if (share < much) {
    notes.emplace_back(
        "few of the possible cooks agree with the log: this plan hardly ever goes like that; the forecast "
        "is rough");
  }
}

/// Lets what needs no model have its say. @returns whether the members are to be read again
bool join(fit::Ensemble &ensemble, const fit::Run &run, bool wanted) {
  const std::size_t done = std::max(done_stage(ensemble.plan), ensemble.current());
  const double target = fit::core_target(ensemble.plan.stages[done]);
  if (!std::isfinite(target)) {
    return false;
  }
  const double now = ensemble.now();
  ensemble.by_hand = fit::by_hand(ensemble.plan, ensemble.log, now, target);
  std::vector<double> left;
  for (const fit::Finished &member : run.members) {
    left.push_back(member.stage_end[done] - now);
  }
  constexpr double half = 0.5;
  // The weights belong to a model that errs as it does with real cooks, not to one that is said to be right.
  const bool errs = ensemble.problem.error.tails < normal_tails;
  if (wanted && errs && now > 0.0) {
    ensemble.joining = fit::join_rules(*ensemble.by_hand, quantile_of_ends(left, ensemble.weight, half));
  }
  return ensemble.joining.changes();
}

ByHandAnswers told(const fit::ByHand &rules, double stretch) {
  constexpr std::array<const char *, 3> words{"before the stall", "in the stall", "after the stall"};
  return {.last_hour = rules.last_hour,
          .population = rules.population,
          .stage = rules.stage,
          .phase = words[static_cast<std::size_t>(rules.phase)],
          .stretch = stretch};
}

/// How much larger the model's errors are believed to be in this cook than beforehand: the ratio of their
/// medians.
double oddness(const fit::Ensemble &ensemble) {
  std::vector<double> factor;
  std::vector<double> before;
  for (const fit::Member &member : ensemble.members) {
    factor.push_back(ensemble.sizes[member.size].factor);
  }
  for (const fit::ErrorSize &size : ensemble.sizes) {
    before.push_back(size.factor);
  }
  constexpr double half = 0.5;
  return weighted_quantile(factor, ensemble.weight, half) /
         weighted_quantile(before, std::vector<double>(before.size(), 1.0), half);
}

Forecast assemble(const std::shared_ptr<fit::Ensemble> &ensemble, const fit::Run &run, const Plan &plan,
                  std::vector<std::string> notes) {
  Forecast made;
  made.plan = plan;
  made.now = ensemble->now();
  made.current = ensemble->current();
  made.done = std::max(done_stage(plan), made.current);
  made.weight = ensemble->weight;
  made.time = run.time;
  made.outlook = ensemble->outlook;
  double unfinished = 0.0;
  for (std::size_t i = 0; i < run.members.size(); ++i) {
    const fit::Finished &member = run.members[i];
    made.stage_end.insert(made.stage_end.end(), member.stage_end.begin(), member.stage_end.end());
    made.core.insert(made.core.end(), member.core.begin(), member.core.end());
    unfinished += std::isfinite(member.stage_end[made.done]) ? 0.0 : made.weight[i];
    for (std::size_t j = 0; j < ensemble->problem.numbers.size(); ++j) {
      made.values.push_back(
          ensemble->problem.numbers[j].value(ensemble->members[i].u(static_cast<Index>(j))));
    }
  }
  for (const fit::Number &number : ensemble->problem.numbers) {
    made.names.push_back(number.kind->name);
  }
  constexpr double hopeless = 0.95;
  if (unfinished > hopeless || run.time.empty()) {
    throw InvalidInput("plan", "most of the possible cooks never get done" +
                                   (run.why.empty() ? std::string() : " (" + run.why + ")") +
                                   "; is the pit hot enough for what the last stage waits for?");
  }
  constexpr double some = 0.02;
  if (unfinished > some) {
    notes.push_back(std::to_string(static_cast<int>(std::lround(100.0 * unfinished))) +
                    " % of the possible cooks do not get done: " + run.why);
  }
  if (ensemble->by_hand) {
    made.by_hand = told(*ensemble->by_hand, ensemble->joining.factor);
  }
  made.odd = oddness(*ensemble);
  constexpr double odd_from = 1.5;
  if (made.odd > odd_from) {
    notes.emplace_back("this cook does not behave like the model: the band is wide on purpose");
  }
  made.effective_members = effective(made.weight);
  made.notes = std::move(notes);
  made.state = std::make_shared<const Forecast::State>(Forecast::State{*ensemble});
  return made;
}

} // namespace

void ForecastOptions::validate() const {
  check::within("members", members, 50, 5000, "");
  check::within("threads", threads, 0, 1024, "");
  model_error.validate("model_error");
}

Forecast forecast(const Plan &plan, const CookLog &log, const ForecastOptions &options, const Fit *fit) {
  options.validate();
  plan.validate();
  const std::vector<FreeParameter> free = free_of(plan, options, fit);
  auto ensemble = std::make_shared<fit::Ensemble>();
  ensemble->plan = plan;
  ensemble->log = log;
  ensemble->problem = fit::set_up(std::span(&plan, 1), std::span(&log, 1), free, options.model_error, false);
  ensemble->problem.threads = options.threads;
  ensemble->problem.interrupted = options.interrupted;
  const fit::Ready &ready = ensemble->problem.logs.front();
  if (ready.followed.current >= plan.stages.size()) {
    throw InvalidInput(log.name, "the log shows the end of the plan, " +
                                     format_number(ready.followed.end.back() / 3600.0) +
                                     " h after its start: there is nothing left to forecast");
  }
  if (fit) {
    fit::believe(ensemble->problem, *fit);
  }
  ensemble->solution = ready.data.time.empty()
                           ? without_readings(ensemble->problem)
                           : fit::solve(ensemble->problem, ensemble->problem.prior_mean, search_iterations);
  ensemble->sizes = fit::error_sizes(ensemble->problem, 0, ensemble->solution.logs.front());
  ensemble->outlook = fit::look_ahead(plan, log, ready.followed.end, ready.followed.now);
  const std::vector<double> drawn = draw(*ensemble, options);
  const std::vector<Stage> remaining = fit::remaining_stages(plan, ready.followed);
  const std::vector<Ran> ran = fit::simulate_members(*ensemble, remaining);
  fit::Run run = fit::read_members(*ensemble, remaining, ran, true);
  std::vector<std::string> notes;
  weigh_members(*ensemble, run, drawn, notes);
  if (join(*ensemble, run, options.join_rules)) {
    run = fit::read_members(*ensemble, remaining, ran, false);
  }
  ensemble->problem.interrupted = {};
  return assemble(ensemble, run, plan, std::move(notes));
}

Forecast what_if(const Forecast &forecast, const std::vector<Stage> &remaining,
                 const std::function<bool()> &interrupted) {
  if (!forecast.state) {
    throw InvalidInput("forecast", "it holds no members; make it with forecast()");
  }
  if (remaining.empty()) {
    throw InvalidInput("remaining", "empty; at least the stage that is under way is needed");
  }
  auto ensemble = std::make_shared<fit::Ensemble>(forecast.state->ensemble);
  Plan plan = ensemble->plan;
  plan.stages.resize(ensemble->current());
  plan.stages.insert(plan.stages.end(), remaining.begin(), remaining.end());
  plan.validate();
  ensemble->problem.interrupted = interrupted;
  const fit::Run run =
      fit::read_members(*ensemble, remaining, fit::simulate_members(*ensemble, remaining), false);
  ensemble->problem.interrupted = {};
  return assemble(ensemble, run, plan, {});
}

} // namespace cook
