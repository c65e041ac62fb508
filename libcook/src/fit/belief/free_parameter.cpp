#include "cook/fit/free_parameter.hpp"

#include <algorithm>

#include "cook/errors.hpp"
#include "fields/parameter_rows.hpp"
#include "fit/belief/free_value.hpp"
#include "suggestion.hpp"

namespace cook {

bool keeps_hot(const Stage &stage) {
  constexpr double hot_air = 60.0; // °C: air that heats meat
  return !stage.surroundings.box && stage.surroundings.air.maximum() > hot_air;
}

bool heats(const Stage &stage) { return keeps_hot(stage) && stage.surroundings.kind != holding_oven_kind; }

std::size_t done_stage(const Plan &plan) {
  std::size_t found = plan.stages.size() - 1;
  bool waits = false;
  bool heated = false;
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    const auto &ends = plan.stages[i].until;
    const bool warms = std::any_of(ends.begin(), ends.end(), [](const End &e) { return known(e.kind).done; });
    if (warms) {
      found = i;
      waits = true;
    } else if (!waits && heats(plan.stages[i])) {
      found = i;
      heated = true;
    }
  }
  return waits || heated ? found : plan.stages.size() - 1;
}

const FreeKind &free_kind(const std::string &name, const std::string &field) {
  const auto &kinds = free_kinds();
  const auto found =
      std::find_if(kinds.begin(), kinds.end(), [&](const FreeKind &k) { return k.name == name; });
  if (found != kinds.end()) {
    return *found;
  }
  std::vector<std::string> names;
  names.reserve(kinds.size());
  for (const FreeKind &kind : kinds) {
    names.push_back(kind.name);
  }
  throw InvalidInput(field, in_quotes(name) + " is no number that can be fitted; " + suggestion(name, names));
}

double value_in(const Plan &plan, const std::string &name, const std::string &field) {
  const FreeKind &kind = free_kind(name, field);
  if (!kind.read) {
    return 0.0; // an offset is against what the plan says
  }
  if (const std::string_view why = kind.lacks(plan); !why.empty()) {
    throw InvalidInput(field, in_quotes(name) + " cannot be fitted: " + std::string(why));
  }
  return kind.read(plan);
}

void set_value(Plan &plan, const std::string &name, double value) {
  const std::optional<double> before = value_if_any(plan, name);
  if (before && value != *before) {
    write_value(plan, name, value, *before);
  }
}

std::optional<double> value_if_any(const Plan &plan, const std::string &name) {
  return free_kind(name).lacks(plan).empty() ? std::optional(value_in(plan, name)) : std::nullopt;
}

void write_value(Plan &plan, const std::string &name, double value, double before) {
  const FreeKind &kind = free_kind(name);
  // The same again would be a ratio of one and a shift by nothing, but for rounding.
  if (kind.write && (value != before || kind.writes_same)) {
    kind.write(plan, value, before);
  }
}

namespace rows {

void add_free(std::vector<Parameter> &table) {
  for (const FreeKind &kind : free_kinds()) {
    const bool practice = kind.source.starts_with("common practice");
    table.push_back({"free." + kind.name + ".spread", kind.spread,
                     kind.scale == Scale::logarithmic ? "-" : kind.unit, 0.2 * kind.spread, 3.0 * kind.spread,
                     kind.source, practice ? Provenance::common_practice : Provenance::assumed});
  }
}

} // namespace rows

} // namespace cook
