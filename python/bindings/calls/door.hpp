/// @file
/// The door of bound functions: each argument is read by its name, so that a wrong one is an InvalidInput
/// that names it, and not pybind11's list of C++ types.
///
/// m.def("parameter", door(parameter, {"name"}), py::arg("name"), "One default by name.");
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <functional>
#include <iterator>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>

#include <pybind11/numpy.h>

#include "calls/coerce.hpp"

namespace cook::python {

/// Numbers of any shape, as NumPy has them.
using Array = py::array_t<double, py::array::c_style | py::array::forcecast>;

/// Reads one argument as a T: a number, a whole number, text, numbers, or an object of a bound class.
template <class T> struct Argument {
  static const T &read(const py::object &value, const std::string &name) {
    if (!py::isinstance<T>(value)) {
      refuse_type(value, py::type::of<T>().attr("__name__").template cast<std::string>(), name);
    }
    return value.cast<const T &>();
  }
};
template <> struct Argument<double> {
  static double read(const py::object &value, const std::string &name) { return read_number(value, name); }
};
template <> struct Argument<int> {
  static int read(const py::object &value, const std::string &name) {
    return coerce("whole", value, name, -1000000000, 1000000000).cast<int>();
  }
};
template <> struct Argument<bool> {
  static bool read(const py::object &value, const std::string &name) { return read_flag(value, name); }
};
template <> struct Argument<std::string> {
  static std::string read(const py::object &value, const std::string &name) { return read_text(value, name); }
};
template <> struct Argument<Array> {
  static Array read(const py::object &value, const std::string &name) {
    return coerce("array", value, name).cast<Array>();
  }
};
template <class T> struct Argument<std::optional<T>> {
  static std::optional<T> read(const py::object &value, const std::string &name) {
    return value.is_none() ? std::optional<T>{} : std::optional<T>{Argument<T>::read(value, name)};
  }
};

namespace detail {

template <class> using Came = const py::object &; // one for each argument, whatever its type

template <class R, class... A, std::size_t... I>
auto door(std::function<R(A...)> f, std::array<std::string, sizeof...(A)> names,
          std::index_sequence<I...> /*places*/) {
  return [f = std::move(f), names = std::move(names)](Came<A>... came) -> R {
    return f(Argument<std::remove_cvref_t<A>>::read(came, std::get<I>(names))...);
  };
}

template <class... A, std::size_t... I>
auto over_arrays(std::function<double(A...)> f, std::array<std::string, sizeof...(A)> names,
                 std::index_sequence<I...> /*places*/) {
  return [vectorized = py::vectorize(std::move(f)), names = std::move(names)](Came<A>... came) mutable {
    return vectorized(Argument<Array>::read(came, std::get<I>(names))...);
  };
}

} // namespace detail

/// A function (or method, whose first name is "self") that reads its arguments by their names.
template <class F, std::size_t N> auto door(F f, const char *const (&names)[N]) {
  std::array<std::string, N> listed;
  std::copy(std::begin(names), std::end(names), listed.begin());
  return detail::door(std::function(std::move(f)), std::move(listed), std::make_index_sequence<N>{});
}

/// A function of numbers over arrays: NumPy's broadcasting rules, a float for floats.
template <class F, std::size_t N> auto over_arrays(F f, const char *const (&names)[N]) {
  std::array<std::string, N> listed;
  std::copy(std::begin(names), std::end(names), listed.begin());
  return detail::over_arrays(std::function(std::move(f)), std::move(listed), std::make_index_sequence<N>{});
}

} // namespace cook::python
