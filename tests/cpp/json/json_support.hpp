// For the tests of JSON: the contents of structs as bits, and the files they read.
#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "json/fields.hpp"

namespace json_support {

/// Every number (as its bits) and every text of a struct, in order.
struct Contents {
  std::vector<std::uint64_t> bits;
  std::vector<std::string> texts;
  bool operator==(const Contents &) const = default;
};

/// Goes through structs, lists and optionals and hands every double to `change`, everything to `contents`.
template <class Change> class Walk {
public:
  explicit Walk(Change change) : change_(change) {}

  template <class T> void operator()(std::string_view /*name*/, T &member) { visit(member); }

  template <class T> void visit(T &x) {
    using U = std::remove_const_t<T>;
    if constexpr (std::is_same_v<U, double>) {
      change_(x);
      contents.bits.push_back(std::bit_cast<std::uint64_t>(x));
    } else if constexpr (std::is_arithmetic_v<U> || std::is_enum_v<U>) {
      contents.bits.push_back(static_cast<std::uint64_t>(x));
    } else if constexpr (std::is_same_v<U, std::string>) {
      contents.texts.push_back(x);
    } else if constexpr (std::is_same_v<U, cook::End>) {
      visit(x.kind);
      visit(x.value);
    } else if constexpr (requires { x.has_value(); }) {
      contents.bits.push_back(x.has_value() ? 1 : 0);
      if (x) {
        visit(*x);
      }
    } else if constexpr (requires { x.begin(); }) {
      contents.bits.push_back(x.size());
      for (auto &element : x) {
        visit(element);
      }
    } else if constexpr (requires { x.value.has_value(); }) {
      visit(x.value); // a time of day
    } else {
      cook::json::describe(*this, x);
    }
  }

  Contents contents;

private:
  Change change_;
};

template <class S> Contents contents_of(const S &value) {
  Walk walk([](const double &) {});
  walk.visit(value);
  if constexpr (std::is_same_v<S, cook::Outcome>) {
    cook::json::describe_nodes(walk, value);
  }
  return walk.contents;
}

inline std::filesystem::path repository() { return COOK_REPOSITORY; }

inline std::filesystem::path plans() { return repository() / "tests" / "python" / "data" / "plans"; }

inline std::string text_of(const std::filesystem::path &path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) {
    throw std::runtime_error("cannot open " + path.string());
  }
  return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace json_support
