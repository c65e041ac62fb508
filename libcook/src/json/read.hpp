// From the JSON tree to the structs: types, unknown keys, and where in the document something is wrong.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cook/errors.hpp"
#include "json/fields.hpp"
#include "json/path.hpp"
#include "json/text.hpp"

namespace cook::json {

/// Throws: `needed` is what should have come, `node` what came.
[[noreturn]] void refuse_type(const Json &node, const Path &path, std::string_view needed);

/// Throws unless the node is an object.
void need_object(const Json &node, const Path &path);

/// Throws at the first key that is not known.
void refuse_unknown_keys(const Json &object, const Path &path, const std::vector<std::string> &known);

/// Throws unless the object says that it is of this format and of a version that we read.
void read_header(const Json &object, const Path &path, std::string_view format);

/// One of the words, as its index.
std::size_t read_word(const Json &node, const Path &path, const std::vector<std::string> &known);

/// Seconds after midnight, from a number or "hh:mm".
double read_time_of_day(const Json &node, const Path &path);

void read(const Json &node, const Path &path, double &target);
void read(const Json &node, const Path &path, bool &target);
void read(const Json &node, const Path &path, int &target);
void read(const Json &node, const Path &path, std::string &target);

// Those with short forms (json/read_short.cpp).
void read(const Json &node, const Path &path, Signal &target);
void read(const Json &node, const Path &path, Meat &target);
void read(const Json &node, const Path &path, Surroundings &target);
void read(const Json &node, const Path &path, Wrap &target);
void read(const Json &node, const Path &path, std::vector<End> &target);

/// With its header; does not validate.
void read(const Json &node, const Path &path, Plan &target);

// Declared first, because structs hold lists and lists hold structs.
template <class T> void read(const Json &node, const Path &path, std::optional<T> &target);
template <class T> void read(const Json &node, const Path &path, std::vector<T> &target);
template <class T, std::size_t n> void read(const Json &node, const Path &path, std::array<T, n> &target);
void read(const Json &node, const Path &path, std::array<std::vector<double>, face_paths> &target);
template <class S>
requires std::is_class_v<S>
void read(const Json &node, const Path &path, S &target);

template <class E>
requires std::is_enum_v<E>
void read(const Json &node, const Path &path, E &target) {
  constexpr auto list = words(E{});
  target = static_cast<E>(read_word(node, path, {list.begin(), list.end()}));
}

/// Collects the names of the members.
class KeyCollector {
public:
  template <class T> void operator()(std::string_view name, const T & /*member*/) {
    keys_.emplace_back(name);
  }
  [[nodiscard]] std::vector<std::string> take() { return std::move(keys_); }

private:
  std::vector<std::string> keys_;
};

/// Names of the members of a struct.
template <class S> std::vector<std::string> keys_of() {
  KeyCollector collector;
  const S sample{};
  describe(collector, sample);
  return collector.take();
}

/// Reads the members that are given; the others stay as they are.
class MemberReader {
public:
  MemberReader(const Json &object, const Path &path) : object_(object), path_(path) {}

  template <class T> void operator()(std::string_view name, T &target) {
    if (const auto found = object_.find(std::string(name)); found != object_.end()) {
      read(*found, Path(path_, name), target);
    }
  }
  void operator()(std::string_view name, TimeOfDay<std::optional<double>> &target) {
    if (const auto found = object_.find(std::string(name)); found != object_.end()) {
      if (found->is_null()) {
        target.value.reset();
      } else {
        target.value = read_time_of_day(*found, Path(path_, name));
      }
    }
  }

private:
  const Json &object_;
  const Path &path_;
};

template <class S>
requires std::is_class_v<S>
void read(const Json &node, const Path &path, S &target) {
  need_object(node, path);
  refuse_unknown_keys(node, path, keys_of<S>());
  MemberReader reader(node, path);
  describe(reader, target);
}

/// null is an empty optional.
template <class T> void read(const Json &node, const Path &path, std::optional<T> &target) {
  if (node.is_null()) {
    target.reset();
    return;
  }
  if (!target) {
    target.emplace();
  }
  read(node, path, *target);
}

template <class T> void read(const Json &node, const Path &path, std::vector<T> &target) {
  if (!node.is_array()) {
    refuse_type(node, path, "a list");
  }
  target.assign(node.size(), T{});
  for (std::size_t i = 0; i < target.size(); ++i) {
    read(node[i], Path(path, i), target[i]);
  }
}

template <class T, std::size_t n> void read(const Json &node, const Path &path, std::array<T, n> &target) {
  if (!node.is_array() || node.size() != n) {
    refuse_type(node, path, "a list of " + std::to_string(n));
  }
  for (std::size_t i = 0; i < n; ++i) {
    read(node[i], Path(path, i), target[i]);
  }
}

} // namespace cook::json
