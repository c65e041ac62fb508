#include "cook/readings/doneness.hpp"

#include <algorithm>
#include <cmath>

#include "cook/readings/readings.hpp"
#include "readings/reading_tools.hpp"

namespace cook {

namespace {

void require_fields(const Outcome &outcome, const char *what) {
  readings::require_samples(outcome);
  if (!readings::has_fields(outcome)) {
    throw InvalidInput(what, "the fields were not kept; run with keep_fields on");
  }
}

/// Extreme over the nodes at every time [°C].
template <class Better> std::vector<double> extreme(const Outcome &outcome, const Better &better) {
  const std::size_t n = outcome.nodes();
  std::vector<double> result(outcome.times());
  for (std::size_t i = 0; i < result.size(); ++i) {
    const double *row = &outcome.temperature[i * n];
    result[i] = *std::max_element(row, row + n, better);
  }
  return result;
}

} // namespace

std::vector<double> tenderness_by_node(const Outcome &outcome, std::optional<double> at) {
  require_fields(outcome, "tenderness_by_node");
  const double until = at.value_or(outcome.time.back());
  check::within("at", until, outcome.time.front(), outcome.time.back(), "s", "outside the simulated cook");
  const Tenderness &t = outcome.plan.meat.tissue.tenderness;
  const Arrhenius conversion = Arrhenius::from_reference(t.rate_90, 90.0, t.activation);
  const std::size_t n = outcome.nodes();
  std::vector<double> exposure(n, 0.0);
  std::vector<double> before(n);
  for (std::size_t p = 0; p < n; ++p) {
    before[p] = conversion.rate(outcome.temperature[p]);
  }
  for (std::size_t i = 1; i < outcome.times() && outcome.time[i - 1] < until; ++i) {
    const double step = std::min(outcome.time[i], until) - outcome.time[i - 1];
    const double *a = &outcome.temperature[(i - 1) * n];
    const double *b = &outcome.temperature[i * n];
    for (std::size_t p = 0; p < n; ++p) {
      const double now = conversion.rate(b[p]);
      exposure[p] += step / 6.0 * (before[p] + 4.0 * conversion.rate(0.5 * (a[p] + b[p])) + now);
      before[p] = now;
    }
  }
  for (double &e : exposure) {
    e = -std::expm1(-e);
  }
  return exposure;
}

std::array<Bark, 2> bark(const Outcome &outcome, const Browning &browning) {
  readings::require_samples(outcome);
  browning.validate();
  const Sorption &sorption = outcome.plan.meat.tissue.sorption;
  std::array<Bark, 2> result;
  for (std::size_t face = 0; face < 2; ++face) {
    if (!readings::has_face(outcome, face)) {
      continue;
    }
    const auto &water = outcome.surface_water[face];
    const auto &heat = outcome.surface[face];
    const auto rate = [&](std::size_t i) {
      return browning.rate(heat[i], sorption.water_activity(std::max(water[i], 0.0)));
    };
    Bark &b = result[face];
    b.driest = water.front();
    for (std::size_t i = 1; i < outcome.times(); ++i) {
      const double step = outcome.time[i] - outcome.time[i - 1];
      const double more = 0.5 * step * (rate(i - 1) + rate(i));
      if (!b.set_at && b.index + more >= 1.0) {
        b.set_at = outcome.time[i - 1] + step * (more > 0.0 ? (1.0 - b.index) / more : 1.0);
      }
      b.index += more;
      b.driest = std::min(b.driest, water[i]);
    }
  }
  return result;
}

std::vector<double> hottest(const Outcome &outcome) {
  require_fields(outcome, "hottest");
  return extreme(outcome, [](double a, double b) { return a < b; });
}

HotHold hot_hold(const Outcome &outcome, double limit, double slicing) {
  require_fields(outcome, "hot_hold");
  check::celsius("limit", limit, 0.0, 100.0);
  check::celsius("slicing", slicing, 0.0, 100.0);
  HotHold hold;
  std::size_t from = 0;
  if (const auto carried = carryover(outcome)) {
    hold.pulled_at = carried->pulled_at;
    from = readings::index_at(outcome, hold.pulled_at);
  }
  const std::vector<double> hot = hottest(outcome);
  const std::vector<double> &cold = outcome.coldest;
  // From their peaks on: a piece pulled early still warms in its middle.
  const auto peak = [from](const std::vector<double> &trace) {
    const auto begin = trace.begin() + static_cast<std::ptrdiff_t>(from);
    return static_cast<std::size_t>(std::max_element(begin, trace.end()) - trace.begin());
  };
  hold.coldest_until = readings::falls_through(outcome.time, cold, peak(cold), limit);
  hold.hottest_until = readings::falls_through(outcome.time, hot, peak(hot), limit);
  hold.slice_at = readings::falls_through(outcome.time, hot, peak(hot), slicing);
  hold.coldest_at_end = cold.back();
  hold.hottest_at_end = hot.back();
  return hold;
}

} // namespace cook
