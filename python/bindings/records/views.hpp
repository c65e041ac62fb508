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

/// A getter of a member as such an array.
template <class C> auto view_of(std::vector<double> C::*member) {
  return [member](const py::object &self) { return view(self, self.cast<const C &>().*member); };
}

/// A copy in an array of its own.
template <class T> py::array_t<T> array_of(const std::vector<T> &values) {
  return py::array_t<T>(static_cast<py::ssize_t>(values.size()), values.data());
}

} // namespace cook::python
