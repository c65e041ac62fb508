// Where in a document we are, and how the messages about it are put.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "shown.hpp"

namespace cook::json {

/// A place in a document. It is a chain through the callers' stack frames, so that a path costs nothing until
/// a message needs it: an outcome holds a hundred thousand numbers.
class Path {
public:
  /// The top of a document; its name is printed only when the whole document is meant.
  explicit Path(std::string_view root) : key_(root) {}
  Path(const Path &parent, std::string_view key) : parent_(&parent), key_(key) {}
  Path(const Path &parent, std::size_t index) : parent_(&parent), index_(index), is_index_(true) {}

  /// As in "stages[1].until[0].core".
  [[nodiscard]] std::string text() const;

private:
  [[nodiscard]] std::string prefix() const;

  const Path *parent_ = nullptr;
  std::string_view key_;
  std::size_t index_ = 0;
  bool is_index_ = false;
};

/// Adds a key to a path; a key that is not a plain word is quoted.
void append_key(std::string &path, std::string_view key);

/// Adds an index to a path.
void append_index(std::string &path, std::size_t index);

using cook::is_utf8;
using cook::shown;
using cook::utf8_length;

/// "did you mean 'x'?" for the known word nearest in edit distance, or the list of known words if none is
/// near.
std::string suggestion(std::string_view word, std::span<const std::string> known);

} // namespace cook::json
