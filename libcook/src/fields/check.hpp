/// @file
/// Checks that follow from the list of fields: every number inside its accepted range.
#pragma once

#include <optional>
#include <string>
#include <type_traits>

#include "cook/fields/field.hpp"

namespace cook::check {

/// Throws InvalidInput naming `path` unless the value is accepted.
void accepted(const std::string &path, double value, const Told &told);

/// Whether a value is accepted.
[[nodiscard]] bool is_accepted(double value, const Range &range);

/// Checks one member of a struct, also one whose range only matters at times.
/// @param prefix of the path: "meat.shape."  @param name what the message calls it, where not as the list
/// does
template <class S, class T>
void member(const std::string &prefix, const S &s, T S::*which, std::string_view name = {}) {
  const Told told = told_of(which);
  const auto value = [&] {
    if constexpr (std::is_same_v<T, double>) {
      return s.*which;
    } else {
      return *(s.*which);
    }
  }();
  if (!is_accepted(value, told.accepted)) {
    accepted(prefix + std::string(name.empty() ? told.name : name), value, told);
  }
}

template <class S> void members(const std::string &prefix, const S &s);

namespace detail {

void of(const std::string &prefix, double value, const Told &told);

template <class T> void of(const std::string &prefix, const T &value, const Told &told) {
  if constexpr (requires { value.has_value(); }) {
    if (value) {
      of(prefix, *value, told);
    }
  } else if constexpr (std::is_same_v<T, int>) {
    of(prefix, static_cast<double>(value), told);
  } else if constexpr (Listed<T> && !requires { value.validate(prefix); }) {
    members(prefix + std::string(told.name) + ".", value);
  }
}

} // namespace detail

/// Checks all members of a struct and of the structs in it, but for those that have a validate() of their
/// own.
/// @param prefix of the paths: "meat.holding."
template <class S> void members(const std::string &prefix, const S &s) {
  for_each_field<S>([&](const auto &one) { detail::of(prefix, s.*(one.member), one); });
}

} // namespace cook::check
