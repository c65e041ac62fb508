#include "fit/calibrate/solve.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "cook/errors.hpp"
#include "fit/calibrate/discrepancy.hpp"

namespace cook::fit {

namespace {

constexpr double first_step = 0.2;   // of the differences, in standard deviations beforehand
constexpr double least_step = 0.1;   // a smaller one drowns in the solver's tolerance
constexpr double careful_move = 0.4; // of a second search, where the first ended in a bad fit
constexpr double bad_misfit = 3.0;   // from which the search is thought to have taken a wrong turn
constexpr double largest_move = 1.5; // a step of the search, same unit
constexpr double settled = 0.02;     // a step after which the search ends
constexpr double no_better = 0.03;   // of minus twice the log density: no evidence at all
constexpr double largest_damping = 1e4;
constexpr double freedom = 4.0;    // degrees of freedom of Student's t for readings
constexpr double widen_from = 1.3; // misfit that is still chance
constexpr int weight_rounds = 5;

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

Index at(std::size_t i) { return static_cast<Index>(i); }

std::vector<Wanted> everywhere(const Problem &problem, const VectorXd &u) {
  std::vector<Wanted> wanted;
  for (std::size_t k = 0; k < problem.logs.size(); ++k) {
    wanted.push_back({k, u});
  }
  return wanted;
}

bool all_whole(const std::vector<Trace> &traces) {
  return std::all_of(traces.begin(), traces.end(), [](const Trace &t) { return t.whole; });
}

/// Derivatives of every log's core by u, by central differences of `step`; a side that cannot be simulated is
/// left out.
std::vector<MatrixXd> sensitivities(const Problem &problem, const VectorXd &u, const std::vector<Trace> &base,
                                    const VectorXd &step, bool central) {
  std::vector<Wanted> wanted;
  struct Place {
    std::size_t log, number;
    double side;
  };
  std::vector<Place> places;
  for (std::size_t j = 0; j < problem.numbers.size(); ++j) {
    for (std::size_t k = 0; k < problem.logs.size(); ++k) {
      if (!problem.bears(j, k)) {
        continue;
      }
      for (const double side : {1.0, -1.0}) {
        if (side > 0.0 || central) {
          VectorXd moved = u;
          moved(at(j)) += side * step(at(j));
          wanted.push_back({k, moved});
          places.push_back({k, j, side});
        }
      }
    }
  }
  const std::vector<Trace> traces = problem.run(wanted);
  std::vector<MatrixXd> slopes;
  slopes.reserve(base.size());
  for (const Trace &trace : base) {
    slopes.emplace_back(MatrixXd::Zero(trace.core.size(), at(problem.numbers.size())));
  }
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (!traces[i].whole) {
      continue;
    }
    const Place &p = places[i];
    const bool paired = central && traces[p.side > 0.0 ? i + 1 : i - 1].whole;
    const double share = paired ? 0.5 : 1.0;
    slopes[p.log].col(at(p.number)) +=
        share * p.side * (traces[i].core - base[p.log].core) / step(at(p.number));
  }
  return slopes;
}

struct Normal {
  MatrixXd matrix;   ///< J' V^-1 J + P
  VectorXd gradient; ///< J' V^-1 r - P (u - m)
};

Normal normal_equations(const Problem &problem, const VectorXd &u, const std::vector<AtLog> &logs,
                        const std::vector<MatrixXd> &slopes) {
  Normal made{.matrix = problem.prior_precision,
              .gradient = -problem.prior_precision * (u - problem.prior_mean)};
  for (std::size_t k = 0; k < logs.size(); ++k) {
    if (logs[k].residual.size() > 0) {
      made.matrix += slopes[k].transpose() * logs[k].errors.solve(slopes[k]);
      made.gradient += slopes[k].transpose() * logs[k].errors.solve(logs[k].residual);
    }
  }
  return made;
}

std::vector<AtLog> weigh_all(const Problem &problem, const std::vector<Trace> &traces, double widened) {
  std::vector<AtLog> logs;
  for (std::size_t k = 0; k < traces.size(); ++k) {
    logs.push_back(weigh(problem, k, traces[k], widened));
  }
  return logs;
}

/// Mean square of whitened residuals over the number that a good fit leaves.
double misfit_of(const std::vector<AtLog> &logs, double learned) {
  double sum = 0.0;
  double count = 0.0;
  for (const AtLog &log : logs) {
    if (log.residual.size() > 0) {
      sum += log.residual.dot(log.errors.solve(log.residual));
      count += static_cast<double>(log.residual.size());
    }
  }
  return count > learned + 1.0 ? sum / (count - learned) : 1.0;
}

class Search {
public:
  Search(const Problem &problem, VectorXd from, double longest)
      : problem_(&problem), u_(std::move(from)), longest_(longest) {
    traces_ = problem.run(everywhere(problem, u_));
    if (!all_whole(traces_)) {
      const auto bad = std::find_if(traces_.begin(), traces_.end(), [](const Trace &t) { return !t.whole; });
      throw SolverFailure("the plan cannot be simulated along the log: " + bad->why,
                          std::make_shared<const Outcome>());
    }
    logs_ = weigh_all(*problem_, traces_, 1.0);
  }

