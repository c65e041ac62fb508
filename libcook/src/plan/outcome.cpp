#include "cook/plan/outcome.hpp"

#include <algorithm>
#include <cmath>

#include "cook/errors.hpp"
#include "plan/locate_place.hpp"

namespace cook {

namespace {

/// Index of the interval that holds `x` and the share of the way through it; clamped to the ends.
struct Place {
  std::size_t index;
  double share;
};

Place find_place(const std::vector<double> &axis, double x) {
  if (axis.size() < 2 || x <= axis.front()) {
    return {0, 0.0};
  }
  if (x >= axis.back()) {
    return {axis.size() - 2, 1.0};
  }
  const auto next = static_cast<std::size_t>(std::upper_bound(axis.begin(), axis.end(), x) - axis.begin());
  return {next - 1, (x - axis[next - 1]) / (axis[next] - axis[next - 1])};
}

} // namespace

double Outcome::core_at(double seconds) const {
  if (time.empty()) {
    throw InvalidInput("time", "the outcome is empty");
  }
  check::within("time", seconds, time.front(), time.back(), "s", "outside the simulated cook");
  if (time.size() == 1) {
    return core.front();
  }
  const Place p = find_place(time, seconds);
  return core[p.index] + p.share * (core[p.index + 1] - core[p.index]);
}

std::vector<double> Outcome::probe(double position_m) const {
  if (columns > 0) {
    throw InvalidInput("probe", "a cross-section needs a place (x, z), not a depth");
  }
  if (temperature.empty()) {
    throw InvalidInput("probe", "the fields were not kept; run with keep_fields on");
  }
  check::within("probe", position_m, position.front(), position.back(), "m",
                "depth from the bottom face, in metres: 20 mm is 0.02, or write '20 mm'");
  const auto middle = static_cast<std::ptrdiff_t>(nodes()) / std::max(lines, 1);
  const Place p = find_place({position.begin(), position.begin() + middle}, position_m);
  const std::size_t n = nodes();
  std::vector<double> trace(times());
  for (std::size_t i = 0; i < trace.size(); ++i) {
    const double low = temperature[i * n + p.index];
    trace[i] = low + p.share * (temperature[i * n + p.index + 1] - low);
  }
  return trace;
}

std::vector<double> Outcome::probe(double x, double z) const {
  if (columns == 0) {
    throw InvalidInput("probe",
                       "a place (x, z) needs a run on a cross-section; in one dimension give a depth");
  }
  if (temperature.empty()) {
    throw InvalidInput("probe", "the fields were not kept; run with keep_fields on");
  }
  const std::size_t n = nodes();
  const auto place = engine::locate_place(along, position, n / static_cast<std::size_t>(columns), x, z);
  constexpr double bevel = 0.01; // the mesh leaves out a sliver where its end faces lean
  if (!(place.off <= bevel)) {
    throw InvalidInput("probe",
                       "(" + format_number(x) + " m, " + format_number(z) +
                           " m) lies outside the meat; x counts from the flat end, z from the bottom "
                           "face, in metres or as '120 mm'");
  }
  std::vector<double> trace(times(), 0.0);
  for (std::size_t i = 0; i < trace.size(); ++i) {
    for (std::size_t c = 0; c < place.node.size(); ++c) {
      trace[i] += place.weight[c] * temperature[i * n + place.node[c]];
    }
  }
  return trace;
}

} // namespace cook
