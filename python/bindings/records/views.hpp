/// @file
/// Arrays of an outcome as NumPy sees them.
#pragma once

#include <vector>

#include <pybind11/numpy.h>

namespace cook::python {

namespace py = pybind11;

/// A read-only array on memory that `owner` holds; nothing is copied.
/// NOTE: the array's base is the owner, so the memory lives as long as the array, whatever the user deletes.
inline py::array view(const py::handle &owner, const std::vector<double> &data,
                      std::vector<py::ssize_t> shape) {
  py::array_t<double> array(std::move(shape), data.data(), owner);
  array.attr("flags").attr("writeable") = false;
  return array;
}

inline py::array view(const py::handle &owner, const std::vector<double> &data) {
  return view(owner, data, {static_cast<py::ssize_t>(data.size())});
}

} // namespace cook::python
