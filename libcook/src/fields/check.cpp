#include "fields/check.hpp"

#include <limits>

#include "cook/errors.hpp"

namespace cook {

std::string words_and_unit(const Told &told) {
  std::string text(told.words);
  if (!told.kind.unit.empty()) {
    const std::size_t end = std::min(text.find(';'), text.size());
    text.insert(end, " [" + std::string(told.kind.unit) + "]");
  }
  return text;
}

namespace check {

bool is_accepted(double value, const Range &range) {
  constexpr double largest = std::numeric_limits<double>::max();
  switch (range.check) {
  case Range::Check::none:
    return true;
  case Range::Check::positive:
    return value > 0.0 && value <= largest;
  case Range::Check::not_negative:
    return value >= 0.0 && value <= largest;
  default:
    return value >= range.low && value <= range.high;
  }
}

void accepted(const std::string &path, double value, const Told &told) {
  const Range &range = told.accepted;
  const std::string_view unit = told.kind.unit == "-" ? "" : told.kind.unit;
  switch (range.check) {
  case Range::Check::none:
    break;
  case Range::Check::within:
    within(path, value, range.low, range.high, unit, range.hint);
    break;
  case Range::Check::celsius:
    celsius(path, value, range.low, range.high);
    break;
  case Range::Check::fraction: {
    std::string hint;
    if (value > 1.0 && value <= 100.0) {
      hint = "fractions are in kg per kg: if " + format_number(value) + " is a percentage, write " +
             format_number(value / 100.0);
    }
    within(path, value, range.low, range.high, unit, hint);
    break;
  }
  case Range::Check::positive:
    positive(path, value, unit, range.hint);
    break;
  case Range::Check::not_negative:
    not_negative(path, value, unit, range.hint);
    break;
  }
}

void detail::of(const std::string &prefix, double value, const Told &told) {
  if (!told.accepted.sometimes && !is_accepted(value, told.accepted)) {
    accepted(prefix + std::string(told.called.empty() ? told.name : told.called), value, told);
  }
}

} // namespace check

} // namespace cook