  /// Until a step is small or the iterations are used up.
  void go(int iterations, double widened) {
    logs_ = weigh_all(*problem_, traces_, widened);
    converged_ = false;
    double damping = 1e-3;
    const VectorXd step = VectorXd::Constant(u_.size(), first_step);
    while (done_ < iterations && !converged_) {
      ++done_;
      const auto slopes = sensitivities(*problem_, u_, traces_, step, false);
      const Normal normal = normal_equations(*problem_, u_, logs_, slopes);
      const double before = cost(*problem_, u_, logs_, traces_);
      bool moved = false;
      while (!moved && damping < largest_damping) {
        MatrixXd damped = normal.matrix;
        damped.diagonal() *= 1.0 + damping;
        VectorXd move = damped.ldlt().solve(normal.gradient);
        move *= std::min(1.0, longest_ / std::max(move.norm(), 1e-12));
        const VectorXd tried = u_ + move;
        std::vector<Trace> traces = problem_->run(everywhere(*problem_, tried));
        const double after = all_whole(traces) ? cost(*problem_, tried, logs_, traces) : before + 1.0;
        if (after <= before) {
          u_ = tried;
          traces_ = std::move(traces);
          logs_ = weigh_all(*problem_, traces_, widened);
          damping = std::max(damping / 10.0, 1e-6);
          moved = true;
          converged_ = move.norm() < settled || before - after < no_better;
        } else {
          converged_ = move.norm() < settled;
          damping *= 10.0;
          if (converged_) {
            break;
          }
        }
      }
      if (!moved) {
        converged_ = converged_ || damping >= largest_damping;
        break;
      }
    }
  }

  /// Curvature by differences as wide as the answer is sure, so that it is that of the whole interval.
  MatrixXd curvature(bool likelihood_only) {
    VectorXd step = VectorXd::Constant(u_.size(), first_step);
    if (last_.size() == 0) {
      const auto rough = sensitivities(*problem_, u_, traces_, step, false);
      const MatrixXd spread = normal_equations(*problem_, u_, logs_, rough).matrix.inverse();
      for (Index j = 0; j < u_.size(); ++j) {
        step(j) = std::clamp(0.7 * std::sqrt(spread(j, j)), least_step, 0.7);
      }
      central_ = sensitivities(*problem_, u_, traces_, step, true);
      last_ = step;
    }
    MatrixXd matrix = normal_equations(*problem_, u_, logs_, central_).matrix;
    return likelihood_only ? MatrixXd(matrix - problem_->prior_precision) : matrix;
  }

