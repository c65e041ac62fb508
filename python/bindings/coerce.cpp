#include "coerce.hpp"

namespace cook::python {

double read_quantity(py::handle value, const char *kind, const std::string &field) {
  return coerce("quantity", value, kind, field).cast<double>();
}

double read_number(py::handle value, const std::string &field) {
  return coerce("number", value, field).cast<double>();
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
