#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>

#include "cook/errors.hpp"
#include "cook/plan/outcome.hpp"
#include "cook/plan/words.hpp"

namespace cook {

namespace {

void check_length(const std::string &field, std::size_t length, std::size_t needed, std::string_view what) {
  if (length != needed) {
    throw InvalidInput(field, std::to_string(length) + " values came; " + std::to_string(needed) +
                                  " are needed, one for each " + std::string(what));
  }
}

/// What is written on request, or only for some shapes, may be empty.
void check_length_or_empty(const std::string &field, std::size_t length, std::size_t needed,
                           std::string_view what) {
  if (length != 0) {
    check_length(field, length, needed, what);
  }
}

void check_times(const std::vector<double> &time) {
  if (time.empty()) {
    throw InvalidInput("time", "empty; an outcome has one time at least");
  }
  for (std::size_t i = 1; i < time.size(); ++i) {
    if (!(time[i] > time[i - 1])) {
      throw InvalidInput("time[" + std::to_string(i) + "]", format_number(time[i]) + " s after " +
                                                                format_number(time[i - 1]) +
                                                                " s; times must increase");
    }
  }
}

/// A face has all of its traces, or none.
void check_face(const Outcome &out, std::size_t face) {
  const std::string at = "[" + std::to_string(face) + "]";
  const std::string surface = "surface" + at;
  const std::size_t samples = out.surface[face].size();
  check_length_or_empty(surface, samples, out.times(), "time");
  check_length("surface_water" + at, out.surface_water[face].size(), samples, surface);
  check_length("film" + at, out.film[face].size(), samples, surface);
  for (std::size_t path = 0; path < face_paths; ++path) {
    check_length("paths" + at + "." + std::string(words(FacePath{})[path]), out.paths[face][path].size(),
                 samples, surface);
  }
}

} // namespace

void Outcome::validate() const {
  check_times(time);
  const std::initializer_list<std::pair<const char *, const std::vector<double> *>> traces{
      {"core", &core},
      {"coldest", &coldest},
      {"air", &air},
      {"tenderness", &tenderness},
      {"mean_water", &mean_water},
      {"mean_temperature", &mean_temperature},
  };
  for (const auto &[name, series] : traces) {
    check_length(name, series->size(), times(), "time");
  }
  // Files of older releases do not have these.
  check_length_or_empty("vapour_pressure", vapour_pressure.size(), times(), "time");
  check_length_or_empty("pan_water", pan_water.size(), times(), "time");
  check_face(*this, 0);
  check_face(*this, 1);
  check_length("node_volume", node_volume.size(), nodes(), "position");
  check::within("lines", lines, 0.0, 2.0, "");
  if (lines == 2 && nodes() % 2 != 0) {
    throw InvalidInput("lines",
                       "two lines have as many nodes each, but there are " + std::to_string(nodes()));
  }
  if (columns < 0 || (columns > 0 && nodes() % static_cast<std::size_t>(columns) != 0)) {
    throw InvalidInput("columns", std::to_string(columns) + " for " + std::to_string(nodes()) + " nodes");
  }
  check_length("along", along.size(), columns > 0 ? nodes() : 0, "node of a cross-section");
  check_length("region", region.size(), columns > 0 ? nodes() : 0, "node of a cross-section");
  for (const ProbeTrace &probe : probes) {
    check_length("probes." + probe.name, probe.temperature.size(), times(), "time");
    check_length_or_empty("probes." + probe.name, probe.tenderness.size(), times(), "time");
  }
  const std::size_t all = times() * nodes();
  check_length_or_empty("temperature", temperature.size(), all, "time and position");
  check_length_or_empty("water", water.size(), all, "time and position");
}

} // namespace cook
