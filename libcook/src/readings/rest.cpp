/// @file
/// Carryover and the time the core stays hot.
#include <algorithm>
#include <limits>

#include "cook/readings/readings.hpp"
#include "readings/reading_tools.hpp"

namespace cook {

namespace {

/// Integral of (air - core) over samples [from, to], trapezoid [K s].
double excess_heat(const Outcome &outcome, std::size_t from, std::size_t to) {
  double sum = 0.0;
  for (std::size_t i = from + 1; i <= to; ++i) {
    // The sample at a stage's beginning still carries the air of the stage before it, so the later end
    // counts.
    const double later = outcome.air[i] - outcome.core[i];
    const double earlier = i == from + 1 ? later : outcome.air[i - 1] - outcome.core[i - 1];
    sum += 0.5 * (earlier + later) * (outcome.time[i] - outcome.time[i - 1]);
  }
  return sum;
}

/// End of the last heated stage, as an index of the time axis; empty when the heat is on to the end or never
/// was.
std::optional<std::size_t> pulled_index(const Outcome &outcome) {
  std::optional<std::size_t> pulled;
  std::size_t from = 0;
  for (const StageEnd &stage : outcome.stage_ends) {
    const std::size_t to = readings::index_at(outcome, stage.time);
    if (to > from && excess_heat(outcome, from, to) > 0.0) {
      pulled = to;
    }
    from = to;
  }
  const std::size_t last = outcome.times() - 1;
  // A stage that was cut short by a failure has no end of its own.
  if (from < last && excess_heat(outcome, from, last) > 0.0) {
    return {};
  }
  return pulled && *pulled < last ? pulled : std::nullopt;
}

} // namespace

std::optional<Carryover> carryover(const Outcome &outcome) {
  readings::require_samples(outcome);
  const std::optional<std::size_t> pulled = pulled_index(outcome);
  if (!pulled) {
    return {};
  }
  const auto first = outcome.core.begin() + static_cast<std::ptrdiff_t>(*pulled);
  const auto peak =
      static_cast<std::size_t>(std::max_element(first, outcome.core.end()) - outcome.core.begin());
  return Carryover{.pulled_at = outcome.time[*pulled],
                   .pulled_core = outcome.core[*pulled],
                   .peak = outcome.core[peak],
                   .peak_at = outcome.time[peak]};
}

std::optional<double> falls_to(const Outcome &outcome, double celsius) {
  readings::require_samples(outcome);
  check::celsius("falls_to", celsius, -40.0, 150.0);
  return readings::falls_through(outcome.time, outcome.core, readings::peak_index(outcome), celsius);
}

double time_above(const Outcome &outcome, double celsius) {
  readings::require_samples(outcome);
  check::celsius("time_above", celsius, -40.0, 150.0);
  return readings::time_within(outcome.time, outcome.core, pulled_index(outcome).value_or(0),
                               outcome.times() - 1, celsius, std::numeric_limits<double>::infinity());
}

namespace readings {

std::size_t index_at(const Outcome &outcome, double seconds) {
  constexpr double same_moment = 1e-5; // s; the recorder drops moments closer than that
  const auto found = std::lower_bound(outcome.time.begin(), outcome.time.end(), seconds - same_moment);
  return std::min(static_cast<std::size_t>(found - outcome.time.begin()), outcome.times() - 1);
}

double crossing(const std::vector<double> &time, const std::vector<double> &trace, std::size_t i,
                double level) {
  const double step = trace[i] - trace[i - 1];
  const double share = step == 0.0 ? 1.0 : std::clamp((level - trace[i - 1]) / step, 0.0, 1.0);
  return time[i - 1] + share * (time[i] - time[i - 1]);
}

std::optional<double> falls_through(const std::vector<double> &time, const std::vector<double> &trace,
                                    std::size_t from, double level) {
  for (std::size_t i = from + 1; i < trace.size(); ++i) {
    if (trace[i - 1] >= level && trace[i] < level) {
      return crossing(time, trace, i, level);
    }
  }
  return {};
}

double time_within(const std::vector<double> &time, const std::vector<double> &trace, std::size_t from,
                   std::size_t to, double low, double high) {
  double sum = 0.0;
  for (std::size_t i = from + 1; i <= to; ++i) {
    const double a = std::min(trace[i - 1], trace[i]);
    const double b = std::max(trace[i - 1], trace[i]);
    const double length = time[i] - time[i - 1];
    if (a == b) {
      sum += a >= low && a <= high ? length : 0.0;
    } else {
      sum += length * std::max(0.0, std::min(b, high) - std::max(a, low)) / (b - a);
    }
  }
  return sum;
}

std::size_t peak_index(const Outcome &outcome) {
  const std::size_t from = pulled_index(outcome).value_or(0);
  const auto first = outcome.core.begin() + static_cast<std::ptrdiff_t>(from);
  return static_cast<std::size_t>(std::max_element(first, outcome.core.end()) - outcome.core.begin());
}

} // namespace readings

} // namespace cook
