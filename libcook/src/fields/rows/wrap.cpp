/// @file
/// Table rows of the wraps.
/// Values stand in the structs (include/cook), ranges and sources of their members in the *_fields.hpp beside
/// them; here is what is no member of a struct.
#include "cook/cooker/cooker_fields.hpp"
#include "cooker/known_wraps.hpp"
#include "fields/parameter_rows.hpp"

namespace cook::rows {

namespace {

void add_covering(std::vector<Parameter> &table, const std::string &at, const KnownCovering &known) {
  const auto one = [&](auto member, const SureNumber &number) {
    add(table, at, told_of(member), number.value, number.sure);
  };
  one(&Covering::vapour_resistance, known.vapour_resistance);
  one(&Covering::heat_resistance, known.heat_resistance);
  if (known.emissivity) {
    one(&Covering::emissivity, *known.emissivity);
  }
  if (known.juice_capacity) {
    one(&Covering::juice_capacity, *known.juice_capacity);
  }
}

} // namespace

void add_wraps(std::vector<Parameter> &table) {
  for (const KnownWrap &known : known_wraps()) {
    const std::string at = "wrap." + std::string(known.name);
    add_covering(table, at + ".bottom.", known.bottom);
    add_covering(table, at + ".top.", known.top);
  }
}

} // namespace cook::rows