  /// A few more iterations, with other errors.
  void more(int iterations, double widened) { go(done_ + iterations, widened); }

  void forget_curvature() { last_.resize(0); }

  Solution take(double misfit, double widened) {
    Solution s;
    s.u = u_;
    s.covariance = curvature(false).inverse();
    s.logs = logs_;
    s.misfit = misfit;
    s.widened = widened;
    s.iterations = done_;
    s.converged = converged_;
    return s;
  }

  [[nodiscard]] double misfit() {
    // Numbers that the logs teach: trace of the likelihood's share of the curvature.
    const double learned = (curvature(true) * curvature(false).inverse()).trace();
    return misfit_of(logs_, learned);
  }

private:
  const Problem *problem_;
  VectorXd u_;
  double longest_; ///< step of the search
  std::vector<Trace> traces_;
  std::vector<AtLog> logs_;
  std::vector<MatrixXd> central_;
  VectorXd last_;
  int done_ = 0;
  bool converged_ = false;
};

} // namespace

AtLog weigh(const Problem &problem, std::size_t log, Trace trace, double widened) {
  AtLog made;
  const VectorXd variance = problem.variance(log);
  const auto n = variance.size();
  made.residual = problem.observed(log) - trace.core;
  made.weight = VectorXd::Ones(n);
  const double square = widened * widened;
  for (int round = 0; round < (problem.robust ? weight_rounds : 1); ++round) {
    const VectorXd own = variance.cwiseQuotient(made.weight);
    const MatrixXd v = square * covariance(problem.error, problem.logs[log].data.time, trace.slope, own);
    made.errors.compute(v);
    made.deviation = v.diagonal().cwiseSqrt();
    if (!problem.robust || n == 0) {
      break;
    }
    // The thermometer's share of the residual, and how odd it is.
    const VectorXd noise = square * own.cwiseProduct(made.errors.solve(made.residual));
    VectorXd weight(n);
    for (Index i = 0; i < n; ++i) {
      const double odd = noise(i) * noise(i) / (square * variance(i));
      weight(i) = std::min(1.0, (freedom + 1.0) / (freedom + odd));
    }
    const bool same = (weight - made.weight).cwiseAbs().maxCoeff() < 0.02;
    if (same || round + 1 == weight_rounds) {
      break;
    }
    made.weight = weight;
  }
  made.trace = std::move(trace);
  return made;
}

double cost(const Problem &problem, const VectorXd &u, const std::vector<AtLog> &errors,
            const std::vector<Trace> &traces) {
  const VectorXd off = u - problem.prior_mean;
  double sum = off.dot(problem.prior_precision * off);
  for (std::size_t k = 0; k < traces.size(); ++k) {
    if (!traces[k].whole) {
      return std::numeric_limits<double>::infinity();
    }
    const VectorXd residual = problem.observed(k) - traces[k].core;
    if (residual.size() > 0) {
      sum += residual.dot(errors[k].errors.solve(residual));
    }
  }
  return sum;
}

Solution solve(const Problem &problem, const VectorXd &from, int max_iterations) {
  Search search(problem, from, largest_move);
  search.go(max_iterations, 1.0);
  double misfit = search.misfit();
  if (misfit > bad_misfit) {
    // A narrow valley of its own: once more with short steps, and at first with errors so wide that the
    // valleys run together (continuation).
    Search careful(problem, problem.prior_mean, careful_move);
    for (const double wide : {8.0, 3.0, 1.0}) {
      careful.more(max_iterations, wide);
    }
    if (const double other = careful.misfit(); other < misfit) {
      search = std::move(careful);
      misfit = other;
    }
  }
  double widened = 1.0;
  if (misfit > widen_from) {
    // What is left is more than the errors stated: all of them are widened by as much.
    widened = std::sqrt(misfit);
    constexpr int more = 4;
    search.forget_curvature();
    search.more(more, widened);
  }
  return search.take(misfit, widened);
}

} // namespace cook::fit
