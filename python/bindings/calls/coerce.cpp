#include "calls/coerce.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "cook/units.hpp"

namespace cook::python {

namespace {

/// A plain number that needs no reading: it is in SI or °C already, finite, and no temperature below absolute
/// zero. Python reads all others, and says what is wrong with them.
std::optional<double> as_it_is(py::handle value) {
  if (!PyFloat_CheckExact(value.ptr())) {
    return {};
  }
  const double number = PyFloat_AS_DOUBLE(value.ptr());
  return std::isfinite(number) && number >= -kelvin_offset ? std::optional(number) : std::nullopt;
}

} // namespace

double read_quantity(py::handle value, const char *kind, const std::string &field) {
  if (const std::optional<double> number = as_it_is(value)) {
    return *number;
  }
  return coerce("quantity", value, kind, field).cast<double>();
}

double read_number(py::handle value, const std::string &field) {
  if (const std::optional<double> number = as_it_is(value)) {
    return *number;
  }
  return coerce("number", value, field).cast<double>();
}

Signal read_signal(py::handle value, const char *kind, const std::string &field) {
  if (const std::optional<double> number = as_it_is(value)) {
    return {*number};
  }
  return py::isinstance<Signal>(value) ? value.cast<Signal>()
                                       : coerce("signal", value, kind, field).cast<Signal>();
}

int read_count(py::handle value, const std::string &field) {
  return coerce("count", value, field).cast<int>();
}

bool read_flag(py::handle value, const std::string &field) {
  return coerce("flag", value, field).cast<bool>();
}

std::string read_text(py::handle value, const std::string &field) {
  return coerce("text", value, field).cast<std::string>();
}

py::tuple words_tuple(std::span<const std::string_view> words) {
  py::tuple made(words.size());
  for (std::size_t i = 0; i < words.size(); ++i) {
    made[i] = std::string(words[i]);
  }
  return made;
}

std::size_t read_word(py::handle value, std::span<const std::string_view> words, const std::string &field) {
  const auto word = coerce("choice", value, words_tuple(words), field).cast<std::string>();
  return static_cast<std::size_t>(std::find(words.begin(), words.end(), word) - words.begin());
}

void refuse_type(py::handle value, const std::string &wanted, const std::string &field) {
  coerce("refuse_type", value, wanted, field);
  throw py::type_error(field + ": " + wanted + " is accepted"); // not reached: the call above raises
}

} // namespace cook::python
