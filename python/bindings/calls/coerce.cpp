#include "calls/coerce.hpp"

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

std::string read_choice(py::handle value, const py::tuple &words, const std::string &field) {
  return coerce("choice", value, words, field).cast<std::string>();
}

void refuse_type(py::handle value, const std::string &wanted, const std::string &field) {
  coerce("refuse_type", value, wanted, field);
  throw py::type_error(field + ": " + wanted + " is accepted"); // not reached: the call above raises
}

} // namespace cook::python
