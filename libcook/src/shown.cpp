#include "shown.hpp"

#include "cook/errors.hpp"

namespace cook {

namespace {

constexpr std::size_t longest = 200; // characters; Python's _quote.py has the same

/// A byte that is in no character counts as one. By value: where std::max is given a variable of a loop, GCC
/// 12's address sanitizer reports a use after its scope that is none.
std::size_t at_least_one(std::size_t length) { return length == 0 ? 1 : length; }

/// Characters of a text: sequences of UTF-8, and bytes that are in none.
std::size_t characters_of(std::string_view text) {
  std::size_t count = 0;
  for (; !text.empty(); ++count) {
    text.remove_prefix(at_least_one(utf8_length(text)));
  }
  return count;
}

} // namespace

std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  if (text.empty()) {
    return 0;
  }
  const unsigned lead = byte(0);
  if (lead < 0x80U) {
    return 1;
  }
  const std::size_t length = lead >= 0xF0U ? 4 : lead >= 0xE0U ? 3 : 2;
  if (lead < 0xC2U || lead > 0xF4U || text.size() < length) {
    return 0;
  }
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) {
      return 0;
    }
  }
  // The second byte also excludes overlong forms, surrogates and what lies beyond U+10FFFF.
  const unsigned second = byte(1);
  const bool excluded = (lead == 0xE0U && second < 0xA0U) || (lead == 0xEDU && second > 0x9FU) ||
                        (lead == 0xF0U && second < 0x90U) || (lead == 0xF4U && second > 0x8FU);
  return excluded ? 0 : length;
}

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    if (length == 0) {
      return false;
    }
    text.remove_prefix(length);
  }
  return true;
}

std::string shown(std::string_view text) {
  std::string result;
  for (std::size_t count = 0; !text.empty(); ++count) {
    if (count >= longest) {
      return result + "…";
    }
    const std::size_t length = utf8_length(text);
    if (length == 0 || static_cast<unsigned char>(text[0]) < 0x20U || text[0] == '\x7f') {
      result += '?';
    } else {
      result += text.substr(0, length);
    }
    text.remove_prefix(at_least_one(length));
  }
  return result;
}

std::string in_quotes(std::string_view text) {
  const std::size_t count = text.size() <= longest ? 0 : characters_of(text);
  return "'" + shown(text) + "'" + (count > longest ? " (" + std::to_string(count) + " characters)" : "");
}

} // namespace cook
