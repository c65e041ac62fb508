/// @file
/// What is told of a member of a struct, once: name, kind of quantity, accepted range, words, and how sure
/// its default is. JSON, its schema, the checks, the table of defaults and the Python classes are made from
/// it.
///
/// The lists themselves stand beside the structs: *_fields.hpp.
#pragma once

#include <concepts>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>

#include "cook/fields/kind.hpp"
#include "cook/fields/parameters.hpp"

namespace cook {

/// What a number may be, and what is said to who gives another.
struct Range {
  enum class Check {
    none,         ///< anything, or what the struct's own validate() says
    within,       ///< low to high
    celsius,      ///< low to high [°C]; °F and kelvin are named as likely slips
    fraction,     ///< 0 to 1; a value in per cent is named as the likely slip
    positive,     ///< above zero
    not_negative, ///< zero or more
  };
  Check check = Check::none;
  double low = 0.0;
  double high = 0.0;
  std::string_view hint{}; ///< closes the message
  bool sometimes = false;  ///< only matters in some cases: validate() asks for it by itself

  /// The same range, which only matters at times.
  [[nodiscard]] constexpr Range at_times() const {
    Range range = *this;
    range.sometimes = true;
    return range;
  }
};

namespace range {

inline constexpr Range any{};
inline constexpr Range fraction{.check = Range::Check::fraction, .low = 0.0, .high = 1.0};
inline constexpr Range positive{.check = Range::Check::positive};
inline constexpr Range not_negative{.check = Range::Check::not_negative};
[[nodiscard]] constexpr Range within(double low, double high, std::string_view hint = {}) {
  return {.check = Range::Check::within, .low = low, .high = high, .hint = hint};
}
[[nodiscard]] constexpr Range celsius(double low, double high) {
  return {.check = Range::Check::celsius, .low = low, .high = high};
}

} // namespace range

/// How sure the default of a member is: its row in the table of defaults.
struct Sure {
  double low = 0.0; ///< of the range that is physically reasonable or published
  double high = 0.0;
  Provenance kind = Provenance::assumed; ///< of what is tuned the source goes on to say how
  std::string_view source{};             ///< empty: the default has no row
  std::string_view detail{};             ///< goes on where the source is that of several
};

/// What is told of a member, whatever its type.
struct Told {
  std::string_view name; ///< in JSON and Python
  Kind kind = kind::none;
  Range accepted{};
  std::string_view
      words; ///< what it is, from a small letter to no full stop; the unit goes before a semicolon
  Sure sure{};
  std::string_view called{}; ///< what messages and Python call it, where that is not its name
};

/// What is told of a member `T S::*`.
template <class S, class T> struct Field : Told {
  T S::*member = nullptr;

  /// The same, called otherwise by messages and Python than in JSON.
  [[nodiscard]] constexpr Field as(std::string_view name_elsewhere) const {
    Field field = *this;
    field.called = name_elsewhere;
    return field;
  }
};

template <class S, class T>
[[nodiscard]] constexpr Field<S, T> field(std::string_view name, T S::*member, std::string_view words) {
  return {{.name = name, .words = words}, member};
}
template <class S, class T>
[[nodiscard]] constexpr Field<S, T> field(std::string_view name, T S::*member, Kind kind, Range accepted,
                                          std::string_view words, Sure sure = {}) {
  return {{name, kind, accepted, words, sure, {}}, member};
}

/// What is told of a struct.
struct About {
  std::string_view python; ///< its class in Python
  std::string_view name;   ///< what messages call one, and the schema
  std::string_view words;  ///< what it is, as those of a member
};

/// The members of S in order: a tuple of Field<S, T>. Empty for what is not listed.
template <class S> inline constexpr auto fields_of = std::tuple{};
/// What is told of S.
template <class S> inline constexpr About about{};

/// A struct whose members are listed.
template <class S>
concept Listed = std::tuple_size_v<std::remove_const_t<decltype(fields_of<std::remove_const_t<S>>)>> >
0;

/// Calls `f` with each field of S.
template <class S, class F> constexpr void for_each_field(F &&f) {
  std::apply([&](const auto &...one) { (f(one), ...); }, fields_of<S>);
}

/// What is told of one member.
template <class S, class T> [[nodiscard]] constexpr Told told_of(T S::*member) {
  Told found;
  for_each_field<S>([&]<class U>(const Field<S, U> &one) {
    if constexpr (std::same_as<T, U>) {
      found = one.member == member ? Told(one) : found;
    }
  });
  return found;
}

/// Words with the unit: "of the outside [-]; without it the meat's own".
[[nodiscard]] std::string words_and_unit(const Told &told);

} // namespace cook
