#include "cook/fit/calibrate.hpp"

#include <algorithm>
#include <cmath>
#include <mutex>

#include "cook/errors.hpp"
#include "cook/fit/fit_fields.hpp"
#include "fields/check.hpp"
#include "fit/calibrate/problem.hpp"
#include "fit/calibrate/solve.hpp"
#include "fit/calibrate/words.hpp"
#include "fit/run_many.hpp"

namespace cook {

namespace {

constexpr double z50 = 0.6744897501960817; // quantiles of the normal distribution
constexpr double z90 = 1.6448536269514722;

using Eigen::Index;

Estimate estimate_of(const fit::Number &number, double u, double deviation, double before) {
  Estimate e;
  e.name = number.kind->name;
  e.unit = number.kind->unit;
  e.log = number.log;
  e.scale = number.kind->scale;
  e.prior = number.median;
  e.prior_spread = number.spread;
  e.source = number.source;
  e.value = number.value(u);
  e.deviation = deviation * number.spread;
  e.low50 = number.value(u - z50 * deviation);
  e.high50 = number.value(u + z50 * deviation);
  e.low90 = number.value(u - z90 * deviation);
  e.high90 = number.value(u + z90 * deviation);
  e.learned = 1.0 - deviation / before;
  return e;
}

FitSeries series_of(const fit::Ready &log, const fit::AtLog &at) {
  FitSeries s;
  s.name = log.name;
  s.time = log.data.time;
  s.observed = log.data.core;
  s.fitted.assign(at.trace.core.begin(), at.trace.core.end());
  s.deviation.assign(at.deviation.begin(), at.deviation.end());
  s.weight.assign(at.weight.begin(), at.weight.end());
  s.noise = log.data.noise;
  return s;
}

} // namespace

void ModelError::validate(const std::string &field) const { check::members(field + ".", *this); }

ModelError slab_model_error() {
  ModelError error;
  error.pace = 0.015;
  error.level = 0.18;
  error.tails = normal_tails;
  return error;
}

void FitOptions::validate() const {
  model_error.validate("model_error");
  check::within("max_iterations", max_iterations, 1, 200, "");
  check::within("threads", threads, 0, 1024, "");
}

double Fit::correlation(std::size_t a, std::size_t b) const {
  const std::size_t n = estimates.size();
  if (a >= n || b >= n) {
    throw InvalidInput("estimate",
                       "index " + std::to_string(std::max(a, b)) + "; there are " + std::to_string(n));
  }
  return covariance[a * n + b] / std::sqrt(covariance[a * n + a] * covariance[b * n + b]);
}

const Estimate &Fit::estimate(const std::string &name) const {
  const auto found =
      std::find_if(estimates.rbegin(), estimates.rend(), [&](const Estimate &e) { return e.name == name; });
  if (found == estimates.rend()) {
    std::string known;
    for (const Estimate &e : estimates) {
      known += (known.empty() ? "" : ", ") + e.name;
    }
    throw InvalidInput("estimate", in_quotes(name) + " was not fitted; fitted: " + known);
  }
  return *found;
}

Fit calibrate(std::span<const Plan> plans, std::span<const CookLog> logs, std::span<const FreeParameter> free,
              const FitOptions &options) {
  options.validate();
  fit::Problem problem = fit::set_up(plans, logs, free, options.model_error, true);
  problem.robust = options.robust;
  problem.threads = options.threads;
  problem.interrupted = options.interrupted;
  const fit::Solution solution = fit::solve(problem, problem.prior_mean, options.max_iterations);

  Fit made;
  made.model_error = options.model_error;
  made.misfit = solution.misfit;
  made.widened = solution.widened;
  made.converged = solution.converged;
  made.iterations = solution.iterations;
  made.simulations = problem.simulations;
  const Index p = solution.u.size();
  for (Index j = 0; j < p; ++j) {
    made.estimates.push_back(estimate_of(problem.numbers[static_cast<std::size_t>(j)], solution.u(j),
                                         std::sqrt(solution.covariance(j, j)), 1.0));
    for (Index i = 0; i < p; ++i) {
      made.covariance.push_back(solution.covariance(j, i));
    }
  }
  double squares = 0.0;
  double count = 0.0;
  std::string unusable;
  for (std::size_t k = 0; k < problem.logs.size(); ++k) {
    made.series.push_back(series_of(problem.logs[k], solution.logs[k]));
    made.series.back().fahrenheit = logs[k].fahrenheit;
    squares += solution.logs[k].residual.squaredNorm();
    count += static_cast<double>(solution.logs[k].residual.size());
    Plan tuned = problem.logs[k].asked;
    problem.write(tuned, k, solution.u);
    try {
      tuned.validate();
    } catch (const InvalidInput &error) {
      unusable = error.what();
    }
    made.plans.push_back(std::move(tuned));
    made.asked.push_back(problem.logs[k].asked);
  }
  made.rms = std::sqrt(squares / std::max(1.0, count));
  made.plan = made.plans.back();
  made.notes = fit::notes_on(made);
  if (!unusable.empty()) {
    made.notes.push_back("the tuned plan cannot be cooked as it stands (" + unusable +
                         "): change what it names before you run it");
  }
  return made;
}

Fit calibrate(const Plan &plan, const CookLog &log, std::span<const FreeParameter> free,
              const FitOptions &options) {
  return calibrate(std::span(&plan, 1), std::span(&log, 1), free, options);
}

struct LogPosterior::State {
  fit::Problem problem;
  std::mutex mutex; ///< of the errors
  std::vector<fit::AtLog> errors;
};

LogPosterior::LogPosterior(std::span<const Plan> plans, std::span<const CookLog> logs,
                           std::span<const FreeParameter> free, const FitOptions &options)
    : state_(std::make_shared<State>()) {
  options.validate();
  state_->problem = fit::set_up(plans, logs, free, options.model_error, true);
  state_->problem.robust = options.robust;
  state_->problem.threads = options.threads;
  state_->problem.interrupted = options.interrupted;
}

std::size_t LogPosterior::size() const { return state_->problem.numbers.size(); }

std::vector<double> LogPosterior::operator()(std::span<const double> points,
                                             const std::function<bool()> &interrupted) {
  const std::size_t p = size();
  if (points.empty() || points.size() % p != 0) {
    throw InvalidInput("points", std::to_string(points.size()) + " numbers; rows of " + std::to_string(p) +
                                     " are needed");
  }
  fit::Problem problem = state_->problem;
  if (interrupted) {
    problem.interrupted = interrupted;
  }
  std::vector<fit::Wanted> wanted;
  for (std::size_t row = 0; row < points.size() / p; ++row) {
    Eigen::VectorXd u(static_cast<Index>(p));
    for (std::size_t j = 0; j < p; ++j) {
      u(static_cast<Index>(j)) = check::finite("points", points[row * p + j]);
    }
    for (std::size_t k = 0; k < problem.logs.size(); ++k) {
      wanted.push_back({k, u});
    }
  }
  const std::vector<fit::Trace> traces = problem.run(wanted);
  const std::size_t logs = problem.logs.size();
  const std::lock_guard lock(state_->mutex);
  if (state_->errors.empty()) {
    for (std::size_t k = 0; k < logs; ++k) {
      if (!traces[k].whole) {
        throw SolverFailure("the first point cannot be simulated: " + traces[k].why,
                            std::make_shared<const Outcome>());
      }
      state_->errors.push_back(fit::weigh(problem, k, traces[k], 1.0));
    }
  }
  std::vector<double> density;
  for (std::size_t row = 0; row < points.size() / p; ++row) {
    const std::vector<fit::Trace> own(traces.begin() + static_cast<std::ptrdiff_t>(row * logs),
                                      traces.begin() + static_cast<std::ptrdiff_t>((row + 1) * logs));
    problem.check_interrupted();
    density.push_back(-0.5 * fit::cost(problem, wanted[row * logs].u, state_->errors, own));
  }
  return density;
}

} // namespace cook
