/// @file
/// Food-safety readings: lethality, danger zone, come-up, hot holding, cooling. Cautions, never permission.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "cook/meat/kinetics.hpp"
#include "cook/readings/limits.hpp"
#include "cook/readings/readings.hpp"
#include "cook/units.hpp"
#include "readings/reading_tools.hpp"

namespace cook {

namespace {

namespace limits = safety_limits;

constexpr const char *caution = "Follow your local food-safety rules: they come first. These readings are "
                                "computed, not measured; check the meat "
                                "with a probe in its coldest part. They are never a permission to serve.";

std::string tenth(double value) { return format_number(std::round(value * 10.0) / 10.0); }
std::string whole_fahrenheit(double celsius) {
  return format_number(std::round(fahrenheit_from_celsius(celsius)));
}
std::string both(double celsius) { return tenth(celsius) + " °C (" + whole_fahrenheit(celsius) + " °F)"; }
std::string both(double from, double to) {
  return tenth(from) + " to " + tenth(to) + " °C (" + whole_fahrenheit(from) + " to " + whole_fahrenheit(to) +
         " °F)";
}
std::string hours(double seconds) { return tenth(hours_from_seconds(seconds)) + " h"; }

/// Integral of lethality_rate while the temperature goes from a to b in a straight line [decimal reductions].
/// Exact: nothing below the range, an exponential within, constant beyond.
double lethality(double a, double b, double seconds) {
  const double low = std::min(a, b);
  const double high = std::max(a, b);
  if (high < lethality_range_low) {
    return 0.0;
  }
  constexpr double steady = 1e-9; // K
  if (high - low < steady) {
    return lethality_rate(high) * seconds;
  }
  const double from = std::max(low, lethality_range_low);
  const double to = std::min(high, lethality_range_high);
  double integral = 0.0; // over the temperature
  if (to > from) {
    constexpr double per_kelvin = std::numbers::ln10 / lethality_z;
    integral += lethality_rate(from) * std::expm1(per_kelvin * (to - from)) / per_kelvin;
  }
  if (high > lethality_range_high) {
    integral += lethality_rate(high) * (high - std::max(low, lethality_range_high));
  }
  return integral * seconds / (high - low);
}

/// Least decimal reductions of all places, over time.
std::vector<double> least_reductions(const Outcome &outcome) {
  const bool fields = readings::has_fields(outcome);
  const std::vector<double> &trace = fields ? outcome.temperature : outcome.coldest;
  const std::size_t places = fields ? outcome.nodes() : 1;
  std::vector<double> sum(places, 0.0);
  std::vector<double> least(outcome.times(), 0.0);
  for (std::size_t i = 1; i < outcome.times(); ++i) {
    const double length = outcome.time[i] - outcome.time[i - 1];
    for (std::size_t k = 0; k < places; ++k) {
      sum[k] += lethality(trace[(i - 1) * places + k], trace[i * places + k], length);
    }
    least[i] = *std::min_element(sum.begin(), sum.end());
  }
  return least;
}

void read_lethality(const Outcome &outcome, Safety &safety) {
  const std::vector<double> least = least_reductions(outcome);
  safety.log_reduction = least.back();
  const auto passed = std::lower_bound(least.begin(), least.end(), lethality_log_low); // it never falls
  if (passed != least.end()) {
    safety.lethality_at = readings::crossing(
        outcome.time, least, static_cast<std::size_t>(passed - least.begin()), lethality_log_low);
    return;
  }
  safety.warnings.push_back("The coldest part reaches " + tenth(safety.log_reduction) +
                            " decimal reductions of Salmonella, not the " + tenth(lethality_log_low) +
                            " of the USDA FSIS cooking guideline, Appendix A.");
}

/// Time from come_up_from (or the start) to come_up_to at the coldest point, and the warning when it takes
/// too long.
void read_come_up(const Outcome &outcome, Safety &safety) {
  const std::vector<double> &cold = outcome.coldest;
  double begin = outcome.time.front();
  double spent = 0.0;
  bool warm = cold.front() >= limits::come_up_from;
  for (std::size_t i = 1; i < cold.size() && safety.come_up < 0.0; ++i) {
    if (!warm && cold[i] >= limits::come_up_from) {
      warm = true;
      begin = readings::crossing(outcome.time, cold, i, limits::come_up_from);
    }
    if (warm) {
      spent = outcome.time[i] - begin;
    }
    if (cold[i] >= limits::come_up_to) {
      spent = readings::crossing(outcome.time, cold, i, limits::come_up_to) - begin;
      safety.come_up = cold.front() >= limits::come_up_to ? 0.0 : spent;
    } else if (cold[i] < limits::come_up_from) {
      warm = false;
      spent = 0.0;
    }
  }
  if (spent > limits::come_up_limit * seconds_per_hour) {
    const std::string span = both(limits::come_up_from, limits::come_up_to);
    const std::string where =
        safety.come_up < 0.0 ? "has not come from " + span + " after " : "takes from " + span + " ";
    safety.warnings.push_back("The coldest part " + where + hours(spent) +
                              "; USDA FSIS guidance (Appendix A, from memory) limits it to " +
                              tenth(limits::come_up_limit) + " h.");
  }
}

/// Warns when a cooling step of the Food Code takes too long, or has run out of time within the outcome.
void check_cooling(const Outcome &outcome, std::size_t from, double level, double limit_hours,
                   const std::string &rule, Safety &safety) {
  const std::optional<double> reached = readings::falls_through(outcome.time, outcome.core, from, level);
  const double spent = reached.value_or(outcome.time.back()) - safety.cooling_start;
  if (spent > limit_hours * seconds_per_hour) {
    safety.warnings.push_back("The core " + std::string(reached ? "takes " : "has not cooled after ") +
                              hours(spent) + (reached ? " to cool" : "") + " from " +
                              both(limits::hot_holding, level) + "; FDA Food Code 3-501.14 allows " +
                              tenth(limit_hours) + rule + ".");
  }
}

void read_cooling(const Outcome &outcome, Safety &safety) {
  const std::size_t peak = readings::peak_index(outcome);
  const std::optional<double> falls =
      readings::falls_through(outcome.time, outcome.core, peak, limits::hot_holding);
  if (!falls) {
    return;
  }
  safety.cooling_start = *falls;
  safety.warnings.push_back("From " + hours(*falls) + " on the core is below " + both(limits::hot_holding) +
                            ": that is no hot holding (FDA Food Code 3-501.16). Serve it by then, or cool it "
                            "within the times of 3-501.14.");
  check_cooling(outcome, peak, limits::cooling_middle, limits::first_cooling, " h", safety);
  check_cooling(outcome, peak, limits::cold_holding, limits::whole_cooling, " h in all", safety);
}

void read_danger_zone(const Outcome &outcome, Safety &safety) {
  const auto peak = static_cast<std::size_t>(std::max_element(outcome.core.begin(), outcome.core.end()) -
                                             outcome.core.begin());
  const auto warming = [&](const std::vector<double> &trace) {
    return readings::time_within(outcome.time, trace, 0, peak, limits::cold_holding, limits::hot_holding);
  };
  safety.core_danger_time = warming(outcome.core);
  for (std::size_t face = 0; face < outcome.surface.size(); ++face) {
    if (readings::has_face(outcome, face)) {
      safety.surface_danger_time = std::max(safety.surface_danger_time, warming(outcome.surface[face]));
    }
  }
}

} // namespace

Safety safety(const Outcome &outcome) {
  readings::require_samples(outcome);
  Safety safety;
  safety.caution = caution;
  read_lethality(outcome, safety);
  read_danger_zone(outcome, safety);
  read_come_up(outcome, safety);
  read_cooling(outcome, safety);
  return safety;
}

} // namespace cook
