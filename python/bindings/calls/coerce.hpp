/// @file
/// How Python values become C++ ones: the door between the two layers.
///
/// C++ knows which fields there are; Python (libcook/_coerce.py) knows how people write them: units, clock
/// times, schedules, logs. Every setter goes through here, so `meat.shape.thickness = "65 mm"` works wherever
/// a field is.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include "cook/cooker/signal.hpp"

#include "calls/ending.hpp"

namespace cook::python {

namespace py = pybind11;

/// Calls a function of libcook._coerce.
template <class... Args> py::object coerce(const char *function, Args &&...args) {
  const CallingPython calling;
  return py::module_::import("libcook._coerce").attr(function)(std::forward<Args>(args)...);
}
/// A `__repr__`: a function of a file of libcook.words that takes the object.
inline auto written_by(const std::string &file, const char *form) {
  return [module = "libcook.words." + file, form](const py::object &self) {
    const CallingPython calling;
    return py::object(py::module_::import(module.c_str()).attr(form)(self));
  };
}

/// A quantity in SI or °C; `kind` is a key of libcook.units.KINDS.
double read_quantity(py::handle value, const char *kind, const std::string &field);
/// A course in time: a number, text, a schedule, a log; whatever libcook._coerce.signal reads.
Signal read_signal(py::handle value, const char *kind, const std::string &field);
/// A plain finite number whose unit has no short spelling.
double read_number(py::handle value, const std::string &field);
/// A whole number.
int read_count(py::handle value, const std::string &field);
/// A truth value; refuses numbers and text, so that `fan="no"` does not turn the fan on.
bool read_flag(py::handle value, const std::string &field);
/// Text.
std::string read_text(py::handle value, const std::string &field);
/// Words as Python has them.
py::tuple words_tuple(std::span<const std::string_view> words);
/// Which of the words came, as its place among them.
std::size_t read_word(py::handle value, std::span<const std::string_view> words, const std::string &field);
/// Throws InvalidInput (Python's) because something other than `wanted` came.
[[noreturn]] void refuse_type(py::handle value, const std::string &wanted, const std::string &field);

} // namespace cook::python
