#include "mutate.hpp"

#include <array>
#include <random>
#include <string_view>
#include <utility>
#include <vector>

namespace cook::fuzz {

namespace {

using Span = std::pair<std::size_t, std::size_t>; // start, length

bool part_of_number(char c) {
  return (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+' || c == 'e' || c == 'E';
}

std::vector<Span> numbers(const std::string &text) {
  std::vector<Span> found;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '"') {
      quoted = !quoted;
    }
    if (quoted || !((text[i] >= '0' && text[i] <= '9') || text[i] == '-')) {
      continue;
    }
    std::size_t end = i;
    while (end < text.size() && part_of_number(text[end])) {
      ++end;
    }
    found.emplace_back(i, end - i);
    i = end;
  }
  return found;
}

constexpr std::array<std::string_view, 26> values{
    "0",       "1",    "-1",   "0.5",   "1e-9", "1e300", "-0.0",     "5e-324",        "20",
    "60",      "95",   "100",  "120",   "150",  "250",   "3600",     "7200",          "86400",
    "2592000", "8000", "0.05", "0.999", "1.5",  "null",  "\"foil\"", "{\"core\": 90}"};
constexpr std::array<std::string_view, 8> factors{"0", "1", "2", "5", "9", ".5", "e1", "e-1"};

} // namespace

std::string mutate(std::string text, std::uint32_t seed) {
  std::mt19937 random(seed);
  // Not std::uniform_int_distribution: its results differ between standard libraries.
  const auto below = [&random](std::size_t n) { return n == 0 ? 0 : random() % n; };
  const std::vector<Span> found = numbers(text);
  switch (found.empty() ? 5 : below(8)) {
  case 0:
  case 1: { // another number
    const auto [at, length] = found[below(found.size())];
    return text.replace(at, length, values[below(values.size())]);
  }
  case 2: { // a number somewhat larger or smaller
    const auto [at, length] = found[below(found.size())];
    return text.insert(at + length, factors[below(factors.size())]);
  }
  case 3: { // one number in the place of another
    const auto [from, length] = found[below(found.size())];
    const std::string taken = text.substr(from, length);
    const auto [to, other] = found[below(found.size())];
    return text.replace(to, other, taken);
  }
  case 4: { // one digit
    const auto [at, length] = found[below(found.size())];
    text[at + below(length)] = static_cast<char>('0' + below(10));
    return text;
  }
  case 5: // one byte
    if (text.empty()) {
      return "{";
    }
    text[below(text.size())] = static_cast<char>(below(256));
    return text;
  case 6: { // a piece left out
    const std::size_t at = below(text.size());
    return text.erase(at, 1 + below(20));
  }
  default: { // a piece between two braces repeated
    const std::size_t open = text.find('{', below(text.size()));
    const std::size_t close = open == std::string::npos ? open : text.find('}', open);
    if (close == std::string::npos || text.size() > 20000) {
      return text + " ";
    }
    const std::string piece = text.substr(open, close - open + 1) + ", ";
    return text.insert(open, piece);
  }
  }
}

} // namespace cook::fuzz
