/// @file
/// What went wrong in C++ as Python says it.
#pragma once

#include <exception>

#include <pybind11/pybind11.h>

namespace cook::python {

/// The Python exception object that a C++ one becomes when it is thrown across; needs the interpreter's lock.
/// Throws what a signal handler raises meanwhile.
pybind11::object as_python_error(const std::exception_ptr &failure);

/// The same, ready to be thrown, also of an exception that is Python's already; a signal's takes its place.
pybind11::error_already_set as_python_exception(const std::exception_ptr &failure);

} // namespace cook::python
