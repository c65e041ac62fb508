#include "fit/calibrate/taught.hpp"

#include <algorithm>
#include <cmath>

#include "fit/belief/belief.hpp"

namespace cook::fit {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

bool alike(double a, double b) {
  constexpr double within = 0.05; // share: what scales and rulers in a kitchen leave open
  return std::abs(a - b) <= within * std::max(std::abs(a), std::abs(b));
}

bool looks_like(const Meat &one, const Meat &other) {
  return one.tissue.name == other.tissue.name && one.shape.kind == other.shape.kind &&
         alike(one.mass(), other.mass()) && alike(one.shape.thickness, other.shape.thickness);
}

/// A number of the problem and the fit's estimate of it.
struct Pair {
  Index ours;
  std::size_t theirs;
};

std::vector<Pair> pairs_of(const Problem &problem, const Fit &fit) {
  const auto piece = same_piece(fit, problem.logs.front().asked.meat);
  std::vector<Pair> pairs;
  for (std::size_t j = 0; j < problem.numbers.size(); ++j) {
    const std::string &name = problem.numbers[j].kind->name;
    for (std::size_t k = 0; k < fit.estimates.size(); ++k) {
      const Estimate &e = fit.estimates[k];
      const bool shared = e.log < 0;
      const bool of_the_piece =
          piece && e.log == static_cast<int>(*piece) && name != "start" && name != "probe_distance";
      if (e.name == name && (shared || of_the_piece)) {
        pairs.push_back({static_cast<Index>(j), k});
      }
    }
  }
  return pairs;
}

/// Variance by which a second piece differs from the one that was fitted [prior variances of the fit].
double of_another_piece(const Estimate &e, double known) {
  if (e.log < 0) {
    return 0.0;
  }
  const double believed = believed_scatter(e.name);
  const double scatter = believed > 0.0 ? believed : free_kind(e.name).spread;
  const double share = scatter / e.prior_spread;
  return std::clamp(share * share, 0.0, std::max(1.0 - known, 0.0));
}

} // namespace

std::optional<std::size_t> same_piece(const Fit &fit, const Meat &meat) {
  for (std::size_t i = fit.asked.size(); i-- > 0;) {
    if (looks_like(fit.asked[i].meat, meat) || looks_like(fit.plans[i].meat, meat)) {
      return i;
    }
  }
  return {};
}

void believe(Problem &problem, const Fit &fit) {
  const std::vector<Pair> pairs = pairs_of(problem, fit);
  const auto m = static_cast<Index>(pairs.size());
  if (m == 0) {
    return;
  }
  const std::size_t n = fit.estimates.size();
  std::vector<Index> taught;
  VectorXd mean(m);
  MatrixXd covariance(m, m);
  for (Index a = 0; a < m; ++a) {
    const auto [ours, theirs] = pairs[static_cast<std::size_t>(a)];
    taught.push_back(ours);
    mean(a) = problem.numbers[static_cast<std::size_t>(ours)].deviations(fit.estimates[theirs].value);
    for (Index b = 0; b < m; ++b) {
      covariance(a, b) = fit.covariance[theirs * n + pairs[static_cast<std::size_t>(b)].theirs];
    }
    covariance(a, a) += of_another_piece(fit.estimates[theirs], covariance(a, a));
  }
  for (Index a = 0; a < m; ++a) { // from the fit's standard deviations beforehand to ours
    const auto [ours, theirs] = pairs[static_cast<std::size_t>(a)];
    const double scale =
        fit.estimates[theirs].prior_spread / problem.numbers[static_cast<std::size_t>(ours)].spread;
    covariance.row(a) *= scale;
    covariance.col(a) *= scale;
  }
  const MatrixXd before = problem.prior_precision.inverse();
  const MatrixXd known = MatrixXd(before(taught, taught)).inverse();
  problem.prior_mean = before(Eigen::all, taught) * (known * mean);
  problem.prior_precision(taught, taught) += covariance.inverse() - known;
}

} // namespace cook::fit
