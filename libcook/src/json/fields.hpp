// The members of the listed structs as the visitors of JSON see them.
#pragma once

#include <optional>
#include <string_view>
#include <type_traits>

#include "cook/plan/outcome_fields.hpp"
#include "cook/plan/words.hpp"

namespace cook::json {

inline constexpr int format_version = 1;
inline constexpr std::string_view plan_format = "libcook plan";
inline constexpr std::string_view outcome_format = "libcook outcome";

/// A time of day [s after midnight] that may be written as "hh:mm". `T` is an optional double, const or not.
template <class T> struct TimeOfDay { T &value; };
// Not every C++20 compiler deduces this for an aggregate.
template <class T> TimeOfDay(T &) -> TimeOfDay<T>;

/// Calls `v` with the name and the member of each of the fields. `S` is a struct or a const one.
template <class V, class S, class Fields> void describe(V &v, S &s, const Fields &fields) {
  const auto hand = [&]<class T>(const Told &told, T &member) {
    if constexpr (std::is_same_v<std::remove_const_t<T>, std::optional<double>>) {
      if (told.kind == kind::clock) {
        TimeOfDay time{member};
        v(told.name, time);
        return;
      }
    }
    v(told.name, member);
  };
  std::apply([&](const auto &...one) { (hand(one, s.*(one.member)), ...); }, fields);
}

template <class V, class S> void describe(V &v, S &s) { describe(v, s, fields_of<std::remove_const_t<S>>); }

/// The members of an outcome that are written on request only.
template <class V, class S> void describe_nodes(V &v, S &s) { describe(v, s, fields_of_nodes); }

} // namespace cook::json
