#include "json/path.hpp"

#include <algorithm>
#include <cctype>
#include <numeric>
#include <utility>

namespace cook::json {

namespace {

char lower(char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); }

/// Edit distance, ignoring case: insertions, deletions, replacements and swaps of neighbours cost one each.
std::size_t distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1); // the row above the last one, for swaps
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(last.begin(), last.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t replaced = last[j] + (lower(a[i]) == lower(b[j]) ? 0U : 1U);
      row[j + 1] = std::min({replaced, row[j] + 1, last[j + 1] + 1});
      if (i > 0 && j > 0 && lower(a[i]) == lower(b[j - 1]) && lower(a[i - 1]) == lower(b[j])) {
        row[j + 1] = std::min(row[j + 1], before[j - 1] + 1);
      }
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last.back();
}

/// A word cut short or drawn out counts as near: "temp" for "temperature", "tinfoil" for "foil".
bool one_holds_the_other(std::string_view a, std::string_view b) {
  constexpr std::size_t shortest = 3;
  return std::min(a.size(), b.size()) >= shortest &&
         (a.find(b) != std::string_view::npos || b.find(a) != std::string_view::npos);
}

} // namespace

void append_key(std::string &path, std::string_view key) {
  const bool plain = !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '$';
  });
  if (plain && shown(key) == key) {
    path += (path.empty() ? "" : ".") + std::string(key);
  } else {
    path += "[\"" + shown(key) + "\"]";
  }
}

void append_index(std::string &path, std::size_t index) { path += "[" + std::to_string(index) + "]"; }

std::string Path::prefix() const {
  if (parent_ == nullptr) {
    return {};
  }
  std::string path = parent_->prefix();
  if (is_index_) {
    append_index(path, index_);
  } else {
    append_key(path, key_);
  }
  return path;
}

std::string Path::text() const { return parent_ == nullptr ? std::string(key_) : prefix(); }

std::string suggestion(std::string_view word, std::span<const std::string> known) {
  const std::string *nearest = nullptr;
  std::size_t least = 0;
  // Longer words than this are no slip of the finger, and the distance takes time with their length.
  constexpr std::size_t longest = 64;
  if (word.size() <= longest) {
    for (const std::string &candidate : known) {
      const std::size_t d = one_holds_the_other(word, candidate) ? 1 : distance(word, candidate);
      const std::size_t tolerated = std::max<std::size_t>(1, std::max(word.size(), candidate.size()) * 2 / 5);
      if (d <= tolerated && (nearest == nullptr || d < least)) {
        nearest = &candidate;
        least = d;
      }
    }
  }
  if (nearest != nullptr) {
    return "did you mean '" + *nearest + "'?";
  }
  std::string list;
  for (const std::string &candidate : known) {
    list += (list.empty() ? "known: " : ", ") + candidate;
  }
  return list;
}

} // namespace cook::json
