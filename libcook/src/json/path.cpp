#include "json/path.hpp"

#include <algorithm>
#include <cctype>

namespace cook::json {

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

} // namespace cook::json
