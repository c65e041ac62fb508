#include "json_validate.hpp"

#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "cook/errors.hpp"
#include "json_fields.hpp"

namespace cook::json {

namespace {

/// The checks name some members as a cook would; the document has them under the names of the structs.
std::string document_path(const std::string &field) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 4> renamed{{
      {"start", "clock_start"},
      {"meat.shape.diameter", "meat.shape.thickness"},
      {"meat.shape.area", "meat.shape.extent"},
      {"meat.shape.length", "meat.shape.extent"},
  }};
  for (const auto &[from, to] : renamed) {
    if (field == from) {
      return std::string(to);
    }
  }
  constexpr std::array<std::string_view, 9> in_tissue{"composition", "holding", "mobility",
                                                      "sorption",    "sinks",   "exudation",
                                                      "tenderness",  "fixed",   "emissivity"};
  constexpr std::string_view meat = "meat.";
  for (const std::string_view member : in_tissue) {
    if (field.starts_with(meat) && std::string_view(field).substr(meat.size()).starts_with(member)) {
      return "meat.tissue." + field.substr(meat.size());
    }
  }
  return point_path(field);
}

/// Which of a stage's end conditions made Plan::validate() complain: each is tried alone.
std::string end_path(const Plan &plan, std::size_t stage) {
  const std::vector<End> &ends = plan.stages[stage].until;
  for (std::size_t i = 0; i < ends.size(); ++i) {
    Plan alone = plan;
    alone.stages = {plan.stages[stage]};
    alone.stages[0].until = {ends[i]};
    try {
      alone.validate();
    } catch (const InvalidInput &) {
      return "[" + std::to_string(i) + "]." +
             std::string(words(EndKind{}).at(static_cast<std::size_t>(ends[i].kind)));
    }
  }
  return {};
}

std::string document_path(const Plan &plan, const std::string &field) {
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    if (field == "stages[" + std::to_string(i) + "].until") {
      return field + end_path(plan, i);
    }
  }
  return document_path(field);
}

void check_length(const std::string &field, std::size_t length, std::size_t needed, std::string_view what) {
  if (length != needed) {
    throw InvalidInput(field, std::to_string(length) + " values came; " + std::to_string(needed) +
                                  " are needed, one for each " + std::string(what));
  }
}

/// A cylinder has no bottom face and fields are written on request: such arrays may be empty.
void check_length_or_empty(const std::string &field, std::size_t length, std::size_t needed,
                           std::string_view what) {
  if (length != 0) {
    check_length(field, length, needed, what);
  }
}

} // namespace

std::string point_path(std::string field) {
  for (const std::string_view member : {".time", ".value"}) {
    if (field.ends_with(member) && field.size() > member.size() &&
        field[field.size() - member.size() - 1] == ']') {
      const std::size_t open = field.rfind('[');
      const std::string index = field.substr(open, field.size() - member.size() - open);
      return field.substr(0, open) + std::string(member) + index;
    }
  }
  return field;
}

void validate(const Plan &plan, const std::string &prefix) {
  try {
    plan.validate();
  } catch (const InvalidInput &error) {
    throw InvalidInput(prefix + document_path(plan, error.field()), error.message());
  }
}

void validate(const Outcome &outcome) {
  validate(outcome.plan, "plan.");
  const std::size_t times = outcome.times();
  constexpr std::string_view time = "time";
  for (std::size_t i = 1; i < times; ++i) {
    if (outcome.time[i] <= outcome.time[i - 1]) {
      throw InvalidInput("time[" + std::to_string(i) + "]", format_number(outcome.time[i]) + " s after " +
                                                                format_number(outcome.time[i - 1]) +
                                                                " s; times must increase");
    }
  }
  check_length("core", outcome.core.size(), times, time);
  check_length("coldest", outcome.coldest.size(), times, time);
  check_length("air", outcome.air.size(), times, time);
  check_length("tenderness", outcome.tenderness.size(), times, time);
  check_length("mean_water", outcome.mean_water.size(), times, time);
  check_length("mean_temperature", outcome.mean_temperature.size(), times, time);
  for (std::size_t face = 0; face < 2; ++face) {
    const std::string at = "[" + std::to_string(face) + "]";
    const std::string surface = "surface" + at;
    const std::size_t samples = outcome.surface[face].size();
    check_length_or_empty(surface, samples, times, time);
    // A face has all of its traces, or none.
    check_length("surface_water" + at, outcome.surface_water[face].size(), samples, surface);
    check_length("film" + at, outcome.film[face].size(), samples, surface);
    for (std::size_t path = 0; path < face_paths; ++path) {
      check_length("paths" + at + "." + std::string(words(FacePath{})[path]),
                   outcome.paths[face][path].size(), samples, surface);
    }
  }
  check_length("node_volume", outcome.node_volume.size(), outcome.nodes(), "position");
  const std::size_t all = times * outcome.nodes();
  check_length_or_empty("temperature", outcome.temperature.size(), all, "time and position");
  check_length_or_empty("water", outcome.water.size(), all, "time and position");
}

} // namespace cook::json
