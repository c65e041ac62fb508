#include "cook/errors.hpp"

#include <array>
#include <cmath>
#include <cstdio>
#include <utility>

#include "cook/units.hpp"

namespace cook {

namespace {

std::string join(const std::string &field, std::string_view message) {
  std::string text = field;
  text += ": ";
  text += message;
  return text;
}

std::string quantity(double value, std::string_view unit) {
  std::string text = format_number(value);
  if (!unit.empty()) {
    text += ' ';
    text += unit;
  }
  return text;
}

[[noreturn]] void refuse(const std::string &field, double value, const std::string &accepted,
                         std::string_view unit, std::string_view hint) {
  std::string message = quantity(value, unit) + "; " + accepted;
  if (!hint.empty()) {
    message += "; ";
    message += hint;
  }
  throw InvalidInput(field, message);
}

} // namespace

InvalidInput::InvalidInput(std::string field, std::string_view message)
    : Error(join(field, message)), field_(std::move(field)), message_(message) {}

SolverFailure::SolverFailure(const std::string &message, std::shared_ptr<const Outcome> partial)
    : Error(message), outcome_(std::move(partial)) {}

std::string format_number(double value) {
  std::array<char, 32> buffer{};
  std::snprintf(buffer.data(), buffer.size(), "%.6g", value);
  return buffer.data();
}

std::string format_degrees(double celsius) {
  return format_number(std::round(fahrenheit_from_celsius(celsius))) + " °F (" +
         format_number(std::round(10.0 * celsius) / 10.0) + " °C)";
}

std::string format_duration(double seconds) {
  const double size = std::abs(seconds);
  const bool brief = size < 59.5;
  const double minutes = brief ? 0.0 : std::floor(size / seconds_per_minute + 0.5);
  std::string text = seconds < 0.0 && size > 0.5 ? "-" : "";
  for (const auto &[count, unit] :
       {std::pair{std::floor(minutes / 60.0), " h"}, std::pair{std::fmod(minutes, 60.0), " min"},
        std::pair{brief ? std::nearbyint(size) : 0.0, " s"}}) {
    if (count > 0.0) {
      std::array<char, 320> digits{}; // of any double
      std::snprintf(digits.data(), digits.size(), "%.0f", count);
      text += (text.empty() || text == "-" ? "" : " ") + std::string(digits.data()) + unit;
    }
  }
  return text.empty() ? "0 s" : text;
}

namespace check {

double finite(const std::string &field, double value) {
  if (!std::isfinite(value)) {
    throw InvalidInput(field, format_number(value) + "; a finite number is needed");
  }
  return value;
}

double within(const std::string &field, double value, double low, double high, std::string_view unit,
              std::string_view hint) {
  finite(field, value);
  if (value < low || value > high) {
    refuse(field, value, "accepted: " + format_number(low) + " to " + quantity(high, unit), unit, hint);
  }
  return value;
}

double positive(const std::string &field, double value, std::string_view unit, std::string_view hint) {
  finite(field, value);
  if (value <= 0.0) {
    refuse(field, value, "must be above zero", unit, hint);
  }
  return value;
}

double not_negative(const std::string &field, double value, std::string_view unit, std::string_view hint) {
  finite(field, value);
  if (value < 0.0) {
    refuse(field, value, "must not be negative", unit, hint);
  }
  return value;
}

double celsius(const std::string &field, double value, double low, double high) {
  finite(field, value);
  if (value >= low && value <= high) {
    return value;
  }
  const double if_fahrenheit = celsius_from_fahrenheit(value);
  std::string hint;
  if (value > high && if_fahrenheit >= low && if_fahrenheit <= high) {
    hint = "plain numbers are °C: did you mean '" + format_number(value) + " °F' (" +
           format_number(std::round(if_fahrenheit * 10.0) / 10.0) + " °C)?";
  } else if (value > high && celsius_from_kelvin(value) >= low && celsius_from_kelvin(value) <= high) {
    hint = "plain numbers are °C: did you give kelvin?";
  }
  refuse(field, value, "accepted: " + format_number(low) + " to " + quantity(high, "°C"), "°C", hint);
}

} // namespace check

} // namespace cook
