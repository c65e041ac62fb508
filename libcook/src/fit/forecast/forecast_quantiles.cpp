/// @file
/// When the possible cooks of a forecast end, as quantiles and chances.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "cook/errors.hpp"
#include "cook/fit/forecast.hpp"

namespace cook {

namespace {

std::size_t stages_of(const Forecast &forecast) { return forecast.plan.stages.size(); }

void check_stage(const Forecast &forecast, std::size_t stage) {
  if (stage >= stages_of(forecast)) {
    throw InvalidInput("stage", std::to_string(stage) + "; the plan has " +
                                    std::to_string(stages_of(forecast)) + " stages, counted from 0");
  }
}

void check_share(double q) {
  check::finite("q", q);
  if (q <= 0.0 || q >= 1.0) {
    throw InvalidInput("q", format_number(q) + "; accepted: above 0 and below 1" +
                                (q > 1.0 && q < 100.0 ? "; 90 % is 0.9" : ""));
  }
}

} // namespace

double weighted_quantile(std::vector<double> value, const std::vector<double> &weight, double q) {
  check_share(q);
  if (value.empty() || value.size() != weight.size()) {
    throw InvalidInput("weight", std::to_string(weight.size()) + " weights for " +
                                     std::to_string(value.size()) + " values; one each is needed");
  }
  std::vector<std::size_t> order(value.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return value[a] < value[b]; });
  const double total = std::accumulate(weight.begin(), weight.end(), 0.0);
  double passed = 0.0;
  double share_before = 0.0;
  double value_before = 0.0;
  bool first = true;
  for (const std::size_t i : order) {
    if (!(weight[i] > 0.0)) {
      continue;
    }
    const double middle = (passed + 0.5 * weight[i]) / total;
    if (middle >= q) {
      const double part = middle > share_before ? (q - share_before) / (middle - share_before) : 1.0;
      if (first || value_before == value[i]) {
        return value[i];
      }
      return std::isfinite(value[i]) ? value_before + part * (value[i] - value_before) : value[i];
    }
    passed += weight[i];
    share_before = middle;
    value_before = value[i];
    first = false;
  }
  return value_before;
}

std::vector<double> Forecast::ends(std::size_t stage) const {
  check_stage(*this, stage);
  std::vector<double> made;
  for (std::size_t i = 0; i < members(); ++i) {
    made.push_back(stage_end[i * stages_of(*this) + stage]);
  }
  return made;
}

double quantile_of_ends(const std::vector<double> &end, const std::vector<double> &weight, double q) {
  check_share(q);
  std::vector<double> some;
  std::vector<double> counts;
  for (std::size_t i = 0; i < end.size(); ++i) {
    if (std::isfinite(end[i])) {
      some.push_back(end[i]);
      counts.push_back(weight[i]);
    }
  }
  const bool any = std::any_of(counts.begin(), counts.end(), [](double w) { return w > 0.0; });
  return any ? weighted_quantile(some, counts, q) : std::numeric_limits<double>::infinity();
}

double share_after(const std::vector<double> &end, const std::vector<double> &weight, double moment) {
  double late = 0.0;
  for (std::size_t i = 0; i < end.size(); ++i) {
    late += end[i] > moment ? weight[i] : 0.0;
  }
  return std::min(late, 1.0);
}

// Cooks that never end are told as a share (never(), notes), and decide nothing.
double Forecast::quantile(double q, std::size_t stage) const {
  return quantile_of_ends(ends(stage), weight, q);
}

double Forecast::never(std::size_t stage) const {
  return chance_after(std::numeric_limits<double>::max(), stage);
}

double Forecast::chance_after(double seconds, std::size_t stage) const {
  return share_after(ends(stage), weight, seconds);
}

std::vector<double> Forecast::core_quantile(double q) const {
  check_share(q);
  std::vector<double> made;
  std::vector<double> at(members());
  for (std::size_t k = 0; k < time.size(); ++k) {
    for (std::size_t i = 0; i < members(); ++i) {
      at[i] = core[i * time.size() + k];
    }
    made.push_back(weighted_quantile(at, weight, q));
  }
  return made;
}

} // namespace cook
