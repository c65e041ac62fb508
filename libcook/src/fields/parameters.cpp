/// @file
/// Gathers the table of defaults, which only shows them. To change a default: the member of its struct
/// (cook/meat, cooker, plan, fit), of a cooker or a wrap its entry in known_cookers.cpp or known_wraps.cpp;
/// what is said of it stands in the *_fields.hpp beside the struct.
#include "cook/fields/parameters.hpp"

#include <algorithm>

#include "cook/errors.hpp"
#include "fields/parameter_rows.hpp"

namespace cook {

std::string_view describe(Provenance kind) {
  switch (kind) {
  case Provenance::published:
    return "published";
  case Provenance::derived:
    return "derived from published values";
  case Provenance::from_memory:
    return "from memory";
  case Provenance::common_practice:
    return "common practice, no source";
  case Provenance::tuned:
    return "tuned";
  case Provenance::assumed:
    return "assumed";
  }
  return "";
}

void rows::add(std::vector<Parameter> &table, const std::string &at, const Told &told, double value,
               const Sure &sure, const std::string &tuned) {
  if (!sure.source.empty()) {
    std::string source = std::string(sure.source) + std::string(sure.detail);
    table.push_back({at + std::string(told.name), value, std::string(told.kind.unit), sure.low, sure.high,
                     source + (sure.kind == Provenance::tuned ? tuned : ""), sure.kind});
  }
}

const std::vector<Parameter> &parameters() {
  static const std::vector<Parameter> table = [] {
    std::vector<Parameter> made;
    rows::add_tissue(made);
    rows::add_piece(made);
    rows::add_section(made);
    rows::add_surroundings(made);
    rows::add_wraps(made);
    rows::add_engine(made);
    rows::add_kinetics(made);
    rows::add_readings(made);
    rows::add_fuels(made);
    rows::add_pit_air(made);
    rows::add_free(made);
    rows::add_fit(made);
    return made;
  }();
  return table;
}

const Parameter &parameter(const std::string &name) {
  const std::vector<Parameter> &table = parameters();
  const auto found =
      std::find_if(table.begin(), table.end(), [&](const Parameter &p) { return p.name == name; });
  if (found != table.end()) {
    return *found;
  }
  // The last part of a name is what people remember: offer every entry that ends in it or contains it.
  const std::string tail = name.substr(name.rfind('.') + 1);
  std::string close;
  int offered = 0;
  for (const Parameter &p : table) {
    constexpr int most = 5;
    if (!tail.empty() && p.name.find(tail) != std::string::npos && offered < most) {
      close += (close.empty() ? "" : ", ") + p.name;
      ++offered;
    }
  }
  throw InvalidInput("parameter",
                     in_quotes(name) + " is not in the table" +
                         (close.empty() ? "; parameters() lists the names" : "; close: " + close));
}

} // namespace cook
