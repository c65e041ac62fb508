#include "cook/cooker/signal.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cook/cooker/cooker_fields.hpp"
#include "cook/errors.hpp"
#include "fields/check.hpp"
#include "straight_lines.hpp"

namespace cook {

void Signal::validate(const std::string &field) const {
  if (value.empty()) {
    throw InvalidInput(field, "empty; at least one value is needed");
  }
  if (time.size() != value.size()) {
    throw InvalidInput(field, std::to_string(time.size()) + " times but " + std::to_string(value.size()) +
                                  " values; they must pair up");
  }
  for (std::size_t i = 0; i < value.size(); ++i) {
    const std::string place = field + "[" + std::to_string(i) + "]";
    check::finite(place + ".time", time[i]);
    check::finite(place + ".value", value[i]);
    if (i > 0 && time[i] <= time[i - 1]) {
      throw InvalidInput(place + ".time",
                         format_number(time[i]) + " s after " + format_number(time[i - 1]) +
                             " s; times must increase: sort the log and drop repeated times");
    }
  }
  check::members(field + ".", *this);
}

double Signal::without_ripple(double seconds) const { return on_straight_lines(time, value, seconds); }

double Signal::at(double seconds) const {
  const double base = without_ripple(seconds);
  return ripple_amplitude == 0.0
             ? base
             : base + ripple_amplitude * std::sin(2.0 * std::numbers::pi * seconds / ripple_period);
}

double Signal::mean() const {
  double area = 0.0;
  for (std::size_t i = 1; i < value.size(); ++i) {
    area += 0.5 * (value[i - 1] + value[i]) * (time[i] - time[i - 1]);
  }
  return value.size() > 1 ? area / (time.back() - time.front()) : value.front();
}

double Signal::minimum() const { return *std::min_element(value.begin(), value.end()) - ripple_amplitude; }

double Signal::maximum() const { return *std::max_element(value.begin(), value.end()) + ripple_amplitude; }

} // namespace cook
