/// @file
/// What went wrong in C++ as Python says it.
#pragma once

#include <exception>

#include <pybind11/pybind11.h>

namespace cook::python {

/// The Python exception that a C++ one becomes when it is thrown across; needs the interpreter's lock.
pybind11::object as_python_error(const std::exception_ptr &failure);

} // namespace cook::python
