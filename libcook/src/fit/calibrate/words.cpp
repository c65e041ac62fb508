#include "fit/calibrate/words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "cook/errors.hpp"
#include "cook/units.hpp"

namespace cook::fit {

namespace {

std::string plain(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

std::string called(const Fit &fit, const Estimate &e) {
  const bool several = fit.plans.size() > 1 && e.log >= 0;
  return plain(e.name) + (several ? " (" + fit.series[static_cast<std::size_t>(e.log)].name + ")" : "");
}

std::string rounded(double value) {
  std::array<char, 32> buffer{};
  std::snprintf(buffer.data(), buffer.size(), std::fabs(value) < 100.0 ? "%.2g" : "%.0f", value);
  return buffer.data();
}

/// A quantity with the units of both scales: a report shows the one that its log speaks.
std::string in_both(double value, const std::string &unit, bool difference = false) {
  const auto both = [](double imperial, const char *there, double metric, const char *here) {
    return rounded(imperial) + " " + there + " (" + rounded(metric) + " " + here + ")";
  };
  if (unit == "°C" && !difference) {
    return format_degrees(value);
  }
  if (unit == "°C" || unit == "K") {
    return both(fahrenheit_difference_from_kelvin(value), "°F", value, "K");
  }
  if (unit == "m") {
    return both(inches_from_metres(value), "in", 1e3 * value, "mm");
  }
  if (unit == "kg/s") {
    return both(seconds_per_hour * pounds_from_kilograms(value), "lb/h", 1e3 * value, "g/s");
  }
  return unit == "Pa" ? rounded(1e-3 * value) + " kPa" : rounded(value) + (unit == "-" ? "" : " " + unit);
}

std::string percent(double share) {
  std::array<char, 32> buffer{};
  std::snprintf(buffer.data(), buffer.size(), share < 0.0095 ? "%.1f %%" : "%.0f %%", 100.0 * share);
  return buffer.data();
}

/// "it tells their ratio to ±4 %": the combination that the log does tell.
std::string combination(const Fit &fit, std::size_t a, std::size_t b) {
  const Estimate &ea = fit.estimates[a];
  const Estimate &eb = fit.estimates[b];
  const double rho = fit.correlation(a, b);
  const double sign = rho > 0.0 ? -1.0 : 1.0; // which combination is sharp
  const double variance = ea.deviation * ea.deviation + eb.deviation * eb.deviation -
                          2.0 * std::fabs(rho) * ea.deviation * eb.deviation;
  const double deviation = std::sqrt(std::max(variance, 0.0));
  if (ea.scale == Scale::logarithmic && eb.scale == Scale::logarithmic) {
    return std::string("it tells their ") + (sign < 0.0 ? "ratio" : "product") + " to ±" + percent(deviation);
  }
  if (ea.unit == eb.unit && ea.scale == eb.scale) {
    return std::string("it tells their ") + (sign < 0.0 ? "difference" : "sum") + " to ±" +
           in_both(deviation, ea.unit, true);
  }
  return std::string("a higher ") + plain(ea.name) + " with a " + (rho > 0.0 ? "higher " : "lower ") +
         plain(eb.name) + " fits as well";
}

} // namespace

std::vector<std::string> notes_on(const Fit &fit) {
  std::vector<std::string> notes;
  const std::string log = fit.plans.size() > 1 ? "these logs" : "this log";
  for (const Estimate &e : fit.estimates) {
    if (e.learned < told_little) {
      notes.push_back(log + (fit.plans.size() > 1 ? " tell" : " tells") + " little about " + called(fit, e) +
                      ": it is known hardly better than before");
    }
  }
  for (std::size_t a = 0; a < fit.estimates.size(); ++a) {
    for (std::size_t b = a + 1; b < fit.estimates.size(); ++b) {
      if (std::fabs(fit.correlation(a, b)) > tied) {
        notes.push_back(log + " cannot tell " + called(fit, fit.estimates[a]) + " and " +
                        called(fit, fit.estimates[b]) + " apart; " + combination(fit, a, b));
      }
    }
  }
  for (const Estimate &e : fit.estimates) {
    const double off = e.scale == Scale::logarithmic ? std::log(e.value / e.prior) : e.value - e.prior;
    constexpr double far = 2.5; // standard deviations
    if (std::fabs(off) > far * e.prior_spread) {
      notes.push_back(called(fit, e) + " came out far from what was believed, " + in_both(e.value, e.unit) +
                      " against " + in_both(e.prior, e.unit) + ": something else in the plan may be off");
    }
  }
  if (fit.widened > 1.0) {
    notes.push_back(
        "the fit misses the log by more than thermometer and model error explain, so all intervals "
        "were widened by a factor of " +
        rounded(fit.widened) + "; look at the residuals");
  }
  for (const FitSeries &series : fit.series) {
    const auto odd =
        std::count_if(series.weight.begin(), series.weight.end(), [](double w) { return w < 0.5; });
    if (odd > 0) {
      notes.push_back(std::to_string(odd) + " of " + std::to_string(series.weight.size()) + " readings of " +
                      series.name + " count less: they stand out from their neighbours");
    }
  }
  if (!fit.converged) {
    notes.push_back("the search stopped after " + std::to_string(fit.iterations) +
                    " iterations before it settled: take the numbers with care, or allow more");
  }
  return notes;
}

} // namespace cook::fit
