/// @file
/// A document is refused in four places: in text.cpp what is no JSON; in read.cpp wrong types, unknown keys
/// and words, another version; in read_short.cpp short forms that do not go together; and what makes no sense
/// by validate() of its struct (plan/plan.cpp, fields/check.cpp), whose fields are named here as the document
/// has them.
#include "json/validate.hpp"

#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "cook/errors.hpp"
#include "json/fields.hpp"

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
  outcome.validate();
}

} // namespace cook::json
