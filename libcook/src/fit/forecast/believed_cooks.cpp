#include "cook/fit/belief.hpp"

#include <algorithm>
#include <cmath>

#include "cook/errors.hpp"
#include "fit/calibrate/discrepancy.hpp"
#include "fit/forecast/ensemble.hpp"
#include "fit/forecast/outlook.hpp"
#include "fit/forecast/tails.hpp"
#include "fit/random.hpp"
#include "fit/run_many.hpp"

namespace cook {

namespace {

using Eigen::Index;

/// A cook is never done in less than this share of the time simulated: far tails of the model's error.
constexpr double least_pace = 0.1;

/// What a plan leaves open before any reading: what a forecast does, and what decides on the loss. A number
/// beyond what a fit may try, as the start of meat that was cooked already, is taken as known.
std::vector<FreeParameter> open_numbers(const Plan &plan) {
  std::vector<FreeParameter> free = usual_free(plan);
  free.push_back({.name = "final_share"});
  free.push_back({.name = "emissivity"});
  std::erase_if(free, [&](const FreeParameter &one) {
    const FreeKind &kind = free_kind(one.name);
    const double value = value_in(plan, one.name);
    return !(value >= kind.low && value <= kind.high);
  });
  return free;
}

fit::Problem problem_of(const Plan &plan, const ModelError &error) {
  const CookLog none;
  const std::vector<FreeParameter> free = open_numbers(plan);
  return fit::set_up(std::span(&plan, 1), std::span(&none, 1), free, error, false);
}

/// Standard normal numbers, one in each slice of equal probability, in an order of their own.
std::vector<double> stratified(fit::Random &random, std::size_t count) {
  std::vector<double> made(count);
  for (std::size_t i = 0; i < count; ++i) {
    made[i] = fit::normal_quantile((static_cast<double>(i) + random.uniform()) / static_cast<double>(count));
  }
  for (std::size_t i = count; i > 1; --i) {
    const auto other = static_cast<std::size_t>(random.uniform() * static_cast<double>(i));
    std::swap(made[i - 1], made[std::min(other, i - 1)]);
  }
  return made;
}

/// Quantile of the model's error in sizes: a mixture of normals, by halving.
double error_quantile(const std::vector<double> &sizes, double share) {
  constexpr double widest = 100.0;
  double low = -widest;
  double high = widest;
  constexpr int halvings = 50;
  for (int k = 0; k < halvings; ++k) {
    const double middle = 0.5 * (low + high);
    double below = 0.0;
    for (const double size : sizes) {
      below += fit::normal_share(middle / size) / static_cast<double>(sizes.size());
    }
    (below < share ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// Gives every heated stage a pit of its own, as a forecast does.
void vary_pit(Plan &plan, const std::vector<double> &normals) {
  const PitOutlook outlook;
  for (Stage &stage : plan.stages) {
    if (heats(stage)) {
      stage.surroundings.air = fit::possible_air(stage.surroundings.air, outlook, 0.0, normals,
                                                 fit::hottest_air(stage.surroundings.air));
    }
  }
}

/// Whether meat and pits are ones that a plan accepts; what the pit can reach is another question.
bool acceptable(const Plan &plan) {
  try {
    plan.meat.validate("meat");
    for (const Stage &stage : plan.stages) {
      stage.surroundings.validate("surroundings");
    }
  } catch (const InvalidInput &) {
    return false;
  }
  return true;
}

} // namespace

bool meat_ends(const Stage &stage) { return fit::waits(stage); }

Belief believe(const Plan &plan, const ModelError &error, const std::function<bool()> &interrupted) {
  plan.validate();
  const fit::Problem problem = problem_of(plan, error);
  Belief made;
  made.plan = plan;
  made.error = error;
  for (const fit::Number &number : problem.numbers) {
    made.names.push_back(number.kind->name);
    made.units.push_back(number.kind->unit);
    made.scales.push_back(number.kind->scale);
    made.median.push_back(number.median);
    made.spread.push_back(number.spread);
  }
  const Eigen::MatrixXd correlation = problem.prior_precision.inverse();
  for (Index a = 0; a < correlation.rows(); ++a) {
    for (Index b = 0; b < correlation.cols(); ++b) {
      made.correlation.push_back(correlation(a, b));
    }
  }
  const std::size_t done = done_stage(plan);
  const Ran ran = run_many({plan}, core_only(interrupted), 1).front();
  const bool there =
      ran.outcome && ran.outcome->stage_ends.size() > done && !ran.outcome->stage_ends[done].reason.empty();
  const double finish = there ? ran.outcome->stage_ends[done].time : error.pace_time;
  double variance = fit::shift_covariance(error, finish, finish);
  const double target = fit::core_target(plan.stages[done]);
  if (there && std::isfinite(target)) {
    const double per = 1.0 / fit::rate_at(*ran.outcome, finish);
    variance += per * per * fit::level_covariance(error, finish, finish);
  }
  made.error_share = std::sqrt(variance) / finish;
  return made;
}

Draws draw_cooks(const Belief &belief, int count, std::uint64_t seed) {
  check::within("count", count, 1, 100000, "");
  const fit::Problem problem = problem_of(belief.plan, belief.error);
  const auto n = static_cast<std::size_t>(count);
  const auto p = static_cast<Index>(problem.numbers.size());
  fit::Random random(seed);
  Eigen::MatrixXd z(p, count);
  for (Index j = 0; j < p; ++j) {
    const std::vector<double> row = stratified(random, n);
    z.row(j) = Eigen::Map<const Eigen::RowVectorXd>(row.data(), count);
  }
  const Eigen::MatrixXd root = problem.prior_precision.inverse().llt().matrixL();
  const Eigen::MatrixXd u = root * z;
  const std::vector<double> level = stratified(random, n);
  const std::vector<double> error = stratified(random, n);
  const std::vector<double> sizes = fit::error_factors(belief.error.tails);

  Draws made;
  for (std::size_t i = 0; i < n; ++i) {
    std::vector<double> pit(fit::outlook_normals);
    std::generate(pit.begin(), pit.end(), [&] { return random.normal(); });
    pit[0] = level[i];
    Eigen::VectorXd own = u.col(static_cast<Index>(i));
    Plan plan;
    constexpr int halvings = 8;
    for (int k = 0; k <= halvings; ++k) {
      plan = belief.plan;
      vary_pit(plan, pit);
      problem.write(plan, 0, own);
      if (acceptable(plan)) {
        break;
      }
      own *= k + 1 < halvings ? 0.5 : 0.0;
      std::for_each(pit.begin(), pit.end(), [](double &one) { one *= 0.5; });
      if (k == halvings) {
        plan = belief.plan;
      }
    }
    made.plans.push_back(std::move(plan));
    for (std::size_t j = 0; j < problem.numbers.size(); ++j) {
      made.values.push_back(problem.numbers[j].value(own(static_cast<Index>(j))));
    }
    const double off = belief.error_share * error_quantile(sizes, fit::normal_share(error[i]));
    made.pace.push_back(std::max(1.0 - off, least_pace));
  }
  return made;
}

} // namespace cook
